//! The upper part of an ellipse whose level axis may stand over or under the springing.

use crate::{Curve, HalfEllipse, Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI};

/// The part of an ellipse over the x axis, centred on the y axis, from left to right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartEllipse {
    /// Its upper half, about its own centre.
    pub half: HalfEllipse,
    /// The height of its centre over the x axis, mm; less than its half height either way.
    pub centre_height: f64,
}

impl PartEllipse {
    /// The parameter at the left springing.
    fn start(&self) -> f64 {
        (-self.centre_height / self.half.rise).asin()
    }

    /// Half of its width along the x axis, mm.
    pub fn half_span(&self) -> f64 {
        self.half.half_span * self.start().cos()
    }
}

impl Curve for PartEllipse {
    fn domain(&self) -> (f64, f64) {
        (self.start(), PI - self.start())
    }

    fn point(&self, t: f64) -> Point {
        let (from, to) = self.domain();
        let (sin, cos) = t.sin_cos();
        // Rounding leaves neither springing off the x axis.
        let y = if t <= from || t >= to {
            0.0
        } else {
            self.centre_height + self.half.rise * sin
        };
        Point::new(-self.half.half_span * cos, y)
    }

    fn derivative(&self, t: f64) -> Vec2 {
        self.half.derivative(t)
    }

    fn curvature(&self, t: f64) -> f64 {
        self.half.curvature(t)
    }

    fn stretches(&self) -> Vec<f64> {
        /// A stretch from the springing to the axis shorter than this, radians, is none.
        const NONE: f64 = 1e-9;
        let (from, to) = self.domain();
        if from < -NONE {
            vec![from, 0.0, FRAC_PI_2, PI, to]
        } else {
            vec![from, FRAC_PI_2, to]
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit;
    use crate::measured::tests::close;

    fn part(centre_height: f64) -> PartEllipse {
        let half = HalfEllipse {
            half_span: 800.0,
            rise: 500.0,
        };
        PartEllipse { half, centre_height }
    }

    #[test]
    fn its_ends_stand_on_the_axis_and_its_arcs_within_the_tolerance() {
        for height in [-200.0, 0.0, 150.0] {
            let curve = part(height);
            let (from, to) = curve.domain();
            let half = 800.0 * (1.0f64 - (height / 500.0).powi(2)).sqrt();
            close(curve.half_span(), half, 1e-9);
            close(curve.point(from).x, -half, 1e-9);
            close(curve.point(to).x, half, 1e-9);
            close(curve.point(FRAC_PI_2).y, 500.0 + height, 1e-9);
            assert!(fit(&curve, 0.02).worst_error <= 0.02);
        }
    }

    #[test]
    fn its_area_is_that_of_the_whole_half_and_a_strip() {
        // The strip between two levels, by the primitive of √(1 - u²).
        let primitive = |u: f64| (u * (1.0f64 - u * u).sqrt() + u.asin()) / 2.0;
        let strip = 2.0 * 800.0 * 500.0 * primitive(0.3);
        close(
            part(150.0).area_above_axis(),
            PI * 800.0 * 500.0 / 2.0 + strip,
            1e-6,
        );
        close(
            part(-150.0).area_above_axis(),
            PI * 800.0 * 500.0 / 2.0 - strip,
            1e-6,
        );
    }
}
