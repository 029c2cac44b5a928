//! What the shop cuts with.

use crate::{Laser, Pen};
use cintre_geometry::{Point, Rect};

/// A machine, or someone who takes a drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Machine {
    /// A router that runs RS-274/NGC programs.
    Router(Box<Router>),
    /// A laser.
    Laser(Box<Laser>),
    /// A pen plotter.
    Pen(Box<Pen>),
    /// A fabricator or a program that takes a drawing.
    Drawing(DrawingMachine),
}

impl Machine {
    /// The shop's name for it.
    pub fn name(&self) -> &str {
        match self {
            Self::Router(router) => &router.name,
            Self::Laser(laser) => &laser.name,
            Self::Pen(pen) => &pen.name,
            Self::Drawing(drawing) => &drawing.name,
        }
    }
}

/// The unit that a file's numbers are in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Millimetre,
    /// Inches of 25.4 mm.
    Inch,
}

/// A router and its habits.
#[derive(Clone, Debug, PartialEq)]
pub struct Router {
    /// The shop's name for it.
    pub name: String,
    /// What it reaches in x and y, mm.
    pub bed: (f64, f64),
    /// How high it raises the collet above the bed, mm; none where the shop did not say.
    pub travel_z: Option<f64>,
    /// How bits are changed.
    pub bit_change: BitChange,
    /// The height above the stock's face at which the bit travels, mm.
    pub safe_height: f64,
    /// Where the program's zero is.
    pub zero: Zero,
    /// The unit of its programs.
    pub units: Unit,
    /// Decimals of its programs' lengths: 3 or 4 in mm, 4 or 5 in inches.
    pub decimals: usize,
    /// Whether it takes arcs; otherwise they go out as chords.
    pub arcs: bool,
    /// Arcs of a longer radius go out as chords, mm.
    pub longest_radius: f64,
    /// The most that one arc may turn, radians: half a turn at most.
    pub longest_arc: f64,
    /// How its files are laid out.
    pub layout: FileLayout,
    /// The word that starts its dust extraction or coolant; M9 stops it.
    pub extraction: Option<String>,
    /// Where it stands when it is done, in the sheet's frame; over its last cut where the shop does not say.
    pub park: Option<Point>,
    /// The slowest and the fastest that its spindle turns, turns a minute.
    pub speeds: (f64, f64),
    /// How long the spindle takes to come up to speed, s.
    pub spindle_delay: f64,
    /// How far below the underside a through cut goes, mm.
    pub through: f64,
    /// Tabs that hold the parts; none where the shop wants none.
    pub tabs: Option<TabRule>,
    /// Which way round the bit runs.
    pub cut: Cut,
    /// How steeply a bit goes down along its road, radians.
    pub ramp: f64,
    /// What the passes leave on an edge for a last lap at full depth, mm; 0 for no such lap.
    pub finish: f64,
    /// The web left under a through cut, to be trimmed off later, mm; 0 cuts through.
    pub leave_web: f64,
    /// How corners that must seat a square edge are relieved.
    pub relief: Relief,
    /// How deep marks and lettering are scribed, mm; 0 for none.
    pub mark_depth: f64,
    /// How fast it travels without cutting, mm/min.
    pub rapid: f64,
    /// How fast it gains speed, mm/s².
    pub acceleration: f64,
    /// How far it may cut a corner off to keep its speed, mm: what its controller is set to.
    pub cornering: f64,
    /// Words that its controller wants besides the standard's, before the first move.
    pub opening_lines: Vec<String>,
    /// And after the last.
    pub closing_lines: Vec<String>,
    /// Places on the bed, in the bed's frame, that the bit keeps out of.
    pub keep_outs: Vec<Rect>,
}

/// How a router's files are laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FileLayout {
    /// Whether their lines are numbered.
    pub numbered: bool,
    /// The longest line that the controller reads, in characters.
    pub longest_line: usize,
    /// Whether a % stands first and last.
    pub percent: bool,
}

/// How bits are changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BitChange {
    /// One program for each bit.
    File,
    /// One program that stops for a change by hand.
    Pause,
    /// One program, changed by the machine at M6.
    M6,
}

/// Where a program's zero is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Zero {
    /// In the sheet's frame, mm.
    pub at: (f64, f64),
    /// In height.
    pub height: ZeroHeight,
}

/// What Z 0 is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ZeroHeight {
    /// The stock's upper face.
    StockFace,
    /// The stock's underside, where it lies on the spoilboard.
    StockBack,
}

/// Tabs that hold a part until it is sawn free.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TabRule {
    /// How wide the wood that is left must be, along the edge, mm.
    pub width: f64,
    /// How high above the underside, mm.
    pub height: f64,
    /// The longest edge between two tabs, mm.
    pub every: f64,
    /// Whether the bit climbs up to a tab and down again along its road, and not straight.
    pub ramped: bool,
}

/// How an inside corner is relieved so that a square edge seats in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relief {
    /// Not at all: the bit's radius stays in the corner.
    None,
    /// Outward along the bisector until the bit touches the corner.
    Bisector,
    /// Along the longer of the two sides, past its end.
    LongSide,
}

/// Which way round a bit runs, seen from the spindle turning clockwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cut {
    /// The edge moves with the feed: outer edges clockwise.
    Climb,
    /// Against it: outer edges counter-clockwise.
    Conventional,
}

/// Someone who takes a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawingMachine {
    /// The shop's name for it.
    pub name: String,
    /// The file it wants.
    pub format: DrawingFormat,
    /// The unit of its numbers.
    pub units: Unit,
    /// The width of the cut, half of which its lines are moved by, mm; 0 where they stand on the finished edge.
    pub allowance: f64,
}

/// A drawing's file format.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrawingFormat {
    /// DXF as of release 12, which everything reads.
    DxfR12,
    /// DXF AC1024, with units in its header.
    DxfR2010,
    /// SVG in real millimetres.
    Svg,
}
