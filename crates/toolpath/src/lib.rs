//! What each bit does on each sheet: which bits, on which side of the edge, in which passes, with which tabs, in which
//! order. It holds every allowance, for drawings too, where it is none.
//!
//! Programs stand in the sheet's frame, millimetres, Z 0 on the stock's face. An edge keeps its wood on the left, so the
//! centre of the bit runs along the parallel on the right, one radius off: outside an outline, inside an opening.

pub use beam::{Beamed, Lines, allowed, beam_of, beamed, penned};
pub use bore::least_bore;
pub use chips::{Chips, RUBS, chip, starting_chips};
pub use choose::choose_bits;
pub use drawing::{drawing, shapes_of};
pub use error::{BitError, Error};
pub use note::{Edge, Note};
pub use order::tour;
pub use passes::{Passes, ramp_length};
pub use plan::{APPROACH, Plan, plan};
pub use time::{Pace, lines_seconds};

mod beam;
mod bore;
mod bounds;
mod chips;
mod choose;
mod contour;
mod corners;
mod cuts;
mod cutting;
mod demand;
mod drawing;
mod elsewhere;
mod error;
mod held;
mod lap;
mod lead;
mod line;
mod note;
mod order;
mod owner;
mod passes;
mod plan;
mod profile;
mod recess;
mod relief;
mod road;
mod run;
mod scribe;
mod setup;
mod tabs;
mod time;

#[cfg(test)]
mod tests;
