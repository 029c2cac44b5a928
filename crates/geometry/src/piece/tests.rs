//! Tests of single pieces.

use super::*;
use proptest::prelude::*;

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[test]
fn a_half_circle_over_the_x_axis() {
    let half = Piece::arc(Point::ZERO, Point::new(-50.0, 0.0), -PI);
    assert!(near(half.end.x, 50.0) && near(half.end.y, 0.0));
    assert!(near(half.length(), 50.0 * PI));
    assert!(near(half.point_at(0.5).y, 50.0));
    assert!(near(half.tangent_at(0.0).y, 1.0), "it leaves the springing plumb");
    let bounds = half.bounds();
    assert!(near(bounds.y1, 50.0) && near(bounds.y0, 0.0));
    assert!(near(half.curvature(), -0.02));
}

#[test]
fn more_than_half_a_turn_keeps_its_centre() {
    let centre = Point::new(3.0, 4.0);
    let arc = Piece::arc(centre, centre + Vec2::new(10.0, 0.0), 4.0);
    let circle = arc.circle().unwrap();
    assert!(circle.centre.distance(centre) < 1e-12 && near(circle.radius, 10.0) && near(arc.sweep(), 4.0));
    let opposite = arc.nearest(centre + Vec2::from_angle(3.0) * 25.0);
    assert!(near(opposite.distance, 15.0) && near(opposite.fraction, 0.75));
}

proptest! {
    #[test]
    fn the_nearest_point_is_no_farther_than_any_sampled_one(
        sweep in -6.0..6.0f64, px in -40.0..40.0f64, py in -40.0..40.0f64, first in 0.0..6.3f64,
    ) {
        let centre = Point::new(1.0, 2.0);
        let piece = Piece::arc(centre, centre + Vec2::from_angle(first) * 15.0, sweep);
        let p = Point::new(px, py);
        let found = piece.nearest(p);
        prop_assert!(near(found.point.distance(p), found.distance));
        for i in 0..=200 {
            prop_assert!(piece.point_at(f64::from(i) / 200.0).distance(p) >= found.distance - 1e-9);
        }
    }

    #[test]
    fn a_part_lies_on_the_whole(sweep in -6.0..6.0f64, a in 0.0..0.5f64, b in 0.5..1.0f64) {
        let piece = Piece::arc(Point::ZERO, Point::new(20.0, 0.0), sweep);
        let part = piece.part(a, b);
        prop_assert!(near(part.length(), piece.length() * (b - a)));
        prop_assert!(piece.nearest(part.point_at(0.3)).distance < 1e-9);
    }

    #[test]
    fn halves_are_the_parts_to_either_side_of_the_middle(sweep in -6.0..6.0f64, first in 0.0..6.3f64, straight in any::<bool>()) {
        let (centre, out) = (Point::new(1.0, 2.0), Vec2::from_angle(first) * 15.0);
        let piece = if straight { Piece::line(centre, centre + out) } else { Piece::arc(centre, centre + out, sweep) };
        for (half, part) in piece.halves().into_iter().zip([piece.part(0.0, 0.5), piece.part(0.5, 1.0)]) {
            prop_assert!(half.start.distance(part.start) < 1e-9 && half.end.distance(part.end) < 1e-9);
            prop_assert!(near(half.bulge, part.bulge));
        }
    }

    #[test]
    fn a_box_is_the_least_that_holds_the_piece(sweep in -6.0..6.0f64, first in 0.0..6.3f64) {
        let centre = Point::new(1.0, 2.0);
        let piece = Piece::arc(centre, centre + Vec2::from_angle(first) * 15.0, sweep);
        let points = (0..=2000).map(|i| piece.point_at(f64::from(i) / 2000.0));
        let sampled = points.fold(Rect::from_points(piece.start, piece.end), |r, p| r.union_pt(p));
        let bounds = piece.bounds();
        prop_assert!(bounds.inflate(1e-9, 1e-9).contains_rect(sampled), "{bounds:?} for {sampled:?}");
        prop_assert!(sampled.inflate(1e-4, 1e-4).contains_rect(bounds), "{bounds:?} for {sampled:?}");
    }
}
