//! What a round bit leaves in the corners that it cannot get into.

use crate::{Nearest, Outline, Path, Piece, Point, Vec2};
use std::f64::consts::PI;

/// A leftover shallower than this is no leftover to a joiner, mm.
const NEGLIGIBLE: f64 = 1e-3;

/// Points looked at along each piece, besides those that are farthest for sure.
const ALONG: u32 = 8;

/// Two leftovers whose deepest points lie this near are one, mm.
const SAME_PLACE: f64 = 1e-3;

/// A place of an edge that a bit does not reach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leftover {
    /// The point of the edge that the bit stays farthest from.
    pub at: Point,
    /// How much wood is left there, mm.
    pub depth: f64,
    /// The bit's centre where it goes no farther.
    pub centre: Point,
    /// Where it then bears on the edge, before and after the place.
    pub feet: [Nearest; 2],
}

impl Leftover {
    /// What is left as a piece of its own, counter-clockwise: along `outline`, of which it is a leftover, and home round the bit;
    /// none where the bit bears on one place alone.
    pub fn piece(&self, outline: &Outline) -> Option<Outline> {
        let [from, to] = self.feet;
        let round = outline.opened_at(from.piece, from.fraction);
        let end = round.nearest(to.point);
        let before: f64 = round.pieces().take(end.piece).map(|p| p.length()).sum();
        let last = round.pieces().nth(end.piece).map_or(0.0, |p| p.length());
        let length = before + last * end.fraction;
        if length < NEGLIGIBLE {
            return None;
        }
        let along = round.part(0.0, length);
        let home = Piece::arc_between(self.centre, along.end(), along.start(), true);
        Some(Outline::closing(&along.then(&Path::from_pieces(&[home]))).oriented(true))
    }
}

/// The places of an edge that a bit of `radius` leaves, deepest first, when its centre runs along `centres`, the parallels
/// of the edge at that radius.
///
/// Every inside corner of the road of the centre is one such place: there the bit bears on the edge at two points, and
/// the edge between them stands back from it. A square corner keeps r (√2 - 1).
pub fn leftovers(outline: &Outline, centres: &[Outline], radius: f64) -> Vec<Leftover> {
    let pieces: Vec<Piece> = outline.pieces().collect();
    let gap = |p: Point| {
        centres
            .iter()
            .map(|c| c.nearest(p).distance)
            .fold(f64::INFINITY, f64::min)
            - radius
    };
    let mut found: Vec<Leftover> = Vec::new();
    for (at, from, to) in inside_corners(centres) {
        let (first, last) = (
            outline.nearest(at + from * radius),
            outline.nearest(at + to * radius),
        );
        let span = Span {
            from: (first.piece, first.fraction),
            to: (last.piece, last.fraction),
        };
        let deepest = candidates(&pieces, at, span)
            .map(|place| Leftover {
                at: place,
                depth: gap(place),
                centre: at,
                feet: [first, last],
            })
            .max_by(|a, b| a.depth.total_cmp(&b.depth));
        found.extend(deepest.filter(|d| d.depth > NEGLIGIBLE));
    }
    found.sort_by(|a, b| b.depth.total_cmp(&a.depth));
    let mut kept: Vec<Leftover> = Vec::new();
    for leftover in found {
        if kept.iter().all(|k| k.at.distance(leftover.at) > SAME_PLACE) {
            kept.push(leftover);
        }
    }
    kept
}

/// Corners where the road of the centre turns away from the wood on its left, with the directions to both feet.
fn inside_corners(centres: &[Outline]) -> impl Iterator<Item = (Point, Vec2, Vec2)> + '_ {
    let left = |t: Vec2| Vec2::new(-t.y, t.x);
    centres
        .iter()
        .flat_map(|c| c.pieces().zip(c.pieces().cycle().skip(1)))
        .map(|(a, b)| (b.start, a.tangent_at(1.0), b.tangent_at(0.0)))
        .filter(|(_, before, after)| before.cross(*after) < 0.0 || before.dot(*after) < -1.0 + 1e-9)
        .map(move |(at, before, after)| (at, left(before), left(after)))
}

/// A stretch of a closed edge, from a piece and a fraction of it to another.
#[derive(Clone, Copy)]
struct Span {
    from: (usize, f64),
    to: (usize, f64),
}

/// Points of the edge between two feet among which the one farthest from `centre` is.
fn candidates(pieces: &[Piece], centre: Point, span: Span) -> impl Iterator<Item = Point> + '_ {
    let n = pieces.len();
    let (first, last) = (span.from.0, span.to.0);
    let round = first == last && span.to.1 < span.from.1;
    let count = if round { n } else { (last + n - first) % n };
    (0..=count).flat_map(move |k| {
        let piece = &pieces[(first + k) % n];
        let from = if k == 0 { span.from.1 } else { 0.0 };
        let to = if k == count { span.to.1 } else { 1.0 };
        let far = farthest_of_arc(piece, centre).filter(move |f| (from..=to).contains(f));
        let along = (0..=ALONG).map(move |k| from + (to - from) * f64::from(k) / f64::from(ALONG));
        far.into_iter().chain(along).map(move |f| piece.point_at(f))
    })
}

/// The fraction of an arc that lies straight beyond its own centre from `p`.
fn farthest_of_arc(piece: &Piece, p: Point) -> Option<f64> {
    let circle = piece.circle()?;
    let beyond = circle.centre - p;
    let direction = if beyond.hypot() > 0.0 {
        beyond / beyond.hypot()
    } else {
        Vec2::from_angle(PI)
    };
    let found = piece.nearest(circle.centre + direction * circle.radius);
    (found.distance < 1e-6).then_some(found.fraction)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Rect, parallel};

    fn depths(outline: &Outline, radius: f64) -> Vec<f64> {
        let centres = parallel(outline, radius).unwrap();
        leftovers(outline, &centres, radius)
            .iter()
            .map(|l| l.depth)
            .collect()
    }

    #[test]
    fn a_square_corner_keeps_its_known_depth() {
        let opening = Outline::rectangle(Rect::new(0.0, 0.0, 60.0, 40.0)).reversed();
        for (radius, depth) in [(1.5875, 0.658), (3.175, 1.315), (6.35, 2.630)] {
            let found = depths(&opening, radius);
            assert_eq!(found.len(), 4);
            assert!(
                found
                    .iter()
                    .all(|d| (d - depth).abs() < 5e-4 && (d - radius * (2f64.sqrt() - 1.0)).abs() < 1e-9)
            );
        }
        assert!(
            depths(&opening.reversed(), 6.35).is_empty(),
            "outside corners are all reached"
        );
    }

    #[test]
    fn what_is_left_in_a_square_corner_is_the_square_less_a_quarter_of_the_bit() {
        let opening = Outline::rectangle(Rect::new(0.0, 0.0, 60.0, 40.0)).reversed();
        let centres = parallel(&opening, 6.0).unwrap();
        for left in leftovers(&opening, &centres, 6.0) {
            let piece = left.piece(&opening).unwrap();
            assert!((piece.area() - 36.0 * (1.0 - PI / 4.0)).abs() < 1e-9);
            assert!(piece.nearest(left.at).distance < 1e-9);
            assert!((left.at.distance(left.centre) - 6.0 - left.depth).abs() < 1e-9);
        }
    }

    #[test]
    fn a_neck_too_narrow_between_two_rooms_is_named() {
        let neck = [
            (0.0, 0.0),
            (40.0, 0.0),
            (40.0, 18.0),
            (80.0, 18.0),
            (80.0, 0.0),
            (120.0, 0.0),
            (120.0, 40.0),
            (80.0, 40.0),
            (80.0, 22.0),
            (40.0, 22.0),
            (40.0, 40.0),
            (0.0, 40.0),
        ];
        let found = depths(&Outline::polygon(&neck.map(Point::from)).reversed(), 5.0);
        assert!(found[0] > 10.0, "{found:?}");
    }

    #[test]
    fn a_slot_that_the_bit_cannot_enter_is_left_whole() {
        let points = [
            (0.0, 0.0),
            (200.0, 0.0),
            (200.0, 100.0),
            (106.3, 100.0),
            (106.3, 62.0),
            (93.7, 62.0),
            (93.7, 100.0),
            (0.0, 100.0),
        ];
        let found = depths(&Outline::polygon(&points.map(Point::from)), 6.35);
        assert_eq!(found.len(), 1);
        // The bit sits on both lips of the mouth, its centre sqrt(6.35² - 6.3²) above them; the far corners are deepest.
        let expected = 6.3f64.hypot(38.0 + (6.35f64.powi(2) - 6.3f64.powi(2)).sqrt()) - 6.35;
        assert!(
            (found[0] - expected).abs() < 1e-6 && (found[0] - 32.95).abs() < 0.01,
            "{} {expected}",
            found[0]
        );
    }
}
