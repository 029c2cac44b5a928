//! A pen plotter, as the shop writes it.

use crate::fault::Places;
use crate::machine::{ZeroAt, texts};
use crate::machines::{
    ACCELERATION, ARCS, CLOSING_LINES, CORNERING, DECIMALS, LONGEST_RADIUS, OPENING_LINES, RAPID,
    ZERO_ON_SHEET,
};
use crate::record::Record;
use crate::table::{Field, Kind, LENGTH, Sign, default, optional, required, word};
use cintre_measure::Unit;

/// A pen plotter and its habits. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct PenSpec {
    /// What it reaches in x and y.
    pub bed: [f64; 2],
    /// The width of the line that it draws.
    pub pen: f64,
    /// The file that it takes.
    pub writes: PenFile,
    /// How its pen is lifted in a program.
    pub lift: LiftSpec,
    /// How fast it draws, mm/min.
    pub feed: f64,
    /// How fast it travels with the pen up, mm/min.
    pub rapid: f64,
    /// How fast it gains speed, mm/s².
    pub acceleration: f64,
    /// How far its controller lets it cut a corner off to keep its speed.
    pub cornering: f64,
    /// How long the pen takes to come down or up, s.
    pub pen_delay: f64,
    /// HP-GL units to the millimetre.
    pub steps_per_mm: f64,
    /// The farthest from its zero that its HP-GL numbers may go, in those units; none where the plotter sets no limit.
    pub farthest: Option<u32>,
    /// The unit of its programs.
    pub units: Unit,
    /// Decimals of its programs' lengths.
    pub decimals: u32,
    /// Where on the sheet its zero is.
    pub zero_at: ZeroAt,
    /// Whether it takes arcs.
    pub arcs: bool,
    /// Arcs of a longer radius go out as chords.
    pub longest_radius: f64,
    /// Words that its controller wants before the first move.
    pub opening_lines: Vec<String>,
    /// And after the last.
    pub closing_lines: Vec<String>,
    /// Where its fields were written.
    pub places: Places,
}

/// The file that a plotter takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PenFile {
    /// HP-GL.
    HpGl,
    /// A program.
    Gcode,
}

/// How a program lifts the pen.
#[derive(Clone, Debug, PartialEq)]
pub enum LiftSpec {
    /// To heights: up and down, mm.
    Height {
        /// Above the paper.
        up: f64,
        /// On the paper.
        down: f64,
    },
    /// By the spindle's words.
    Words {
        /// The line that lifts it.
        up: String,
        /// The line that lowers it.
        down: String,
    },
}

impl PenSpec {
    pub(crate) fn new(record: &Record) -> Self {
        Self {
            bed: record.numbers("bed"),
            pen: record.number("pen"),
            writes: match record.word("writes") {
                "gcode" => PenFile::Gcode,
                _ => PenFile::HpGl,
            },
            lift: lift(record),
            feed: record.number("feed"),
            rapid: record.number("rapid"),
            acceleration: record.number("acceleration"),
            cornering: record.number("cornering"),
            pen_delay: record.number("pen-delay"),
            steps_per_mm: record.number("steps-per-mm"),
            farthest: record.maybe_whole("farthest"),
            units: record.unit("units"),
            decimals: record.maybe_whole("decimals").unwrap_or(4),
            zero_at: ZeroAt::of(record),
            arcs: record.yes_no("arcs"),
            longest_radius: record.number("longest-radius"),
            opening_lines: texts(record, "opening-lines"),
            closing_lines: texts(record, "closing-lines"),
            places: record.places(),
        }
    }
}

fn lift(record: &Record) -> LiftSpec {
    match (record.maybe_text("pen-up"), record.maybe_text("pen-down")) {
        (Some(up), Some(down)) => LiftSpec::Words { up, down },
        _ => LiftSpec::Height {
            up: record.number("up-height"),
            down: record.number("down-height"),
        },
    }
}

pub(crate) const PEN: &[Field] = &[
    required("bed", Kind::Tuple(2, &LENGTH), "what it reaches in x and y"),
    required("pen", LENGTH, "the width of the line that it draws"),
    default(
        "writes",
        Kind::Word(&[word("hpgl", "HP-GL"), word("gcode", "a program")]),
        "hpgl",
        "the file that it takes",
    ),
    default(
        "up-height",
        LENGTH,
        "5 mm",
        "the height of the pen's travel, in a program",
    ),
    default(
        "down-height",
        Kind::Length(Sign::Any),
        "0 mm",
        "the height at which it draws, in a program",
    ),
    optional(
        "pen-up",
        Kind::Text,
        "the line that lifts it, where a program lifts it by the spindle's words",
    ),
    optional("pen-down", Kind::Text, "and the line that lowers it"),
    default("feed", Kind::Feed, "3000 mm", "how fast it draws, a minute"),
    RAPID,
    ACCELERATION,
    CORNERING,
    default(
        "pen-delay",
        Kind::Number {
            least: 0.0,
            most: 10.0,
        },
        "0.2",
        "how long the pen takes to come down or up, seconds",
    ),
    default(
        "steps-per-mm",
        Kind::Number {
            least: 1.0,
            most: 1000.0,
        },
        "40",
        "HP-GL units to the millimetre",
    ),
    optional(
        "farthest",
        Kind::Whole {
            least: 1000,
            most: 10_000_000,
        },
        "the farthest that its HP-GL numbers may go; 32767 on an old plotter",
    ),
    DECIMALS,
    ZERO_ON_SHEET,
    ARCS,
    LONGEST_RADIUS,
    OPENING_LINES,
    CLOSING_LINES,
];
