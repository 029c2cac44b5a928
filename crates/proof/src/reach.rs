//! What a bit can cut at best: where it stands as near to a point of an edge as the wood allows.

use crate::wood::Wood;
use cintre_geometry::{Piece, Point, Vec2};

/// Steps of the search for the best place; each brings it nearer by a fixed share.
const STEPS: usize = 80;
/// Pushes out of the wood between two steps.
const PUSHES: usize = 12;
/// A bit that bites by no more than this stands clear, mm.
const CLEAR: f64 = 0.0005;

/// How far the point `at` of the edge piece `on` stays from any bit of radius `r` that leaves the part whole, mm; none
/// where no place for such a bit is found near it.
pub(crate) fn least_leftover(part: &Wood<'_>, on: &Piece, at: Point, r: f64) -> Option<f64> {
    let tangent = on.tangent_at(on.nearest(at).fraction);
    let away = Vec2::new(tangent.y, -tangent.x);
    let straight = at + away * r;
    if clear(part, straight, r) {
        return Some(0.0);
    }
    let mut best: Option<f64> = None;
    let mut centre = straight;
    let mut step = 0.5;
    for _ in 0..STEPS {
        centre = pushed(part, centre, r);
        if clear(part, centre, r) {
            let left = centre.distance(at) - r;
            best = Some(best.map_or(left, |b: f64| b.min(left)));
        }
        centre = centre.lerp(at, step * (1.0 - r / centre.distance(at).max(r)));
        step *= 0.95;
    }
    best
}

fn clear(part: &Wood<'_>, centre: Point, r: f64) -> bool {
    part.edge.distance(centre) >= r - CLEAR && !part.contains(centre)
}

/// The centre moved out of the wood until the bit clears it, as far as that goes.
fn pushed(part: &Wood<'_>, centre: Point, r: f64) -> Point {
    let mut centre = centre;
    for _ in 0..PUSHES {
        let Some(line) = part.edge.nearest(centre) else {
            return centre;
        };
        let nearest = line.piece.nearest(centre);
        let inside = part.contains(centre);
        if !inside && nearest.distance >= r - CLEAR / 2.0 {
            return centre;
        }
        let out = (centre - nearest.point) * if inside { -1.0 } else { 1.0 };
        if out.hypot() < 1e-9 {
            return centre;
        }
        centre = nearest.point + out.normalize() * r;
    }
    centre
}
