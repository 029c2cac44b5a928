//! A hanging chain turned over: the catenary.

use crate::{Curve, Point, Vec2};

/// Newton's steps to the last digit: each doubles the digits once near, and a tall chain takes a few more.
const MOST_STEPS: usize = 60;

/// A catenary over the x axis, from left to right: y = r - c (cosh(x/c) - 1). Its parameter is the length from the crown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chain {
    half_span: f64,
    rise: f64,
    parameter: f64,
}

impl Chain {
    /// The catenary over `half_span` to each side that rises by `rise`, mm.
    ///
    /// With u = a/c the rise is 2a sinh²(u/2) / u, a sum of rising powers of u: from above, Newton's steps only fall.
    pub fn over(half_span: f64, rise: f64) -> Self {
        let slope = rise / half_span;
        let excess = |u: f64| 2.0 * (u / 2.0).sinh().powi(2) / u - slope;
        let growth = |u: f64| (u.sinh() - 2.0 * (u / 2.0).sinh().powi(2) / u) / u;
        // u/2 ≤ r/a, so sinh²(u/2) = (u/2) r/a is no more than the square of r/a.
        let mut u = 2.0 * slope.asinh();
        for _ in 0..MOST_STEPS {
            let next = u - excess(u) / growth(u);
            if next >= u {
                break;
            }
            u = next;
        }
        Self {
            half_span,
            rise,
            parameter: half_span / u,
        }
    }

    /// The length c of the equation: the radius of curvature at the crown, mm.
    pub const fn parameter(&self) -> f64 {
        self.parameter
    }

    fn half_length(&self) -> f64 {
        self.parameter * (self.half_span / self.parameter).sinh()
    }
}

impl Curve for Chain {
    fn domain(&self) -> (f64, f64) {
        (-self.half_length(), self.half_length())
    }

    fn point(&self, s: f64) -> Point {
        let c = self.parameter;
        // The ends are the springings, whatever the rounding.
        if s.abs() >= self.half_length() {
            return Point::new(self.half_span.copysign(s), 0.0);
        }
        // c - √(c² + s²) without loss of digits.
        let drop = s * s / (c + c.hypot(s));
        Point::new(c * (s / c).asinh(), self.rise - drop)
    }

    fn derivative(&self, s: f64) -> Vec2 {
        Vec2::new(self.parameter, -s) / self.parameter.hypot(s)
    }

    fn curvature(&self, s: f64) -> f64 {
        -self.parameter / (self.parameter * self.parameter + s * s)
    }

    fn stretches(&self) -> Vec<f64> {
        let (from, to) = self.domain();
        vec![from, 0.0, to]
    }

    fn height_at(&self, x: f64) -> Option<f64> {
        let c = self.parameter;
        (x.abs() <= self.half_span).then(|| self.rise - 2.0 * c * (x / (2.0 * c)).sinh().powi(2))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn flat_or_tall_it_comes_down_to_its_springings() {
        for (half_span, rise) in [(800.0, 900.0), (5000.0, 10.0), (100.0, 20_000.0), (800.0, 0.01)] {
            let chain = Chain::over(half_span, rise);
            let foot = chain.height_at(half_span).unwrap();
            assert!(
                foot.abs() < 1e-9 * rise.max(half_span),
                "{half_span} {rise}: {foot}"
            );
            let near = chain.point(chain.domain().1 * (1.0 - 1e-12));
            assert!((near.x - half_span).abs() < 1e-6 && near.y.abs() < 1e-6 * rise.max(1.0));
        }
    }
}
