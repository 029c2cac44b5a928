//! The fields of a bending form, and of what the house says of bending.

use crate::fault::{Fault, Places};
use crate::record::Record;
use crate::table::{Field, Kind, LENGTH, LENGTH_OR_0, Word, default, optional, required, word};

/// What no single field of a bending form can tell.
pub(crate) fn check_bending_form(form: &Record, faults: &mut Vec<Fault>) {
    let places: Places = form.places();
    let given = |field: &str| form.get(field).is_some();
    let mut fault = |field: &str, what: &str, help: &str| {
        faults.push(places.at(field).fault(what, Some(help.to_owned())));
    };
    if given("thicknesses") && given("lamination") {
        let help = "leave out `lamination`, or give `laminations`, how many of it";
        fault(
            "lamination",
            "`thicknesses` says the thickness of each already",
            help,
        );
    } else if (given("laminations") || given("total")) && !given("lamination") {
        fault(
            "lamination",
            "the thickness of a lamination is wanted",
            "give `lamination: 4`",
        );
    }
    if form.list("thicknesses").next().is_none() && given("thicknesses") {
        fault(
            "thicknesses",
            "these are no laminations",
            "give the thickness of each",
        );
    }
    if let Some(measured) = form.maybe_record("measured-back") {
        let of = |field: &str| measured.get(field).is_some();
        if of("radius") == of("width") {
            let help =
                "give `radius` of a line of one radius, or `width` across the springings, as it came out";
            fault(
                "measured-back",
                "a test piece is measured by one of two figures",
                help,
            );
        } else if of("width") && of("form") {
            let help =
                "leave out `form`: a width is told of the form that the job gives without `measured-back`";
            fault("measured-back", "`form` is a radius", help);
        }
    }
    if given("segments") && form.word("side") != "pair" {
        fault(
            "segments",
            "only the female of a pair is in segments",
            "leave it out, or take `side: pair`",
        );
    }
}

/// The least and the most of its bend that a piece keeps, by the shop's own measure.
const KEPT: (f64, f64) = (0.2, 1.25);

/// The words for springback, and a share.
pub(crate) const SPRINGBACK: Kind = Kind::NumberOr {
    least: KEPT.0,
    most: KEPT.1,
    words: &[
        word("layers", "by the law of layers, 1 - 1/n² for n alike"),
        word("none", "nothing springs back"),
    ],
};

const WOODS: &[Word] = &[
    word("dry", "wood bent dry and cold"),
    word("steamed", "wood bent out of the steam"),
    word("strapped", "wood bent out of the steam in a strap with end stops"),
    word("ply-along", "plywood whose outer grain runs along the curve"),
    word("ply-across", "plywood whose outer grain runs across the curve"),
];

const MEASURED_BACK: &[Field] = &[
    optional(
        "radius",
        LENGTH,
        "the radius that the piece came out with, along the line that the arch gives",
    ),
    optional(
        "width",
        LENGTH,
        "the width that it came out with across its springings, along the same line",
    ),
    optional(
        "form",
        LENGTH,
        "the radius of that line on the form that it was bent on; the form that the job gives without this if it is left out",
    ),
];

/// The fields of a bending form.
pub(crate) const BENDING_FORM: &[Field] = &[
    default(
        "line",
        Kind::Word(&[
            word("inside", "its inner face"),
            word("middle", "the middle of its thickness"),
            word("outside", "its outer face"),
        ]),
        "inside",
        "which line of the finished piece the arch's soffit is",
    ),
    default(
        "legs",
        LENGTH_OR_0,
        "0",
        "the straight leg that runs on past each springing",
    ),
    default(
        "over-length",
        LENGTH_OR_0,
        "50 mm",
        "what strips and form run on past that at each end, to be trimmed off",
    ),
    optional(
        "lamination",
        LENGTH,
        "how thick one lamination is, as it was planed",
    ),
    optional(
        "laminations",
        Kind::Whole { least: 1, most: 100 },
        "how many there are",
    ),
    optional(
        "total",
        LENGTH,
        "how thick they are together at least; as many are taken as that needs",
    ),
    optional(
        "thicknesses",
        Kind::List(&LENGTH),
        "the thickness of each from the inside, where they differ",
    ),
    required(
        "width",
        LENGTH,
        "the finished width of the piece: the depth of a jamb",
    ),
    default(
        "clean-up",
        LENGTH_OR_0,
        "8 mm",
        "what strips are wider, to be planed off",
    ),
    default("wood", Kind::Word(WOODS), "dry", "what is bent, and how"),
    optional(
        "springback",
        SPRINGBACK,
        "the share of its bend that a piece keeps: `layers`, `none`, or a number from a test piece; what the house says, else \
         `layers`",
    ),
    optional(
        "measured-back",
        Kind::Group(MEASURED_BACK),
        "what a test piece came out as: the form is then worked from that",
    ),
    default(
        "side",
        Kind::Word(&[
            word("male", "inside: strips are drawn down over it"),
            word("female", "outside: strips are pressed into it"),
            word("pair", "both: strips are pressed between, the female in segments"),
        ]),
        "male",
        "which side of the strips it lies on",
    ),
    default("liner", LENGTH_OR_0, "0", "the thickness of a liner on each face"),
    default(
        "caul",
        LENGTH_OR_0,
        "12 mm",
        "the thickness of the caul over the strips",
    ),
    default(
        "seats",
        Kind::Word(&[
            word("holes", "holes along the face"),
            word("flats", "flats on its back, square to each clamp"),
        ]),
        "holes",
        "what its clamps take hold of",
    ),
    default("clamp-hole", LENGTH, "45 mm", "the diameter of the clamp holes"),
    default(
        "ligament",
        LENGTH,
        "60 mm",
        "the wood between its face and what the clamps take hold of",
    ),
    optional(
        "clamp-spacing",
        LENGTH,
        "the farthest from one clamp to the next, along the outermost line; caul and strips decide if it is left out",
    ),
    optional(
        "body-layers",
        Kind::Whole { least: 1, most: 100 },
        "how many layers of the stock; as many as the strips are wide if it is left out",
    ),
    optional(
        "segments",
        Kind::Whole { least: 1, most: 40 },
        "how many segments the female of a pair is in; as many as keep the pressure square if it is left out",
    ),
    default(
        "dowel",
        LENGTH,
        "10 mm",
        "the diameter of the dowels that register the layers",
    ),
    default("base", Kind::YesNo, "true", "whether it stands on a base board"),
    optional(
        "groove",
        LENGTH_OR_0,
        "the depth of a groove in the base along the face, for glue that is squeezed out: 4 mm, or none for a machine that only cuts through",
    ),
];

/// What the shop's clamps can do.
pub(crate) const CLAMP: &[Field] = &[
    required("opening", LENGTH, "how far a clamp opens"),
    required("throat", LENGTH, "from its bar to the middle of its jaws"),
];
