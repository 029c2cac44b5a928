//! A bending form's own fields.

pub(crate) use fields::{BENDING_FORM, CLAMP, SPRINGBACK, check_bending_form};

use crate::record::{Datum, Record};

mod fields;

/// The sizes of a bending form, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct BendingForm {
    /// Which line of the finished piece its arch gives.
    pub line: PieceLine,
    /// The straight leg past each springing.
    pub legs: f64,
    /// What strips run on past that at each end.
    pub over_length: f64,
    /// The strips' thicknesses.
    pub laminations: Laminations,
    /// The finished width of the piece.
    pub width: f64,
    /// What strips are wider, to be planed off.
    pub clean_up: f64,
    /// What is bent, and how.
    pub wood: StripWood,
    /// What is kept of the bend; none where the house says.
    pub springback: Option<SpringbackSpec>,
    /// What a test piece came out as.
    pub measured_back: Option<MeasuredBackSpec>,
    /// Which side of the strips it lies on.
    pub side: FormSide,
    /// The liner on each face.
    pub liner: f64,
    /// The caul's thickness.
    pub caul: f64,
    /// The diameter of its clamp holes; none where clamps sit on flats.
    pub clamp_hole: Option<f64>,
    /// The wood between face and clamp.
    pub ligament: f64,
    /// The farthest from one clamp to the next; none where caul and strips decide.
    pub clamp_spacing: Option<f64>,
    /// How many layers of the stock; none where the strips' width decides.
    pub body_layers: Option<u32>,
    /// How many segments the female of a pair is in; none where its turn decides.
    pub segments: Option<u32>,
    /// The diameter of its dowels.
    pub dowel: f64,
    /// Whether it stands on a base board.
    pub base: bool,
    /// The depth of the groove in the base; none where the machine decides.
    pub groove: Option<f64>,
}

/// A line of a laminated piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PieceLine {
    /// The inner face.
    Inside,
    /// The middle of its thickness.
    Middle,
    /// The outer face.
    Outside,
}

/// The thicknesses of a piece's laminations, mm.
#[derive(Clone, Debug, PartialEq)]
pub enum Laminations {
    /// So many of one thickness.
    Alike {
        /// How thick one is.
        thickness: f64,
        /// How many.
        count: u32,
    },
    /// As many of one thickness as make a total.
    Total {
        /// How thick one is.
        thickness: f64,
        /// How thick they are together, at least.
        total: f64,
    },
    /// Each with its own, from the inside.
    Each(Vec<f64>),
}

/// What is bent, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StripWood {
    /// Dry and cold.
    Dry,
    /// Out of the steam.
    Steamed,
    /// Out of the steam, in a strap.
    Strapped,
    /// Plywood, its outer grain along the curve.
    PlyAlong,
    /// Plywood, its outer grain across the curve.
    PlyAcross,
}

/// What is kept of a bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SpringbackSpec {
    /// What follows from the layers.
    Layers,
    /// This share, as measured.
    Kept(f64),
    /// All of it.
    None,
}

/// What a test piece came out as, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MeasuredBackSpec {
    /// A radius.
    Radius {
        /// As it came out.
        radius: f64,
        /// On its form; none where that was the one of this job.
        form: Option<f64>,
    },
    /// The width across its springings.
    Width(f64),
}

/// Which side of the strips a form lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FormSide {
    /// Inside.
    Male,
    /// Outside.
    Female,
    /// Both.
    Pair,
}

impl BendingForm {
    pub(crate) fn new(record: &Record) -> Self {
        Self {
            line: match record.word("line") {
                "middle" => PieceLine::Middle,
                "outside" => PieceLine::Outside,
                _ => PieceLine::Inside,
            },
            legs: record.number("legs"),
            over_length: record.number("over-length"),
            laminations: laminations(record),
            width: record.number("width"),
            clean_up: record.number("clean-up"),
            wood: match record.word("wood") {
                "steamed" => StripWood::Steamed,
                "strapped" => StripWood::Strapped,
                "ply-along" => StripWood::PlyAlong,
                "ply-across" => StripWood::PlyAcross,
                _ => StripWood::Dry,
            },
            springback: springback(record),
            measured_back: record.maybe_record("measured-back").and_then(measured_back),
            side: match record.word("side") {
                "female" => FormSide::Female,
                "pair" => FormSide::Pair,
                _ => FormSide::Male,
            },
            liner: record.number("liner"),
            caul: record.number("caul"),
            clamp_hole: (record.word("seats") == "holes").then(|| record.number("clamp-hole")),
            ligament: record.number("ligament"),
            clamp_spacing: record.maybe_number("clamp-spacing"),
            body_layers: record.maybe_whole("body-layers"),
            segments: record.maybe_whole("segments"),
            dowel: record.number("dowel"),
            base: record.yes_no("base"),
            groove: record.maybe_number("groove"),
        }
    }
}

fn laminations(record: &Record) -> Laminations {
    let thickness = record.maybe_number("lamination").unwrap_or(f64::NAN);
    if let Some(count) = record.maybe_whole("laminations") {
        Laminations::Alike { thickness, count }
    } else if let Some(total) = record.maybe_number("total") {
        Laminations::Total { thickness, total }
    } else {
        Laminations::Each(record.list("thicknesses").map(Datum::number).collect())
    }
}

fn measured_back(record: &Record) -> Option<MeasuredBackSpec> {
    let radius = record
        .maybe_number("radius")
        .map(|radius| MeasuredBackSpec::Radius {
            radius,
            form: record.maybe_number("form"),
        });
    radius.or_else(|| record.maybe_number("width").map(MeasuredBackSpec::Width))
}

/// What a record says of springback.
pub(crate) fn springback(record: &Record) -> Option<SpringbackSpec> {
    record.get("springback").map(|datum| match datum {
        Datum::Word("layers") => SpringbackSpec::Layers,
        Datum::Number(kept) => SpringbackSpec::Kept(*kept),
        _ => SpringbackSpec::None,
    })
}
