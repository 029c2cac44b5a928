//! Plane geometry of arches, exact.
//!
//! Millimetres; x to the right, y up; angles in radians, counter-clockwise positive. Circular arcs stay arcs: a [`Path`]
//! or [`Outline`] is a chain of vertices, each with the bulge of the piece it starts (tan of a quarter of the sweep, as in
//! DXF), so no conversion on the way to a file loses anything.

pub use kurbo::{Affine, Point, Rect, Vec2};
pub use outline::Outline;
pub use path::{Path, Vertex};
pub use piece::{Circle, Nearest, Piece};

mod outline;
mod path;
mod piece;
mod tidy;
