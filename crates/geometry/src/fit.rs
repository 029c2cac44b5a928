//! Tangent arcs laid along an exact curve within a stated tolerance, near the fewest that there can be.
//!
//! The arcs need not touch the curve where they join: the chain leaves its start in the curve's own direction and is free
//! within the tolerance until it comes to its end in the curve's own direction. Of a chain of k arcs the search keeps those
//! from which one more arc reaches farthest (`search`); how far that is, is known from one pass along the curve (`reach`).
//! What is found is then measured anew, on the curve itself (`bound`).

use crate::{Curve, Path};
use bound::worst;
use mirror::{mirrored, mirrorings};
use samples::Samples;
use search::{Chain, Goal, search};

mod bound;
mod mirror;
mod reach;
mod samples;
mod search;
mod stand;

#[cfg(test)]
mod tests;

/// The share of the tolerance that the search may use: it looks at the curve only in places, 24 or so to an arc, and
/// between them an arc that reaches its limit goes past it by up to 3/4 per cent.
const AIM: f64 = 0.99;

/// What the search may use is cut to this share, and each time by once more of it, where the arcs found do not keep the
/// tolerance or none are found: a whole bend of the curve may be no larger than the tolerance.
const TIGHTER: f64 = 0.95;

/// Tries, the last at 1/20 000 of the tolerance.
const TRIES: i32 = 20;

/// Halvings of the interval in which the least error for a number of arcs is looked for: to within 3 per cent.
const EVENING: u32 = 5;

/// Arcs laid along a curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The arcs, each tangent to the next, from the curve's start to its end.
    pub path: Path,
    /// The greatest distance of the curve from the arcs, and of the arcs from the curve, mm: a bound, not an estimate.
    ///
    /// One figure serves both ways: along each arc the curve's distance is measured square to the arc, from its start
    /// to its end without a gap, so every point of the arc has a point of the curve straight across from it.
    pub worst_error: f64,
}

/// Lays tangent arcs along `curve`, nowhere farther off than `tolerance` mm, which must be more than 0.
///
/// The arcs begin and end on the curve's own ends in its own direction. A curve that mirrors itself gets arcs that do, with one
/// arc over the middle. The number of arcs is the least that the search finds, by rule some 10 per cent over the least that
/// there can be, and the error is then spread over them. Cost grows with the number of arcs.
///
/// A curve smooth in its parameter always gets its arcs. Should one be so broken that it gets none, the straight line between
/// its ends comes back with an infinite `worst_error`, never a wrong figure.
pub fn fit(curve: &dyn Curve, tolerance: f64) -> Fit {
    let (from, to) = curve.domain();
    let halvings = mirrorings(curve);
    let part_end = from + (to - from) / f64::from(1u32 << halvings);
    let mut aim = AIM * tolerance;
    for tried in 1..=TRIES {
        let samples = Samples::of(curve, part_end, aim);
        let goal = if halvings > 0 {
            Goal::square_to_axis(&samples)
        } else {
            Goal::end(&samples)
        };
        if let Some(chain) = search(&samples, &goal, aim, usize::MAX) {
            let chain = whole(curve, evened(chain, &samples, &goal, aim), halvings);
            let worst_error = worst(curve, &chain, tolerance);
            if worst_error <= tolerance {
                let path = Path::from_pieces(&chain.pieces);
                return Fit { path, worst_error };
            }
        }
        aim *= TIGHTER.powi(tried);
    }
    Fit {
        path: Path::polyline(&[curve.point(from), curve.point(to)]),
        worst_error: f64::INFINITY,
    }
}

/// As many arcs, and the error as small as the search can make it with them.
fn evened(chain: Chain, samples: &Samples<'_>, goal: &Goal, aim: f64) -> Chain {
    let mut best = chain;
    let (mut low, mut high) = (0.0, aim);
    for _ in 0..EVENING {
        let middle = f64::midpoint(low, high);
        if let Some(found) = search(samples, goal, middle, best.pieces.len()) {
            best = found;
            high = middle;
        } else {
            low = middle;
        }
    }
    best
}

/// The chain over the whole of a curve from that over its half or quarter, ending where the curve ends.
fn whole(curve: &dyn Curve, mut chain: Chain, halvings: u32) -> Chain {
    let (from, to) = curve.domain();
    for halving in (0..halvings).rev() {
        let axis = from + (to - from) / f64::from(2u32 << halving);
        chain = mirrored(chain, axis, curve);
    }
    if let Some(last) = chain.pieces.last_mut() {
        last.end = curve.point(to);
    }
    chain
}
