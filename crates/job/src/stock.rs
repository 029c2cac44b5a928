//! What the shop cuts from: sheets, offcuts, boards.

use crate::fault::{Fault, Places};
use crate::record::{Datum, Record};
use crate::table::{Field, Kind, LENGTH, LENGTH_OR_0, Of, Sign, default, optional, required, word};
use crate::trim::{self, Trim};

/// What is taken off a board's width, and its ends, where the shop does not say, mm: the lower end of what joiners take.
const CLEAN_UP: f64 = 6.0;

/// A kind of sheet or board, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct StockSpec {
    /// What it is, as the bits' feeds name it.
    pub material: String,
    /// Length and width; of the box round its outline where it has one. A board is a sheet of its size, whose grain runs long.
    pub sheet: [f64; 2],
    /// Whether it is boards.
    pub board: bool,
    /// The corners of its outline, where it is not a rectangle.
    pub outline: Option<Vec<[f64; 2]>>,
    /// Boxes `[left, near, right, far]` on it that parts keep clear of.
    pub keep_outs: Vec<[f64; 4]>,
    /// Whether its faces are alike.
    pub alike: bool,
    /// The stock that it is a further kind of sheet of.
    pub of: Option<String>,
    /// Its real thickness.
    pub thickness: f64,
    /// Which way its grain runs.
    pub grain: Grain,
    /// How many there are, if the shop says.
    pub sheets: Option<u32>,
    /// Kept clear along its edges; on a board half of what its clean-up takes.
    pub trim: Trim,
    /// Where its fields were written.
    pub places: Places,
}

/// Which way the grain of a sheet runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// Along the first size.
    Long,
    /// Along the second.
    Short,
    /// It has none.
    None,
}

impl StockSpec {
    pub(crate) fn new(record: &Record) -> Self {
        let board = record.get("board").is_some();
        Self {
            material: record.text("material"),
            sheet: sheet(record),
            board,
            outline: (!outline(record).is_empty()).then(|| outline(record)),
            keep_outs: record.list("keep-outs").map(corners).collect(),
            alike: record.word("faces") == "alike",
            of: record.maybe_text("of"),
            thickness: record.number("thickness"),
            grain: match record.get("grain") {
                _ if board => Grain::Long,
                Some(Datum::Word("long")) => Grain::Long,
                Some(Datum::Word("short")) => Grain::Short,
                _ => Grain::None,
            },
            sheets: record.maybe_whole(if board { "boards" } else { "sheets" }),
            trim: if board {
                Trim::even(clean_up(record) / 2.0)
            } else {
                Trim::of(record)
            },
            places: record.places(),
        }
    }

    /// The field that says how many there are.
    pub const fn counted_by(&self) -> &'static str {
        if self.board { "boards" } else { "sheets" }
    }

    /// The field that says what is kept clear along its edges.
    pub const fn trimmed_by(&self) -> &'static str {
        if self.board { "clean-up" } else { "trim" }
    }
}

fn clean_up(stock: &Record) -> f64 {
    stock.maybe_number("clean-up").unwrap_or(CLEAN_UP)
}

/// The corners of a stock's outline; none where it is a rectangle.
fn outline(stock: &Record) -> Vec<[f64; 2]> {
    stock.list("outline").map(corners).collect()
}

/// The length and width of a stock: as told, else of the box round its outline.
fn sheet(stock: &Record) -> [f64; 2] {
    for field in ["sheet", "board"] {
        if stock.get(field).is_some() {
            return stock.numbers(field);
        }
    }
    outline(stock)
        .iter()
        .fold([0.0, 0.0], |most, p| [p[0].max(most[0]), p[1].max(most[1])])
}

pub(crate) fn corners<const N: usize>(datum: &Datum) -> [f64; N] {
    let Datum::List(items) = datum else {
        unreachable!("the table gives a list")
    };
    std::array::from_fn(|i| items[i].datum.number())
}

/// A stock has a size or an outline, is thinner than it is wide, and its trim leaves something of it.
pub(crate) fn check_stock(stock: &Record, faults: &mut Vec<Fault>) {
    if stock.is_faulty(&["sheet", "board", "outline"], faults) {
        return;
    }
    let corners = outline(stock).len();
    let sizes = ["sheet", "board"].iter().filter(|size| stock.get(size).is_some());
    if sizes.count() + usize::from(corners > 0) != 1 {
        let what = "a stock has a `sheet`, a `board` or an `outline`, and one of them alone";
        let help = "give `sheet` or `board`, its length and width, or `outline`, the corners of an offcut";
        faults.push(stock.place.fault(what, Some(help.to_owned())));
        return;
    }
    if let Some(placed) = stock.fields.get("outline")
        && corners < 3
    {
        faults.push(placed.place.fault("an outline has at least three corners", None));
        return;
    }
    check_board(stock, faults);
    let size = sheet(stock);
    let least = size[0].min(size[1]);
    let mut under = |field: &str, given: f64| {
        if given >= least {
            let written = stock.fields.get(field);
            let place = written.map_or(&stock.place, |placed| &placed.place);
            let what = format!("{field} of {given} mm: it must be under {least} mm at this size");
            faults.push(place.fault(what, None));
        }
    };
    under("thickness", stock.maybe_number("thickness").unwrap_or_default());
    if stock.get("board").is_some() {
        under("clean-up", clean_up(stock));
    } else {
        trim::check(stock, size, faults);
    }
}

/// Boards have words of their own for what sheets have, and none for what goes without saying.
fn check_board(stock: &Record, faults: &mut Vec<Fault>) {
    let Some(board) = stock.fields.get("board") else {
        for (field, instead) in [("boards", "sheets"), ("clean-up", "trim")] {
            if let Some(placed) = stock.fields.get(field) {
                let what = format!("only a `board` has `{field}`");
                faults.push(placed.place.fault(what, Some(format!("take `{instead}`"))));
            }
        }
        return;
    };
    for (field, help) in [
        ("sheets", "say how many by `boards`"),
        ("trim", "say by `clean-up` what is taken off its width in all"),
        ("grain", "leave it out: a board's grain runs along it"),
    ] {
        if let Some(placed) = stock.fields.get(field) {
            let what = format!("a `board` has no `{field}`");
            faults.push(placed.place.fault(what, Some(help.to_owned())));
        }
    }
    let [length, width] = sheet(stock);
    if length < width {
        let help = format!("the length stands first: [{width}, {length}] in mm, if that is meant");
        let what = "a board is longer than it is wide";
        faults.push(board.place.fault(what, Some(help)));
    }
}

/// The fields of a stock.
pub(crate) const STOCK: &[Field] = &[
    required("material", Kind::Text, "what it is, as the bits' feeds name it"),
    optional(
        "sheet",
        Kind::Tuple(2, &LENGTH),
        "its length and width, unless it is a board or has an outline",
    ),
    optional(
        "outline",
        Kind::List(&Kind::Tuple(2, &LENGTH_OR_0)),
        "the corners of an offcut, each [x, y] from its lower left, in their order round it",
    ),
    required("thickness", LENGTH, "its real thickness, as measured"),
    optional(
        "grain",
        Kind::Word(&[
            word("long", "along the first size"),
            word("short", "along the second size"),
            word("none", "it has none"),
        ]),
        "which way a sheet's grain runs: none if left out",
    ),
    optional(
        "sheets",
        Kind::Whole {
            least: 0,
            most: 10_000,
        },
        "how many there are",
    ),
    optional(
        "trim",
        trim::EDGES,
        "kept clear along every edge of a sheet, or `left`, `right`, `bottom`, `top` by themselves: 8 mm where left out",
    ),
    default(
        "keep-outs",
        Kind::List(&Kind::Tuple(4, &Kind::Length(Sign::Any))),
        "[]",
        "boxes on it, [left, near, right, far], that parts keep clear of: clamps, screws, knots",
    ),
    default(
        "faces",
        Kind::Word(&[
            word("alike", "a part may be cut with either up"),
            word("differ", "every part is cut with its face up"),
        ]),
        "differ",
        "whether its faces are alike",
    ),
    optional(
        "of",
        Kind::Name(Of::Stock),
        "the stock that it is a further kind of sheet of: parts that ask for that one are laid on this first",
    ),
    optional(
        "board",
        Kind::Tuple(2, &LENGTH),
        "a board's length and width as it is bought, in place of `sheet`; its grain runs along it",
    ),
    optional(
        "boards",
        Kind::Whole {
            least: 0,
            most: 10_000,
        },
        "how many boards there are",
    ),
    optional(
        "clean-up",
        LENGTH_OR_0,
        "what is taken off a board's width in all, and off its length: 6 mm if left out; a router needs its bit's width on both \
         sides",
    ),
];
