//! The arches of a job: every shape of the trade with its words, and which of them can be made.

use crate::fault::{Fault, Places};
use crate::record::{Datum, Record};
use crate::setting_out::VoussoirSpec;
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
    /// `span`, `rise`.
    Horseshoe,
    /// `span`, `depth`, perhaps `camber` and `skewback`.
    Camber,
    /// `span`, `rise`, perhaps `haunch-radius` or `construction`.
    ThreeCentred,
    /// `span`, `rise`, perhaps `haunch-radius`, `haunch-turn` and `middle-turn`, or `construction`.
    FiveCentred,
    /// `span`, `rise`, perhaps `haunch-radius` and `haunch-turn`, or `construction`.
    FourCentred,
    /// `span`, `rise`, `lower-radius`.
    Ogee,
    /// `span`, `rise`.
    Parabolic,
    /// `span`, `rise`.
    Catenary,
    /// `span`, `springing-difference`, perhaps `rise`.
    Rampant,
    /// `diameter`.
    Round,
    /// `width`, `height`.
    Oval,
    /// `span`, `rise`, `lobe-radius`, `lobe-height`.
    Trefoil,
    /// `points`, `as`.
    Measured,
    /// `gap`; `file`, perhaps `layer` and `unit`.
    Traced,
}

impl Shape {
    /// The shapes that can be made; those of the other words are refused.
    pub const MAKEABLE: [Self; 20] = [
        Self::Segmental,
        Self::Semicircular,
        Self::Stilted,
        Self::Pointed,
        Self::Equilateral,
        Self::Elliptical,
        Self::Horseshoe,
        Self::Camber,
        Self::ThreeCentred,
        Self::FiveCentred,
        Self::FourCentred,
        Self::Ogee,
        Self::Parabolic,
        Self::Catenary,
        Self::Rampant,
        Self::Round,
        Self::Oval,
        Self::Trefoil,
        Self::Measured,
        Self::Traced,
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
            Self::Horseshoe => "horseshoe",
            Self::Camber => "camber",
            Self::ThreeCentred => "three-centred",
            Self::FiveCentred => "five-centred",
            Self::FourCentred => "four-centred",
            Self::Ogee => "ogee",
            Self::Parabolic => "parabolic",
            Self::Catenary => "catenary",
            Self::Rampant => "rampant",
            Self::Round => "round",
            Self::Oval => "oval",
            Self::Trefoil => "trefoil",
            Self::Measured => "measured",
            Self::Traced => "traced",
        }
    }
}

/// One arch as its job gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct ArchSpec {
    /// Its shape.
    pub shape: Shape,
    /// The lengths (mm) and angles (radians) that were given, by their words: `span`, `rise`, `haunch-turn`.
    pub sizes: BTreeMap<String, f64>,
    /// The choices, names and units that were given, by their words: `construction`, `skewback`, `as`, `file`, `layer`, `unit`.
    pub options: BTreeMap<String, String>,
    /// Points that were taken on site, mm, in the order given; none of them for a shape that is known by its sizes.
    pub points: Vec<[f64; 2]>,
    /// The depth of its ring, mm.
    pub ring: Option<f64>,
    /// How far its ring stands back from its edge, mm.
    pub reveal: Option<f64>,
    /// How its ring is divided.
    pub voussoirs: Option<VoussoirSpec>,
    /// How far apart the ordinates stand that it is set out by, mm; a tenth of the span if it does not say.
    pub ordinates: Option<f64>,
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

    /// A choice, name or unit by its word, none if it was not given.
    pub fn option(&self, word: &str) -> Option<&str> {
        self.options.get(word).map(String::as_str)
    }

    pub(crate) fn new(record: &Record) -> Self {
        let shape = Shape::MAKEABLE
            .into_iter()
            .find(|shape| shape.name() == record.case);
        let (mut sizes, mut options) = (BTreeMap::new(), BTreeMap::new());
        for (&name, placed) in &record.fields {
            match &placed.datum {
                Datum::Length(number) | Datum::Angle(number) if !matches!(name, "ring" | "reveal") => {
                    sizes.insert(name.to_owned(), *number);
                }
                Datum::Word(word) => {
                    options.insert(name.to_owned(), (*word).to_owned());
                }
                Datum::Text(text) => {
                    options.insert(name.to_owned(), text.clone());
                }
                Datum::Unit(unit) => {
                    options.insert(name.to_owned(), unit.name().to_owned());
                }
                _ => {}
            }
        }
        Self {
            shape: shape.expect("a shape that is read can be made"),
            sizes,
            options,
            points: points(record),
            ring: record.maybe_number("ring"),
            reveal: record.maybe_number("reveal"),
            voussoirs: record.maybe_record("voussoirs").map(VoussoirSpec::new),
            ordinates: record
                .maybe_record("ordinates")
                .map(|record| record.number("step")),
            size_meant: record.yes_no("size-meant"),
            places: record.places(),
        }
    }
}

/// The points of a measured arch.
fn points(record: &Record) -> Vec<[f64; 2]> {
    let point = |datum: &Datum| match datum {
        Datum::List(pair) => [0, 1].map(|i| pair[i].datum.number()),
        _ => panic!("each point is a pair of lengths"),
    };
    record.list("points").map(point).collect()
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
    check_spread(record, faults);
}

/// A fault for measured points that stand so wide or so near that their unit looks mistaken.
fn check_spread(record: &Record, faults: &mut Vec<Fault>) {
    let across: Vec<f64> = points(record).iter().map(|point| point[0]).collect();
    let [least, most] = [f64::min, f64::max].map(|pick| across.iter().copied().reduce(pick).unwrap_or(0.0));
    let width = most - least;
    if across.is_empty() || (SHORTEST_SPAN..=LONGEST_SPAN).contains(&width) {
        return;
    }
    let what = format!(
        "the points stand {} ({:.3} in) wide, a doubtful size for an arch",
        write_length(width, Unit::Millimetre),
        width / INCH
    );
    let help = "see that bare numbers are in the job's `units`; if the size is meant, add `size-meant: true` to the arch";
    faults.push(record.places().at("points").fault(what, Some(help.to_owned())));
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
