//! Drawings of arches, parts and sheets, as SVG and as PNG.
//!
//! Every picture is drawn by one hand: the same line kinds, the same lettering, the same title strip along the foot. Two
//! kinds of line always differ in their dashes or their weight too, never in colour alone. What comes in is in millimetres
//! with y up; what goes out is a page in millimetres of paper. Text comes from [`cintre_lettering`] as strokes, so a
//! picture needs no font.

pub use arch::{ArchDrawing, ArchInBlack, Taken, arch, arch_in_black};
pub use assembly::{AssemblyDrawing, CentreDrawing, assembly};
pub use bending::{BendingDrawing, bending};
pub use centre::Centre;
pub use dimension::{Dimension, Side};
pub use fault::Fault;
pub use page::Lengths;
pub use parts::{PartsDrawing, parts};
pub use png::{Error, png};
pub use sheet::{SheetDrawing, sheet};
pub use standing::{StandingDrawing, standing};

mod arch;
mod assembly;
mod bending;
mod canvas;
mod centre;
mod dimension;
mod fault;
mod number;
mod order;
mod page;
mod parts;
mod pen;
mod png;
mod road;
mod sheet;
mod standing;
mod strip;
mod vector;
mod wood;

#[cfg(test)]
extern crate self as cintre_picture;
#[cfg(test)]
#[path = "../tests/samples/mod.rs"]
#[expect(dead_code, reason = "the tests over whole pictures use the rest")]
mod samples;
