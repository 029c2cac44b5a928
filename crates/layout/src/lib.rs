//! Parts on sheets of stock.
//!
//! Each part is taken as the box round it, turned so that its grain lies along the stock's; boxes are set down largest
//! first, each where its shorter side leaves the least over. Plain, quick and the same on every run; parts never lie in
//! each other's hollows. A finished layout is measured again from its outlines before it is handed over.

pub use error::Error;

use cintre_work::{Part, Placed, Sheet, Stock};
use pieces::Piece;
use shelf::Shelf;

mod check;
mod error;
mod pieces;
mod shelf;
#[cfg(test)]
mod tests;

/// The most pieces of one job: more is taken for a slip of the pen.
pub const MOST_PIECES: usize = 10_000;

/// What sums of lengths in f64 may be out by, mm, so that a part exactly as wide as its room still goes in.
pub(crate) const ROUNDING: f64 = 1e-9;

/// Lays every part, as often as its `count`, on sheets of the stock that it names.
///
/// Parts lie at least `spacing` mm from each other and each stock's `trim` from its edges. Sheets are numbered over all
/// stocks in the order given. A part on a sheet has `count` 1, and is named for its number where several are made.
/// `stop` is asked before each piece.
pub fn lay_out(
    parts: &[Part],
    stocks: &[Stock],
    spacing: f64,
    stop: &dyn Fn() -> bool,
) -> Result<Vec<Sheet>, Error> {
    if !(spacing.is_finite() && spacing >= 0.0) {
        return Err(Error::Spacing { spacing });
    }
    let pieces = pieces::pieces(parts, stocks)?;
    let mut sheets = Vec::new();
    for (number, stock) in stocks.iter().enumerate() {
        let of_stock: Vec<&Piece<'_>> = pieces.iter().filter(|p| p.stock == number).collect();
        for parts in fill(&of_stock, stock, spacing, stop)? {
            sheets.push(Sheet {
                id: format!("sheet-{}", sheets.len() + 1),
                stock: stock.clone(),
                parts,
            });
        }
    }
    check::check(&sheets, spacing)?;
    Ok(sheets)
}

/// The sheets of one stock, each piece on the first that has room.
fn fill(
    pieces: &[&Piece<'_>],
    stock: &Stock,
    spacing: f64,
    stop: &dyn Fn() -> bool,
) -> Result<Vec<Vec<Placed>>, Error> {
    let mut sheets: Vec<(Shelf, Vec<Placed>)> = Vec::new();
    for piece in pieces {
        if stop() {
            return Err(Error::Stopped);
        }
        let placed = sheets
            .iter_mut()
            .find_map(|(shelf, on_it)| Some((shelf.put(&piece.sizes())?, on_it)));
        if let Some((spot, on_it)) = placed {
            on_it.push(piece.placed(spot));
            continue;
        }
        let mut shelf = Shelf::new(stock, spacing);
        let spot = shelf.put(&piece.sizes()).ok_or_else(|| piece.too_large(stock))?;
        sheets.push((shelf, vec![piece.placed(spot)]));
    }
    match stock.sheets {
        Some(have) if sheets.len() > have => Err(Error::Sheets {
            stock: stock.name.clone(),
            needed: sheets.len(),
            have,
        }),
        _ => Ok(sheets.into_iter().map(|(_, parts)| parts).collect()),
    }
}
