//! How far arcs stand off the curve that they were laid along.

use super::search::Chain;
use crate::{Curve, Piece, Point};

/// Steps to an arc, at the ends of which its distance from the curve is taken and between which a bound is added: few at
/// first, and more where the bound leaves it open whether the tolerance is kept.
const STEPS: [u32; 3] = [16, 64, 256];

/// The part of a curve between two steps is longer than its chord by less than half of this share, since it turns by less than
/// 12°; the square of its length by less than all of it.
const LONGER: f64 = 0.01;

/// A bound on the distance between a chain and the part of the curve that it was laid along, close enough to tell whether
/// `tolerance` is kept.
pub(super) fn worst(curve: &dyn Curve, chain: &Chain, tolerance: f64) -> f64 {
    let turns = curve.stretches();
    let mut greatest = 0.0f64;
    for (arc, ends) in chain.pieces.iter().zip(chain.parameters.windows(2)) {
        let mut parts = vec![ends[0]];
        parts.extend(turns.iter().filter(|&&t| ends[0] < t && t < ends[1]));
        parts.push(ends[1]);
        for part in parts.windows(2) {
            greatest = greatest.max(bound(curve, arc, (part[0], part[1]), tolerance));
        }
    }
    greatest
}

fn bound(curve: &dyn Curve, arc: &Piece, ends: (f64, f64), tolerance: f64) -> f64 {
    let mut found = f64::INFINITY;
    for steps in STEPS {
        let (sampled, bounded) = off(curve, arc, ends, steps);
        found = bounded;
        if bounded <= tolerance || sampled > tolerance {
            break;
        }
    }
    found
}

/// The greatest distance of the curve from an arc at so many places, and a bound on it between them. Between the ends the
/// curvature must only rise or only fall.
///
/// Along the curve the distance e from an arc of curvature k obeys e'' = κ cos φ - k cos² φ / (1 - k e), the two running at an
/// angle φ to each other, so |e''| ≤ |κ - k| + |k| (2 |k e| + φ²). Between two places h apart e exceeds the greater of its values
/// there by no more than h²/8 times that; |κ - k| is greatest at one of them.
fn off(curve: &dyn Curve, arc: &Piece, (from, to): (f64, f64), steps: u32) -> (f64, f64) {
    let circle = arc.circle();
    let off = |p: Point| match circle {
        Some(c) => p.distance(c.centre) - c.radius,
        None => (arc.end - arc.start).cross(p - arc.start) / (arc.end - arc.start).hypot(),
    };
    let bend = arc.curvature();
    let (mut sampled, mut bounded) = (0.0f64, 0.0f64);
    let place = |t: f64| (curve.point(t), curve.curvature(t));
    let mut before = place(from);
    let mut off_before = off(before.0);
    for i in 1..=steps {
        let here = place(from + (to - from) * f64::from(i) / f64::from(steps));
        let off_here = off(here.0);
        let step = here.0.distance(before.0);
        let bending = (before.1 - bend).abs().max((here.1 - bend).abs());
        let most = off_here.abs().max(off_before.abs());
        let slope = if step > 0.0 {
            (off_here - off_before).abs() / step
        } else {
            0.0
        } + bending * step;
        let growth = bending + bend.abs() * (2.0 * bend.abs() * most + slope * slope);
        sampled = sampled.max(most);
        bounded = bounded.max(most + growth * step * step / 8.0 * (1.0 + LONGER));
        (before, off_before) = (here, off_here);
    }
    (sampled, bounded)
}
