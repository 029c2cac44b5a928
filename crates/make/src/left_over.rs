//! What stays whole of a sheet, as the shop's next stock.

use crate::{Plan, PlannedSheet};
use cintre_geometry::{Outline, Rect};
use cintre_work::{Machine, Stock, StockGrain};

/// The entry of a shop file that says what is left of a sheet, on one line; none where nothing worth keeping is.
pub(crate) fn entry(planned: &PlannedSheet) -> Option<String> {
    let stock = &planned.sheet.stock;
    let left = planned.left_over.as_ref()?;
    let shape = shape(left)?;
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
    let (thickness, trim) = (written(*thickness)?, written(trim.widest())?);
    let own = format!("{of}-left-{}", planned.sheet.id.trim_start_matches("sheet-"));
    let kept = keep_outs(planned, left.bounds());
    Some(format!(
        "{own}: {{ of: {of}, material: {material}, {shape}, thickness: {thickness} mm, grain: {grain}, sheets: 1, \
         trim: {trim} mm, faces: {faces}{kept} }}"
    ))
}

impl Plan {
    /// A shop's stock file with what stays whole of the sheets; none where nothing worth keeping does.
    pub(crate) fn left_overs(&self) -> Option<String> {
        let entries: Vec<String> = self.sheets.iter().filter_map(entry).collect();
        (!entries.is_empty()).then(|| {
            let head = "# What stays whole of the sheets of this job. Another job lays on it first if it names this file under\n\
                        # `left-over`, or if the entries are put under `stock` of the shop file.\n";
            format!("{head}units: mm\nstock:\n  {}\n", entries.join("\n  "))
        })
    }
}

/// Its size where it is a rectangle, in whole millimetres and never more than there is; else its corners from its lower left.
fn shape(left: &Outline) -> Option<String> {
    let bounds = left.bounds();
    if (bounds.area() - left.area()).abs() < 1.0 {
        let (length, width) = (bounds.width().floor(), bounds.height().floor());
        return (length > 0.0 && width > 0.0).then(|| format!("sheet: [{length:.0} mm, {width:.0} mm]"));
    }
    let corner = |v: &cintre_geometry::Vertex| {
        let p = v.point - bounds.origin();
        format!("[{} mm, {} mm]", millimetres(p.x), millimetres(p.y))
    };
    let corners: Vec<String> = left.vertices().iter().map(corner).collect();
    Some(format!("outline: [{}]", corners.join(", ")))
}

/// The places kept free that lie on it: knots stay, and a clamp that does not is struck out by hand.
fn keep_outs(planned: &PlannedSheet, left: Rect) -> String {
    // What lay off the bed is no fault of the wood.
    let bed = match &planned.machine {
        Machine::Router(router) => router.bed,
        Machine::Laser(laser) => laser.bed,
        Machine::Pen(pen) => pen.bed,
        Machine::Drawing(_) => (f64::INFINITY, f64::INFINITY),
    };
    let off_bed = |r: &Rect| r.x0 >= bed.0 || r.y0 >= bed.1;
    let on_it = planned
        .sheet
        .stock
        .keep_outs
        .iter()
        .map(Outline::bounds)
        .filter(|place| !off_bed(place))
        .map(|place| place.intersect(left))
        .filter(|r| r.width() > 0.0 && r.height() > 0.0);
    let boxes = on_it.map(|r| {
        let sides = [r.x0 - left.x0, r.y0 - left.y0, r.x1 - left.x0, r.y1 - left.y0];
        format!("[{}]", sides.map(|s| format!("{} mm", millimetres(s))).join(", "))
    });
    let boxes: Vec<String> = boxes.collect();
    if boxes.is_empty() {
        String::new()
    } else {
        format!(", keep-outs: [{}]", boxes.join(", "))
    }
}

/// To a thousandth, without zeros at the end.
fn millimetres(length: f64) -> String {
    let text = format!("{length:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}
