//! Centres and the radius lines from them.

use crate::canvas::{Canvas, Label};
use crate::page::View;
use crate::pen::{CROSS, INK, Pen, RADIUS, RUST};
use cintre_geometry::{Path, Point, Rect, Vec2};

/// A centre that an arc is struck from.
#[derive(Clone, Debug, PartialEq)]
pub struct Centre {
    /// Where it is.
    pub at: Point,
    /// The arc's radius, mm.
    pub radius: f64,
    /// Its name: `C1`.
    pub name: String,
    /// What stands along the radius line: `R 845.6`.
    pub text: String,
}

/// Where along its arc a radius line ends, counted from the outer end.
const MEETING: f64 = 0.3;
const FIGURES: f64 = 3.0;
/// The shortest broken radius line, its break included, mm of paper.
const SHORTEST: f64 = 9.0;
/// A centre nearer to the edge of the drawing's space counts as off it, mm of paper.
const EDGE_ROOM: f64 = 3.5;

/// Draws a centre with its radius line, or a broken line towards it where it lies off the page.
pub(crate) fn draw_centre(canvas: &mut Canvas, soffit: &Path, centre: &Centre, view: &View, around: Rect) {
    let at = view.point(centre.at);
    let inside = stands_on(at, around);
    let meeting = meeting(soffit, centre).map(|p| view.point(p));
    let radius = Label::new(&centre.text, FIGURES).coloured(RUST);
    let name = Label::new(&centre.name, FIGURES).coloured(INK);
    if inside {
        for arm in [Vec2::new(1.8, 0.0), Vec2::new(0.0, 1.8)] {
            canvas.line(at - arm, at + arm, CROSS);
        }
        canvas.claim(Rect::from_center_size(at, (3.0, 3.0)));
        if let Some(meeting) = meeting {
            canvas.line(at, meeting, RADIUS);
            canvas.place(&radius, beside(at, meeting, &radius));
        }
        canvas.place(&name, round(at, &name));
    } else if let Some(meeting) = meeting {
        let end = broken_line(canvas, meeting, at, around);
        let text = format!("{} to {}", centre.text, centre.name);
        let label = Label::new(&text, FIGURES).coloured(RUST);
        canvas.place(&label, beside(end, meeting, &label));
    }
}

/// The radius line of a centre that stands on the page.
pub(crate) fn radius_line(
    soffit: &Path,
    centre: &Centre,
    view: &View,
    around: Rect,
) -> Option<(Point, Point)> {
    let at = view.point(centre.at);
    let meeting = meeting(soffit, centre).map(|p| view.point(p))?;
    stands_on(at, around).then_some((at, meeting))
}

fn stands_on(at: Point, around: Rect) -> bool {
    around.inflate(-EDGE_ROOM, -EDGE_ROOM).contains(at)
}

/// A radius line towards a centre off the page, with a break at its end; where it ends.
fn broken_line(canvas: &mut Canvas, from: Point, centre: Point, around: Rect) -> Point {
    let along = (centre - from) / from.distance(centre);
    let mut length = SHORTEST;
    let inner = around.inflate(-1.0, -4.0);
    while inner.contains(from + along * (length + 1.0)) {
        length += 1.0;
    }
    let end = from + along * length;
    let across = Vec2::new(-along.y, along.x);
    let back = |b: f64, side: f64| end - along * b + across * side;
    canvas.line(from, back(6.0, 0.0), RADIUS);
    let full = Pen {
        dashes: &[],
        ..RADIUS
    };
    let zigzag = [
        back(6.0, 0.0),
        back(5.0, 2.0),
        back(3.5, -2.0),
        back(2.5, 0.0),
        end,
    ];
    let zigzag = Path::polyline(&zigzag);
    canvas.claim(zigzag.bounds());
    canvas.lines([&zigzag], full);
    end
}

/// Where the radius line of a centre meets its arc.
pub(crate) fn meeting(soffit: &Path, centre: &Centre) -> Option<Point> {
    let near = centre.radius * 1e-6;
    soffit
        .pieces()
        .find(|p| {
            p.circle().is_some_and(|c| {
                c.centre.distance(centre.at) < near && (c.radius - centre.radius).abs() < near
            })
        })
        .map(|p| {
            // The right half is drawn as the left one's mirror image.
            let right = p.point_at(0.5).x > soffit.bounds().center().x + near;
            p.point_at(if right { 1.0 - MEETING } else { MEETING })
        })
}

/// Places for a label beside a line, the middle first.
fn beside(from: Point, to: Point, label: &Label<'_>) -> Vec<Point> {
    let along = (to - from) / from.distance(to).max(1e-9);
    // Over the line before under it.
    let across = Vec2::new(-along.y, along.x) * if along.x > 0.0 { -1.0 } else { 1.0 };
    let (w, h) = label.size();
    let off = (w / 2.0) * across.x.abs() + (h / 2.0) * across.y.abs() + 2.0;
    let along = |off: f64| {
        [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88]
            .into_iter()
            .flat_map(move |f| [from.lerp(to, f) + across * off, from.lerp(to, f) - across * off])
    };
    // Nearer to the line rather than without a figure.
    along(off).chain(along(off - 1.2)).collect()
}

/// Places for a label round a point.
fn round(at: Point, label: &Label<'_>) -> Vec<Point> {
    let (w, h) = label.size();
    let (x, y) = (w / 2.0 + 2.8, h / 2.0 + 2.8);
    [
        (x, y),
        (-x, y),
        (x, -y),
        (-x, -y),
        (0.0, y + 1.0),
        (0.0, -y - 1.0),
    ]
    .into_iter()
    .map(|d| at + Vec2::from(d))
    .collect()
}
