//! A strict interpreter of RS-274/NGC programs for a router, a laser or a pen.
//!
//! It takes the part of the standard that a simple controller takes: G0 to G4, G17, G20 or G21, G40, G49, G54, G80, G90,
//! G94, M0 to M3, M5 to M9 and M30, one unit, absolute distances, arcs by their centre in the XY plane. It presumes no
//! mode that the program does not state. A block with a fault is left out whole and reported; a program with a fault is
//! not to be run, whatever its moves show.

mod block;
mod controls;
mod moves;
mod own_words;
mod state;
#[cfg(test)]
mod tests;
mod words;

pub use controls::Controls;
pub use own_words::is_harmless;

use crate::LengthUnit;
use cintre_geometry::{Piece, Point};
use state::State;

/// A program as read, in mm, in its own frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ProgramRead {
    /// The unit its numbers are in; none where it states none.
    pub unit: Option<LengthUnit>,
    /// Its moves between known places, in order.
    pub moves: Vec<ReadMove>,
    /// Its comments, each with its line.
    pub comments: Vec<(usize, String)>,
    /// What is wrong with it.
    pub faults: Vec<ProgramFault>,
}

/// One move of the bit; Z rises or falls evenly along it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadMove {
    /// The line it stands on, counted from 1.
    pub line: usize,
    /// How the bit gets there.
    pub kind: MoveKind,
    /// Where it begins.
    pub from: Spot,
    /// Where it ends.
    pub to: Spot,
    /// tan(sweep / 4) seen from above, counter-clockwise positive; 0 where it runs straight.
    pub bulge: f64,
    /// Feed, mm/min; 0 for a rapid.
    pub feed: f64,
    /// Spindle speed, turns a minute; 0 where it stands still. Of a beam or a pen switched by words its S word where it is on, 1
    /// where that has none, and 0 where it is off.
    pub spindle: f64,
    /// How many times the program has stopped for another bit (M0 or M6) since its first move.
    pub bit: usize,
}

/// Where the tip of the bit is, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// In x and y.
    pub at: Point,
    /// In height.
    pub z: f64,
}

/// How a move goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MoveKind {
    /// As fast as the machine can.
    Rapid,
    /// Straight, at a feed.
    Straight,
    /// Along an arc, at a feed.
    Arc,
}

/// Something wrong with a program.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ProgramFault {
    /// The line it stands on, counted from 1; 0 where it concerns the whole.
    pub line: usize,
    /// What, in plain words.
    pub what: String,
}

impl ReadMove {
    /// The move seen from above.
    pub const fn piece(&self) -> Piece {
        Piece {
            start: self.from.at,
            end: self.to.at,
            bulge: self.bulge,
        }
    }
}

/// Reads a router's program. `safe` is the Z, in mm and in the program's own frame, below which no rapid may move sideways. `own`
/// are lines that the shop's controller wants besides the standard's words; one that this reader does not know is passed
/// over where it moves nothing and changes no number's meaning, and is a fault otherwise.
pub fn read(bytes: &[u8], safe: f64, own: &[String]) -> ProgramRead {
    read_for(bytes, Controls::Spindle { safe }, own)
}

/// Reads the program of a machine that switches a spindle, a beam or a pen; `own` as in [`read`].
pub fn read_for(bytes: &[u8], controls: Controls<'_>, own: &[String]) -> ProgramRead {
    let mut program = ProgramRead::default();
    let mut state = State::new(controls);
    let mut percents = 0;
    let text: String = bytes.iter().copied().map(char::from).collect();
    for (number, line) in (1..).zip(text.split('\n')) {
        let line = line.strip_suffix('\r').unwrap_or(line);
        if line.trim() == "%" {
            percents += 1;
            if percents == 1 && state.begun() || percents == 2 && !state.ended() || percents > 2 {
                program.fault(number, "a % anywhere but first and last");
            }
        } else if let Err(what) = state.line(number, line, &mut program)
            && !(own.iter().any(|own| own == line) && is_harmless(line))
        {
            program.fault(number, what);
        }
    }
    program.unit = state.unit();
    if percents == 1 {
        program.fault(0, "a % at one end only");
    }
    if !state.ended() {
        program.fault(0, "it does not end with M2 or M30: it may have been cut short");
    }
    if program.unit.is_none() {
        program.fault(0, "it states no unit, neither G20 nor G21");
    }
    program
}

impl ProgramRead {
    fn fault(&mut self, line: usize, what: impl Into<String>) {
        self.faults.push(ProgramFault {
            line,
            what: what.into(),
        });
    }
}
