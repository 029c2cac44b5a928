//! A curved head's own fields.

use crate::fault::Fault;
use crate::record::{Datum, Record};
use crate::table::{Field, Kind, LENGTH, Of, default, optional, required, word};

/// A head, a jamb head or a casing from straight boards. Lengths in mm, angles in radians.
#[derive(Clone, Debug, PartialEq)]
pub struct CurvedHead {
    /// Which it is.
    pub piece: HeadPiece,
    /// How wide it is, square to the soffit; none for the arch's ring.
    pub width: Option<f64>,
    /// How many thicknesses of board lie on one another; none for one. Not for a jamb head, whose depth tells.
    pub layers: Option<u32>,
    /// How many segments a layer has; none for the fewest that the boards allow.
    pub segments: Option<u32>,
    /// How far the grain may run across a segment at its ends.
    pub cross_grain: f64,
    /// What holds the ends of segments together; none for what is usual.
    pub joint: Option<HeadJoint>,
    /// The stock of the board that it is glued up on; none for none.
    pub glue_up: Option<String>,
    /// The diameter of that board's holes for stops.
    pub stop: f64,
}

/// Which part of an opening a curved head is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeadPiece {
    /// The ring itself, its ends square to the soffit.
    Head,
    /// What lines the soffit through the wall, built up to this depth.
    JambHead {
        /// From face to face of the wall.
        depth: f64,
    },
    /// The casing on a face of the wall, mitred to its legs.
    Casing {
        /// Whether its ends follow the true mitre, which is curved; else they are straight.
        true_mitre: bool,
        /// How long the legs are, from their foot up to the arch's springing, if the job says.
        legs: Option<f64>,
    },
}

/// What holds the ends of two segments together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeadJoint {
    /// A loose tongue in slots.
    Spline,
    /// Dowels.
    Dowel,
    /// Fingers cut in the ends themselves.
    Finger,
    /// Glue alone.
    Butt,
}

impl CurvedHead {
    pub(crate) fn new(record: &Record) -> Self {
        Self {
            piece: match record.word("piece") {
                "head" => HeadPiece::Head,
                "jamb-head" => HeadPiece::JambHead {
                    depth: record.maybe_number("depth").unwrap_or_default(),
                },
                _ => HeadPiece::Casing {
                    true_mitre: record.get("mitre").is_some() && record.word("mitre") == "true-line",
                    legs: record.maybe_number("legs"),
                },
            },
            width: record.maybe_number("width"),
            layers: record.maybe_whole("layers"),
            segments: record.maybe_whole("segments"),
            cross_grain: record.number("cross-grain"),
            joint: record.get("joint").map(|_| match record.word("joint") {
                "spline" => HeadJoint::Spline,
                "dowel" => HeadJoint::Dowel,
                "finger" => HeadJoint::Finger,
                _ => HeadJoint::Butt,
            }),
            glue_up: record.maybe_text("glue-up"),
            stop: record.number("stop"),
        }
    }
}

/// Fields that only one piece has, and a jamb head's depth, which it must have.
pub(crate) fn check_head(form: &Record, faults: &mut Vec<Fault>) {
    let Some(&Datum::Word(piece)) = form.get("piece") else {
        return;
    };
    for (field, only, instead) in [
        ("depth", "jamb-head", "`layers` builds up a head or a casing"),
        ("mitre", "casing", "its ends are square to the soffit"),
        ("legs", "casing", "leave it out: it has no legs"),
    ] {
        if piece != only
            && let Some(placed) = form.fields.get(field)
        {
            let what = format!("only `piece: {only}` has `{field}`");
            faults.push(placed.place.fault(what, Some(instead.to_owned())));
        }
    }
    if piece != "jamb-head" {
        return;
    }
    if let Some(layers) = form.fields.get("layers") {
        let help = "leave it out: its `depth` and the boards' thickness tell".to_owned();
        faults.push(layers.place.fault("a jamb head has no `layers`", Some(help)));
    }
    // One that could not be read has been told already.
    let depth = form.places().at("depth").field;
    if form.get("depth").is_none() && faults.iter().all(|fault| fault.field != depth) {
        let help = "give `depth`, from face to face of the wall".to_owned();
        faults.push(form.place.fault("a jamb head has a `depth`", Some(help)));
    }
}

/// The fields of a curved head.
pub(crate) const CURVED_HEAD: &[Field] = &[
    required(
        "piece",
        Kind::Word(&[
            word("head", "the ring of the arch, its ends square to the soffit"),
            word(
                "jamb-head",
                "what lines the soffit through the wall, built up in layers",
            ),
            word(
                "casing",
                "the casing on a face of the wall, back from the edge by the arch's reveal, mitred to its legs",
            ),
        ]),
        "which part of the opening it is",
    ),
    optional(
        "width",
        LENGTH,
        "how wide it is, square to the soffit; the arch's ring if left out",
    ),
    optional(
        "depth",
        LENGTH,
        "how deep a jamb head is, from face to face of the wall",
    ),
    optional(
        "layers",
        Kind::Whole { least: 1, most: 20 },
        "how many thicknesses of board lie on one another, their joints half lapped; 1 if left out",
    ),
    optional(
        "segments",
        Kind::Whole { least: 1, most: 200 },
        "how many segments a layer has; the fewest that the boards allow if left out",
    ),
    default(
        "cross-grain",
        Kind::Angle {
            least: 1.0,
            most: 90.0,
        },
        "30 deg",
        "how far the grain may run across a segment at its ends",
    ),
    optional(
        "joint",
        Kind::Word(&[
            word("spline", "a loose tongue in slots"),
            word("dowel", "dowels"),
            word("finger", "fingers cut in the ends themselves"),
            word("butt", "glue alone"),
        ]),
        "what holds the ends of segments together: spline if left out, butt where layers lap",
    ),
    optional(
        "mitre",
        Kind::Word(&[
            word("straight", "straight from corner to corner"),
            word(
                "true-line",
                "the line on which all profiles meet, which is curved",
            ),
        ]),
        "how a casing's ends are cut to its legs: straight if left out, the true line marked beside it",
    ),
    optional(
        "legs",
        LENGTH,
        "how long a casing's legs would be if they ended level with the springing",
    ),
    optional(
        "glue-up",
        Kind::Name(Of::Stock),
        "the stock of a board to glue it up on, cut with it: its lines, its joints, holes for stops",
    ),
    default(
        "stop",
        LENGTH,
        "12 mm",
        "the diameter of that board's holes for stops",
    ),
];
