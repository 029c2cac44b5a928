//! Which bit cuts what, and in which order.

use crate::canvas::{Canvas, Label};
use crate::page::View;
use crate::pen::{BORING, PAPER, Pen, ROADS};
use crate::road::Road;
use cintre_geometry::{Outline, Path, Piece, Point, Rect, Vec2};
use std::f64::consts::TAU;

/// Order numbers and the rings round them.
const ORDER: f64 = 2.2;
const RING: f64 = 2.6;
/// More cuts than this are not numbered one by one, but every so many.
const MANY: usize = 30;
const EVERY: usize = 10;

/// The pen of each road: those that cut take theirs in turn.
pub(crate) fn pens(roads: &[Road]) -> Vec<Pen> {
    let mut cutting = ROADS.into_iter().cycle();
    let next = |road: &Road| {
        if road.cuts.is_empty() {
            Some(BORING)
        } else {
            cutting.next()
        }
    };
    roads.iter().filter_map(next).collect()
}

/// Numbers in the order of the cuts, with a letter for the bit where there are several.
pub(crate) fn draw_order(canvas: &mut Canvas, roads: &[Road], view: &View) {
    for (i, (road, pen)) in roads.iter().zip(pens(roads)).enumerate() {
        let count = road.starts.len();
        for (start, number) in road.starts.iter().zip(1..) {
            let told = count <= MANY || number % EVERY == 0 || number == 1 || number == count;
            if !told {
                continue;
            }
            let text = if roads.len() > 1 {
                format!("{}{number}", letter(i))
            } else {
                format!("{number}")
            };
            let at = view.point(*start);
            let places = [3.6, 5.5, 8.0].into_iter().flat_map(|off| {
                (0..8).map(move |k| at + Vec2::from_angle(TAU / 8.0 * (f64::from(k) + 0.5)) * off)
            });
            draw_number(canvas, &Label::new(&text, ORDER), places, pen);
        }
    }
}

fn draw_number(canvas: &mut Canvas, label: &Label<'_>, places: impl Iterator<Item = Point>, pen: Pen) {
    let (w, _) = label.size();
    let ring = |p: Point| Rect::from_center_size(p, ((w + 2.2).max(2.0 * RING), 2.0 * RING));
    let mut places = places.filter(|&p| canvas.is_clear(ring(p)));
    let Some(place) = places.next() else { return };
    drop(places);
    let plate = lozenge(ring(place));
    canvas.tint([&plate], PAPER);
    canvas.edges(
        [&plate],
        Pen {
            dashes: &[],
            weight: 0.25,
            ..pen
        },
    );
    canvas.label(label, place);
}

/// A box with round ends.
fn lozenge(r: Rect) -> Outline {
    let radius = r.height() / 2.0;
    let (left, right) = (r.x0 + radius, r.x1 - radius);
    let bow = |x: f64, from: f64, to: f64| Piece {
        start: Point::new(x, from),
        end: Point::new(x, to),
        bulge: 1.0,
    };
    let (right, left) = (bow(right, r.y0, r.y1), bow(left, r.y1, r.y0));
    Outline::closing(&Path::from_pieces(&[
        right,
        Piece::line(right.end, left.start),
        left,
        Piece::line(left.end, right.start),
    ]))
}

/// A, B, C … for the bits, in the order in which they run.
pub(crate) fn letter(program: usize) -> char {
    ('A'..='Z').cycle().nth(program).unwrap_or('A')
}
