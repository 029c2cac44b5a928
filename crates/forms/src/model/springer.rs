//! The blocks that the ring springs from, each with a tenon into the base.

use super::kit::Kit;
use cintre_geometry::{Outline, Point};

/// The tenon's share of a springer's foot.
const TENON: f64 = 0.5;

/// One springer, as it stands in the model.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Springer {
    /// `left` or `right`.
    pub(crate) side: &'static str,
    /// Its edge, counter-clockwise, its tenon below the top of the base.
    pub(crate) outline: Outline,
    /// From where to where along the arch its tenon stands.
    pub(crate) foot: (f64, f64),
    /// From where to where along the arch it stands itself.
    pub(crate) stands: (f64, f64),
}

impl Springer {
    /// The width of its tenon, mm.
    pub(crate) fn tenon(&self) -> f64 {
        self.foot.1 - self.foot.0
    }
}

/// The springers of a model's ring, left and right; none without one.
///
/// Their inner faces stand plumb under the springings, their slanted tops are the skewbacks, and they reach as far behind those as
/// the ring is deep, or a bridge.
pub(crate) fn springers(kit: &Kit<'_>) -> Vec<Springer> {
    let Some(ring) = &kit.input.ring else {
        return Vec::new();
    };
    let at = |p: Point| Point::new(p.x / kit.scale, p.y / kit.scale);
    let sides = [("left", -1.0), ("right", 1.0)].into_iter().zip(ring.skewbacks);
    sides
        .map(|((side, out), (inner, back))| springer(kit, side, out, (at(inner), at(back))))
        .collect()
}

/// One springer; `out` is 1 where outwards is to the right.
fn springer(kit: &Kit<'_>, side: &'static str, out: f64, (inner, back): (Point, Point)) -> Springer {
    let deep = inner.distance(back).max(kit.fit.bridge);
    let face = inner.x;
    let outer = out * (out * face).max(out * back.x) + out * deep / 2.0;
    let (top, tip) = (kit.base(), kit.base() - kit.input.thickness);
    let (middle, half) = (f64::midpoint(face, outer), (outer - face) * TENON / 2.0);
    let (near, far) = (middle - half, middle + half);
    let corners = [
        inner,
        Point::new(face, top),
        Point::new(near, top),
        Point::new(near, tip),
        Point::new(far, tip),
        Point::new(far, top),
        Point::new(outer, top),
        Point::new(outer, back.y),
        back,
    ];
    Springer {
        side,
        outline: Outline::polygon(&corners).oriented(true),
        foot: (near.min(far), near.max(far)),
        stands: (face.min(outer), face.max(outer)),
    }
}
