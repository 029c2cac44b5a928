//! The jigs and forms that build an arch, as parts to cut.
//!
//! One module a form. Each takes the arch as its soffit line, open from the left springing to the right one over the
//! top, in millimetres with x to the right and y up, and gives back a [`Form`]. Curves that are not circular come already
//! fitted by tangent arcs, with what the fit is out by.

pub use error::Error;
pub use form::{Assembled, Figure, Form, Item, Unit};

pub mod bending;
pub mod centering;
pub mod curved_head;
mod error;
mod form;
mod line;
mod marks;
pub mod model;
pub mod pattern;
#[cfg(test)]
mod shapes;
pub mod template;
pub mod trammel;
mod writing;
