//! Machines that draw lines on a sheet, or through it: lasers and pens.

use crate::Unit;
use std::collections::BTreeMap;

/// A laser and its habits.
#[derive(Clone, Debug, PartialEq)]
pub struct Laser {
    /// The shop's name for it.
    pub name: String,
    /// What it reaches in x and y, mm.
    pub bed: (f64, f64),
    /// The whole width of its cut by material, mm.
    pub kerf: BTreeMap<String, f64>,
    /// How it cuts and marks, by material.
    pub power: BTreeMap<String, BeamPower>,
    /// What stands for full power in an S word.
    pub full_power: f64,
    /// The word that lights the beam.
    pub beam_on: String,
    /// The word that puts it out.
    pub beam_off: String,
    /// The file that it takes.
    pub writes: LaserFile,
    /// How its programs are written.
    pub dialect: Dialect,
    /// The thinnest bridge between two cuts that holds, mm.
    pub least_bridge: f64,
    /// Tabs that hold small parts in the sheet; none where parts lie loose once they are cut.
    pub tabs: Option<BeamTabs>,
    /// How fast it travels with the beam off, mm/min.
    pub rapid: f64,
    /// How fast it gains speed, mm/s².
    pub acceleration: f64,
    /// How far it may cut a corner off to keep its speed, mm.
    pub cornering: f64,
}

/// Tabs that hold small parts in the sheet: stretches of their outlines that the beam leaves whole. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeamTabs {
    /// How wide the wood that is left is, along the edge.
    pub width: f64,
    /// Parts whose longest side is shorter than this are held.
    pub under: f64,
    /// The longest edge between two.
    pub every: f64,
}

/// How a laser cuts and marks a material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeamPower {
    /// Through the sheet.
    pub cut: Beam,
    /// On its face.
    pub mark: Beam,
}

/// One way of running the beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beam {
    /// Power, per cent of the full.
    pub power: f64,
    /// Speed, mm/min.
    pub feed: f64,
}

/// The file that a laser takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LaserFile {
    /// An RS-274 program.
    Gcode,
    /// SVG with the kerf taken.
    Svg,
    /// DXF with the kerf taken.
    Dxf,
    /// An RS-274 program, and SVG beside it.
    Both,
}

/// A pen plotter and its habits.
#[derive(Clone, Debug, PartialEq)]
pub struct Pen {
    /// The shop's name for it.
    pub name: String,
    /// What it reaches in x and y, mm.
    pub bed: (f64, f64),
    /// The width of the line that it draws, mm.
    pub width: f64,
    /// The file that it takes.
    pub writes: PenFile,
    /// How its programs are written.
    pub dialect: Dialect,
    /// How a program lifts it.
    pub lift: Lift,
    /// How fast it draws, mm/min.
    pub feed: f64,
    /// How fast it travels with the pen up, mm/min.
    pub rapid: f64,
    /// How fast it gains speed, mm/s².
    pub acceleration: f64,
    /// How far it may cut a corner off to keep its speed, mm.
    pub cornering: f64,
    /// How long the pen takes to come down or up, s.
    pub delay: f64,
    /// HP-GL units to the millimetre.
    pub steps_per_mm: f64,
    /// The farthest that its HP-GL numbers may go from 0; none where there is no limit.
    pub farthest: Option<u32>,
}

/// The file that a plotter takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PenFile {
    /// HP-GL.
    HpGl,
    /// An RS-274 program.
    Gcode,
}

/// How a program lifts a pen.
#[derive(Clone, Debug, PartialEq)]
pub enum Lift {
    /// To heights, mm.
    Height {
        /// Above the paper.
        up: f64,
        /// On the paper.
        down: f64,
    },
    /// By lines of its controller's own.
    Words {
        /// The line that lifts it.
        up: String,
        /// The line that lowers it.
        down: String,
    },
}

/// How the programs of a machine without heights are written.
#[derive(Clone, Debug, PartialEq)]
pub struct Dialect {
    /// The unit of their numbers.
    pub units: Unit,
    /// Decimals of their lengths.
    pub decimals: usize,
    /// Their zero in the sheet's frame, mm.
    pub zero: (f64, f64),
    /// Whether the machine takes arcs; otherwise they go out as chords.
    pub arcs: bool,
    /// Arcs of a longer radius go out as chords, mm.
    pub longest_radius: f64,
    /// Words that its controller wants besides the standard's, before the first move.
    pub opening_lines: Vec<String>,
    /// And after the last.
    pub closing_lines: Vec<String>,
}
