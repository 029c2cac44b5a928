//! The words of every machine, and what no single one of them can tell.

use crate::fault::Fault;
use crate::machine::corners;
use crate::record::{Datum, Record};
use crate::table::{
    Case, Cases, Field, Kind, LENGTH, LENGTH_OR_0, Of, Sign, default, later, optional, required, surrounding,
    word,
};
use crate::tool::FASTEST;
use cintre_measure::Unit;

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
    default(
        "ramp",
        Kind::Angle,
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
        "rapid",
        Kind::Feed,
        "5000 mm",
        "how fast it travels without cutting, a minute",
    ),
    default(
        "acceleration",
        LENGTH,
        "500 mm",
        "how fast it gains speed, a second each second",
    ),
    default(
        "cornering",
        LENGTH,
        "0.05 mm",
        "how far its controller lets it cut a corner off to keep its speed",
    ),
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
    default(
        "ramped",
        Kind::YesNo,
        "false",
        "whether the bit climbs up to a tab and down again along its road",
    ),
];

/// Tabs must leave more of an edge to be cut than they hold.
fn check_tabs(record: &Record, faults: &mut Vec<Fault>) {
    if let Some(tabs) = record.maybe_record("tabs")
        && tabs.number("width") * 2.0 > tabs.number("every")
        && let Some(placed) = record.fields.get("tabs")
    {
        let what = "tabs so wide, so near to one another, leave less to cut than they hold";
        let help = format!(
            "`width` is half of `every`, {:.1} mm, at most",
            tabs.number("every") / 2.0
        );
        faults.push(placed.place.fault(what, Some(help)));
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
    check_tabs(record, faults);
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
