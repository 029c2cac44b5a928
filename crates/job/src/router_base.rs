//! The base of the shop's hand-held router.

use crate::fault::{Fault, Places};
use crate::record::Record;
use crate::stock::corners;
use crate::table::{Field, Kind, LENGTH, Sign, default, optional, required};

/// The base of a hand-held router, mm, seen from above with the bit's centre at the origin.
#[derive(Clone, Debug, PartialEq)]
pub struct RouterBase {
    /// Its diameter, or that of the circle that holds it.
    pub diameter: f64,
    /// The centres of the screw holes that its own sole is fixed by.
    pub holes: Vec<[f64; 2]>,
    /// Their diameter; none where it has no holes.
    pub hole: Option<f64>,
    /// Where its fields were written.
    pub places: Places,
}

impl RouterBase {
    pub(crate) fn new(record: &Record) -> Self {
        Self {
            diameter: record.number("diameter"),
            holes: record.list("holes").map(corners).collect(),
            hole: record.maybe_number("hole"),
            places: record.places(),
        }
    }
}

/// What no single field of a base can tell: its holes have a size, and lie in it.
pub(crate) fn check_base(base: &Record, faults: &mut Vec<Fault>) {
    let Some(placed) = base.fields.get("holes") else {
        return;
    };
    let holes: Vec<[f64; 2]> = base.list("holes").map(corners).collect();
    if !holes.is_empty() && base.get("hole").is_none() {
        let help = "give `hole`, the diameter of its holes".to_owned();
        faults.push(placed.place.fault("its holes have no diameter", Some(help)));
    }
    let radius = base.number("diameter") / 2.0;
    let reach = radius - base.maybe_number("hole").unwrap_or(0.0) / 2.0;
    if let Some([x, y]) = holes.iter().find(|[x, y]| x.hypot(*y) > reach) {
        let what = format!("the hole at ({x}, {y}) reaches beyond the base");
        let help = format!("a hole's centre lies at most {reach:.1} mm from the bit's");
        faults.push(placed.place.fault(what, Some(help)));
    }
}

pub(crate) const ROUTER_BASE: Field = optional(
    "router-base",
    Kind::Group(&[
        required("diameter", LENGTH, "its diameter"),
        default(
            "holes",
            Kind::List(&Kind::Tuple(2, &Kind::Length(Sign::Any))),
            "[]",
            "the centres of its screw holes, each [x, y] from the bit's centre, seen from above",
        ),
        optional("hole", LENGTH, "the diameter of those holes"),
    ]),
    "the base of the hand-held router",
);
