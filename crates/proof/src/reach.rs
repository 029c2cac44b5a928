//! What a bit can cut at best: where it stands as near to a point of an edge as the wood allows.

use crate::level::Level;
use cintre_geometry::{Outline, Piece, Point, Rect, Vec2};

/// A bit that bites by no more than this stands clear, mm.
const CLEAR: f64 = 0.0005;
/// How far a bit may stay from where it could stand in a corner, mm, beyond what an edge may be left.
pub(crate) const CORNER_SLACK: f64 = 0.01;

/// How far a point beside or on the edge of the wood stays from any bit of radius `r` that leaves the wood whole, mm; none
/// where no place for such a bit is found near it.
///
/// The nearest bit stands over the point, touches one edge squarely beside it, or two edges at once: its middle lies where
/// two lines at its radius from the edges cross. Each such place near the point is tried.
pub(crate) fn least_leftover(wood: &Level, at: Point, r: f64) -> Option<f64> {
    if clear(wood, at, r) {
        return Some(0.0);
    }
    let near = wood.edge.around(Rect::from_points(at, at), 3.0 * r);
    let rails: Vec<Piece> = near.flat_map(|line| rails(&line.piece, r)).collect();
    let mut best = f64::INFINITY;
    let mut place = |centre: Point| {
        let left = centre.distance(at) - r;
        if left < best && clear(wood, centre, r) {
            best = left;
        }
        best <= CLEAR
    };
    if rails.iter().any(|rail| place(foot(rail, at))) {
        return Some(0.0);
    }
    for (i, a) in rails.iter().enumerate() {
        let mut crossings = rails[i + 1..].iter().flat_map(|b| a.closest_places(b));
        if crossings.any(&mut place) {
            return Some(0.0);
        }
    }
    best.is_finite().then(|| best.max(0.0))
}

/// The place on a rail, drawn out to its whole circle, that is nearest to a point.
fn foot(rail: &Piece, at: Point) -> Point {
    match rail.circle() {
        Some(c) if at.distance(c.centre) > 0.0 => c.centre + (at - c.centre).normalize() * c.radius,
        _ => rail.foot(at),
    }
}

/// Where the middle of a bit runs that touches an edge piece or its first corner, drawn out to whole lines and circles.
fn rails(edge: &Piece, r: f64) -> Vec<Piece> {
    let round = |centre: Point, radius: f64| Outline::circle(centre, radius).pieces().next();
    let along = match edge.circle() {
        None => {
            let u = edge.tangent_at(0.5);
            let right = Vec2::new(u.y, -u.x) * r;
            Some(Piece::line(edge.start + right, edge.end + right))
        }
        Some(c) => {
            let radius = c.radius + r * edge.bulge.signum();
            (radius > 0.0).then(|| round(c.centre, radius)).flatten()
        }
    };
    along.into_iter().chain(round(edge.start, r)).collect()
}

fn clear(wood: &Level, centre: Point, r: f64) -> bool {
    wood.edge.distance(centre) >= r - CLEAR && !wood.contains(centre)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::plate_with_corner;
    use crate::wood;

    /// On a whole circle no point is out of reach, whichever half it lies on.
    #[test]
    fn all_round_a_disc_a_bit_can_touch() {
        let design = crate::tests::disc();
        let parts = wood::parts(&design).unwrap();
        for i in 0..32 {
            let at = Point::new(100.0, 100.0) + Vec2::from_angle(f64::from(i) / 5.0) * 50.0;
            let found = least_leftover(parts[0].whole(), at, 3.0).unwrap();
            assert!(found < 1e-9, "{found} at {at}");
        }
    }

    /// In a corner of any angle between two straight walls the bit at best touches both, its middle on the bisector.
    #[test]
    fn in_a_corner_it_is_the_bit_that_touches_both_walls() {
        for degrees in [40.0f64, 60.0, 90.0, 120.0, 135.0, 160.0] {
            let half = degrees.to_radians() / 2.0;
            let design = plate_with_corner(half);
            let parts = wood::parts(&design).unwrap();
            let touch = 3.0 / half.tan();
            for share in [0.1, 0.5, 0.8] {
                let t = share * touch;
                let wall = parts[0].holes[0]
                    .pieces()
                    .find(|p| p.start.x.hypot(p.start.y) < 1e-9)
                    .unwrap();
                let at = wall.start + (wall.end - wall.start).normalize() * t;
                let expected = (touch - t).hypot(3.0) - 3.0;
                let found = least_leftover(parts[0].whole(), at, 3.0).unwrap();
                assert!(
                    (found - expected).abs() < 0.001,
                    "{degrees} deg, {t}: {found} for {expected}"
                );
            }
        }
    }
}
