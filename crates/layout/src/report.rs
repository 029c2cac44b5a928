//! What a layout comes to, in figures.

use crate::pieces::Lot;
use crate::rest::rest;
use cintre_geometry::Outline;
use cintre_work::{Part, Sheet};

/// What a layout comes to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Report {
    /// Each stock that anything is cut from, in the order given.
    pub stocks: Vec<StockReport>,
    /// The least gap between two parts as it was measured on the finished sheets, mm; none where no two lie on one sheet.
    pub least_gap: Option<f64>,
    /// Whether the search was stopped before it had spent what it might: another run may stop elsewhere.
    pub stopped: bool,
    /// The parts that were laid by the convex outline round them, no parallel of their own being found: they may take more
    /// room than they need.
    pub rounded: Vec<String>,
}

/// What the sheets of one stock come to.
#[derive(Clone, Debug, PartialEq)]
pub struct StockReport {
    /// The stock's name.
    pub stock: String,
    /// How many sheets it takes.
    pub sheets: usize,
    /// No layout takes fewer sheets than this, going by area alone; less may well be out of reach.
    pub bound: usize,
    /// The share of the sheets' area that is parts.
    pub density: f64,
    /// The largest piece that stays whole of a sheet.
    pub offcut: Option<Offcut>,
}

/// What stays whole of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Offcut {
    /// The sheet's name in the job.
    pub sheet: String,
    /// Its edge in the sheet's frame, straight-sided and counter-clockwise, clear of the nearest part by the spacing.
    pub outline: Outline,
}

impl Report {
    /// Adds the figures of the sheets of one stock.
    pub(crate) fn add(&mut self, name: &str, lot: &Lot<'_>, sheets: &[Sheet]) {
        let area = |sheet: &Sheet| {
            let whole = sheet.stock.size.0 * sheet.stock.size.1;
            sheet.stock.outline.as_ref().map_or(whole, |o| o.area().abs())
        };
        let openings = |part: &Part| part.openings.iter().map(|o| o.area().abs()).sum::<f64>();
        let placed = sheets.iter().flat_map(|s| &s.parts).map(|p| &p.part);
        let parts: f64 = placed.map(|p| p.outline.area() - openings(p)).sum();
        self.stocks.push(StockReport {
            stock: name.to_owned(),
            sheets: sheets.len(),
            bound: bound(lot, parts),
            density: parts / sheets.iter().map(area).sum::<f64>(),
            offcut: largest_offcut(sheets, lot.spacing),
        });
        let rounded = lot.kinds.iter().filter(|kind| kind.rounded);
        self.rounded.extend(rounded.map(|kind| kind.part.name.clone()));
    }
}

/// By area alone: parts share none, nor has any sheet more than the largest.
fn bound(lot: &Lot<'_>, needed: f64) -> usize {
    let largest = lot.rooms.iter().map(|r| r.area).fold(0.0, f64::max);
    let mut sheets = 0;
    let mut room = 0.0;
    while room < needed && largest > 0.0 {
        room += largest;
        sheets += 1;
    }
    sheets
}

/// The largest piece that stays whole of one of these sheets.
pub(crate) fn largest_offcut(sheets: &[Sheet], spacing: f64) -> Option<Offcut> {
    let of = |sheet: &Sheet| {
        Some(Offcut {
            sheet: sheet.id.clone(),
            outline: rest(sheet, spacing)?,
        })
    };
    let all = sheets.iter().filter_map(of);
    all.max_by(|a, b| a.outline.area().total_cmp(&b.outline.area()))
}
