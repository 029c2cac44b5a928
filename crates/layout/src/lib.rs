//! Parts on sheets of stock: true shape against true shape.
//!
//! Three steps for each stock. A first placement lays each part where it lies clear and farthest left. Then a sheet is taken
//! away and its parts are laid among the others, overlapping, and all are pulled apart; again for as long as it succeeds.
//! Last, the emptiest sheet is narrowed, so that what is left of it is of use. Beside them goes the plain layout of boxes:
//! nothing worse is ever handed over.
//!
//! The search counts in f32 with outlines made of short straight sides. Its layouts are measured again in f64 from the arcs
//! themselves before they are handed over, and one that fell short anywhere would not be. What it may spend is counted in
//! questions asked, never in time, so the same input gives the same layout on any machine.

pub use error::Error;
pub use report::{Offcut, Report, StockReport};

use cintre_work::{Part, Sheet, Stock};
use pieces::Lot;
use rng::Chance;

mod check;
mod collisions;
mod error;
mod facets;
mod first;
mod gap;
mod hull;
mod limit;
mod lots;
mod offcut;
mod openings;
mod overlap;
mod pieces;
mod plain;
mod poles;
mod report;
mod rest;
mod rng;
mod room;
mod search;
mod separate;
mod settled;
mod shelf;
mod spread;
#[cfg(test)]
mod tests;

/// The most pieces of one job: more is taken for a slip of the pen.
pub const MOST_PIECES: usize = 10_000;

/// More pieces than this of one stock are laid once and not searched for better: what the search keeps of each pair would
/// not fit in memory.
const MOST_SEARCHED: usize = 2_000;

/// What sums of lengths in f64 may be out by, mm, so that a part exactly as wide as its room still goes in.
pub(crate) const ROUNDING: f64 = 1e-9;

/// Every shape of the search is larger by this all round than the spacing asks, mm: what f32 may be out by on the largest
/// sheet, and the way that a part is moved when it is laid in full digits.
pub(crate) const ALLOWANCE: f64 = 0.02;

/// How parts are laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// How far parts stand from each other at least, mm.
    pub spacing: f64,
    /// How long it may be searched.
    pub effort: Effort,
    /// How a part may be turned that has no grain to keep to.
    pub turns: Turns,
    /// Whether parts may lie in the openings of others.
    pub openings: bool,
    /// Where chance begins: another seed gives another layout, the same one the same.
    pub seed: u64,
}

/// How long a layout may be searched for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// As many questions for each piece, whether it lies clear somewhere or on what it lies. A million of them take three
    /// to five seconds.
    pub questions: u64,
    /// Whether it goes on where nothing has come of it for a while, until all are asked.
    pub stubborn: bool,
}

impl Effort {
    /// The first placement, less the sheets that it is soon seen to do without; the offcut is what it leaves. Seconds for
    /// hundreds of pieces.
    pub const QUICK: Self = Self {
        questions: 1_500,
        stubborn: false,
    };
    /// Seconds for most jobs, and fewer where nothing comes of it.
    pub const USUAL: Self = Self {
        questions: 20_000,
        stubborn: false,
    };
    /// Minutes for most jobs.
    pub const PATIENT: Self = Self {
        questions: 600_000,
        stubborn: true,
    };
}

/// How a part may be turned that has no grain to keep to, or lies on stock that has none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turns {
    /// By quarter turns.
    Quarter,
    /// To any angle.
    Any,
}

/// What long work tells while it goes on, and how it is stopped.
#[derive(Clone, Copy)]
#[expect(
    missing_debug_implementations,
    reason = "two questions to the caller, with nothing in them to show"
)]
pub struct Conduct<'a> {
    /// Told what is being done.
    pub say: &'a dyn Fn(&str),
    /// Asked whether to make do with the best layout so far. The first placement is always made.
    pub stop: &'a dyn Fn() -> bool,
}

/// Sheets, and what they come to.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidOut {
    /// The sheets, numbered over all stocks.
    pub sheets: Vec<Sheet>,
    /// What they come to.
    pub report: Report,
}

/// Lays every part, as often as its `count`, on sheets of the stock that it names. Several stocks of one name are kinds of
/// sheet that it may be cut from, used up in the order given.
///
/// Parts lie at least the spacing from each other and from places kept free, and each stock's `trim` from its edges. Sheets
/// are numbered over all stocks in the order given. A part on a sheet has `count` 1, and is named for its number where
/// several are made.
pub fn lay_out(
    parts: &[Part],
    stocks: &[Stock],
    settings: Settings,
    conduct: Conduct<'_>,
) -> Result<LaidOut, Error> {
    let spacing = settings.spacing;
    if !(spacing.is_finite() && spacing >= 0.0) {
        return Err(Error::Spacing { spacing });
    }
    pieces::check(parts, stocks)?;
    let mut laid_out = LaidOut {
        sheets: Vec::new(),
        report: Report::default(),
    };
    for (number, stock) in stocks.iter().enumerate() {
        let seen = stocks[..number].iter().any(|s| s.name == stock.name);
        if seen || !parts.iter().any(|p| p.stock == stock.name) {
            continue;
        }
        let mut lot = Lot::new(&stock.name, parts, stocks, spacing, settings.turns)?;
        if settings.openings {
            lot = openings::fill(lot, &mut Chance::new(settings.seed))?;
        }
        let (sheets, stopped) = lots::sheets(&lot, settings, conduct, laid_out.sheets.len())?;
        laid_out.report.add(&stock.name, &lot, &sheets);
        laid_out.report.stopped |= stopped;
        laid_out.sheets.extend(sheets);
    }
    laid_out.report.least_gap = check::check(&laid_out.sheets, spacing)?;
    Ok(laid_out)
}
