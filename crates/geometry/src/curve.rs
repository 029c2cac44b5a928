//! Curves that are not circular, kept exact until a form makes a part of tangent arcs.

use crate::{Point, Vec2};
use kurbo::common::{GAUSS_LEGENDRE_COEFFS_16, solve_itp};
use std::fmt::Debug;

/// How exactly lengths and areas of curves are summed, relative.
const QUADRATURE: f64 = 1e-13;

/// An exact plane curve, open or back to its start, with a parameter that runs evenly enough for the curve to be smooth in it.
pub trait Curve: Debug + Send + Sync {
    /// The parameter at the start and at the end.
    fn domain(&self) -> (f64, f64);

    /// The point at a parameter.
    fn point(&self, t: f64) -> Point;

    /// The derivative of the point by the parameter, never zero.
    fn derivative(&self, t: f64) -> Vec2;

    /// Signed curvature, 1/mm, positive when the curve turns to the left.
    fn curvature(&self, t: f64) -> f64;

    /// The parameters between which the curvature only grows or only falls, in order, the ends of the domain included.
    fn stretches(&self) -> Vec<f64>;

    /// The direction of travel, of length 1.
    fn tangent(&self, t: f64) -> Vec2 {
        self.derivative(t).normalize()
    }

    /// The length, mm, by adaptive quadrature.
    fn length(&self) -> f64 {
        self.stretches()
            .windows(2)
            .map(|s| integral(&|t| self.derivative(t).hypot(), s[0], s[1]))
            .sum()
    }

    /// The area between the curve and the x axis, mm², by adaptive quadrature; all of the inside of a closed one.
    fn area_above_axis(&self) -> f64 {
        self.stretches()
            .windows(2)
            .map(|s| integral(&|t| self.point(t).y * self.derivative(t).x, s[0], s[1]))
            .sum()
    }

    /// The height over `x`, of a curve that runs from left to right; none beyond its ends.
    fn height_at(&self, x: f64) -> Option<f64> {
        let (from, to) = self.domain();
        let (left, right) = (self.point(from).x - x, self.point(to).x - x);
        if left > 0.0 || right < 0.0 {
            return None;
        }
        // As fine as parameters of this size can be told apart, and no finer, or the search never ends.
        let finest = 4.0 * f64::EPSILON * from.abs().max(to.abs());
        let t = solve_itp(
            |t| self.point(t).x - x,
            from,
            to,
            finest,
            1,
            0.2 / (to - from),
            left,
            right,
        );
        Some(self.point(t).y)
    }
}

/// The integral of `f`, by sixteen-point Gauss-Legendre sums, halved until two halves agree with the whole.
fn integral(f: &dyn Fn(f64) -> f64, from: f64, to: f64) -> f64 {
    /// The integrands are smooth: a stretch of the least radius met in building is good after six halvings or so.
    const DEEPEST: usize = 24;
    fn halved(f: &dyn Fn(f64) -> f64, from: f64, to: f64, whole: f64, depth: usize) -> f64 {
        let middle = f64::midpoint(from, to);
        let (left, right) = (gauss(f, from, middle), gauss(f, middle, to));
        if depth == DEEPEST || (left + right - whole).abs() <= QUADRATURE * (left.abs() + right.abs()) {
            return left + right;
        }
        halved(f, from, middle, left, depth + 1) + halved(f, middle, to, right, depth + 1)
    }
    halved(f, from, to, gauss(f, from, to), 0)
}

fn gauss(f: &dyn Fn(f64) -> f64, from: f64, to: f64) -> f64 {
    let (middle, half) = (f64::midpoint(from, to), (to - from) / 2.0);
    half * GAUSS_LEGENDRE_COEFFS_16
        .iter()
        .map(|&(weight, node)| weight * f(middle + half * node))
        .sum::<f64>()
}
