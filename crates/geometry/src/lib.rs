//! Plane geometry of arches, exact.
//!
//! Millimetres; x to the right, y up; angles in radians, counter-clockwise positive. Circular arcs stay arcs: a [`Path`]
//! or [`Outline`] is a chain of vertices, each with the bulge of the piece it starts (tan of a quarter of the sweep, as in
//! DXF), so no conversion on the way to a file loses anything.

pub use band::band;
pub use chain::Chain;
pub use curve::Curve;
pub use ellipse::{Ellipse, HalfEllipse};
pub use fit::{Fit, fit};
pub use kurbo::{Affine, Point, Rect, Vec2};
pub use outline::Outline;
pub use parabola::Parabola;
pub use parallel::{PARALLEL_TOLERANCE, ParallelError, parallel};
pub use parallel_line::{LineError, parallel_line};
pub use path::{Path, Vertex};
pub use piece::{Circle, Nearest, Piece};
pub use reach::{Leftover, leftovers};
pub use room::parallel_in_room;
pub use soffit::Soffit;

pub mod arch;
mod band;
pub mod bend;
pub mod casing;
mod chain;
mod convert;
mod curve;
mod distance;
mod ellipse;
mod file_ready;
mod fit;
mod intersect;
pub mod measured;
mod outline;
mod parabola;
mod parallel;
mod parallel_line;
mod path;
mod piece;
mod reach;
mod room;
pub mod setting_out;
mod soffit;
mod tidy;
pub mod voussoirs;
mod winding;
