//! How an arch's ring is divided, and where its ordinates stand.

use crate::fault::{Fault, Place, Places, joined};
use crate::record::{Datum, Record};
use crate::table::{Field, Kind, LENGTH, LENGTH_OR_0, optional, required};

/// The voussoirs of a ring as its job gives them.
#[derive(Clone, Debug, PartialEq)]
pub struct VoussoirSpec {
    /// By what the ring is divided.
    pub division: Voussoirs,
    /// Where its fields were written.
    pub places: Places,
}

/// By what a ring is divided. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Voussoirs {
    /// So many, cut to a taper, with joints as thick as this.
    Cut {
        /// How many.
        count: u32,
        /// The joint.
        joint: f64,
    },
    /// Uncut units of this size, with joints that taper between these bounds.
    Uncut {
        /// The width of a unit along the ring.
        size: f64,
        /// The thinnest joint.
        least: f64,
        /// The thickest joint.
        most: f64,
    },
}

impl VoussoirSpec {
    pub(crate) fn new(record: &Record) -> Self {
        let division = match record.maybe_whole("count") {
            Some(count) => Voussoirs::Cut {
                count,
                joint: record.number("joint"),
            },
            None => {
                let [least, most] = record.numbers("joints");
                Voussoirs::Uncut {
                    size: record.number("size"),
                    least,
                    most,
                }
            }
        };
        Self {
            division,
            places: record.places(),
        }
    }
}

/// More voussoirs than any ring has.
const MOST: u32 = 999;

/// How the ring is divided.
pub(crate) const VOUSSOIRS: Field = optional(
    "voussoirs",
    Kind::Group(&[
        optional(
            "count",
            Kind::Whole { least: 1, most: MOST },
            "how many, cut to a taper: an odd number, or over a pointed crown an even one; with `joint`",
        ),
        optional("joint", LENGTH_OR_0, "the joint between cut voussoirs"),
        optional(
            "size",
            LENGTH,
            "the width of an uncut unit along the ring; with `joints`",
        ),
        optional(
            "joints",
            Kind::Tuple(2, &LENGTH_OR_0),
            "the thinnest and the thickest joint between uncut units",
        ),
    ]),
    "the units of the ring: `count` and `joint`, or `size` and `joints`",
);

/// Where the ordinates stand.
pub(crate) const ORDINATES: Field = optional(
    "ordinates",
    Kind::Group(&[required(
        "step",
        LENGTH,
        "how far apart the heights are given, from the middle of the span outwards",
    )]),
    "where the heights are given that the curve is set out by; every tenth of the span if left out",
);

/// A fault where a ring is divided by neither or both of the two ways, or where there is none to divide.
pub(crate) fn check_voussoirs(arch: &Record, faults: &mut Vec<Fault>) {
    let Some(Datum::Record(record)) = arch.get("voussoirs") else {
        return;
    };
    // A field with a fault of its own is not in the record: it is given, though.
    if faults
        .iter()
        .any(|fault| fault.field.starts_with(&record.place.field))
    {
        return;
    }
    let given: Vec<_> = ["count", "joint", "size", "joints"]
        .into_iter()
        .filter(|name| record.fields.contains_key(name))
        .collect();
    if !matches!(given.as_slice(), ["count", "joint"] | ["size", "joints"]) {
        let given = if given.is_empty() {
            "none".to_owned()
        } else {
            given.join(", ")
        };
        let what =
            format!("a ring is divided by `count` and `joint`, or `size` and `joints`; given: {given}");
        faults.push(record.place.fault(what, None));
    }
    if let Some(placed) = record.fields.get("joints")
        && let Datum::List(joints) = &placed.datum
        && let [least, most] = joints.as_slice()
        && least.datum.number() > most.datum.number()
    {
        let what = "the thinnest joint comes first, then the thickest";
        faults.push(placed.place.fault(what, None));
    }
    // A camber arch has a level back, to which its joints run.
    if arch.case != "camber" && !arch.fields.contains_key("ring") {
        let place = Place {
            field: joined(&arch.place.field, "ring"),
            given: None,
            ..record.place.clone()
        };
        let help = "give the depth of the ring, to which the joints run".to_owned();
        faults.push(place.fault("this field is missing beside `voussoirs`", Some(help)));
    }
}
