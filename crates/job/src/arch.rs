//! The arches of a job: every shape of the trade with its words, and which of them can be made.

use crate::fault::{Fault, Places};
use crate::record::{Datum, Record};
use crate::table::{
    Case, Cases, Field, Kind, LENGTH, LENGTH_OR_0, Of, Sign, default, not_yet, optional, required, word,
};
use cintre_measure::{INCH, Unit, parse_length, write_length};
use std::collections::BTreeMap;

/// A shape that can be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shape {
    /// Two of `span`, `rise`, `radius`.
    Segmental,
    /// `span`.
    Semicircular,
    /// `span`, `stilt`, perhaps `arc-rise`.
    Stilted,
    /// Two of `span`, `rise`, `radius`.
    Pointed,
    /// `span`.
    Equilateral,
    /// `span`, `rise`.
    Elliptical,
}

impl Shape {
    /// The shapes that can be made; the table's others are refused.
    pub const MAKEABLE: [Self; 6] = [
        Self::Segmental,
        Self::Semicircular,
        Self::Stilted,
        Self::Pointed,
        Self::Equilateral,
        Self::Elliptical,
    ];

    /// Its name in a job.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Segmental => "segmental",
            Self::Semicircular => "semicircular",
            Self::Stilted => "stilted",
            Self::Pointed => "pointed",
            Self::Equilateral => "equilateral",
            Self::Elliptical => "elliptical",
        }
    }
}

/// One arch as its job gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct ArchSpec {
    /// Its shape.
    pub shape: Shape,
    /// The lengths (mm) and angles (radians) that were given, by their words: `span`, `rise`, `radius`, `stilt`, `arc-rise`.
    pub sizes: BTreeMap<String, f64>,
    /// The choices that were given, by their words: `construction`.
    pub options: BTreeMap<String, String>,
    /// The depth of its ring, mm.
    pub ring: Option<f64>,
    /// Whether a span that looks like a mistaken unit is meant.
    pub size_meant: bool,
    /// Where its fields were written.
    pub places: Places,
}

impl ArchSpec {
    /// A size by its word, none if it was not given.
    pub fn size(&self, word: &str) -> Option<f64> {
        self.sizes.get(word).copied()
    }

    pub(crate) fn new(record: &Record) -> Self {
        let shape = Shape::MAKEABLE
            .into_iter()
            .find(|shape| shape.name() == record.case);
        let (mut sizes, mut options) = (BTreeMap::new(), BTreeMap::new());
        for (&name, placed) in &record.fields {
            match &placed.datum {
                Datum::Length(number) | Datum::Angle(number) if name != "ring" => {
                    sizes.insert(name.to_owned(), *number);
                }
                Datum::Word(word) => {
                    options.insert(name.to_owned(), (*word).to_owned());
                }
                _ => {}
            }
        }
        Self {
            shape: shape.expect("a shape that is read can be made"),
            sizes,
            options,
            ring: record.maybe_number("ring"),
            size_meant: record.yes_no("size-meant"),
            places: record.places(),
        }
    }
}

/// Longer spans than this are taken for a mistaken unit, mm.
const LONGEST_SPAN: f64 = 20_000.0;
/// And shorter ones than this, mm.
const SHORTEST_SPAN: f64 = 30.0;

/// A fault for every span that looks like a mistaken unit, unless the arch says that it is meant.
pub(crate) fn check_spans(record: &Record, bare: Unit, faults: &mut Vec<Fault>) {
    if record.get("size-meant") == Some(&Datum::YesNo(true)) {
        return;
    }
    for word in ["span", "diameter", "width"] {
        let Some(placed) = record.fields.get(word) else {
            continue;
        };
        let Datum::Length(mm) = placed.datum else { continue };
        if (SHORTEST_SPAN..=LONGEST_SPAN).contains(&mm) {
            continue;
        }
        let given = placed.place.given.as_deref().unwrap_or_default();
        let (what, instead) = readings(given, mm, bare);
        let help = format!("{instead}if the size is meant, add `size-meant: true` to the arch");
        faults.push(placed.place.fault(what, Some(help)));
    }
}

/// What a doubtful span comes to, and how it is written if the other unit was meant.
fn readings(given: &str, mm: f64, bare: Unit) -> (String, String) {
    let inches = in_inches(given, bare);
    let metres = || write_length(mm / 1000.0, Unit::Millimetre).replace("mm", "m");
    let read = if mm > LONGEST_SPAN {
        format!("{:.2} m", mm / 1000.0)
    } else if inches {
        write_length(mm, Unit::Millimetre)
    } else {
        format!("{:.3} in", mm / INCH)
    };
    let said = match (inches, mm > LONGEST_SPAN) {
        (true, _) => write_length(mm, Unit::Inch),
        (false, false) => write_length(mm, Unit::Millimetre),
        (false, true) if given.contains('m') && !given.contains("mm") => metres(),
        (false, true) => write_length(mm, Unit::Millimetre),
    };
    let instead = match (inches, mm > LONGEST_SPAN) {
        (true, true) => {
            let other = write_length(mm / INCH, Unit::Millimetre);
            format!("if {other} was meant, write `{other}`; ")
        }
        (false, false) => {
            let other = write_length(mm * INCH, Unit::Inch);
            let long = write_length(mm * INCH, Unit::Millimetre);
            format!("if {other} ({long}) was meant, write `{other}`; ")
        }
        _ => String::new(),
    };
    (format!("{said} is {read}, a doubtful size for an arch"), instead)
}

/// Whether a length was given in inches or feet: it then means the same whatever a bare number is, and says so.
fn in_inches(given: &str, bare: Unit) -> bool {
    let either = [Unit::Millimetre, Unit::Inch].map(|unit| parse_length(given, unit).ok());
    if either[0] == either[1] {
        given.contains(['i', 'f', '\'', '"', '′', '″', '’', '”'])
    } else {
        bare == Unit::Inch
    }
}

const SPAN: Field = required("span", LENGTH, "the clear width between the springings");
const RISE: Field = required("rise", LENGTH, "the height of the crown above the springing line");
const SOME_SPAN: Field = optional("span", LENGTH, "the clear width between the springings");
const SOME_RISE: Field = optional("rise", LENGTH, "the height of the crown above the springing line");
const SOME_RADIUS: Field = optional("radius", LENGTH, "the radius of the soffit");
const HAUNCH_RADIUS: Field = optional(
    "haunch-radius",
    LENGTH,
    "the radius of the arcs that spring from the jambs",
);

const HAUNCH_TURN: Field = optional("haunch-turn", Kind::Angle, "how far each haunch arc turns");

/// Every shape of the trade.
pub(crate) static SHAPES: Cases = Cases {
    tag: "shape",
    default: None,
    help: "the shape of the arch",
    common: &[
        optional("ring", LENGTH, "the depth of the ring, or the width of a casing"),
        default(
            "size-meant",
            Kind::YesNo,
            "false",
            "true where a span over 20 m or under 30 mm is no mistaken unit",
        ),
        not_yet("reveal"),
        not_yet("voussoirs"),
    ],
    cases: &[
        Case::made(
            "segmental",
            "one arc, less than half a circle",
            &[SOME_SPAN, SOME_RISE, SOME_RADIUS],
        )
        .exactly(2, &["span", "rise", "radius"]),
        Case::made("semicircular", "half a circle", &[SPAN]),
        Case::made(
            "stilted",
            "an arc on plumb stilts",
            &[
                SPAN,
                required("stilt", LENGTH, "the plumb height between springing and arc"),
                optional(
                    "arc-rise",
                    LENGTH,
                    "the height of the arc alone; half the span if left out",
                ),
            ],
        ),
        Case::made(
            "pointed",
            "two arcs that meet at a point, centres on the springing line",
            &[SOME_SPAN, SOME_RISE, SOME_RADIUS],
        )
        .exactly(2, &["span", "rise", "radius"]),
        Case::made("equilateral", "pointed, the radius equal to the span", &[SPAN]),
        Case::made("elliptical", "half an ellipse", &[SPAN, RISE]),
        Case::later("horseshoe", "one arc, more than half a circle", &[SPAN, RISE]),
        Case::later(
            "camber",
            "nearly flat, with a level back",
            &[
                SPAN,
                optional(
                    "camber",
                    LENGTH,
                    "the rise of the soffit; a hundredth of the span if left out",
                ),
                required(
                    "depth",
                    LENGTH,
                    "the depth from the level back to the springing line",
                ),
                optional(
                    "skewback",
                    Kind::Angle,
                    "the angle of the skewbacks from the horizontal, 60 deg if left out",
                ),
            ],
        ),
        Case::later(
            "three-centred",
            "three arcs, a basket handle",
            &[
                SPAN,
                RISE,
                HAUNCH_RADIUS,
                optional(
                    "construction",
                    Kind::Word(&[
                        word("least-ratio", "the radii as alike as they can be"),
                        word("sixty", "haunch arcs of 60 deg"),
                    ]),
                    "how the radii are found",
                ),
            ],
        ),
        Case::later(
            "five-centred",
            "five arcs",
            &[
                SPAN,
                RISE,
                HAUNCH_RADIUS,
                HAUNCH_TURN,
                optional("middle-turn", Kind::Angle, "how far each middle arc turns"),
                optional(
                    "construction",
                    Kind::Word(&[word("mean-radius", "the middle radius between the others")]),
                    "how the radii are found",
                ),
            ],
        ),
        Case::later(
            "four-centred",
            "four arcs that meet at a point",
            &[
                SPAN,
                RISE,
                HAUNCH_RADIUS,
                HAUNCH_TURN,
                optional(
                    "construction",
                    Kind::Word(&[word("two-thirds", "the haunch radius two thirds of the rise")]),
                    "how the radii are found",
                ),
            ],
        ),
        Case::later(
            "ogee",
            "pointed with counter curves",
            &[
                SPAN,
                RISE,
                required("lower-radius", LENGTH, "the radius of the lower arcs"),
            ],
        ),
        Case::later("parabolic", "a parabola", &[SPAN, RISE]),
        Case::later("catenary", "a hanging chain turned over", &[SPAN, RISE]),
        Case::later(
            "rampant",
            "springing lines at two heights",
            &[
                SPAN,
                required(
                    "springing-difference",
                    LENGTH,
                    "the height of the right springing above the left",
                ),
                optional("rise", LENGTH, "the highest point above the lower springing"),
            ],
        ),
        Case::later(
            "round",
            "a full circle",
            &[required("diameter", LENGTH, "its diameter")],
        ),
        Case::later(
            "oval",
            "a full ellipse",
            &[
                required("width", LENGTH, "its width"),
                required("height", LENGTH, "its height"),
            ],
        ),
        Case::later(
            "trefoil",
            "three lobes",
            &[
                SPAN,
                RISE,
                required("lobe-radius", LENGTH, "the radius of each lobe"),
                required(
                    "lobe-height",
                    LENGTH_OR_0,
                    "the height of the lower lobes' centres",
                ),
            ],
        ),
        Case::later(
            "measured",
            "points taken on site",
            &[
                required(
                    "points",
                    Kind::List(&Kind::Tuple(2, &Kind::Length(Sign::Any))),
                    "the points",
                ),
                required(
                    "as",
                    Kind::Word(&[
                        word("circle", "the nearest circle"),
                        word("ellipse", "the nearest ellipse"),
                        word("curve", "a fair curve"),
                    ]),
                    "what is laid through them",
                ),
            ],
        ),
        Case::later(
            "traced",
            "a curve that someone else drew",
            &[
                required("file", Kind::Text, "the drawing"),
                optional("layer", Kind::Text, "the layer that the curve is on"),
            ],
        ),
    ],
};

/// The arches of a job by their names.
pub(crate) const ARCHES: Kind = Kind::Named(Of::Arch, &Kind::Cases(&SHAPES));
