//! A parabola with a plumb axis.

use crate::{Curve, Point, Vec2};

/// A parabola over the x axis, from left to right: y = r (1 - x²/a²). Its parameter is x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parabola {
    /// Half its width at the axis, mm.
    pub half_span: f64,
    /// The height of its vertex, mm.
    pub rise: f64,
}

impl Curve for Parabola {
    fn domain(&self) -> (f64, f64) {
        (-self.half_span, self.half_span)
    }

    fn point(&self, x: f64) -> Point {
        let a = self.half_span;
        Point::new(x, self.rise * ((a - x) / a) * ((a + x) / a))
    }

    fn derivative(&self, x: f64) -> Vec2 {
        Vec2::new(1.0, -2.0 * self.rise * x / (self.half_span * self.half_span))
    }

    fn curvature(&self, x: f64) -> f64 {
        let bend = -2.0 * self.rise / (self.half_span * self.half_span);
        bend / self.derivative(x).hypot().powi(3)
    }

    fn stretches(&self) -> Vec<f64> {
        vec![-self.half_span, 0.0, self.half_span]
    }

    fn height_at(&self, x: f64) -> Option<f64> {
        (x.abs() <= self.half_span).then(|| self.point(x).y)
    }
}
