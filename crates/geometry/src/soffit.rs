//! The line of an arch, as it is known: arcs and lines, or an exact curve.

use crate::{Curve, Fit, Outline, Path, Point, fit};
use std::sync::Arc;

/// The under line of an arch, from the left springing to the right; a closed one runs from its left end over the top
/// and back underneath.
#[derive(Clone, Debug)]
pub enum Soffit {
    /// Lines and circular arcs.
    Path(Path),
    /// A curve that is not circular.
    Curve(Arc<dyn Curve>),
}

impl Soffit {
    /// The left springing.
    pub fn start(&self) -> Point {
        match self {
            Self::Path(path) => path.start(),
            Self::Curve(curve) => curve.point(curve.domain().0),
        }
    }

    /// The right springing.
    pub fn end(&self) -> Point {
        match self {
            Self::Path(path) => path.end(),
            Self::Curve(curve) => curve.point(curve.domain().1),
        }
    }

    /// Its length, mm.
    pub fn length(&self) -> f64 {
        match self {
            Self::Path(path) => path.length(),
            Self::Curve(curve) => curve.length(),
        }
    }

    /// The area between it and the level line through the left springing, mm²; all of the inside of a closed one.
    pub fn area(&self) -> f64 {
        match self {
            Self::Path(path) => {
                // Closed by the straight line from springing to springing, and what lies under that.
                let (start, end) = (path.start(), path.end());
                let under = (end.x - start.x) * (end.y - start.y) / 2.0;
                under - Outline::closing(path).area()
            }
            Self::Curve(curve) => curve.area_above_axis(),
        }
    }

    /// Its height over `x`, the highest where it stands over `x` more than once; none beyond its ends.
    pub fn height_at(&self, x: f64) -> Option<f64> {
        match self {
            Self::Curve(curve) => curve.height_at(x),
            Self::Path(path) => path
                .pieces()
                .filter_map(|piece| piece.highest_at(x))
                .max_by(f64::total_cmp),
        }
    }

    /// The least radius with which it turns round the opening, mm, infinite where it nowhere does: a parallel inwards, of a leaf or a
    /// bead, ends there.
    pub fn least_radius(&self) -> f64 {
        let radii: Vec<f64> = match self {
            Self::Path(path) => {
                let round = path.pieces().filter(|arc| arc.bulge < 0.0);
                round.filter_map(|arc| arc.circle()).map(|c| c.radius).collect()
            }
            // Between the ends of its stretches the curvature only grows or only falls.
            Self::Curve(curve) => {
                let bends = curve.stretches().into_iter().map(|t| curve.curvature(t));
                bends.filter(|bend| *bend < 0.0).map(|bend| -1.0 / bend).collect()
            }
        };
        radii.into_iter().fold(f64::INFINITY, f64::min)
    }

    /// The soffit as tangent arcs, nowhere farther off than `tolerance` mm; exact where it is arcs already.
    pub fn fit(&self, tolerance: f64) -> Fit {
        match self {
            Self::Path(path) => Fit {
                path: path.clone(),
                worst_error: 0.0,
            },
            Self::Curve(curve) => fit(curve.as_ref(), tolerance),
        }
    }
}
