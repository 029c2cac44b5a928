//! A router trammel's own fields.

use crate::record::{Datum, Record};
use crate::table::{Field, Kind, LENGTH, LENGTH_OR_0, Of, default, optional, required, word};

/// A trammel for a hand-held router. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Trammel {
    /// Further arches whose radii it has.
    pub also: Vec<String>,
    /// Further radii.
    pub radii: Vec<f64>,
    /// The shop's name of the bit.
    pub bit: String,
    /// How the router is held in the arm.
    pub mount: Mount,
    /// The diameter of the pivot's pin.
    pub pin: f64,
    /// The longest arm; a bar beyond that.
    pub longest_arm: f64,
    /// The thickness of the work, for the height of the pivot; that of the stock where it is not given.
    pub work: Option<f64>,
    /// Whether several centres get a plate.
    pub centres: bool,
}

/// How a router is held in a trammel's arm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mount {
    /// By the screw holes of its base.
    Holes,
    /// In a round opening as wide as its base.
    Opening,
}

impl Trammel {
    pub(crate) fn new(record: &Record) -> Self {
        let also = record.list("also").filter_map(|item| match item {
            Datum::Text(name) => Some(name.clone()),
            _ => None,
        });
        Self {
            also: also.collect(),
            radii: record.list("radii").map(Datum::number).collect(),
            bit: record.text("bit"),
            mount: match record.word("mount") {
                "opening" => Mount::Opening,
                _ => Mount::Holes,
            },
            pin: record.number("pin"),
            longest_arm: record.number("longest-arm"),
            work: record.maybe_number("work"),
            centres: record.yes_no("centres"),
        }
    }
}

/// The fields of a trammel.
pub(crate) const TRAMMEL: &[Field] = &[
    default(
        "also",
        Kind::List(&Kind::Name(Of::Arch)),
        "[]",
        "further arches whose radii it has",
    ),
    default("radii", Kind::List(&LENGTH), "[]", "further radii"),
    required("bit", Kind::Name(Of::Bit), "the bit that cuts the work on it"),
    default(
        "mount",
        Kind::Word(&[
            word("holes", "by the screw holes of its base"),
            word("opening", "in a round opening as wide as its base"),
        ]),
        "holes",
        "how the router is held in the arm",
    ),
    default("pin", LENGTH, "6 mm", "the diameter of the pivot's pin"),
    default(
        "longest-arm",
        LENGTH_OR_0,
        "1200 mm",
        "the longest arm from pivot to bit; beyond it a bar with a plate at each end, 0 for always a bar",
    ),
    optional(
        "work",
        LENGTH,
        "the thickness of the work, for the height of the pivot; that of the stock if it is left out",
    ),
    default(
        "centres",
        Kind::YesNo,
        "true",
        "whether an arch of several centres gets one plate with all of them",
    ),
];
