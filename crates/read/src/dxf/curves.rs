//! ELLIPSE and SPLINE as tangent arcs. All in the file's own unit.

mod nurbs;

use super::flat;
use crate::drawing::FARTHEST;
use cintre_geometry::{Curve, Outline, Path, Piece, Point, Vec2, Vertex, fit};
use nurbs::Spline;
use std::f64::consts::{FRAC_PI_2, TAU};

/// Whether it is closed, its vertices, and how far these stand off the curve at most.
pub(super) type Fitted = Result<(bool, Vec<Vertex>, f64), String>;

/// A flatter ellipse than this is a slip, not an arch.
const FLATTEST: f64 = 0.001;

/// An ellipse whose axes differ by less than this share is a circle: that is the rounding of a file's last digit.
const CIRCULAR: f64 = 1e-12;
/// Angles that differ by less are the same, radians: files round a full turn so.
const SAME_TURN: f64 = 1e-6;

/// An elliptical arc.
#[derive(Debug)]
struct Elliptic {
    centre: Point,
    /// From the centre to the curve along one axis and along the other, a quarter turn to the left.
    axes: [Vec2; 2],
    from: f64,
    to: f64,
}

impl Curve for Elliptic {
    fn domain(&self) -> (f64, f64) {
        (self.from, self.to)
    }

    fn point(&self, t: f64) -> Point {
        self.centre + self.axes[0] * t.cos() + self.axes[1] * t.sin()
    }

    fn derivative(&self, t: f64) -> Vec2 {
        self.axes[1] * t.cos() - self.axes[0] * t.sin()
    }

    /// a b / |derivative|³, of half axes a and b.
    fn curvature(&self, t: f64) -> f64 {
        self.axes[0].cross(self.axes[1]) / self.derivative(t).hypot().powi(3)
    }

    /// The curvature turns about on the axes.
    fn stretches(&self) -> Vec<f64> {
        let mut all = vec![self.from];
        let mut axis = (self.from / FRAC_PI_2).floor() * FRAC_PI_2;
        while axis < self.to - SAME_TURN {
            if axis > self.from + SAME_TURN {
                all.push(axis);
            }
            axis += FRAC_PI_2;
        }
        all.push(self.to);
        all
    }
}

pub(super) fn ellipse(e: &dxf::entities::Ellipse, tolerance: f64) -> Fitted {
    flat(&e.normal, &[e.center.z, e.major_axis.z])?;
    let axis = Vec2::new(e.major_axis.x, e.major_axis.y);
    let numbers = [e.center.x, e.center.y, axis.x, axis.y];
    let sound = numbers.iter().all(|n| n.abs() < FARTHEST) && axis.hypot() > tolerance;
    if !sound || !(FLATTEST..=1.0).contains(&e.minor_axis_ratio) {
        return Err(format!(
            "an ellipse of half axis {} and ratio {}",
            axis.hypot(),
            e.minor_axis_ratio
        ));
    }
    let (from, to) = (e.start_parameter, e.end_parameter);
    let angles = from.abs() <= 2.0 * TAU && to.abs() <= 2.0 * TAU;
    let sweep = (to - from).rem_euclid(TAU);
    let whole = !(SAME_TURN..=TAU - SAME_TURN).contains(&sweep);
    if !angles || (whole && (to - from).abs() < SAME_TURN) {
        return Err(format!("an ellipse from {from} to {to}"));
    }
    let centre = Point::new(e.center.x, e.center.y);
    if 1.0 - e.minor_axis_ratio < CIRCULAR {
        return Ok(if whole {
            (
                true,
                Outline::circle(centre, axis.hypot()).vertices().to_vec(),
                0.0,
            )
        } else {
            let start = centre + Vec2::from_angle(axis.atan2() + from) * axis.hypot();
            let path = Path::from_pieces(&[Piece::arc(centre, start, sweep)]);
            (false, path.vertices().to_vec(), 0.0)
        });
    }
    let curve = Elliptic {
        centre,
        axes: [axis, Vec2::new(-axis.y, axis.x) * e.minor_axis_ratio],
        from,
        to: from + if whole { TAU } else { sweep },
    };
    let fit = fit(&curve, tolerance);
    let mut vertices = fit.path.vertices().to_vec();
    if whole {
        vertices.pop();
    }
    Ok((whole, vertices, fit.worst_error))
}

/// A Bezier curve by its control points.
pub(crate) fn bezier(points: &[Point], tolerance: f64) -> Fitted {
    let degree = points.len().saturating_sub(1);
    let knot = |i: usize| if i < points.len() { 0.0 } else { 1.0 };
    let curve = dxf::entities::Spline {
        degree_of_curve: i32::try_from(degree).unwrap_or(i32::MAX),
        control_points: points.iter().map(|p| dxf::Point::new(p.x, p.y, 0.0)).collect(),
        knot_values: (0..2 * points.len()).map(knot).collect(),
        ..dxf::entities::Spline::default()
    };
    spline(&curve, tolerance)
}

pub(super) fn spline(s: &dxf::entities::Spline, tolerance: f64) -> Fitted {
    let heights: Vec<f64> = s.control_points.iter().map(|p| p.z).collect();
    flat(&s.normal, &heights)?;
    let spline = Spline::new(s)?;
    if let Some(corners) = spline.straight() {
        return Ok((false, Path::polyline(&corners).vertices().to_vec(), 0.0));
    }
    let (mut pieces, mut worst) = (Vec::new(), 0.0f64);
    for run in spline.smooth_runs(tolerance)? {
        let fit = fit(&run, tolerance);
        worst = worst.max(fit.worst_error);
        pieces.extend(fit.path.pieces());
    }
    if pieces.is_empty() {
        return Err("a spline without length".to_owned());
    }
    Ok((false, Path::from_pieces(&pieces).vertices().to_vec(), worst))
}
