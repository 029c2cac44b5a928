//! The shop's bits.

use crate::fault::Places;
use crate::record::Record;
use crate::table::{Case, Cases, Field, Kind, LENGTH, Of, default, optional, required};
use std::collections::BTreeMap;

/// A cutter.
#[derive(Clone, Debug, PartialEq)]
pub struct BitSpec {
    /// What it is.
    pub kind: BitKind,
    /// Its cutting diameter, mm.
    pub diameter: f64,
    /// How many cutting edges it has.
    pub flutes: u32,
    /// How much of its length cuts, mm.
    pub cutting_length: f64,
    /// Whether it may be driven straight down into the work.
    pub plunges: bool,
    /// Its number in the machine, if it has one.
    pub number: Option<u32>,
    /// What holds it, if the shop says.
    pub holder: Option<Holder>,
    /// Its speeds and feeds by material.
    pub feeds: BTreeMap<String, Feeds>,
    /// Where its fields were written.
    pub places: Places,
}

/// What a bit is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BitKind {
    /// Parallel sides.
    Straight,
    /// A twist drill: straight down only.
    Drill,
    /// Pointed, with its included angle in radians.
    Vee(f64),
    /// Straight with a bearing of this diameter, mm.
    Bearing(f64),
}

/// What holds a bit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holder {
    /// Its diameter, mm.
    pub diameter: f64,
    /// How far its lower end is above the bit's tip, mm.
    pub above: f64,
}

/// Speeds and feeds of a bit in one material.
#[derive(Clone, Debug, PartialEq)]
pub struct Feeds {
    /// Spindle speed, turns a minute.
    pub speed: f64,
    /// Feed along the cut, mm/min.
    pub feed: f64,
    /// Feed straight down and on ramps, mm/min.
    pub plunge: f64,
    /// The deepest single pass, mm.
    pub depth: f64,
    /// Where its fields were written.
    pub places: Places,
}

impl BitSpec {
    pub(crate) fn new(record: &Record) -> Self {
        let kind = match record.case {
            "straight" => BitKind::Straight,
            "drill" => BitKind::Drill,
            "vee" => BitKind::Vee(record.number("angle")),
            "bearing" => BitKind::Bearing(record.number("bearing")),
            other => unreachable!("{other} is refused by the table"),
        };
        Self {
            kind,
            diameter: record.number("diameter"),
            flutes: record.whole("flutes"),
            cutting_length: record.number("cutting-length"),
            plunges: kind == BitKind::Drill || record.yes_no("plunges"),
            number: record.maybe_whole("number"),
            holder: record.maybe_record("holder").map(|holder| Holder {
                diameter: holder.number("diameter"),
                above: holder.number("above"),
            }),
            feeds: record
                .named("feeds")
                .map(|(name, feeds)| (name.to_owned(), Feeds::new(feeds)))
                .collect(),
            places: record.places(),
        }
    }
}

impl Feeds {
    fn new(record: &Record) -> Self {
        Self {
            speed: record.number("speed"),
            feed: record.number("feed"),
            plunge: record.number("plunge"),
            depth: record.number("depth"),
            places: record.places(),
        }
    }
}

/// Faster than any spindle turns, turns a minute.
pub(crate) const FASTEST: f64 = 100_000.0;

const PLUNGES: Field = default(
    "plunges",
    Kind::YesNo,
    "false",
    "whether it may be driven straight down into the work",
);

/// Every kind of bit.
pub(crate) static BITS: Cases = Cases {
    tag: "kind",
    default: None,
    help: "what the bit is",
    common: &[
        required("diameter", LENGTH, "its cutting diameter, as measured"),
        required("cutting-length", LENGTH, "how much of its length cuts"),
        default(
            "flutes",
            Kind::Whole { least: 1, most: 12 },
            "2",
            "how many cutting edges it has",
        ),
        optional(
            "number",
            Kind::Whole { least: 0, most: 9999 },
            "its number in the machine",
        ),
        optional(
            "holder",
            Kind::Group(&[
                required("diameter", LENGTH, "its diameter"),
                required("above", LENGTH, "how far its lower end is above the bit's tip"),
            ]),
            "what holds it",
        ),
        optional(
            "feeds",
            Kind::Named(
                Of::Material,
                &Kind::Group(&[
                    required(
                        "speed",
                        Kind::Number {
                            least: 1.0,
                            most: FASTEST,
                        },
                        "spindle speed, turns a minute",
                    ),
                    required("feed", Kind::Feed, "feed along the cut, a minute"),
                    required("plunge", Kind::Feed, "feed straight down and on ramps, a minute"),
                    required("depth", LENGTH, "the deepest single pass"),
                ]),
            ),
            "its speeds and feeds by material",
        ),
    ],
    cases: &[
        Case::made("straight", "parallel sides, straight or spiral", &[PLUNGES]),
        Case::made("drill", "a twist drill, straight down only", &[]),
        Case::made(
            "vee",
            "pointed",
            &[
                PLUNGES,
                required(
                    "angle",
                    Kind::Angle {
                        least: 10.0,
                        most: 170.0,
                    },
                    "its included angle",
                ),
            ],
        ),
        Case::made(
            "bearing",
            "straight, with a bearing that follows a template",
            &[
                PLUNGES,
                required("bearing", LENGTH, "the diameter of its bearing"),
            ],
        ),
    ],
};
