//! How often an edge winds round a point.

use crate::piece::rotated;
use crate::{Piece, Point, Vec2};
use std::f64::consts::PI;

/// How often a piece crosses the ray from `p` to the right: upward +1, downward -1.
///
/// An arc is parted where it runs level, into sections that only rise or only fall. A section's chord tells on which side of it
/// a point lies except for points between the two, and those are told by the circle: so no answer depends on rounding but for
/// points on the edge itself. A line run backward gives the opposite of the same answer, to the last digit.
pub(crate) fn winding(piece: &Piece, p: Point) -> i32 {
    // Arcs up to half a turn stay this near their chord; longer ones are looked at wherever the point is.
    let aside = piece.bulge.abs() * piece.start.distance(piece.end) / 2.0;
    let (low, high) = (piece.start.y.min(piece.end.y), piece.start.y.max(piece.end.y));
    if piece.bulge.abs() <= 1.0 && !(low - aside..=high + aside).contains(&p.y) {
        return 0;
    }
    let mut from = piece.start;
    let mut sum = 0;
    for to in levels(piece).chain([piece.end]) {
        sum += crossing(piece, from, to, p);
        from = to;
    }
    sum
}

/// The places within an arc at which it runs level, in order.
fn levels(piece: &Piece) -> impl Iterator<Item = Point> {
    let Piece { start, end, .. } = *piece;
    let (chord, sweep) = (end - start, piece.sweep());
    let leaving = chord.atan2() - sweep / 2.0;
    let way = if sweep < 0.0 { -1.0 } else { 1.0 };
    // The first whole half turn ahead, and no more than two of them in less than a full turn.
    let first = (way * leaving / PI).floor() + 1.0;
    [0.0, 1.0, 2.0]
        .into_iter()
        .map(move |i| way * (first + i) * PI - leaving)
        .take_while(move |turn| turn.abs() < sweep.abs())
        .map(move |turn| {
            start + rotated(chord, (turn - sweep) / 2.0) * ((turn / 2.0).sin() / (sweep / 2.0).sin())
        })
}

/// Whether a section crosses the ray, and which way.
fn crossing(piece: &Piece, from: Point, to: Point, p: Point) -> i32 {
    let (a, b) = (from - p, to - p);
    let rises = a.y <= 0.0 && b.y > 0.0;
    let falls = a.y > 0.0 && b.y <= 0.0;
    if !rises && !falls {
        return 0;
    }
    let way = if rises { 1 } else { -1 };
    // To the left of the chord's travel where it rises, to the right where it falls.
    let before_chord = f64::from(way) * a.cross(b) > 0.0;
    let before = if piece.is_line() {
        before_chord
    } else {
        let outside = outside(piece, p);
        // The right half of a circle bulges away from the point, the left half towards it.
        if rises == (piece.bulge > 0.0) {
            before_chord || outside < 0.0
        } else {
            before_chord && outside > 0.0
        }
    };
    if before { way } else { 0 }
}

/// Positive outside the circle of an arc, negative inside, by the angle under which its chord is seen: with a and b from the
/// point to the ends of an arc of sweep φ, a × b cos φ/2 - a·b sin φ/2 is 0 on the circle and positive to the left of travel.
fn outside(piece: &Piece, p: Point) -> f64 {
    let (a, b): (Vec2, Vec2) = (piece.start - p, piece.end - p);
    let bulge = piece.bulge;
    // Cosine and sine of half the sweep, both times 1 + b².
    let left = a.cross(b) * (1.0 - bulge * bulge) - a.dot(b) * 2.0 * bulge;
    if bulge > 0.0 { -left } else { left }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Affine, Outline, Rect, Vertex};
    use proptest::prelude::*;

    /// The lens over a chord: two arcs, each up to more than half a turn.
    fn lens(a: Point, b: Point, bulges: (f64, f64)) -> Outline {
        Outline::new(vec![
            Vertex {
                point: a,
                bulge: bulges.0,
            },
            Vertex {
                point: b,
                bulge: bulges.1,
            },
        ])
    }

    #[test]
    fn the_lower_and_left_edges_belong_and_the_upper_and_right_do_not() {
        let square = Outline::rectangle(Rect::new(0.0, 0.0, 40.0, 40.0));
        for outline in [square.clone(), square.reversed()] {
            assert!(outline.contains((0.0, 20.0).into()) && outline.contains((20.0, 0.0).into()));
            assert!(!outline.contains((40.0, 20.0).into()) && !outline.contains((20.0, 40.0).into()));
            assert!(outline.contains((0.0, 0.0).into()) && !outline.contains((40.0, 40.0).into()));
        }
    }

    #[test]
    fn an_arc_as_good_as_straight_parts_what_lies_beside_it() {
        for bulge in [1e-13, 1e-12, 1e-10, -1e-13, -1e-12, -1e-10] {
            let (a, b) = (Point::new(-500.0, 0.0), Point::new(500.0, 0.0));
            let mut sheet = Outline::polygon(&[a, b, (500.0, 300.0).into(), (-500.0, 300.0).into()])
                .vertices()
                .to_vec();
            sheet[0].bulge = bulge;
            let sheet = Outline::new(sheet);
            for x in [-400.0, -3.0, 0.0, 250.0] {
                assert!(
                    sheet.contains((x, 1e-6).into()) && !sheet.contains((x, -1e-6).into()),
                    "{bulge}"
                );
            }
        }
    }

    proptest! {
        #[test]
        fn a_point_on_the_chord_of_a_lens_lies_inside(
            (ax, ay, bx, by) in (-900.0..900.0f64, -900.0..900.0f64, -900.0..900.0f64, -900.0..900.0f64),
            bulges in (0.02..2.5f64, 0.02..2.5f64),
            share in 0.001..0.999f64,
        ) {
            let (a, b) = (Point::new(ax, ay), Point::new(bx, by));
            prop_assume!(a.distance(b) > 1.0);
            let lens = lens(a, b, bulges);
            let p = a.lerp(b, share);
            prop_assert!(lens.contains(p) && lens.reversed().contains(p));
        }

        #[test]
        fn of_two_parts_along_a_slanted_cut_just_one_holds_a_point_on_it(
            cut in (-300.0..300.0f64, -300.0..300.0f64),
            bulge in prop_oneof![Just(0.0), -0.4..0.4f64],
            share in 0.001..0.999f64,
        ) {
            // A box parted from its bottom to its top.
            let (low, high) = (Point::new(cut.0, -200.0), Point::new(cut.1, 200.0));
            let corner = |x: f64, y: f64| Vertex { point: Point::new(x, y), bulge: 0.0 };
            let left = Outline::new(vec![
                Vertex { point: low, bulge }, corner(high.x, high.y), corner(-900.0, 200.0), corner(-900.0, -200.0),
            ]);
            let right = Outline::new(vec![
                Vertex { point: high, bulge: -bulge }, corner(low.x, low.y), corner(900.0, -200.0), corner(900.0, 200.0),
            ]);
            let arc = left.pieces().next().unwrap();
            let p = arc.point_at(share);
            // Past the box the arc runs over its other edges.
            prop_assume!(p.y.abs() < 199.0 && arc.bounds().y1 < 200.1 && arc.bounds().y0 > -200.1);
            prop_assert!(left.contains(p) != right.contains(p), "{p}");
            prop_assert!(left.reversed().contains(p) == left.contains(p), "{p}");
        }

        #[test]
        fn turned_by_any_angle_a_shape_holds_the_points_that_it_did(
            angle in 0.0..std::f64::consts::TAU,
            bulges in (-0.9..2.0f64, -0.9..0.9f64, -0.9..2.0f64),
            (x, y) in (-150.0..150.0f64, -150.0..150.0f64),
        ) {
            let corners = [(-60.0, -40.0), (70.0, -30.0), (5.0, 75.0)];
            let shape = Outline::new(corners.iter().zip([bulges.0, bulges.1, bulges.2])
                .map(|(&corner, bulge)| Vertex { point: corner.into(), bulge }).collect());
            let p = Point::new(x, y);
            prop_assume!(shape.nearest(p).distance > 1e-9);
            let turn = Affine::rotate(angle);
            prop_assert_eq!(shape.transformed(turn).contains(turn * p), shape.contains(p));
        }
    }
}
