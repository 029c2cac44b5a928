//! Strict readers of DXF, SVG, HP-GL, PDF and RS-274/NGC programs, for traced outlines and for the proof.
//!
//! They never repair a file: what they do not take for certain they report. Every length comes out in millimetres, x to
//! the right, y up, and arcs as bulge pieces. No bytes make them panic.

pub mod drawing;
pub mod dxf;
pub mod gcode;
pub mod hpgl;
pub mod pdf;
pub mod svg;
pub mod traced;
mod unit;

pub use drawing::{Chain, DrawingFault, DrawingRead};
pub use gcode::{MoveKind, ProgramFault, ProgramRead, ReadMove, Spot};
pub use traced::{Traced, TracedError};
pub use unit::LengthUnit;
