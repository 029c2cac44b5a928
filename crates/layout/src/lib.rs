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

use cintre_geometry::Rect;
use cintre_work::{Part, Sheet, Stock};
use pieces::Lot;
use rng::Chance;
use separate::Limit;
use settled::Layout;
use spread::Spread;

mod check;
mod collisions;
mod error;
mod facets;
mod first;
mod gap;
mod openings;
mod overlap;
mod pieces;
mod plain;
mod poles;
mod report;
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

/// How long a layout may be searched for: as many questions for each piece, whether it lies clear somewhere or on what it
/// lies. A million of them take about two seconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort(pub u64);

impl Effort {
    /// The first placement stands.
    pub const QUICK: Self = Self(0);
    /// Seconds for most jobs.
    pub const USUAL: Self = Self(40_000);
    /// Minutes for most jobs.
    pub const PATIENT: Self = Self(600_000);
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
    /// Asked whether to stop. Before the first placement is done there is no layout, after it the best so far.
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
        let sheets = of_lot(&lot, settings, conduct, laid_out.sheets.len())?;
        let report = report::of_stock(&stock.name, &lot, &sheets);
        laid_out.report.stocks.push(report);
        laid_out.sheets.extend(sheets);
    }
    laid_out.report.least_gap = check::check(&laid_out.sheets, spacing)?;
    laid_out.report.stopped = settings.effort != Effort::QUICK && (conduct.stop)();
    Ok(laid_out)
}

/// The sheets of one lot: the best of the plain layout and of what the search found, that measures as it should.
fn of_lot(
    lot: &Lot<'_>,
    settings: Settings,
    conduct: Conduct<'_>,
    before: usize,
) -> Result<Vec<Sheet>, Error> {
    // What goes on only askew, or only as a box to the last hair, one of the two finds.
    let layouts = match (plain::boxes(lot, conduct.stop), searched(lot, settings, conduct)) {
        (Err(error), Err(_)) | (Ok(None), Err(error)) => return Err(error),
        (Err(Error::Stopped), _) | (_, Err(Error::Stopped)) => return Err(Error::Stopped),
        (plain, searched) => [plain.ok().flatten(), searched.ok()],
    };
    let mut found: Vec<Vec<Sheet>> = layouts.iter().flatten().map(|l| l.sheets(lot, before)).collect();
    found.sort_by(|a, b| worth(a, lot.spacing).total_cmp(&worth(b, lot.spacing)));
    let sound = found
        .iter()
        .position(|sheets| check::check(sheets, lot.spacing).is_ok());
    let sheets = found.swap_remove(sound.unwrap_or(0));
    check::check(&sheets, lot.spacing)?;
    enough(lot, &sheets)?;
    Ok(sheets)
}

/// The area of the sheets used, less a hundredth of the offcut: less is better.
fn worth(sheets: &[Sheet], spacing: f64) -> f64 {
    let area: f64 = sheets.iter().map(|s| s.stock.size.0 * s.stock.size.1).sum();
    area - report::largest_offcut(sheets, spacing).map_or(0.0, |o| o.area.area()) / 100.0
}

fn searched(lot: &Lot<'_>, settings: Settings, conduct: Conduct<'_>) -> Result<Layout, Error> {
    let mut chance = Chance::new(settings.seed);
    let mut spread = Spread::new(lot);
    first::lay(&mut spread, &lot.by_size(), &mut chance, conduct.stop)?;
    let pieces = lot.pieces.len();
    if settings.effort == Effort::QUICK || pieces > MOST_SEARCHED {
        return Ok(Layout::of(&spread));
    }
    let spend = settings.effort.0.saturating_mul(pieces as u64);
    let limit = |asked: u64| Limit {
        asked,
        stop: conduct.stop,
    };
    let begun = spread.asked;
    search::fewer_sheets(
        &mut spread,
        &mut chance,
        limit(begun + spend / 10 * 8),
        conduct.say,
    );
    search::largest_offcut(&mut spread, &mut chance, limit(begun + spend));
    Ok(Layout::of(&spread))
}

/// Refuses a layout that takes more sheets of a kind than there are.
fn enough(lot: &Lot<'_>, sheets: &[Sheet]) -> Result<(), Error> {
    for room in &lot.rooms {
        let needed = sheets.iter().filter(|s| s.stock == *room.stock).count();
        if let Some(have) = room.stock.sheets
            && needed > have
        {
            return Err(Error::Sheets {
                stock: room.stock.name.clone(),
                needed,
                have,
            });
        }
    }
    Ok(())
}

/// The refusal of a piece that does not go on a whole sheet.
pub(crate) fn too_large(lot: &Lot<'_>, piece: usize) -> Error {
    let kind = lot.kind(piece);
    let mut best: Option<(f64, Error)> = None;
    for room in &lot.rooms {
        let stock = room.stock;
        let whole = Rect::new(0.0, 0.0, stock.size.0, stock.size.1);
        let edge = stock
            .outline
            .as_ref()
            .map_or(whole, cintre_geometry::Outline::bounds);
        let inside = |side: f64| (side - 2.0 * stock.trim).max(0.0);
        let usable = (inside(edge.width()), inside(edge.height()));
        for (_, (w, h)) in kind.boxes(stock.grain) {
            let share = (usable.0 / w).min(usable.1 / h);
            if best.as_ref().is_none_or(|(so_far, _)| share > *so_far) {
                let error = Error::TooLarge {
                    part: kind.part.name.clone(),
                    stock: stock.name.clone(),
                    size: (w, h),
                    usable,
                    largest: (w * share.min(1.0), h * share.min(1.0)),
                };
                best = Some((share, error));
            }
        }
    }
    best.map_or_else(
        || Error::UnknownStock {
            part: kind.part.name.clone(),
            stock: kind.part.stock.clone(),
        },
        |(_, error)| error,
    )
}
