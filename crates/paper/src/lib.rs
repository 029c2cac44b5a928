//! Drawings at full size over pages that join, and the setting-out sheet.
//!
//! Pages are mm of print, x to the right, y up, from their lower left corner. Every letter is strokes. A drawing is cut at
//! the edges of its pages exactly; arcs stay arcs about their own centres.

pub use setting_out::{ArchSheet, DRAWING, PAGE, Row, SettingOut, setting_out};
pub use size::{LONGEST_PAGE, NARROWEST_ROLL, Paper, Printer, SIZES, Size, WIDEST_ROLL};
pub use tiled::{Error, FullSize, Tile, Tiled, full_size};

mod clip;
mod flow;
mod grid;
mod ink;
mod key;
mod setting_out;
mod size;
mod tiled;
mod windows;

#[cfg(test)]
mod tests;
