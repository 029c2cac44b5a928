//! Greatest distances between lines and arcs, exact; the least one is the geometry's own.

use cintre_geometry::{Circle, Piece, Point, Vec2};
use std::f64::consts::PI;

/// Shorter than this a piece is a point, mm.
const POINT: f64 = 1e-9;
/// Centres nearer than this are one, mm.
const CONCENTRIC: f64 = 1e-6;
/// A piece that reaches past the end of another by no more than this still stands wholly before it, mm; the distance
/// is then off by far less.
const PAST_END: f64 = 1e-6;

/// The greatest distance from any point of `s` to `q`, where every point of `s` has its foot on `q`; none where some may
/// lie past its ends.
pub(crate) fn greatest(s: &Piece, q: &Piece) -> Option<f64> {
    if q.start.distance(q.end) < POINT && q.bulge.abs() < 1.0 {
        return Some(range_from(s, q.start).1);
    }
    let Some(circle) = q.circle() else {
        let u = (q.end - q.start).normalize();
        let (first, last) = extent(s, q.start, u);
        let off = extent(s, q.start, Vec2::new(-u.y, u.x));
        let before = first >= -PAST_END && last <= q.start.distance(q.end) + PAST_END;
        return before.then(|| off.0.abs().max(off.1.abs()));
    };
    let (near, far) = range_from(s, circle.centre);
    faces(s, q, circle, near).then(|| (far - circle.radius).abs().max((near - circle.radius).abs()))
}

/// Whether all of `s`, which comes no nearer to the centre than `near`, stands before the arc `q` as seen from its centre.
fn faces(s: &Piece, q: &Piece, circle: Circle, near: f64) -> bool {
    let chord = q.end - q.start;
    let towards = Vec2::new(chord.y, -chord.x) * q.bulge.signum();
    let off = |p: Point| {
        let v = p - circle.centre;
        towards.cross(v).atan2(towards.dot(v))
    };
    let (first, last) = (off(s.start), off(s.end));
    if (first - last).abs() > PI / 2.0 {
        return false;
    }
    let Some(aside) = aside(s, circle, near) else {
        return false;
    };
    first.abs().max(last.abs()) + aside <= q.sweep().abs() / 2.0 + PAST_END / circle.radius
}

/// By how much an arc, seen from a centre, may swing out beyond the directions of its ends.
fn aside(s: &Piece, circle: Circle, near: f64) -> Option<f64> {
    let Some(own) = s.circle() else {
        return Some(0.0);
    };
    if own.centre.distance(circle.centre) < CONCENTRIC && s.sweep().abs() < PI / 2.0 {
        return Some(0.0);
    }
    let height = s.bulge.abs() * s.start.distance(s.end) / 2.0;
    (height < near).then(|| (height / near).asin())
}

/// How far `s` extends from `home` in the direction `u`, from and to.
fn extent(s: &Piece, home: Point, u: Vec2) -> (f64, f64) {
    let along = |p: Point| (p - home).dot(u);
    let ends = (along(s.start), along(s.end));
    let mut range = (ends.0.min(ends.1), ends.0.max(ends.1));
    if let Some(c) = s.circle() {
        for side in [u * c.radius, -u * c.radius] {
            let v = along(s.foot(c.centre + side));
            range = (range.0.min(v), range.1.max(v));
        }
    }
    range
}

/// The least and the greatest distance of `s` from a point.
pub(crate) fn range_from(s: &Piece, p: Point) -> (f64, f64) {
    let near = s.distance_from(p);
    let mut far = p.distance(s.start).max(p.distance(s.end));
    if let Some(c) = s.circle() {
        let out = c.centre - p;
        if out.hypot() > POINT {
            let farthest = s.foot(c.centre + out.normalize() * c.radius);
            far = far.max(p.distance(farthest));
        }
    }
    (near, far)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn piece() -> impl Strategy<Value = Piece> {
        let numbers = (
            -50.0..50.0f64,
            -50.0..50.0f64,
            0.0..6.2f64,
            5.0..60.0f64,
            -6.0..6.0f64,
            any::<bool>(),
        );
        numbers.prop_map(|(x, y, first, r, sweep, straight)| {
            let centre = Point::new(x, y);
            if straight {
                Piece::line(centre, centre + Vec2::from_angle(first) * r)
            } else {
                Piece::arc(centre, centre + Vec2::from_angle(first) * r, sweep)
            }
        })
    }

    fn sampled(a: &Piece) -> impl Iterator<Item = Point> + '_ {
        (0..=2000).map(|i| a.point_at(f64::from(i) / 2000.0))
    }

    proptest! {
        #[test]
        fn the_greatest_distance_agrees_with_sampling(a in piece(), b in piece(), from in 0.0..0.95f64, long in 0.001..0.05f64) {
            let s = a.part(from, from + long);
            let most = sampled(&s).map(|p| b.nearest(p).distance).fold(0.0, f64::max);
            if let Some(found) = greatest(&s, &b) {
                prop_assert!(found >= most - 1e-9, "{found} where {most} is sampled");
                prop_assert!(found <= most + s.length() / 4000.0 + 1e-6, "{found} where {most} is sampled");
            }
            let whole = crate::lines::Lines::new([b]).greatest(&a).0;
            let most = sampled(&a).map(|p| b.nearest(p).distance).fold(0.0, f64::max);
            prop_assert!((whole - most).abs() <= 0.001 + 0.011 * most, "{whole} where {most} is sampled");
        }
    }

    #[test]
    fn an_arc_along_a_parallel_one_is_bounded_in_one_step() {
        let arc = |r: f64, from: f64, sweep: f64| {
            Piece::arc(Point::ZERO, Point::ZERO + Vec2::from_angle(from) * r, sweep)
        };
        let found = greatest(&arc(500.0, 0.2, 0.3), &arc(503.0, 0.0, 1.0)).expect("it stands before it");
        assert!((found - 3.0).abs() < 1e-9, "{found}");
        assert!(
            greatest(&arc(500.0, 0.9, 0.3), &arc(503.0, 0.0, 1.0)).is_none(),
            "it reaches past its end"
        );
    }
}
