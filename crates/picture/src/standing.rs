//! Parts where they stand, one before the other: a kit put together.

use crate::canvas::Canvas;
use crate::dimension::{self, Dimension, Side};
use crate::page::{Lengths, MARGIN, PAGE, View};
use crate::strip::Strip;
use crate::wood;
use cintre_geometry::Rect;
use cintre_work::Part;

/// What is drawn of a kit put together.
#[derive(Clone, Debug)]
pub struct StandingDrawing<'a> {
    /// The job's title.
    pub title: &'a str,
    /// The form's name: `gate: model`.
    pub name: &'a str,
    /// Its parts where they stand, those in front later.
    pub parts: &'a [Part],
    /// Sizes shown about it.
    pub dimensions: Vec<Dimension>,
    /// How lengths are written.
    pub lengths: Lengths<'a>,
}

/// The tallest that it stands on the page, mm of paper.
const TALLEST: f64 = 200.0;

/// The picture of a kit put together.
///
/// # Panics
/// If a coordinate is not finite.
pub fn standing(drawing: &StandingDrawing<'_>) -> String {
    let bounds = drawing.parts.iter().map(|part| part.outline.bounds());
    let world = bounds
        .reduce(|a, b| a.union(b))
        .unwrap_or_else(|| Rect::new(0.0, 0.0, 100.0, 1.0));
    let left = dimension::room(&drawing.dimensions, Side::Left);
    let top = MARGIN + 4.0;
    let space = Rect::new(MARGIN + left, top, PAGE - MARGIN - 4.0, top + TALLEST);
    let view = View::fit(world, space);
    let strip = Strip::new(
        drawing.title,
        drawing.name,
        &[],
        wood::legend(drawing.parts.iter()),
        drawing.lengths,
    );
    let around = view.rect(world);
    let foot = around.y1 + dimension::room(&drawing.dimensions, Side::Below) + 8.0;
    let mut canvas = Canvas::new(PAGE, foot + strip.height() + MARGIN / 2.0);
    for part in drawing.parts {
        wood::draw(&mut canvas, part, &view);
    }
    dimension::draw(&mut canvas, &drawing.dimensions, &view, around);
    strip.draw(&mut canvas, foot, &view);
    canvas.finish()
}
