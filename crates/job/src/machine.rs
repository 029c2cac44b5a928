//! The shop's machines, and who takes a drawing.

use crate::fault::{Fault, Places};
use crate::record::{Datum, Record};
use crate::table::{
    Case, Cases, Field, Kind, LENGTH, LENGTH_OR_0, Of, Sign, default, later, not_yet, optional, required,
    surrounding, word,
};
use crate::tool::FASTEST;
use cintre_measure::Unit;

/// A machine.
#[derive(Clone, Debug, PartialEq)]
pub enum MachineSpec {
    /// A router that runs programs.
    Router(Box<RouterSpec>),
    /// Someone, or a program, that takes a drawing.
    Drawing(DrawingSpec),
}

impl MachineSpec {
    /// Where its fields were written.
    pub const fn places(&self) -> &Places {
        match self {
            Self::Router(router) => &router.places,
            Self::Drawing(drawing) => &drawing.places,
        }
    }

    pub(crate) fn new(record: &Record) -> Self {
        match record.case {
            "router" => Self::Router(Box::new(RouterSpec::new(record))),
            "drawing" => Self::Drawing(DrawingSpec::new(record)),
            other => unreachable!("{other} is refused by the table"),
        }
    }
}

/// A router and its habits. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct RouterSpec {
    /// What it reaches in x and y.
    pub bed: [f64; 2],
    /// What it reaches in height, if the shop says.
    pub travel_z: Option<f64>,
    /// The names of the bits that it has, in the order of preference.
    pub bits: Vec<String>,
    /// How bits are changed.
    pub bit_change: BitChange,
    /// The height above the stock's face at which the bit travels.
    pub safe_height: f64,
    /// Where on the sheet the program's zero is.
    pub zero_at: ZeroAt,
    /// What Z 0 is.
    pub zero_height: ZeroHeight,
    /// The unit of its programs.
    pub units: Unit,
    /// Decimals of its programs' lengths.
    pub decimals: u32,
    /// Whether it takes arcs.
    pub arcs: bool,
    /// Arcs of a longer radius go out as chords.
    pub longest_radius: f64,
    /// The slowest and the fastest that its spindle turns, turns a minute.
    pub speeds: [f64; 2],
    /// How long the spindle takes to come up to speed, s.
    pub spindle_delay: f64,
    /// How far below the underside a through cut goes.
    pub through: f64,
    /// Tabs that hold the parts, none where the shop wants none.
    pub tabs: Option<Tabs>,
    /// Which way round the bit runs.
    pub cut: Cut,
    /// Words that its controller wants before the first move.
    pub opening_lines: Vec<String>,
    /// And after the last.
    pub closing_lines: Vec<String>,
    /// Boxes on the bed, `[x0, y0, x1, y1]`, that the bit keeps out of.
    pub keep_outs: Vec<[f64; 4]>,
    /// Where its fields were written.
    pub places: Places,
}

/// How bits are changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BitChange {
    /// One file for each bit.
    File,
}

/// Where on the sheet a program's zero is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ZeroAt {
    /// The corner near the operator, on the left.
    NearLeft,
    /// The middle of the sheet.
    Middle,
}

/// What Z 0 is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ZeroHeight {
    /// The stock's upper face.
    StockFace,
    /// Its underside.
    StockBack,
}

/// Tabs that hold the parts, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tabs {
    /// The wood that is left along the edge.
    pub width: f64,
    /// Its height above the underside.
    pub height: f64,
    /// The longest edge between two tabs.
    pub every: f64,
}

/// Which way round a bit runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cut {
    /// The edge moves with the feed.
    Climb,
    /// Against it.
    Conventional,
}

/// Someone who takes a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawingSpec {
    /// The file that is wanted.
    pub format: DrawingFormat,
    /// The unit of its numbers.
    pub units: Unit,
    /// Where its fields were written.
    pub places: Places,
}

/// A drawing's file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrawingFormat {
    /// DXF AC1009, as of release 12.
    DxfR12,
    /// DXF AC1024.
    DxfR2010,
    /// SVG.
    Svg,
}

impl RouterSpec {
    fn new(record: &Record) -> Self {
        let zero = record.record("zero");
        let texts = |field| record.list(field).map(Datum::text).collect();
        Self {
            bed: record.numbers("bed"),
            travel_z: record.maybe_number("travel-z"),
            bits: texts("bits"),
            bit_change: BitChange::File,
            safe_height: record.number("safe-height"),
            zero_at: match zero.word("at") {
                "middle" => ZeroAt::Middle,
                _ => ZeroAt::NearLeft,
            },
            zero_height: match zero.word("height") {
                "stock-back" => ZeroHeight::StockBack,
                _ => ZeroHeight::StockFace,
            },
            units: record.unit("units"),
            decimals: record.maybe_whole("decimals").unwrap_or(4),
            arcs: record.yes_no("arcs"),
            longest_radius: record.number("longest-radius"),
            speeds: record.numbers("speeds"),
            spindle_delay: record.number("spindle-delay"),
            through: record.number("through"),
            tabs: record.maybe_record("tabs").map(|tabs| Tabs {
                width: tabs.number("width"),
                height: tabs.number("height"),
                every: tabs.number("every"),
            }),
            cut: match record.word("cut") {
                "conventional" => Cut::Conventional,
                _ => Cut::Climb,
            },
            opening_lines: texts("opening-lines"),
            closing_lines: texts("closing-lines"),
            keep_outs: record.list("keep-outs").map(corners).collect(),
            places: record.places(),
        }
    }
}

impl DrawingSpec {
    fn new(record: &Record) -> Self {
        let format = match (record.word("format"), record.word("version")) {
            ("svg", _) => DrawingFormat::Svg,
            (_, "AC1024") => DrawingFormat::DxfR2010,
            _ => DrawingFormat::DxfR12,
        };
        Self {
            format,
            units: record.unit("units"),
            places: record.places(),
        }
    }
}

fn corners(datum: &Datum) -> [f64; 4] {
    match datum {
        Datum::List(items) => std::array::from_fn(|i| items[i].datum.number()),
        _ => unreachable!("the table asks for four lengths"),
    }
}

/// What no single field of a machine can tell.
pub(crate) fn check_machine(record: &Record, faults: &mut Vec<Fault>) {
    let inch = record.get("units") == Some(&Datum::Unit(Unit::Inch));
    if let Some(placed) = record.fields.get("decimals")
        && let Datum::Whole(decimals) = placed.datum
        && decimals != 4
        && (decimals == 3) == inch
    {
        let what = "mm takes 3 or 4 decimals, in takes 4 or 5";
        faults.push(placed.place.fault(what, None));
    }
    if let Some(placed) = record.fields.get("speeds")
        && let Datum::List(speeds) = &placed.datum
        && speeds[0].datum.number() > speeds[1].datum.number()
    {
        let what = "the slower speed comes first, then the faster";
        faults.push(placed.place.fault(what, None));
    }
    if let Some(placed) = record.fields.get("keep-outs")
        && let Datum::List(boxes) = &placed.datum
    {
        for item in boxes {
            let [x0, y0, x1, y1] = corners(&item.datum);
            if x0 >= x1 || y0 >= y1 {
                let what = "a box is [left, near, right, far], with left under right and near under far";
                faults.push(item.place.fault(what, None));
            }
        }
    }
}

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
        Case::later("laser", "a laser", &[]),
        Case::later("pen", "a pen plotter", &[]),
    ],
};

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
        Kind::Word(&[word("none", "lines stand on the finished edge")]),
        "none",
        "what the lines are moved by",
    ),
];

const ROUTER: &[Field] = &[
    required("bed", Kind::Tuple(2, &LENGTH), "what it reaches in x and y"),
    optional("travel-z", LENGTH, "what it reaches in height"),
    required("bits", Kind::List(&Kind::Name(Of::Bit)), "the bits that it has"),
    default(
        "bit-change",
        Kind::Word(&[word("file", "one file for each bit"), later("pause"), later("M6")]),
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
    optional(
        "decimals",
        Kind::Whole { least: 3, most: 5 },
        "decimals of its lengths: 3 or 4 in mm, 4 or 5 in inches; 4 if left out",
    ),
    default(
        "arcs",
        Kind::YesNo,
        "true",
        "whether it takes arcs; otherwise they go out as chords",
    ),
    default(
        "longest-radius",
        LENGTH,
        "10 m",
        "arcs of a longer radius go out as chords",
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
    default(
        "opening-lines",
        Kind::List(&Kind::Text),
        "[]",
        "words that its controller wants before the first move",
    ),
    default(
        "closing-lines",
        Kind::List(&Kind::Text),
        "[]",
        "words that its controller wants after the last move",
    ),
    default(
        "keep-outs",
        Kind::List(&Kind::Tuple(4, &Kind::Length(Sign::Any))),
        "[]",
        "boxes on the bed, [left, near, right, far], that the bit keeps out of",
    ),
    not_yet("relief"),
    not_yet("leave-web"),
    not_yet("acceleration"),
    not_yet("cornering"),
    not_yet("rapid"),
];

const ZERO: &[Field] = &[
    default(
        "at",
        Kind::Word(&[
            word("near-left", "the corner near you, on the left"),
            word("middle", "the middle of the sheet"),
        ]),
        "near-left",
        "where on the sheet",
    ),
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
];
