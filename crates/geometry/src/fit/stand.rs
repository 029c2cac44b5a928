//! A place with a direction, and the arcs that leave it.

use crate::piece::wrapped;
use crate::{Piece, Point, Vec2};

/// Where a chain of arcs has come to, and the way it is heading.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stand {
    pub(super) place: Point,
    /// Of length 1.
    pub(super) heading: Vec2,
}

impl Stand {
    /// The direction to the left of the heading.
    pub(super) fn left(&self) -> Vec2 {
        Vec2::new(-self.heading.y, self.heading.x)
    }

    /// The same place, looking back.
    pub(super) fn turned_back(self) -> Self {
        Self {
            heading: -self.heading,
            ..self
        }
    }

    /// Straight across from `point` on the arc of curvature `bend` that leaves here.
    ///
    /// With v from here to the point, the centre lies along n - k v from it, n being the left and k the bend; the point is
    /// off the arc by (2 n·v - k v²) / (1 + |n - k v|), to the left if positive.
    pub(super) fn across_from(&self, point: Point, bend: f64) -> Self {
        let v = point - self.place;
        let to_centre = self.left() - v * bend;
        let size = to_centre.hypot();
        let off = (2.0 * self.left().dot(v) - bend * v.hypot2()) / (1.0 + size);
        let left = to_centre / size;
        Self {
            place: point - left * off,
            heading: Vec2::new(left.y, -left.x),
        }
    }

    /// The arc that leaves here and comes to `end`.
    pub(super) fn arc_to(&self, end: Point) -> Piece {
        Piece {
            start: self.place,
            end,
            bulge: (angle(self.heading, end - self.place) / 2.0).tan(),
        }
    }
}

/// The angle from one direction to another, -π to π.
pub(super) fn angle(from: Vec2, to: Vec2) -> f64 {
    wrapped(from.cross(to).atan2(from.dot(to)))
}
