//! The words of every machine.

use crate::laser::LASER;
use crate::pen::PEN;
use crate::table::{
    Case, Cases, Field, Kind, LENGTH, LENGTH_OR_0, Of, Sign, default, optional, required, surrounding, word,
};
use crate::tool::FASTEST;

const UNITS: Field = surrounding("units", "the unit of its files; the shop's own if left out");

/// Every kind of machine.
pub(crate) static MACHINES: Cases = Cases {
    tag: "kind",
    default: None,
    help: "what the machine is",
    common: &[UNITS],
    cases: &[
        Case::made("router", "a router that runs RS-274 programs", ROUTER),
        Case::made("drawing", "someone, or a program, that takes a drawing", DRAWING),
        Case::made("laser", "a laser", LASER),
        Case::made("pen", "a pen plotter", PEN),
    ],
};

/// A machine without a height of its own has its zero somewhere on the sheet.
pub(crate) const ZERO_ON_SHEET: Field = default("zero", Kind::Group(&[AT]), "{}", "where its zero is");

const AT: Field = default(
    "at",
    Kind::Text,
    "near-left",
    "where on the sheet: near-left, middle, or bore and the name of a part, whose first bore it is",
);

pub(crate) const DECIMALS: Field = optional(
    "decimals",
    Kind::Whole { least: 3, most: 5 },
    "decimals of its lengths: 3 or 4 in mm, 4 or 5 in inches; 4 if left out",
);

pub(crate) const ARCS: Field = default(
    "arcs",
    Kind::YesNo,
    "true",
    "whether it takes arcs; otherwise they go out as chords",
);

pub(crate) const LONGEST_RADIUS: Field = default(
    "longest-radius",
    LENGTH,
    "10 m",
    "arcs of a longer radius go out as chords",
);

pub(crate) const RAPID: Field = default(
    "rapid",
    Kind::Feed,
    "5000 mm",
    "how fast it travels without cutting, a minute",
);

pub(crate) const ACCELERATION: Field = default(
    "acceleration",
    LENGTH,
    "500 mm",
    "how fast it gains speed, a second each second",
);

pub(crate) const CORNERING: Field = default(
    "cornering",
    LENGTH,
    "0.05 mm",
    "how far its controller lets it cut a corner off to keep its speed",
);

pub(crate) const OPENING_LINES: Field = default(
    "opening-lines",
    Kind::List(&Kind::Text),
    "[]",
    "words that its controller wants before the first move",
);

pub(crate) const CLOSING_LINES: Field = default(
    "closing-lines",
    Kind::List(&Kind::Text),
    "[]",
    "words that its controller wants after the last move",
);

const DRAWING: &[Field] = &[
    default(
        "format",
        Kind::Word(&[word("dxf", "DXF"), word("svg", "SVG in real millimetres")]),
        "dxf",
        "the file that is wanted",
    ),
    default(
        "version",
        Kind::Word(&[
            word("AC1009", "release 12, which everything reads"),
            word("AC1024", "with units in its header"),
        ]),
        "AC1009",
        "the version of a DXF",
    ),
    default(
        "allowance",
        Kind::LengthOr(&[word("none", "lines stand on the finished edge")]),
        "none",
        "the width of the cut, half of which the lines are moved by, or none",
    ),
];

const ROUTER: &[Field] = &[
    required("bed", Kind::Tuple(2, &LENGTH), "what it reaches in x and y"),
    optional("travel-z", LENGTH, "how high it raises the collet above the bed"),
    required("bits", Kind::List(&Kind::Name(Of::Bit)), "the bits that it has"),
    default(
        "bit-change",
        Kind::Word(&[
            word("file", "one file for each bit"),
            word(
                "pause",
                "one file: the machine stops, and the bit is changed by hand",
            ),
            word("M6", "one file: the machine changes it by M6"),
        ]),
        "file",
        "how bits are changed",
    ),
    default(
        "safe-height",
        LENGTH,
        "12 mm",
        "the height above the stock's face at which the bit travels",
    ),
    default("zero", Kind::Group(ZERO), "{}", "where the program's zero is"),
    DECIMALS,
    ARCS,
    LONGEST_RADIUS,
    default(
        "longest-arc",
        Kind::Angle {
            least: 5.0,
            most: 180.0,
        },
        "180 deg",
        "the most that one arc may turn; a half turn at most",
    ),
    default(
        "line-numbers",
        Kind::YesNo,
        "false",
        "whether its lines are numbered",
    ),
    default(
        "longest-line",
        Kind::Whole { least: 40, most: 250 },
        "70",
        "the longest line that its controller reads, in characters",
    ),
    default(
        "percent",
        Kind::YesNo,
        "false",
        "whether a % stands first and last",
    ),
    optional(
        "extraction",
        Kind::Word(&[word("M7", "switched on by M7"), word("M8", "switched on by M8")]),
        "the word that starts its dust extraction or coolant; M9 stops it",
    ),
    optional(
        "park",
        Kind::Tuple(2, &Kind::Length(Sign::Any)),
        "where it stands when it is done, from the sheet's near left corner",
    ),
    default(
        "speeds",
        Kind::Tuple(
            2,
            &Kind::Number {
                least: 0.0,
                most: FASTEST,
            },
        ),
        "[6000, 24000]",
        "the slowest and the fastest that its spindle turns, turns a minute",
    ),
    default(
        "spindle-delay",
        Kind::Number {
            least: 0.0,
            most: 120.0,
        },
        "4",
        "how long the spindle takes to come up to speed, seconds",
    ),
    default(
        "through",
        LENGTH_OR_0,
        "0.3 mm",
        "how far below the underside a through cut goes",
    ),
    default(
        "tabs",
        Kind::GroupOrNone(TABS),
        "{}",
        "tabs that hold the parts until they are sawn free",
    ),
    default(
        "cut",
        Kind::Word(&[
            word("climb", "the edge moves with the feed"),
            word("conventional", "against it"),
        ]),
        "climb",
        "which way round the bit runs",
    ),
    OPENING_LINES,
    CLOSING_LINES,
    default(
        "keep-outs",
        Kind::List(&Kind::Tuple(4, &Kind::Length(Sign::Any))),
        "[]",
        "boxes on the bed, [left, near, right, far], that the bit keeps out of",
    ),
    default(
        "ramp",
        // Flatter would go round and round, steeper is a plunge.
        Kind::Angle {
            least: 0.2,
            most: 45.0,
        },
        "3 deg",
        "how steeply a bit goes down along its road",
    ),
    default(
        "finish",
        LENGTH_OR_0,
        "0 mm",
        "what the passes leave on an edge for a last lap at full depth; 0 for no such lap",
    ),
    default(
        "leave-web",
        LENGTH_OR_0,
        "0 mm",
        "the web left under a through cut, to be trimmed off later; 0 cuts through",
    ),
    default(
        "relief",
        Kind::Word(&[
            word("bisector", "along the bisector until the bit touches the corner"),
            word("long-side", "along the longer side, past its end"),
            word("none", "the bit's radius stays in the corner"),
        ]),
        "none",
        "how inside corners that must seat a square edge are relieved",
    ),
    default(
        "mark-depth",
        LENGTH_OR_0,
        "0.5 mm",
        "how deep marks and lettering are scribed by a vee bit or a fine straight one; 0 scribes none",
    ),
    RAPID,
    ACCELERATION,
    CORNERING,
];

const ZERO: &[Field] = &[
    AT,
    default(
        "height",
        Kind::Word(&[
            word("stock-face", "the upper face"),
            word("stock-back", "the underside"),
        ]),
        "stock-face",
        "what Z 0 is",
    ),
];

const TABS: &[Field] = &[
    default("width", LENGTH, "8 mm", "the wood that is left along the edge"),
    default("height", LENGTH, "5 mm", "its height above the underside"),
    default("every", LENGTH, "300 mm", "the longest edge between two tabs"),
    default(
        "ramped",
        Kind::YesNo,
        "false",
        "whether the bit climbs up to a tab and down again along its road",
    ),
];
