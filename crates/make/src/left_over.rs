//! What stays whole of a sheet, as the shop's next stock.

use crate::PlannedSheet;
use cintre_geometry::Rect;
use cintre_work::{Stock, StockGrain};

/// The entry of a shop file that says what is left of a sheet, on one line; none where nothing worth keeping is.
pub(crate) fn entry(planned: &PlannedSheet) -> Option<String> {
    let stock = &planned.sheet.stock;
    let size = trimmed(planned.left_over?)?;
    let Stock {
        name,
        material,
        thickness,
        trim,
        ..
    } = stock;
    let grain = match stock.grain {
        StockGrain::Long => "long",
        StockGrain::Short => "short",
        StockGrain::None => "none",
    };
    let faces = if stock.alike { "alike" } else { "differ" };
    let of = planned
        .sheet
        .parts
        .first()
        .map_or(name, |placed| &placed.part.stock);
    // A millionth of a millimetre is finer than any stock is measured, and shorter than what a fraction of an inch comes to.
    let written = |mm: f64| cintre_write::trimmed(mm, 6).ok();
    let (thickness, trim) = (written(*thickness)?, written(*trim)?);
    let own = format!("{of}-left-{}", planned.sheet.id.trim_start_matches("sheet-"));
    Some(format!(
        "{own}: {{ of: {of}, material: {material}, sheet: [{:.0} mm, {:.0} mm], thickness: {thickness} mm, grain: {grain}, \
         sheets: 1, trim: {trim} mm, faces: {faces} }}",
        size.0, size.1
    ))
}

/// Its size in whole millimetres, never more than there is.
fn trimmed(area: Rect) -> Option<(f64, f64)> {
    let size = (area.width().floor(), area.height().floor());
    (size.0 > 0.0 && size.1 > 0.0).then_some(size)
}
