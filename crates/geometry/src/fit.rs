//! Tangent arcs laid along an exact curve within a stated tolerance.
//!
//! Each pair of arcs (a biarc) meets the curve at both its ends with the curve's own direction, and its joint lies on the
//! curve too. For end directions θ0 and θ1 from the chord, the joints of all such pairs lie on one circle through both ends, on
//! which the chord is seen under a constant angle; the joint taken is where the curve crosses it.

use crate::piece::wrapped;
use crate::{Curve, Path, Piece, Point, Vec2};
use kurbo::common::solve_itp;

/// Points of each arc at which its distance from the curve is taken, and between which a bound is added (see `worst`): few at
/// first, and more where the bound leaves it open whether the tolerance is kept.
const SAMPLES: [u32; 3] = [16, 64, 256];

/// Two parameters between 0 and 1 nearer to one another than this cannot be told apart: a search asked for less never ends.
const FINEST: f64 = 4.0 * f64::EPSILON;

/// Bisections of the tolerance when the error is spread evenly: brings it within 1 per cent of the least.
const EVENING: usize = 7;

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

/// Lays tangent arcs along `curve`, nowhere farther off than `tolerance` mm.
///
/// Each stretch of rising or falling curvature takes the fewest pairs of arcs that one pass from its end finds, with the error
/// then spread evenly over them. A curve that mirrors itself gets arcs that do, and one arc over its middle. Cost grows with
/// the number of arcs.
pub fn fit(curve: &dyn Curve, tolerance: f64) -> Fit {
    let stretches = curve.stretches();
    let count = stretches.len() - 1;
    let mirrored = curve.mirrors_itself() && count.is_multiple_of(2);
    let fitted = if mirrored { count / 2 } else { count };
    let mut pieces = Vec::new();
    let mut worst_error = 0.0f64;
    for (i, ends) in stretches.windows(2).take(fitted).enumerate() {
        let backward = !mirrored && i >= count.div_ceil(2);
        let stretch = Stretch {
            curve,
            from: ends[0],
            to: ends[1],
            backward,
        };
        let (arcs, error) = stretch.fit(tolerance);
        worst_error = worst_error.max(error);
        if backward {
            pieces.extend(arcs.iter().rev().map(Piece::reversed));
        } else {
            pieces.extend(arcs);
        }
    }
    if mirrored {
        mirror(&mut pieces);
    }
    Fit {
        path: Path::from_pieces(&pieces),
        worst_error,
    }
}

/// Adds the mirror image, about the y axis, of arcs that end on it running level. The last of them and the first of its image
/// lie on one circle, whose centre is on the axis, and become one arc, unless that would turn by half a circle or more.
fn mirror(pieces: &mut Vec<Piece>) {
    let image = |p: Point| Point::new(-p.x, p.y);
    let mut other: Vec<Piece> = pieces
        .iter()
        .rev()
        .map(|p| Piece {
            start: image(p.end),
            end: image(p.start),
            bulge: p.bulge,
        })
        .collect();
    if let Some(last) = pieces.last_mut()
        && last.bulge.abs() < HALF_TURN_AFTER_DOUBLING
    {
        // Twice the sweep: tan 2x = 2 tan x / (1 - tan² x).
        let bulge = 2.0 * last.bulge / (1.0 - last.bulge * last.bulge);
        *last = Piece {
            start: last.start,
            end: image(last.start),
            bulge,
        };
        other.remove(0);
    }
    pieces.append(&mut other);
}

/// tan(π / 8): the bulge of a quarter turn, which doubled is half a turn.
const HALF_TURN_AFTER_DOUBLING: f64 = std::f64::consts::SQRT_2 - 1.0;

/// A part of a curve with monotone curvature, run forward or backward, by a parameter from 0 to 1.
struct Stretch<'a> {
    curve: &'a dyn Curve,
    from: f64,
    to: f64,
    backward: bool,
}

/// Two arcs over part of a stretch, and how far they stand off it.
struct Pair {
    arcs: [Piece; 2],
    error: f64,
}

impl Stretch<'_> {
    fn parameter(&self, u: f64) -> f64 {
        let u = if self.backward { 1.0 - u } else { u };
        // Each end is met exactly.
        self.from * (1.0 - u) + self.to * u
    }

    fn point(&self, u: f64) -> Point {
        self.curve.point(self.parameter(u))
    }

    fn tangent(&self, u: f64) -> Vec2 {
        let tangent = self.curve.tangent(self.parameter(u));
        if self.backward { -tangent } else { tangent }
    }

    fn curvature(&self, u: f64) -> f64 {
        let curvature = self.curve.curvature(self.parameter(u));
        if self.backward { -curvature } else { curvature }
    }

    fn fit(&self, tolerance: f64) -> (Vec<Piece>, f64) {
        let mut best = self.march(tolerance);
        // The last pair of a greedy march is short: find the least tolerance that still takes no more pairs.
        let (mut low, mut high) = (0.0, tolerance);
        for _ in 0..EVENING {
            let middle = f64::midpoint(low, high);
            let tried = self.march_within(middle, best.len());
            if let Some(pairs) = tried {
                best = pairs;
                high = middle;
            } else {
                low = middle;
            }
        }
        let error = best.iter().fold(0.0, |worst: f64, pair| worst.max(pair.error));
        (best.iter().flat_map(|pair| pair.arcs).collect(), error)
    }

    fn march(&self, tolerance: f64) -> Vec<Pair> {
        self.march_within(tolerance, usize::MAX).unwrap_or_default()
    }

    /// Pairs of arcs, each as long as the tolerance lets it be; none if more than `most` are needed.
    fn march_within(&self, tolerance: f64, most: usize) -> Option<Vec<Pair>> {
        let mut pairs = Vec::new();
        let mut at = 0.0;
        let mut step = 1.0;
        while at < 1.0 {
            if pairs.len() == most {
                return None;
            }
            let (end, pair) = self.longest(at, step, tolerance);
            step = end - at;
            at = end;
            pairs.push(pair);
        }
        Some(pairs)
    }

    /// The longest pair from `from` that keeps the tolerance; `guess` is a likely length.
    fn longest(&self, from: f64, guess: f64, tolerance: f64) -> (f64, Pair) {
        const ENOUGH: f64 = 1e-4;
        let (mut good, mut bad): (Option<(f64, Pair)>, f64) = (None, 1.0);
        let mut to = (from + guess).min(1.0);
        loop {
            let pair = self.pair(from, to, tolerance);
            let grown = (tolerance / pair.error.max(f64::MIN_POSITIVE)).cbrt();
            let next = from + (to - from) * grown * (1.0 - ENOUGH);
            if pair.error <= tolerance {
                if to >= 1.0 {
                    return (1.0, pair);
                }
                good = Some((to, pair));
            } else {
                bad = to;
            }
            let low = good.as_ref().map_or(from, |g| g.0);
            if let Some(found) = good.take_if(|_| bad - low < ENOUGH * (bad - from)) {
                return found;
            }
            // The error grows as the cube of the length; where that guess has left the bracket, halve it. Until one has
            // failed, the end of the stretch itself is still open.
            to = if next > low && next < bad {
                next
            } else if good.is_some() && bad >= 1.0 && next >= 1.0 {
                1.0
            } else {
                f64::midpoint(low, bad)
            };
        }
    }

    /// The pair of arcs from parameter `from` to `to` whose joint lies on the curve.
    fn pair(&self, from: f64, to: f64, tolerance: f64) -> Pair {
        let (start, end) = (self.point(from), self.point(to));
        let (leaving, arriving) = (self.tangent(from), self.tangent(to));
        let chord = end - start;
        let (theta0, theta1) = (angle(chord, leaving), angle(chord, arriving));
        // At the joint the two chords turn by half the difference; at the ends of the curve by more and by less.
        let excess = |u: f64| {
            let p = self.point(u);
            angle(p - start, end - p) - (theta1 - theta0) / 2.0
        };
        let skew = f64::midpoint(theta0, theta1);
        let inset = (to - from) * 1e-6;
        let joint = if skew.abs() < 1e-13 {
            // As good as one circle: any joint serves.
            f64::midpoint(from, to)
        } else {
            let sign = skew.signum();
            let (a, b) = (from + inset, to - inset);
            let (ya, yb) = (sign * excess(a), sign * excess(b));
            if ya < 0.0 && yb > 0.0 {
                solve_itp(
                    |u| sign * excess(u),
                    a,
                    b,
                    (1e-12 * (to - from)).max(FINEST),
                    1,
                    0.2 / (b - a),
                    ya,
                    yb,
                )
            } else {
                f64::midpoint(from, to)
            }
        };
        let place = self.point(joint);
        let first = Piece {
            start,
            end: place,
            bulge: (angle(leaving, place - start) / 2.0).tan(),
        };
        let second = Piece {
            start: place,
            end,
            bulge: (angle(end - place, arriving) / 2.0).tan(),
        };
        let error =
            self.worst(&first, (from, joint), tolerance)
                .max(self.worst(&second, (joint, to), tolerance));
        Pair {
            arcs: [first, second],
            error,
        }
    }

    /// A bound on the distance of the curve from an arc between two parameters, close enough to tell whether `tolerance` is kept.
    fn worst(&self, arc: &Piece, (from, to): (f64, f64), tolerance: f64) -> f64 {
        let mut bound = f64::INFINITY;
        for samples in SAMPLES {
            let (sampled, bounded) = self.off(arc, (from, to), samples);
            bound = bounded;
            if bounded <= tolerance || sampled > tolerance {
                break;
            }
        }
        bound
    }

    /// The greatest distance of the curve from an arc at so many points, and a bound on it between them.
    ///
    /// The distance e along the curve obeys |e''| ≤ |κ - κ of the arc|, so between samples h apart it exceeds the greater
    /// of them by no more than h²/8 times that; the curvature is monotone, so its greatest stands at an end of each step.
    fn off(&self, arc: &Piece, (from, to): (f64, f64), samples: u32) -> (f64, f64) {
        let circle = arc.circle();
        let off = |p: Point| match circle {
            Some(c) => (p.distance(c.centre) - c.radius).abs(),
            None => ((p - arc.start).cross(arc.end - arc.start) / (arc.end - arc.start).hypot()).abs(),
        };
        let bend = arc.curvature();
        let (mut sampled, mut bounded) = (0.0f64, 0.0f64);
        let mut before = (self.point(from), self.curvature(from));
        for i in 1..=samples {
            let u = from + (to - from) * f64::from(i) / f64::from(samples);
            let here = (self.point(u), self.curvature(u));
            let step = here.0.distance(before.0);
            let between = step * step / 8.0 * (before.1 - bend).abs().max((here.1 - bend).abs());
            sampled = sampled.max(off(here.0));
            bounded = bounded.max(off(here.0) + between).max(off(before.0) + between);
            before = here;
        }
        (sampled, bounded)
    }
}

/// The angle from one direction to another, -π to π.
fn angle(from: Vec2, to: Vec2) -> f64 {
    wrapped(from.cross(to).atan2(from.dot(to)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::HalfEllipse;

    const LUNETTE: HalfEllipse = HalfEllipse {
        half_span: 700.0,
        rise: 400.0,
    };

    /// The greatest distance between arcs and curve, both ways, by close sampling.
    fn sampled(curve: &dyn Curve, path: &Path) -> (f64, f64) {
        let (from, to) = curve.domain();
        let points: Vec<Point> = (0..=40_000)
            .map(|i| curve.point(from + (to - from) * f64::from(i) / 4e4))
            .collect();
        let curve_to_arcs = points
            .iter()
            .step_by(10)
            .map(|&p| path.nearest(p).distance)
            .fold(0.0, f64::max);
        let dense = Path::polyline(&points);
        let arcs_to_curve = path
            .pieces()
            .flat_map(|piece| (0..=10).map(move |i| piece.point_at(f64::from(i) / 10.0)))
            .map(|p| dense.nearest(p).distance)
            .fold(0.0, f64::max);
        (curve_to_arcs, arcs_to_curve)
    }

    #[test]
    fn the_stated_error_bounds_what_is_measured_both_ways() {
        for tolerance in [0.1, 0.02] {
            let fit = fit(&LUNETTE, tolerance);
            let (there, back) = sampled(&LUNETTE, &fit.path);
            assert!(fit.worst_error <= tolerance, "{} > {tolerance}", fit.worst_error);
            assert!(
                there <= fit.worst_error && back <= fit.worst_error + 1e-5,
                "{there} {back} {}",
                fit.worst_error
            );
            assert!(
                there > 0.8 * fit.worst_error,
                "a bound close to the truth: {there} of {}",
                fit.worst_error
            );
        }
    }

    #[test]
    fn a_half_ellipse_takes_few_arcs_tangent_and_symmetric() {
        let fit = fit(&LUNETTE, 0.02);
        let pieces: Vec<Piece> = fit.path.pieces().collect();
        assert!(pieces.len() <= 27, "{} arcs", pieces.len());
        for pair in pieces.windows(2) {
            let turn = angle(pair[0].tangent_at(1.0), pair[1].tangent_at(0.0));
            assert!(turn.abs() < 1e-9, "a kink of {turn}");
        }
        for (left, right) in fit.path.vertices().iter().zip(fit.path.vertices().iter().rev()) {
            assert!(
                (left.point.x + right.point.x).abs() < 1e-9 && (left.point.y - right.point.y).abs() < 1e-9
            );
        }
        assert!(
            (pieces[0].tangent_at(0.0).y - 1.0).abs() < 1e-12,
            "it leaves the springing plumb"
        );
    }

    #[test]
    fn a_circle_given_as_a_curve_comes_back_a_circle() {
        let fit = fit(
            &HalfEllipse {
                half_span: 500.0,
                rise: 500.0,
            },
            0.02,
        );
        assert!(fit.path.pieces().len() <= 4 && fit.worst_error < 1e-9);
    }
}
