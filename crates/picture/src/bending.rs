//! A bending form from above: its body, the strips and the caul on it, where its clamps press, and what comes off it.

use crate::canvas::Canvas;
use crate::dimension::{self, Dimension, Side};
use crate::page::{Lengths, MARGIN, PAGE, View};
use crate::pen::{CHAIN, EDGE, FINE, HIDDEN, LEAD, STRONG, SUNK, WOOD};
use crate::strip::{Entry, Strip};
use crate::wood;
use cintre_geometry::{Outline, Path, Point, Rect};
use cintre_work::Part;

/// What is drawn of a bending form. Everything stands in the arch's frame.
#[derive(Clone, Debug)]
pub struct BendingDrawing<'a> {
    /// The job's title.
    pub title: &'a str,
    /// The form's name: `sash: bending-form`.
    pub name: &'a str,
    /// The pieces of its lowest layer, and any that are alike in all layers.
    pub pieces: Vec<Part>,
    /// The edges of the pieces of the layer over it.
    pub over: Vec<Path>,
    /// The strips' faces on the form, from the innermost to the outermost.
    pub strips: Vec<Path>,
    /// The caul's back.
    pub caul: Option<Path>,
    /// The line of the finished piece.
    pub finished: Path,
    /// The same line as it would come off a form of the finished shape.
    pub open: Path,
    /// The lines along which the clamps press.
    pub clamps: Vec<(Point, Point)>,
    /// Sizes shown about it.
    pub dimensions: Vec<Dimension>,
    /// Plain sentences for the title strip.
    pub notes: &'a [String],
    /// How lengths are written.
    pub lengths: Lengths<'a>,
}

/// The tallest that the form stands on the page, mm of paper.
const TALLEST: f64 = 230.0;

/// The picture of a bending form.
///
/// # Panics
/// If a coordinate is not finite.
pub fn bending(drawing: &BendingDrawing<'_>) -> String {
    let world = world(drawing);
    let left = MARGIN + 14.0 + dimension::room(&drawing.dimensions, Side::Left);
    let right = PAGE - MARGIN - 4.0 - dimension::room(&drawing.dimensions, Side::Right);
    let top = MARGIN + 6.0;
    let view = View::fit(world, Rect::new(left, top, right, top + TALLEST));
    let strip = Strip::new(
        drawing.title,
        drawing.name,
        drawing.notes,
        legend(drawing),
        drawing.lengths,
    );
    let around = view.rect(world);
    let foot = around.y1 + dimension::room(&drawing.dimensions, Side::Below) + 12.0;
    let mut canvas = Canvas::new(PAGE, foot + strip.height() + MARGIN / 2.0);
    for part in &drawing.pieces {
        wood::draw(&mut canvas, part, &view);
    }
    let over: Vec<_> = drawing.over.iter().map(|line| view.path(line)).collect();
    canvas.lines(&over, HIDDEN);
    stack(&mut canvas, drawing, &view);
    for &(from, to) in &drawing.clamps {
        canvas.line(view.point(from), view.point(to), CHAIN);
    }
    canvas.lines([&view.path(&drawing.open)], LEAD);
    canvas.lines([&view.path(&drawing.finished)], STRONG);
    dimension::draw(&mut canvas, &drawing.dimensions, &view, around);
    for part in &drawing.pieces {
        wood::name(&mut canvas, part, &part.name, &view);
    }
    strip.draw(&mut canvas, foot, &view);
    canvas.finish()
}

/// The strips, tinted between the first and the last face, and the caul.
fn stack(canvas: &mut Canvas, drawing: &BendingDrawing<'_>, view: &View) {
    if let (Some(first), Some(last)) = (drawing.strips.first(), drawing.strips.last()) {
        let across = Path::polyline(&[first.end(), last.end()]);
        let edge = Outline::closing(&first.then(&across).then(&last.reversed()));
        canvas.tint([&view.outline(&edge)], SUNK);
    }
    let faces: Vec<_> = drawing.strips.iter().map(|face| view.path(face)).collect();
    canvas.lines(&faces, FINE);
    let caul: Vec<_> = drawing.caul.iter().map(|back| view.path(back)).collect();
    canvas.lines(&caul, EDGE);
}

fn world(drawing: &BendingDrawing<'_>) -> Rect {
    let lines = drawing
        .strips
        .iter()
        .chain(&drawing.caul)
        .chain(&drawing.over)
        .chain([&drawing.finished, &drawing.open]);
    let pieces = drawing.pieces.iter().map(|part| part.outline.bounds());
    let clamps = drawing.clamps.iter().map(|&(a, b)| Rect::from_points(a, b));
    lines
        .map(Path::bounds)
        .chain(pieces)
        .chain(clamps)
        .reduce(|a, b| a.union(b))
        .unwrap_or_default()
}

fn legend(drawing: &BendingDrawing<'_>) -> Vec<Entry> {
    let mut legend = vec![
        Entry::line(STRONG, "the finished line"),
        Entry::line(LEAD, "it, off a form not corrected"),
        Entry::tint(WOOD, "body, lowest layer"),
        Entry::tint(SUNK, "strips on the form"),
        Entry::line(CHAIN, "clamps"),
        Entry::line(FINE, "faces of the strips"),
    ];
    if drawing.caul.is_some() {
        legend.push(Entry::line(EDGE, "edges, back of the caul"));
    }
    if !drawing.over.is_empty() {
        legend.push(Entry::line(HIDDEN, "the layer over it"));
    }
    legend
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_work::Unit;

    fn drawing(write: &dyn Fn(f64) -> String) -> BendingDrawing<'_> {
        let line = |up: f64| Path::polyline(&[Point::new(-100.0, up), Point::new(100.0, up)]);
        BendingDrawing {
            title: "Trial",
            name: "a: bending-form",
            pieces: Vec::new(),
            over: Vec::new(),
            strips: vec![line(0.0), line(4.0), line(8.0)],
            caul: None,
            finished: line(0.0),
            open: line(1.0),
            clamps: vec![(Point::new(0.0, -60.0), Point::new(0.0, 30.0))],
            dimensions: Vec::new(),
            notes: &[],
            lengths: Lengths {
                unit: Unit::Millimetre,
                write,
            },
        }
    }

    #[test]
    fn the_picture_holds_all_of_it_and_explains_what_it_shows() {
        let write = |mm: f64| format!("{mm} mm");
        let mut drawing = drawing(&write);
        assert_eq!(world(&drawing), Rect::new(-100.0, -60.0, 100.0, 30.0));
        let plain = legend(&drawing).len();
        drawing.caul = Some(Path::polyline(&[
            Point::new(-100.0, 20.0),
            Point::new(100.0, 50.0),
        ]));
        drawing.over = vec![Path::polyline(&[Point::new(-100.0, -80.0), Point::new(0.0, 0.0)])];
        assert_eq!(legend(&drawing).len(), plain + 2);
        assert_eq!(world(&drawing), Rect::new(-100.0, -80.0, 100.0, 50.0));
        assert!(bending(&drawing).starts_with("<svg"));
    }
}
