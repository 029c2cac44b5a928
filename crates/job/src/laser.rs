//! A laser, as the shop writes it.

use crate::fault::Places;
use crate::machine::{ZeroAt, texts};
use crate::machines::{
    ACCELERATION, ARCS, CLOSING_LINES, CORNERING, DECIMALS, LONGEST_RADIUS, OPENING_LINES, RAPID,
    ZERO_ON_SHEET,
};
use crate::record::Record;
use crate::table::{Field, Kind, LENGTH, LENGTH_OR_0, Of, default, optional, required, word};
use cintre_measure::Unit;
use std::collections::BTreeMap;

/// A laser and its habits. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct LaserSpec {
    /// What it reaches in x and y.
    pub bed: [f64; 2],
    /// The whole width of its cut, by material.
    pub kerf: BTreeMap<String, f64>,
    /// How it cuts and marks, by material.
    pub power: BTreeMap<String, BeamSpec>,
    /// What stands for full power in an S word.
    pub full_power: f64,
    /// The word that lights the beam.
    pub beam_on: String,
    /// The word that puts it out.
    pub beam_off: String,
    /// The file that it takes.
    pub writes: LaserFile,
    /// The unit of its files.
    pub units: Unit,
    /// Decimals of its programs' lengths.
    pub decimals: u32,
    /// Where on the sheet the program's zero is.
    pub zero_at: ZeroAt,
    /// Whether it takes arcs.
    pub arcs: bool,
    /// Arcs of a longer radius go out as chords.
    pub longest_radius: f64,
    /// The thinnest bridge between two cuts that holds.
    pub least_bridge: f64,
    /// Tabs that hold small parts, none where the shop wants none.
    pub tabs: Option<BeamTabsSpec>,
    /// How far parts stand apart on it; none where the house's rule holds.
    pub spacing: Option<f64>,
    /// How fast it travels with the beam off, mm/min.
    pub rapid: f64,
    /// How fast it gains speed, mm/s².
    pub acceleration: f64,
    /// How far it may cut a corner off to keep its speed.
    pub cornering: f64,
    /// Words that its controller wants before the first move.
    pub opening_lines: Vec<String>,
    /// And after the last.
    pub closing_lines: Vec<String>,
    /// Where its fields were written.
    pub places: Places,
}

/// How a laser cuts and marks one material: power in per cent of the full, speed in mm/s.
#[derive(Clone, Debug, PartialEq)]
pub struct BeamSpec {
    /// Through the sheet.
    pub cut: [f64; 2],
    /// On its face.
    pub mark: [f64; 2],
    /// Where its fields were written.
    pub places: Places,
}

/// Tabs that hold small parts in the sheet, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeamTabsSpec {
    /// The width of wood left.
    pub width: f64,
    /// Parts whose longest side is shorter are held.
    pub under: f64,
    /// The longest edge between two.
    pub every: f64,
}

/// The file that a laser takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LaserFile {
    /// A program.
    Gcode,
    /// A drawing in SVG.
    Svg,
    /// A drawing in DXF.
    Dxf,
    /// A program, and a drawing in SVG.
    Both,
}

impl LaserSpec {
    pub(crate) fn new(record: &Record) -> Self {
        Self {
            bed: record.numbers("bed"),
            kerf: record.named_numbers("kerf").collect(),
            power: record
                .named("power")
                .map(|(material, beam)| (material.to_owned(), BeamSpec::new(beam)))
                .collect(),
            full_power: record.number("full-power"),
            beam_on: record.text("beam-on"),
            beam_off: record.text("beam-off"),
            writes: match record.word("writes") {
                "svg" => LaserFile::Svg,
                "dxf" => LaserFile::Dxf,
                "both" => LaserFile::Both,
                _ => LaserFile::Gcode,
            },
            units: record.unit("units"),
            decimals: record.maybe_whole("decimals").unwrap_or(4),
            zero_at: ZeroAt::of(record),
            arcs: record.yes_no("arcs"),
            longest_radius: record.number("longest-radius"),
            least_bridge: record.number("least-bridge"),
            tabs: record.maybe_record("tabs").map(|tabs| BeamTabsSpec {
                width: tabs.number("width"),
                under: tabs.number("under"),
                every: tabs.number("every"),
            }),
            spacing: record.maybe_number("spacing"),
            rapid: record.number("rapid"),
            acceleration: record.number("acceleration"),
            cornering: record.number("cornering"),
            opening_lines: texts(record, "opening-lines"),
            closing_lines: texts(record, "closing-lines"),
            places: record.places(),
        }
    }
}

impl BeamSpec {
    fn new(record: &Record) -> Self {
        Self {
            cut: record.numbers("cut"),
            mark: record.numbers("mark"),
            places: record.places(),
        }
    }
}

/// Power in per cent and speed in mm/s.
const BEAM: Kind = Kind::Tuple(
    2,
    &Kind::Number {
        least: 0.1,
        most: 2000.0,
    },
);

const TABS: &[Field] = &[
    default(
        "width",
        LENGTH,
        "0.6 mm",
        "how wide the wood that is left is, along the edge",
    ),
    default(
        "under",
        LENGTH,
        "60 mm",
        "parts whose longest side is shorter than this are held",
    ),
    default("every", LENGTH, "60 mm", "the longest edge between two"),
];

pub(crate) const LASER: &[Field] = &[
    required("bed", Kind::Tuple(2, &LENGTH), "what it reaches in x and y"),
    required(
        "kerf",
        Kind::Named(Of::Material, &LENGTH_OR_0),
        "the whole width of its cut by material, as measured",
    ),
    required(
        "power",
        Kind::Named(
            Of::Material,
            &Kind::Group(&[
                required(
                    "cut",
                    BEAM,
                    "power in per cent and speed in mm a second, to cut through",
                ),
                required(
                    "mark",
                    BEAM,
                    "power in per cent and speed in mm a second, to mark the face",
                ),
            ]),
        ),
        "how it cuts and marks, by material",
    ),
    default(
        "full-power",
        Kind::Number {
            least: 1.0,
            most: 100_000.0,
        },
        "100",
        "what stands for full power in an S word, from its manual",
    ),
    default(
        "beam-on",
        Kind::Text,
        "M3",
        "the word that lights the beam, from its manual",
    ),
    default("beam-off", Kind::Text, "M5", "the word that puts it out"),
    default(
        "writes",
        Kind::Word(&[
            word("gcode", "a program"),
            word("svg", "a drawing in SVG with the kerf taken"),
            word("dxf", "a drawing in DXF with the kerf taken"),
            word("both", "a program, and a drawing in SVG beside it"),
        ]),
        "gcode",
        "the file that it takes",
    ),
    DECIMALS,
    ZERO_ON_SHEET,
    ARCS,
    LONGEST_RADIUS,
    default(
        "least-bridge",
        LENGTH,
        "1.5 mm",
        "the thinnest bridge between two cuts that holds",
    ),
    default(
        "tabs",
        Kind::GroupOrNone(TABS),
        "none",
        "tabs that hold small parts in the sheet, so that none tips up or falls through, or none",
    ),
    optional(
        "spacing",
        LENGTH,
        "how far parts stand apart on it; the house's rule if left out",
    ),
    RAPID,
    ACCELERATION,
    CORNERING,
    OPENING_LINES,
    CLOSING_LINES,
];
