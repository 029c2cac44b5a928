//! A smooth curve through measured points: cubic pieces whose direction and bend run on without a break.
//!
//! The parameter is the length along the straight lines from point to point. At both ends the first two pieces are one cubic, so
//! that the curve keeps there the bend that its own points give it, instead of running out straight.

use super::error::{FitError, checked};
use super::roots::{plus, roots, slope, times, value};
use crate::{Curve, Point, Vec2};

/// Places nearer than this along the curve are one, mm: a stretch so short could not be told on any drawing.
const SAME_PLACE: f64 = 0.01;

/// A smooth curve through points, from the left to the right.
#[derive(Clone, Debug, PartialEq)]
pub struct SmoothCurve {
    spans: Vec<Span>,
    from: f64,
    to: f64,
    stretches: Vec<f64>,
}

/// One cubic, by the parameter counted from its own start; coefficients from the constant up.
#[derive(Clone, Debug, PartialEq)]
struct Span {
    from: f64,
    length: f64,
    x: [f64; 4],
    y: [f64; 4],
}

/// A curve cut at its springing.
#[derive(Clone, Debug)]
pub(super) struct Cut {
    /// It, about the middle of its springing line.
    pub(super) curve: SmoothCurve,
    pub(super) span: f64,
    pub(super) rise: f64,
    /// Where the middle of the springing line was.
    pub(super) origin: Point,
}

/// The smooth curve through four points or more, each to the right of the one before.
pub fn curve_through(points: &[Point]) -> Result<SmoothCurve, FitError> {
    checked(points, "a smooth curve", 4)?;
    if let Some(i) = points.windows(2).position(|pair| pair[1].x <= pair[0].x) {
        return Err(FitError::OutOfOrder { point: i + 2 });
    }
    let lengths: Vec<f64> = points.windows(2).map(|pair| pair[0].distance(pair[1])).collect();
    let bends = bends(points, &lengths);
    let mut from = 0.0;
    let spans: Vec<Span> = (0..lengths.len())
        .map(|i| {
            let (h, change) = (lengths[i], points[i + 1] - points[i]);
            let first = change / h - (2.0 * bends[i] + bends[i + 1]) * (h / 6.0);
            let third = (bends[i + 1] - bends[i]) / (6.0 * h);
            let start = from;
            from += h;
            Span {
                from: start,
                length: h,
                x: [points[i].x, first.x, bends[i].x / 2.0, third.x],
                y: [points[i].y, first.y, bends[i].y / 2.0, third.y],
            }
        })
        .collect();
    Ok(SmoothCurve::new(spans, 0.0, from))
}

/// The second derivatives at the points: the tridiagonal equations of a cubic spline, solved from the left and back.
fn bends(points: &[Point], h: &[f64]) -> Vec<Vec2> {
    let inner = points.len() - 2;
    let secant = |i: usize| (points[i + 1] - points[i]) / h[i];
    // Row k of the inner points: below, on and above the diagonal, and the right side.
    let mut rows: Vec<(f64, f64, f64, Vec2)> = (0..inner)
        .map(|k| {
            (
                h[k],
                2.0 * (h[k] + h[k + 1]),
                h[k + 1],
                6.0 * (secant(k + 1) - secant(k)),
            )
        })
        .collect();
    // One cubic over both end pieces: the bend at the end lies in line with the next two.
    let last = h.len() - 1;
    let (start, end) = (h[0] / h[1], h[last] / h[last - 1]);
    rows[0].1 += h[0] * (1.0 + start);
    rows[0].2 -= h[0] * start;
    rows[inner - 1].1 += h[last] * (1.0 + end);
    rows[inner - 1].0 -= h[last] * end;
    for k in 1..inner {
        let share = rows[k].0 / rows[k - 1].1;
        rows[k].1 -= share * rows[k - 1].2;
        rows[k].3 = rows[k].3 - rows[k - 1].3 * share;
    }
    let mut found = vec![Vec2::ZERO; inner + 2];
    for k in (0..inner).rev() {
        let beyond = if k + 1 == inner {
            Vec2::ZERO
        } else {
            found[k + 2] * rows[k].2
        };
        found[k + 1] = (rows[k].3 - beyond) / rows[k].1;
    }
    found[0] = found[1] + (found[1] - found[2]) * start;
    found[inner + 1] = found[inner] + (found[inner] - found[inner - 1]) * end;
    found
}

impl Span {
    fn end(&self) -> f64 {
        self.from + self.length
    }

    /// How the curvature changes: the upper part of its derivative, which alone can be 0.
    fn curvature_slope(&self) -> Vec<f64> {
        let (x1, y1) = (slope(&self.x), slope(&self.y));
        let (x2, y2) = (slope(&x1), slope(&y1));
        let (x3, y3) = (slope(&x2), slope(&y2));
        let turn = self.turn();
        let turning = plus(&times(&x1, &y3), -1.0, &times(&y1, &x3));
        let speed = plus(&times(&x1, &x1), 1.0, &times(&y1, &y1));
        let along = plus(&times(&x1, &x2), 1.0, &times(&y1, &y2));
        plus(&times(&turning, &speed), -3.0, &times(&turn, &along))
    }

    /// The cross product of the first and second derivative, 0 where the curve bends neither way.
    fn turn(&self) -> Vec<f64> {
        let (x1, y1) = (slope(&self.x), slope(&self.y));
        plus(&times(&x1, &slope(&y1)), -1.0, &times(&y1, &slope(&x1)))
    }
}

impl SmoothCurve {
    fn new(spans: Vec<Span>, from: f64, to: f64) -> Self {
        let mut curve = Self {
            spans,
            from,
            to,
            stretches: Vec::new(),
        };
        curve.stretches = curve.monotone();
        curve
    }

    /// The span that holds a parameter, the first and last running on beyond their ends, and the parameter within it.
    fn at(&self, t: f64) -> (&Span, f64) {
        let after = self.spans.partition_point(|span| span.from <= t);
        let span = &self.spans[after.saturating_sub(1)];
        (span, t - span.from)
    }

    /// Where the curvature is greatest and least, and where it is 0.
    fn monotone(&self) -> Vec<f64> {
        let mut bounds = vec![(self.from, false)];
        for (i, span) in self.spans.iter().enumerate() {
            let low = if i == 0 { self.from } else { span.from };
            let high = if i + 1 == self.spans.len() {
                self.to
            } else {
                span.end()
            };
            let found = |polynomial: &[f64]| roots(polynomial, low - span.from, high - span.from);
            bounds.push((low, false));
            bounds.extend(
                found(&span.curvature_slope())
                    .iter()
                    .map(|t| (span.from + t, false)),
            );
            bounds.extend(found(&span.turn()).iter().map(|t| (span.from + t, true)));
        }
        bounds.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut apart: Vec<(f64, bool)> = vec![(self.from, false)];
        for bound in bounds {
            let before = apart[apart.len() - 1].0;
            if bound.0 - before > SAME_PLACE && self.to - bound.0 > SAME_PLACE {
                apart.push(bound);
            }
        }
        apart.push((self.to, false));
        let bend: Vec<f64> = apart.iter().map(|bound| self.curvature(bound.0)).collect();
        let turns = |i: usize| (bend[i] - bend[i - 1]) * (bend[i + 1] - bend[i]) < 0.0;
        let kept = |i: usize| i == 0 || i + 1 == apart.len() || apart[i].1 || turns(i);
        (0..apart.len())
            .filter(|&i| kept(i))
            .map(|i| apart[i].0)
            .collect()
    }

    /// The curve over the level of its lower end, the first or last cubic run on to where the other end comes down to it.
    pub(super) fn cut(&self) -> Result<Cut, FitError> {
        let (left, right) = (self.point(self.from), self.point(self.to));
        let level = left.y.min(right.y);
        let below = (left.y - right.y).abs();
        let missing = FitError::NoSpringing { below };
        let crossing = |span: &Span, from: f64, to: f64| -> Vec<f64> {
            let over = plus(&span.y, -1.0, &[level]);
            roots(&over, from, to).iter().map(|t| span.from + t).collect()
        };
        let (first, last) = (&self.spans[0], &self.spans[self.spans.len() - 1]);
        let (mut from, mut to) = (self.from, self.to);
        // A shade of the piece itself is searched too, for ends that are level but for rounding.
        if left.y > level {
            let found = crossing(first, -first.length, SAME_PLACE);
            from = *found.last().ok_or_else(|| missing.clone())?;
        }
        if right.y > level {
            let found = crossing(last, last.length - SAME_PLACE, 2.0 * last.length);
            to = *found.first().ok_or(missing)?;
        }
        let (start, end) = (self.point(from), self.point(to));
        let origin = Point::new(f64::midpoint(start.x, end.x), level);
        let moved = self.spans.iter().cloned().map(|mut span| {
            span.x[0] -= origin.x;
            span.y[0] -= level;
            span
        });
        let curve = Self::new(moved.collect(), from, to);
        Ok(Cut {
            rise: curve.crown(),
            curve,
            span: end.x - start.x,
            origin,
        })
    }

    /// The greatest height.
    fn crown(&self) -> f64 {
        let heights = self.spans.iter().flat_map(|span| {
            let tops = roots(&slope(&span.y), 0.0, span.length);
            let places = [0.0, span.length].into_iter().chain(tops);
            places.map(|t| value(&span.y, t)).collect::<Vec<_>>()
        });
        heights.fold(0.0, f64::max)
    }
}

impl Curve for SmoothCurve {
    fn domain(&self) -> (f64, f64) {
        (self.from, self.to)
    }

    fn point(&self, t: f64) -> Point {
        let (span, t) = self.at(t);
        Point::new(value(&span.x, t), value(&span.y, t))
    }

    fn derivative(&self, t: f64) -> Vec2 {
        let (span, t) = self.at(t);
        Vec2::new(value(&slope(&span.x), t), value(&slope(&span.y), t))
    }

    fn curvature(&self, t: f64) -> f64 {
        let derivative = self.derivative(t);
        let (span, t) = self.at(t);
        value(&span.turn(), t) / derivative.hypot().powi(3)
    }

    fn stretches(&self) -> Vec<f64> {
        self.stretches.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit;
    use crate::measured::tests::{WEAVING, close, points};
    use proptest::prelude::*;

    /// The parameter's step beside which derivatives are held against differences.
    const STEP: f64 = 1e-4;

    fn steps(curve: &SmoothCurve) -> impl Iterator<Item = f64> {
        let (from, to) = curve.domain();
        (1..200).map(move |i| from + (to - from) * f64::from(i) / 200.0)
    }

    #[test]
    fn it_goes_through_its_points_without_a_kink() {
        let given = points(&WEAVING);
        let curve = curve_through(&given).unwrap();
        for (span, p) in curve.spans.iter().zip(&given) {
            assert!(curve.point(span.from).distance(*p) < 1e-9);
        }
        for pair in curve.spans.windows(2) {
            let (before, after) = (pair[1].from - 1e-9, pair[1].from);
            close(curve.tangent(before).atan2(), curve.tangent(after).atan2(), 1e-9);
            close(curve.curvature(before), curve.curvature(after), 1e-9);
        }
        let off = curve.point(curve.to).distance(given[10]);
        assert!(off < 1e-9, "{off}");
    }

    #[test]
    fn between_its_stretches_the_curvature_only_rises_or_only_falls() {
        let curve = curve_through(&points(&WEAVING)).unwrap();
        for ends in curve.stretches().windows(2) {
            let at = |i: i32| curve.curvature(ends[0] + (ends[1] - ends[0]) * f64::from(i) / 100.0);
            let signs: Vec<bool> = (1..100).map(|i| at(i + 1) > at(i)).collect();
            assert!(signs.iter().all(|&up| up == signs[0]), "{ends:?}");
        }
    }

    #[test]
    fn its_derivatives_are_those_of_its_points() {
        let curve = curve_through(&points(&WEAVING)).unwrap();
        for t in steps(&curve) {
            let difference = (curve.point(t + STEP) - curve.point(t - STEP)) / (2.0 * STEP);
            assert!((difference - curve.derivative(t)).hypot() < 1e-6, "{t}");
            let turn = curve.tangent(t - STEP).cross(curve.tangent(t + STEP));
            let bend = turn / (2.0 * STEP) / curve.derivative(t).hypot();
            close(bend, curve.curvature(t), 1e-6);
        }
    }

    #[test]
    fn a_circle_is_followed_closely_to_its_ends() {
        let circle = |degrees: f64| Point::new(0.0, -600.0) + Vec2::from_angle(degrees.to_radians()) * 1000.0;
        let taken: Vec<Point> = (0..=10).map(|i| circle(140.0 - 10.0 * f64::from(i))).collect();
        let curve = curve_through(&taken).unwrap();
        let off = |t: f64| (curve.point(t).distance(Point::new(0.0, -600.0)) - 1000.0).abs();
        let worst = steps(&curve).map(off).fold(0.0, f64::max);
        assert!(worst < 0.05, "{worst} mm off the circle");
    }

    #[test]
    fn points_out_of_order_are_named() {
        let error = |given: &[(f64, f64)]| curve_through(&points(given)).unwrap_err();
        let back = error(&[(0.0, 0.0), (100.0, 90.0), (80.0, 95.0), (200.0, 0.0)]);
        assert_eq!(back, FitError::OutOfOrder { point: 3 });
        let twice = error(&[(0.0, 0.0), (100.0, 90.0), (100.0, 90.0), (200.0, 0.0)]);
        assert!(
            matches!(
                twice,
                FitError::Repeated {
                    first: 2,
                    second: 3,
                    ..
                }
            ),
            "{twice}"
        );
        let few = error(&[(0.0, 0.0), (100.0, 90.0), (200.0, 0.0)]);
        assert!(matches!(few, FitError::TooFew { given: 3, .. }), "{few}");
    }

    #[test]
    fn ends_out_of_level_are_cut_at_the_lower_one() {
        let given = points(&[
            (-500.0, 4.0),
            (-250.0, 160.0),
            (0.0, 200.0),
            (250.0, 158.0),
            (500.0, 0.0),
        ]);
        let cut = curve_through(&given).unwrap().cut().unwrap();
        let (start, end) = (cut.curve.point(cut.curve.from), cut.curve.point(cut.curve.to));
        close(start.y, 0.0, 1e-9);
        close(end.y, 0.0, 1e-9);
        close(start.x, -end.x, 1e-9);
        close(end.x + cut.origin.x, 500.0, 1e-9);
        assert!(cut.span > 1000.0 && cut.span < 1010.0, "{}", cut.span);
        close(cut.rise, 200.0, 0.3);
        let far = points(&[
            (-500.0, 190.0),
            (-250.0, 200.0),
            (0.0, 210.0),
            (250.0, 158.0),
            (500.0, 0.0),
        ]);
        let error = curve_through(&far).unwrap().cut().unwrap_err();
        assert!(matches!(error, FitError::NoSpringing { .. }), "{error}");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]
        #[test]
        fn tangent_arcs_keep_their_word_along_it(
            weave in prop::collection::vec(-6.0f64..6.0, 5..14),
            rise in 80.0f64..500.0,
        ) {
            let last = f64::from(u32::try_from(weave.len() - 1).unwrap());
            let taken: Vec<Point> = weave.iter().zip(0u32..).map(|(off, i)| {
                let share = 2.0 * f64::from(i) / last - 1.0;
                Point::new(600.0 * share, rise * (1.0 - share * share) + off)
            }).collect();
            let curve = curve_through(&taken).unwrap();
            let fitted = fit(&curve, 0.02);
            prop_assert!(fitted.worst_error <= 0.02);
            for t in steps(&curve) {
                prop_assert!(fitted.path.nearest(curve.point(t)).distance <= fitted.worst_error + 1e-9);
            }
            for pair in fitted.path.pieces().collect::<Vec<_>>().windows(2) {
                let turn = pair[0].tangent_at(1.0).cross(pair[1].tangent_at(0.0));
                prop_assert!(turn.abs() < 1e-8, "a kink of {turn}");
            }
        }
    }
}
