//! What a layout comes to, in figures.

use crate::pieces::Lot;
use cintre_geometry::Rect;
use cintre_work::{Part, Sheet};

/// What a layout comes to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Report {
    /// Each stock that anything is cut from, in the order given.
    pub stocks: Vec<StockReport>,
    /// The least gap between two parts as it was measured on the finished sheets, mm; none where no two lie on one sheet.
    pub least_gap: Option<f64>,
    /// Whether the search was stopped before it had spent what it might.
    pub stopped: bool,
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
    /// The largest rectangle that stays whole at an end of a sheet.
    pub offcut: Option<Offcut>,
}

/// What stays whole of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Offcut {
    /// The sheet's name in the job.
    pub sheet: String,
    /// Where it lies on the sheet, mm, clear of the nearest part by the spacing.
    pub area: Rect,
}

/// An offcut thinner than this serves nothing, mm.
const THINNEST: f64 = 50.0;

/// The figures of the sheets of one stock.
pub(crate) fn of_stock(name: &str, lot: &Lot<'_>, sheets: &[Sheet]) -> StockReport {
    let area = |sheet: &Sheet| {
        let whole = sheet.stock.size.0 * sheet.stock.size.1;
        sheet.stock.outline.as_ref().map_or(whole, |o| o.area().abs())
    };
    let openings = |part: &Part| part.openings.iter().map(|o| o.area().abs()).sum::<f64>();
    let placed = sheets.iter().flat_map(|s| &s.parts).map(|p| &p.part);
    let parts: f64 = placed.map(|p| p.outline.area() - openings(p)).sum();
    StockReport {
        stock: name.to_owned(),
        sheets: sheets.len(),
        bound: bound(lot, parts),
        density: parts / sheets.iter().map(area).sum::<f64>(),
        offcut: largest_offcut(sheets, lot.spacing),
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

/// The largest rectangle, over the whole width or the whole length of a plain sheet, that no part comes near.
pub(crate) fn largest_offcut(sheets: &[Sheet], spacing: f64) -> Option<Offcut> {
    let of = |sheet: &Sheet| {
        let whole = Rect::new(0.0, 0.0, sheet.stock.size.0, sheet.stock.size.1);
        if sheet.stock.outline.is_some() || !sheet.stock.keep_outs.is_empty() {
            return None;
        }
        let boxes = sheet.parts.iter().map(|p| p.part.outline.bounds());
        let used = boxes.reduce(|a, b| a.union(b))?.inflate(spacing, spacing);
        let sides = [
            Rect { x0: used.x1, ..whole },
            Rect { y0: used.y1, ..whole },
            Rect { x1: used.x0, ..whole },
            Rect { y1: used.y0, ..whole },
        ];
        let sound = |r: &Rect| r.x1 - r.x0 >= THINNEST && r.y1 - r.y0 >= THINNEST;
        let best = sides
            .into_iter()
            .filter(sound)
            .max_by(|a, b| a.area().total_cmp(&b.area()))?;
        Some(Offcut {
            sheet: sheet.id.clone(),
            area: best,
        })
    };
    let all = sheets.iter().filter_map(of);
    all.max_by(|a, b| a.area.area().total_cmp(&b.area.area()))
}
