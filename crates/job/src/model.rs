//! A model's own fields.

use crate::record::Record;
use crate::table::{Field, Kind, LENGTH, LENGTH_OR_0, Sign, default, optional, required, word};

/// What a model is made from, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The thickness of the wall that the arch carries, at full size.
    pub wall: f64,
    /// How many times smaller the model is: 20 for 1:20.
    pub scale: f64,
    /// How its ring is made; none for the centre alone.
    pub ring: Option<ModelRing>,
    /// How many voussoirs; none for as many as the arch has.
    pub voussoirs: Option<u32>,
    /// The joint between them, as they are cut.
    pub joint: f64,
    /// How much narrower a slot is cut than the sheet is thick.
    pub interference: f64,
    /// The least wood between two cuts; none for what the sheet's thickness asks for.
    pub bridge: Option<f64>,
    /// Whether pieces to try kerf and fit with are cut too.
    pub comb: ModelComb,
}

/// Whether pieces to try kerf and fit with are cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ModelComb {
    /// With the kit.
    With,
    /// And nothing else, to try the sheet before the kit is cut.
    Only,
    /// None are.
    None,
}

/// How the ring of a model is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ModelRing {
    /// Slices of sheet, as many as come nearest to the wall's depth.
    Stacked,
    /// One piece each.
    Flat,
}

impl Model {
    pub(crate) fn new(record: &Record) -> Self {
        Self {
            wall: record.number("wall"),
            scale: record.number("scale"),
            ring: match record.word("ring") {
                "stacked" => Some(ModelRing::Stacked),
                "flat" => Some(ModelRing::Flat),
                _ => None,
            },
            voussoirs: record.maybe_whole("voussoirs"),
            joint: record.number("joint"),
            interference: record.number("interference"),
            bridge: record.maybe_number("bridge"),
            comb: match record.word("comb") {
                "with" => ModelComb::With,
                "only" => ModelComb::Only,
                _ => ModelComb::None,
            },
        }
    }
}

/// The fields of a model.
pub(crate) const MODEL: &[Field] = &[
    required(
        "wall",
        LENGTH,
        "the thickness of the wall that the arch carries, at full size",
    ),
    required("scale", Kind::Scale, "how much smaller it is than the arch"),
    default(
        "ring",
        Kind::Word(&[
            word(
                "stacked",
                "every voussoir as many slices of sheet as come nearest to the wall's depth",
            ),
            word("flat", "every voussoir one piece, for the face alone"),
            word("none", "the centre alone"),
        ]),
        "stacked",
        "how its ring is made",
    ),
    optional(
        "voussoirs",
        Kind::Whole { least: 1, most: 999 },
        "into how many its ring is cut; into as many as the arch's if left out",
    ),
    default(
        "joint",
        LENGTH_OR_0,
        "0",
        "the joint between its voussoirs, as they are cut; none where they are laid dry",
    ),
    default(
        "interference",
        Kind::Length(Sign::Any),
        "0.06 mm",
        "how much narrower a slot is cut than the sheet is thick, negative for play; the comb tells",
    ),
    optional(
        "bridge",
        LENGTH,
        "the least wood between two cuts: one and a half times the sheet's thickness if left out",
    ),
    default(
        "comb",
        Kind::Word(&[
            word("with", "with the kit"),
            word("only", "and nothing else, to try the sheet before the kit is cut"),
            word("none", "none are cut"),
        ]),
        "with",
        "whether a comb to find the fit with, and blocks that tell the kerf, are cut",
    ),
];
