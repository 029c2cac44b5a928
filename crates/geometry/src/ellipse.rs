//! The upper half of an ellipse with level axes.

use crate::{Curve, Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI};

/// The upper half of an ellipse about the origin, from left to right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HalfEllipse {
    /// The half axis along x, mm.
    pub half_span: f64,
    /// The half axis along y, mm.
    pub rise: f64,
}

impl Curve for HalfEllipse {
    fn domain(&self) -> (f64, f64) {
        (0.0, PI)
    }

    fn point(&self, t: f64) -> Point {
        let (sin, cos) = t.sin_cos();
        // The sine of π itself is not quite 0 in floating point; the springing is.
        let sin = if t >= PI { 0.0 } else { sin };
        Point::new(-self.half_span * cos, self.rise * sin)
    }

    fn derivative(&self, t: f64) -> Vec2 {
        let (sin, cos) = t.sin_cos();
        Vec2::new(self.half_span * sin, self.rise * cos)
    }

    fn curvature(&self, t: f64) -> f64 {
        -self.half_span * self.rise / self.derivative(t).hypot().powi(3)
    }

    fn stretches(&self) -> Vec<f64> {
        vec![0.0, FRAC_PI_2, PI]
    }
}
