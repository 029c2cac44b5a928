//! Ellipses with level axes: the upper half, and the whole.

use crate::{Curve, Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

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

/// A whole ellipse about the origin, from its left end over the top and back underneath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ellipse {
    /// The half axis along x, mm.
    pub half_width: f64,
    /// The half axis along y, mm.
    pub half_height: f64,
}

impl Ellipse {
    const fn upper(&self) -> HalfEllipse {
        HalfEllipse {
            half_span: self.half_width,
            rise: self.half_height,
        }
    }
}

impl Curve for Ellipse {
    fn domain(&self) -> (f64, f64) {
        (0.0, TAU)
    }

    fn point(&self, t: f64) -> Point {
        // The lower half is the upper one turned by a half turn, so that both meet exactly at the ends.
        if t <= PI {
            self.upper().point(t)
        } else {
            let opposite = self.upper().point(t - PI);
            Point::new(-opposite.x, -opposite.y)
        }
    }

    fn derivative(&self, t: f64) -> Vec2 {
        self.upper().derivative(t)
    }

    fn curvature(&self, t: f64) -> f64 {
        self.upper().curvature(t)
    }

    fn stretches(&self) -> Vec<f64> {
        vec![0.0, FRAC_PI_2, PI, 3.0 * FRAC_PI_2, TAU]
    }

    /// The height of the upper half.
    fn height_at(&self, x: f64) -> Option<f64> {
        self.upper().height_at(x)
    }
}
