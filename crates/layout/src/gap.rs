//! How near two outlines come to each other, exactly.

use cintre_geometry::{Outline, Piece, Point, Rect};

/// Two pieces have a point in common if it lies within this of both, mm.
const TOUCH: f64 = 1e-9;

/// How far apart two boxes lie at least, mm; 0 where they meet.
pub(crate) fn between_boxes(a: Rect, b: Rect) -> f64 {
    let along_x = (b.x0 - a.x1).max(a.x0 - b.x1).max(0.0);
    let along_y = (b.y0 - a.y1).max(a.y0 - b.y1).max(0.0);
    along_x.hypot(along_y)
}

/// The least distance between two edges, mm; 0 where they cross. Distances over `most` need not be told: then it is that.
pub(crate) fn between(a: &Outline, b: &Outline, most: f64) -> f64 {
    let with_boxes = |o: &Outline| -> Vec<(Piece, Rect)> { o.pieces().map(|p| (p, p.bounds())).collect() };
    let others = with_boxes(b);
    let mut least = most;
    for (piece, bounds) in with_boxes(a) {
        for (other, other_bounds) in &others {
            if between_boxes(bounds, *other_bounds) < least {
                least = least.min(between_pieces(&piece, other));
            }
        }
    }
    least
}

/// The least distance between two lines or arcs. Where they do not meet, it is had at an end of one of them, or where both
/// are square to the line between: through both centres, or from a centre square to a line.
fn between_pieces(a: &Piece, b: &Piece) -> f64 {
    if !a.meetings(b, TOUCH).is_empty() {
        return 0.0;
    }
    let ends = [a.start, a.end].map(|p| b.nearest(p).distance).into_iter();
    let other_ends = [b.start, b.end].map(|p| a.nearest(p).distance).into_iter();
    let square = square_to_both(a, b).into_iter().map(|p| b.nearest(p).distance);
    ends.chain(other_ends).chain(square).fold(f64::INFINITY, f64::min)
}

/// Points on `a` where the shortest way to `b` may begin, its ends aside.
fn square_to_both(a: &Piece, b: &Piece) -> Vec<Point> {
    match (a.circle(), b.circle()) {
        (None, None) => Vec::new(),
        (None, Some(c)) => vec![a.nearest(c.centre).point],
        (Some(c), None) => {
            let foot = b.nearest(c.centre).point;
            on_arc(a, &[foot])
        }
        (Some(c), Some(d)) => {
            // From a's centre towards b's and away from it.
            let through = d.centre - c.centre;
            if through.hypot() < TOUCH {
                return vec![a.point_at(0.5)];
            }
            on_arc(a, &[c.centre + through, c.centre - through])
        }
    }
}

/// Where the lines from an arc's centre through points cross the arc, or its nearest end.
fn on_arc(arc: &Piece, through: &[Point]) -> Vec<Point> {
    through.iter().map(|&p| arc.nearest(p).point).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::{Affine, Vec2};
    use proptest::prelude::*;

    #[test]
    fn circles_and_boxes_have_the_distance_that_they_should() {
        let circle = |x: f64, y: f64, r: f64| Outline::circle(Point::new(x, y), r);
        let square = Outline::rectangle(Rect::new(0.0, 0.0, 10.0, 10.0));
        let gap = |a: &Outline, b: &Outline| between(a, b, 1e3);
        assert!((gap(&circle(0.0, 0.0, 5.0), &circle(30.0, 40.0, 7.0)) - 38.0).abs() < 1e-12);
        assert!(
            (gap(&circle(0.0, 0.0, 50.0), &circle(3.0, 4.0, 7.0)) - 38.0).abs() < 1e-12,
            "one in another"
        );
        assert!((gap(&circle(5.0, 25.0, 5.0), &square) - 10.0).abs() < 1e-12);
        assert!(
            (gap(&circle(13.0, 14.0, 3.0), &square) - 2.0).abs() < 1e-12,
            "from a corner"
        );
        assert!(
            gap(&circle(0.0, 0.0, 5.0), &circle(8.0, 0.0, 5.0)).abs() < 1e-12,
            "they cross"
        );
        assert!(
            (gap(&circle(0.0, 0.0, 9.0), &circle(0.0, 0.0, 4.0)) - 5.0).abs() < 1e-9,
            "about one centre"
        );
        assert!((between(&square, &circle(500.0, 0.0, 5.0), 20.0) - 20.0).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn no_two_points_lie_nearer_and_some_lie_as_near(
            b1 in -0.9..0.9f64, b2 in -0.9..0.9f64, turn in 0.0..6.3f64, x in 40.0..200.0f64, y in -100.0..100.0f64,
        ) {
            let shape = |bulge: f64| {
                let mut o: Vec<_> = Outline::rectangle(Rect::new(-40.0, -20.0, 40.0, 20.0)).vertices().to_vec();
                o[0].bulge = bulge;
                Outline::new(o)
            };
            let a = shape(b1);
            let b = shape(b2).transformed(Affine::translate(Vec2::new(x, y)) * Affine::rotate(turn));
            let gap = between(&a, &b, 1e3);
            let mut sampled = f64::INFINITY;
            for piece in a.pieces() {
                for k in 0..=100 {
                    sampled = sampled.min(b.nearest(piece.point_at(f64::from(k) / 100.0)).distance);
                }
            }
            prop_assert!(gap <= sampled + 1e-9, "{gap} over {sampled}");
            prop_assert!(gap > 0.0 && gap >= sampled - 2.0 || sampled < 3.0, "{gap} far under {sampled}");
        }
    }
}
