//! Parts side by side with their overall sizes: what a form is made of.

use crate::canvas::{Canvas, Label};
use crate::dimension::{self, Dimension, Side};
use crate::page::{Lengths, MARGIN, PAGE, View};
use crate::strip::Strip;
use crate::wood;
use cintre_geometry::{Affine, Point, Rect};
use cintre_work::Part;

/// What is drawn of a form's parts.
#[derive(Clone, Debug)]
pub struct PartsDrawing<'a> {
    /// The job's title.
    pub title: &'a str,
    /// The form's name: `gate: centering`.
    pub name: &'a str,
    /// Its parts, each drawn once with the count wanted.
    pub parts: &'a [Part],
    /// Plain sentences for the title strip.
    pub notes: &'a [String],
    /// How lengths are written.
    pub lengths: Lengths<'a>,
}

/// The tallest that one row of parts stands on the page, mm of paper.
const TALLEST: f64 = 230.0;
/// A part that is drawn smaller than this has no room for its size and its name, mm of paper: its own letters and the list tell.
const SMALLEST: f64 = 14.0;
/// The height of a name that stands over its part, mm of paper.
const OVER: f64 = 2.6;
/// The clear space between two parts side by side and one over the other, mm of paper: for the dimensions and names between them.
const APART: (f64, f64) = (30.0, 20.0);
/// How often the scale and the space that follows from it are brought into step.
const ROUNDS: usize = 4;
/// The shape of a page that the rows are balanced to, width over height.
const LANDSCAPE: f64 = 1.7;

/// The picture of a form's parts.
///
/// # Panics
/// If a coordinate is not finite.
pub fn parts(drawing: &PartsDrawing<'_>) -> String {
    draw(drawing).finish()
}

fn draw(drawing: &PartsDrawing<'_>) -> Canvas {
    let space = Rect::new(
        MARGIN + 24.0,
        MARGIN + 8.0,
        PAGE - MARGIN - 4.0,
        MARGIN + 8.0 + TALLEST,
    );
    let mut laid = laid_out(drawing.parts, (0.0, 0.0));
    for _ in 0..ROUNDS {
        let scale = View::fit(bounds(&laid), space).scale;
        laid = laid_out(drawing.parts, (APART.0 / scale, APART.1 / scale));
    }
    let world = bounds(&laid);
    let view = View::fit(world, space);
    let strip = Strip::new(
        drawing.title,
        drawing.name,
        drawing.notes,
        wood::legend(laid.iter()),
        drawing.lengths,
    );
    let foot = view.rect(world).y1 + 18.0;
    let mut canvas = Canvas::new(PAGE, foot + strip.height() + MARGIN / 2.0);
    let large = |part: &&Part| {
        let drawn = view.rect(part.outline.bounds());
        drawn.width().max(drawn.height()) >= SMALLEST
    };
    for part in &laid {
        wood::draw(&mut canvas, part, &view);
    }
    for part in laid.iter().filter(large) {
        let around = view.rect(part.outline.bounds());
        dimension::draw(&mut canvas, &overall(part, drawing.lengths), &view, around);
    }
    for part in laid.iter().filter(large) {
        let text = if part.count > 1 {
            format!("{}, {} off", part.name, part.count)
        } else {
            part.name.clone()
        };
        name_over(&mut canvas, part, &text, &view);
    }
    strip.draw(&mut canvas, foot, &view);
    canvas
}

fn bounds(parts: &[Part]) -> Rect {
    let boxes = parts.iter().map(|p| p.outline.bounds());
    boxes
        .reduce(|a, b| a.union(b))
        .unwrap_or_else(|| Rect::new(0.0, 0.0, 100.0, 1.0))
}

/// The parts in rows, of that width which fills a page best, with this space between them.
fn laid_out(parts: &[Part], gap: (f64, f64)) -> Vec<Part> {
    let widest = parts
        .iter()
        .map(|p| p.outline.bounds().width())
        .fold(0.0, f64::max);
    let mut best: Option<(f64, Vec<Part>)> = None;
    let mut limit = 0.0;
    for part in parts {
        limit += part.outline.bounds().width() + gap.0;
        let laid = rows(parts, limit.max(widest + gap.0), gap);
        let bounds = bounds(&laid);
        let need = bounds.width().max(bounds.height() * LANDSCAPE);
        if best.as_ref().is_none_or(|(least, _)| need < least - 1e-6) {
            best = Some((need, laid));
        }
    }
    best.map(|(_, laid)| laid).unwrap_or_default()
}

/// Parts set from left to right, and in a new row under the last where `limit` is reached.
fn rows(parts: &[Part], limit: f64, gap: (f64, f64)) -> Vec<Part> {
    let (mut x, mut top, mut lowest) = (0.0, 0.0, 0.0_f64);
    let mut laid = Vec::with_capacity(parts.len());
    for part in parts {
        let bounds = part.outline.bounds();
        if x > 0.0 && x + bounds.width() > limit {
            (x, top) = (0.0, lowest - gap.1);
        }
        laid.push(part.transformed(Affine::translate((x - bounds.x0, top - bounds.y1))));
        x += bounds.width() + gap.0;
        lowest = lowest.min(top - bounds.height());
    }
    laid
}

/// A part's name over it, so that it hides neither holes nor what is scribed; inside where there is no room.
fn name_over(canvas: &mut Canvas, part: &Part, text: &str, view: &View) {
    let label = Label::new(text, OVER);
    let bounds = view.rect(part.outline.bounds());
    let over = Point::new(bounds.center().x, bounds.y0 - 1.2 * OVER);
    if !canvas.place(&label, [over]) {
        wood::name(canvas, part, text, view);
    }
}

fn overall(part: &Part, lengths: Lengths<'_>) -> Vec<Dimension> {
    let b = part.outline.bounds();
    let corner = Point::new(b.x0, b.y0);
    let size = |to: Point, side, length| Dimension {
        from: corner,
        to,
        side,
        text: lengths.write(length),
    };
    vec![
        size(Point::new(b.x1, b.y0), Side::Below, b.width()),
        size(Point::new(b.x0, b.y1), Side::Left, b.height()),
    ]
}

#[cfg(test)]
mod tests;
