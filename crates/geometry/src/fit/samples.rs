//! Places on a curve at which the search looks at it.

use crate::{Curve, Point};

/// To an arc of the shortest chain.
const TO_AN_ARC: f64 = 24.0;

/// To a radian that the curve turns by: where it is as good as a circle, no other number asks for any.
const TO_A_RADIAN: f64 = 10.0;

/// To a stretch of rising or falling curvature, besides.
const TO_A_STRETCH: f64 = 8.0;

/// Steps by which each stretch is gone along to share out its places.
const STEPS: u32 = 128;

/// Arcs of the shortest chain are 0.2002 ∫ |dκ/ds|^(1/3) ds / e^(1/3), for tolerance e.
const LEAST: f64 = 0.2002;

/// Two ends of stretches nearer than this share of the curve are one.
const ONE_END: f64 = 1e-9;

/// Places on a curve in order, close where an arc must be short.
#[derive(Debug)]
pub(super) struct Samples<'a> {
    pub(super) curve: &'a dyn Curve,
    pub(super) parameters: Vec<f64>,
    pub(super) points: Vec<Point>,
    /// Which of them is at the end of the part that is fitted; those beyond only tell how far an arc would reach.
    pub(super) last: usize,
}

impl<'a> Samples<'a> {
    /// Of the whole curve, with one at `end` and one at every end of a stretch.
    pub(super) fn of(curve: &'a dyn Curve, end: f64, tolerance: f64) -> Self {
        let (from, to) = curve.domain();
        let mut ends = curve.stretches();
        ends.retain(|t| (t - end).abs() > ONE_END * (to - from));
        ends.push(end);
        ends.sort_by(f64::total_cmp);
        let mut parameters = vec![ends[0]];
        for pair in ends.windows(2) {
            share_out(curve, (pair[0], pair[1]), tolerance, &mut parameters);
        }
        Self {
            curve,
            points: parameters.iter().map(|&t| curve.point(t)).collect(),
            last: parameters.partition_point(|&t| t < end),
            parameters,
        }
    }
}

/// Adds the parameters of the places after `from` up to `to`, between which the curvature only rises or only falls.
fn share_out(curve: &dyn Curve, (from, to): (f64, f64), tolerance: f64, parameters: &mut Vec<f64>) {
    let at = |step: f64| from + (to - from) * step / f64::from(STEPS);
    let mut before = (curve.point(from), curve.curvature(from));
    let mut wanted = vec![0.0];
    let mut sum = 0.0;
    for step in 1..=STEPS {
        let t = at(f64::from(step));
        let here = (curve.point(t), curve.curvature(t));
        let length = here.0.distance(before.0);
        let arcs = LEAST * (here.1 - before.1).abs().cbrt() * length.powf(2.0 / 3.0) / tolerance.cbrt();
        let turn = f64::midpoint(here.1.abs(), before.1.abs()) * length;
        sum += TO_AN_ARC * arcs + TO_A_RADIAN * turn + TO_A_STRETCH / f64::from(STEPS);
        wanted.push(sum);
        before = here;
    }
    let count = sum.ceil();
    let (mut step, mut passed, mut number) = (0usize, 0.0, 1.0);
    while number < count {
        let target = sum * number / count;
        while wanted[step + 1] < target {
            step += 1;
            passed += 1.0;
        }
        let share = (target - wanted[step]) / (wanted[step + 1] - wanted[step]);
        parameters.push(at(passed + share));
        number += 1.0;
    }
    parameters.push(to);
}
