//! A centering's own fields.

use crate::record::Record;
use crate::table::{Field, Kind, LENGTH, LENGTH_OR_0, default, optional, required, word};

/// The sizes of a centering, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Centering {
    /// The thickness of the wall that the arch carries.
    pub wall: f64,
    /// The thickness of the lagging on the ribs, 0 where there is none.
    pub lagging: f64,
    /// The thickness of a skin on the lagging.
    pub skin: f64,
    /// The width of a batten of the lagging.
    pub batten: f64,
    /// The widest gap between two battens; 0 for close boards.
    pub gap: f64,
    /// How a rib is built up; none where its size decides.
    pub build: Option<CenteringBuild>,
    /// How far the ribs' level bottom lies below the feet of their curve; none where the build-up decides.
    pub tie: Option<f64>,
    /// The depth of wood left above a web opening, or of a built-up rib's band; none where the rib is solid, or the span decides.
    pub rib_depth: Option<f64>,
    /// The diameter of the holes for the bolts that join the ribs.
    pub bolt: f64,
    /// The least lap of one layer's joints over the other's; none for the usual.
    pub lap: Option<f64>,
    /// How many ribs; none where the wall decides.
    pub ribs: Option<u32>,
    /// Whether the centre comes apart by a key in its middle.
    pub split: bool,
    /// Whether ribs have holes to be lifted by; none where their size decides.
    pub lifting_holes: Option<bool>,
    /// Width and depth of notches in the ribs' level bottom.
    pub notch: Option<[f64; 2]>,
    /// Width and thickness of the spacers between ribs.
    pub spacer: [f64; 2],
    /// How far the ribs stay clear of each jamb.
    pub jamb_clearance: f64,
    /// How far the outer ribs and the lagging stay inside each face of the wall.
    pub face_clearance: f64,
    /// The slope of the folding wedges, radians.
    pub wedge_slope: f64,
    /// How far they are driven back to ease the centre; none where the drop decides.
    pub wedge_drive: Option<f64>,
    /// The lip at the springing that the centre must drop past.
    pub lip: f64,
    /// How far clear of it the centre must come besides.
    pub striking_clearance: f64,
    /// The weight of the masonry, kN/m³.
    pub density: f64,
    /// The modulus of elasticity of the lagging, N/mm².
    pub lagging_stiffness: f64,
    /// A ring heavier than this calls for the caution of large centres, kN.
    pub heaviest_ring: Option<f64>,
}

/// How a rib is built up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CenteringBuild {
    /// Layers that fill the wall, with nothing between them.
    TurningPiece,
    /// One plate.
    Single,
    /// Two layers of pieces.
    TwoLayers,
    /// One layer of pieces, plates over its joints.
    Gusseted,
}

impl Centering {
    pub(crate) fn new(record: &Record) -> Self {
        Self {
            wall: record.number("wall"),
            lagging: record.number("lagging"),
            skin: record.number("skin"),
            batten: record.number("batten"),
            gap: record.number("gap"),
            build: match record.word("build") {
                "turning-piece" => Some(CenteringBuild::TurningPiece),
                "single" => Some(CenteringBuild::Single),
                "two-layers" => Some(CenteringBuild::TwoLayers),
                "gusseted" => Some(CenteringBuild::Gusseted),
                _ => None,
            },
            tie: record.maybe_number("tie"),
            rib_depth: record.maybe_number("rib-depth"),
            bolt: record.number("bolt"),
            lap: record.maybe_number("lap"),
            ribs: record.maybe_whole("ribs"),
            split: record.yes_no("split"),
            lifting_holes: record
                .get("lifting-holes")
                .map(|_| record.yes_no("lifting-holes")),
            notch: record.get("notch").map(|_| record.numbers("notch")),
            spacer: record.numbers("spacer"),
            jamb_clearance: record.number("jamb-clearance"),
            face_clearance: record.number("face-clearance"),
            wedge_slope: record.number("wedge-slope"),
            wedge_drive: record.maybe_number("wedge-drive"),
            lip: record.number("lip"),
            striking_clearance: record.number("striking-clearance"),
            density: record.number("density"),
            lagging_stiffness: record.number("lagging-stiffness"),
            heaviest_ring: record.maybe_number("heaviest-ring"),
        }
    }
}

/// Lagging and its skin are boards and sheet: beyond this, mm, a figure is taken for a mistake.
const BOARDING: Kind = Kind::LengthTo(100.0);

/// The fields of a centering.
pub(crate) const CENTERING: &[Field] = &[
    required("wall", LENGTH, "the thickness of the wall that the arch carries"),
    required(
        "lagging",
        BOARDING,
        "the thickness of the lagging on the ribs, 0 for none",
    ),
    default("skin", BOARDING, "0", "the thickness of a skin on the lagging"),
    default("batten", LENGTH, "50 mm", "the width of a batten of the lagging"),
    default(
        "gap",
        LENGTH_OR_0,
        "20 mm",
        "the widest gap between two battens, 0 for close boards",
    ),
    default(
        "build",
        Kind::Word(&[
            word("by-size", "what the size asks for"),
            word(
                "turning-piece",
                "layers that fill the wall, with nothing between them",
            ),
            word("single", "each rib one plate"),
            word(
                "two-layers",
                "each rib two layers of pieces, their joints staggered",
            ),
            word("gusseted", "each rib one layer of pieces, plates over its joints"),
        ]),
        "by-size",
        "how a rib is built up",
    ),
    optional(
        "tie",
        LENGTH_OR_0,
        "how far the ribs' level bottom lies below the feet of their curve: 100 mm, or what a built-up rib asks for",
    ),
    optional(
        "rib-depth",
        LENGTH,
        "the depth of wood left above a web opening, or of a built-up rib's band; a single rib is solid if it is left out",
    ),
    default(
        "bolt",
        LENGTH,
        "9 mm",
        "the diameter of the holes for the bolts that join the ribs",
    ),
    optional(
        "lap",
        LENGTH,
        "the least lap of one layer's joints over the other's: 150 mm and eight thicknesses if it is left out",
    ),
    optional(
        "ribs",
        Kind::Whole { least: 2, most: 100 },
        "how many ribs; the thickness of the wall decides if it is left out",
    ),
    default(
        "split",
        Kind::YesNo,
        "false",
        "whether it comes apart by a key in its middle, as one that stands over its jambs must",
    ),
    optional(
        "lifting-holes",
        Kind::YesNo,
        "whether ribs have holes to be lifted by; their size decides if it is left out",
    ),
    optional(
        "notch",
        Kind::Tuple(2, &LENGTH),
        "width and depth of notches in the ribs' level bottom, for timbers that run under all ribs",
    ),
    default(
        "spacer",
        Kind::Tuple(2, &LENGTH),
        "[45 mm, 95 mm]",
        "the section of the spacers between ribs",
    ),
    default(
        "jamb-clearance",
        LENGTH_OR_0,
        "5 mm",
        "how far the ribs stay clear of each jamb at least",
    ),
    default(
        "face-clearance",
        LENGTH_OR_0,
        "6 mm",
        "how far the outer ribs and the lagging stay inside each face of the wall",
    ),
    default(
        "wedge-slope",
        Kind::Angle {
            least: 1.0,
            most: 45.0,
        },
        "1:8",
        "the slope of the folding wedges",
    ),
    optional(
        "wedge-drive",
        LENGTH,
        "how far the wedges are driven back to ease the centre; what the drop needs if it is left out",
    ),
    default(
        "lip",
        LENGTH_OR_0,
        "0",
        "the lip at the springing that the centre must drop past",
    ),
    default(
        "striking-clearance",
        LENGTH_OR_0,
        "5 mm",
        "how far clear of the lip the centre must come besides",
    ),
    default(
        "density",
        Kind::Density,
        "20 kN/m3",
        "what the masonry weighs, bare numbers in kN/m3 (brick 18 to 20, limestone 22 to 24, granite 26 to 27)",
    ),
    default(
        "lagging-stiffness",
        Kind::Number {
            least: 500.0,
            most: 50000.0,
        },
        "6000",
        "the modulus of elasticity of the lagging along its length, in N/mm2, for the sum of how far it bends",
    ),
    optional(
        "heaviest-ring",
        Kind::Number {
            least: 0.001,
            most: 100_000.0,
        },
        "a ring heavier than this, in kN, calls for the caution of large centres",
    ),
];
