//! Dimension lines, set in rows beside what they measure.

use crate::canvas::{Canvas, Label};
use crate::page::View;
use crate::pen::{EDGE, MEASURE};
use cintre_geometry::{Point, Rect, Vec2};

/// A distance shown beside a drawing, measured level or plumb.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// From here, in the drawing's own frame.
    pub from: Point,
    /// To here.
    pub to: Point,
    /// On which side of the drawing it stands: above and below are measured level, left and right plumb.
    pub side: Side,
    /// What it says: `span 1220`.
    pub text: String,
}

/// A side of a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Over it.
    Above,
    /// Under it.
    Below,
    /// To its left.
    Left,
    /// To its right.
    Right,
}

/// The height of dimension figures on the page.
const FIGURES: f64 = 3.0;
/// From one row of dimensions to the next, mm of paper.
const ROW: f64 = 9.0;
/// A dimension's lines stand this far off what they measure, and run this far over.
const OFF: f64 = 1.5;
/// No figure stands nearer to the left edge of the page, mm of paper.
const LEFTMOST: f64 = 4.0;
/// From a dimension line to its figure: the tails of letters stay clear.
const BESIDE: f64 = 1.8;

/// How much paper the dimensions take on a side.
pub(crate) fn room(dimensions: &[Dimension], side: Side) -> f64 {
    dimensions
        .iter()
        .filter(|d| d.side == side)
        .map(|_| ROW)
        .sum::<f64>()
        + OFF
}

/// Draws all dimensions round `around`, a box on the page.
pub(crate) fn draw(canvas: &mut Canvas, dimensions: &[Dimension], view: &View, around: Rect) {
    for side in [Side::Above, Side::Below, Side::Left, Side::Right] {
        let mut off = ROW - OFF;
        for dimension in dimensions.iter().filter(|d| d.side == side) {
            let (a, b) = (view.point(dimension.from), view.point(dimension.to));
            let level = matches!(side, Side::Above | Side::Below);
            let line = match side {
                Side::Above => around.y0 - off,
                Side::Below => around.y1 + off,
                Side::Left => around.x0 - off,
                Side::Right => around.x1 + off,
            };
            one(canvas, dimension, (a, b), line, level);
            off += ROW;
        }
    }
}

fn one(canvas: &mut Canvas, dimension: &Dimension, (a, b): (Point, Point), line: f64, level: bool) {
    let onto = |p: Point| {
        if level {
            Point::new(p.x, line)
        } else {
            Point::new(line, p.y)
        }
    };
    let (from, to) = (onto(a), onto(b));
    for (point, foot) in [(a, from), (b, to)] {
        let along = foot - point;
        if along.hypot() > 2.0 * OFF {
            let step = along / along.hypot() * OFF;
            canvas.line(point + step, foot + step, MEASURE);
        }
        let tick = Vec2::new(1.2, -1.2);
        canvas.line(foot - tick, foot + tick, EDGE);
    }
    canvas.line(from, to, MEASURE);
    let label = Label::new(&dimension.text, FIGURES).turned(!level);
    let (w, h) = label.size();
    let middle = from.midpoint(to);
    let fits = from.distance(to) > w.max(h) + 2.0;
    if !fits && dimension.side == Side::Left && line - h - BESIDE > LEFTMOST {
        // Level, where it would stand past the end of a plumb line.
        let label = label.turned(false);
        canvas.label(&label, middle - Vec2::new(label.size().0 / 2.0 + BESIDE, 0.0));
        return;
    }
    let beside = if level {
        Vec2::new(0.0, -h / 2.0 - BESIDE)
    } else {
        Vec2::new(-w / 2.0 - BESIDE, 0.0)
    };
    // A figure longer than its line stands past the end instead.
    let past = (to - from) / 2.0 + (to - from) / from.distance(to).max(1e-9) * (w.max(h) / 2.0 + 2.5);
    canvas.label(&label, middle + if fits { beside } else { beside + past });
}
