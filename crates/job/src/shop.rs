//! What the shop has.

use crate::fault::{Fault, Faults, Places};
use crate::machine::MachineSpec;
use crate::machines::{MACHINES, check_machine};
use crate::paper::{PAPER, PRINTER, PaperSpec, ROLL, check_printer};
use crate::reader::read_file;
use crate::record::{Datum, Record};
use crate::table::{
    Field, Kind, LENGTH, LENGTH_OR_0, Of, Sign, default, not_yet, optional, required, surrounding, word,
};
use crate::tool::{BITS, BitSpec};
use crate::value::Spacing;
use cintre_measure::{Rule, Unit};
use std::collections::BTreeMap;

/// What the shop has. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// What a bare number in its file means.
    pub units: Unit,
    /// Its stock by name.
    pub stock: BTreeMap<String, StockSpec>,
    /// Its bits by name.
    pub bits: BTreeMap<String, BitSpec>,
    /// Its machines by name.
    pub machines: BTreeMap<String, MachineSpec>,
    /// Its house rules.
    pub house: House,
    /// Where its fields were written.
    pub places: Places,
}

/// A kind of sheet, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct StockSpec {
    /// What it is, as the bits' feeds name it.
    pub material: String,
    /// Length and width; of the box round its outline where it has one.
    pub sheet: [f64; 2],
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
    /// Kept clear along every edge.
    pub trim: f64,
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

/// What holds for all work of the shop.
#[derive(Clone, Debug, PartialEq)]
pub struct House {
    /// How far parts stand from one another.
    pub spacing: Spacing,
    /// The marks of the rule that figures are read off with, if the shop says.
    pub rule: Option<Rule>,
    /// What the measure reads at its pivot, mm: a reading is the radius and this. None where its zero lies on the pivot.
    pub zero_offset: Option<f64>,
    /// What full-size drawings are printed on.
    pub paper: PaperSpec,
    /// The length and the width of the floor that arches are set out on, if the shop says.
    pub room: Option<[f64; 2]>,
    /// Where its fields were written.
    pub places: Places,
}

/// Reads a shop file; `file` is its name, for faults.
pub fn read_shop(file: &str, text: &str) -> Result<Shop, Faults> {
    let (record, _) = read_file(file, text, SHOP, check_shop)?;
    Ok(Shop::new(&record))
}

impl Shop {
    pub(crate) fn new(record: &Record) -> Self {
        fn named<T>(record: &Record, field: &str, new: impl Fn(&Record) -> T) -> BTreeMap<String, T> {
            record
                .named(field)
                .map(|(name, record)| (name.to_owned(), new(record)))
                .collect()
        }
        let house = record.record("house");
        Self {
            units: record.unit("units"),
            stock: named(record, "stock", StockSpec::new),
            bits: named(record, "bits", BitSpec::new),
            machines: named(record, "machines", MachineSpec::new),
            house: House {
                spacing: match house.get("spacing") {
                    Some(Datum::Spacing(spacing)) => *spacing,
                    _ => unreachable!("the table gives a spacing"),
                },
                rule: house.rule("rule"),
                zero_offset: house.maybe_number("zero-offset"),
                paper: PaperSpec::new(house),
                room: house.get("room").is_some().then(|| house.numbers("room")),
                places: house.places(),
            },
            places: record.places(),
        }
    }

    /// The names that a job may ask for.
    pub(crate) fn names(&self) -> Vec<(Of, String)> {
        let stock = self.stock.keys().map(|name| (Of::Stock, name.clone()));
        let machines = self.machines.keys().map(|name| (Of::Machine, name.clone()));
        stock.chain(machines).collect()
    }
}

impl StockSpec {
    pub(crate) fn new(record: &Record) -> Self {
        Self {
            material: record.text("material"),
            sheet: sheet(record),
            outline: (!outline(record).is_empty()).then(|| outline(record)),
            keep_outs: record.list("keep-outs").map(corners).collect(),
            alike: record.word("faces") == "alike",
            of: record.maybe_text("of"),
            thickness: record.number("thickness"),
            grain: match record.word("grain") {
                "long" => Grain::Long,
                "short" => Grain::Short,
                _ => Grain::None,
            },
            sheets: record.maybe_whole("sheets"),
            trim: record.number("trim"),
            places: record.places(),
        }
    }
}

/// The corners of a stock's outline; none where it is a rectangle.
fn outline(stock: &Record) -> Vec<[f64; 2]> {
    stock.list("outline").map(corners).collect()
}

/// The length and width of a stock: as told, else of the box round its outline.
fn sheet(stock: &Record) -> [f64; 2] {
    if stock.get("sheet").is_some() {
        return stock.numbers("sheet");
    }
    outline(stock)
        .iter()
        .fold([0.0, 0.0], |most, p| [p[0].max(most[0]), p[1].max(most[1])])
}

fn corners<const N: usize>(datum: &Datum) -> [f64; N] {
    let Datum::List(items) = datum else {
        unreachable!("the table gives a list")
    };
    std::array::from_fn(|i| items[i].datum.number())
}

/// What no single field of a shop can tell.
pub(crate) fn check_shop(record: &Record, faults: &mut Vec<Fault>) {
    for (name, machine) in record.named("machines") {
        check_machine(machine, faults);
        if ["pictures", "paper"].contains(&name.to_lowercase().as_str()) {
            let what = format!("a made folder keeps the name `{name}` for itself");
            faults.push(
                machine
                    .place
                    .fault(what, Some("give the machine another".to_owned())),
            );
        }
    }
    for (_, stock) in record.named("stock") {
        check_stock(stock, faults);
    }
    if let Some(Datum::Record(house)) = record.get("house") {
        check_printer(house, faults);
    }
}

/// A sheet has a size or an outline, is thinner than it is wide, and its trim leaves something of it.
pub(crate) fn check_stock(stock: &Record, faults: &mut Vec<Fault>) {
    let corners = outline(stock).len();
    if (stock.get("sheet").is_some()) == (corners > 0) {
        let what = "a stock has either a `sheet` or an `outline`";
        let help = "give `sheet`, its length and width, or `outline`, the corners of an offcut".to_owned();
        faults.push(stock.place.fault(what, Some(help)));
        return;
    }
    if let Some(placed) = stock.fields.get("outline")
        && corners < 3
    {
        faults.push(placed.place.fault("an outline has at least three corners", None));
        return;
    }
    let [length, width] = sheet(stock);
    let least = length.min(width);
    for (field, most) in [("thickness", least), ("trim", least / 2.0)] {
        if let Some(placed) = stock.fields.get(field)
            && placed.datum.number() >= most
        {
            let what = format!("must be under {most} mm on a sheet of this size");
            faults.push(placed.place.fault(what, None));
        }
    }
}

/// The fields of a shop file.
pub(crate) static SHOP: &[Field] = &[
    surrounding(
        "units",
        "what a bare number means: mm if left out, or what the job around it says",
    ),
    default(
        "stock",
        Kind::Named(Of::Stock, &Kind::Group(STOCK)),
        "{}",
        "the sheets that the shop has",
    ),
    default(
        "bits",
        Kind::Named(Of::Bit, &Kind::Cases(&BITS)),
        "{}",
        "the bits that the shop has",
    ),
    default(
        "machines",
        Kind::Named(Of::Machine, &Kind::Cases(&MACHINES)),
        "{}",
        "what the shop cuts with",
    ),
    default(
        "house",
        Kind::Group(HOUSE),
        "{}",
        "what holds for all work of the shop",
    ),
    not_yet("bushes"),
    not_yet("router-base"),
];

pub(crate) const STOCK: &[Field] = &[
    required("material", Kind::Text, "what it is, as the bits' feeds name it"),
    optional(
        "sheet",
        Kind::Tuple(2, &LENGTH),
        "its length and width, unless it has an outline",
    ),
    optional(
        "outline",
        Kind::List(&Kind::Tuple(2, &LENGTH_OR_0)),
        "the corners of an offcut, each [x, y] from its lower left, in their order round it",
    ),
    required("thickness", LENGTH, "its real thickness, as measured"),
    default(
        "grain",
        Kind::Word(&[
            word("long", "along the first size"),
            word("short", "along the second size"),
            word("none", "it has none"),
        ]),
        "none",
        "which way its grain runs",
    ),
    optional(
        "sheets",
        Kind::Whole {
            least: 0,
            most: 10_000,
        },
        "how many there are",
    ),
    default("trim", LENGTH_OR_0, "8 mm", "kept clear along every edge"),
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
    not_yet("board"),
    not_yet("boards"),
    not_yet("clean-up"),
];

const HOUSE: &[Field] = &[
    default(
        "spacing",
        Kind::Spacing,
        "margin 12 mm",
        "how far parts stand from one another: a length, or `margin` and what is added to the bit's diameter",
    ),
    optional(
        "rule",
        Kind::Rule,
        "the marks of the rule that figures are read off with",
    ),
    optional(
        "zero-offset",
        Kind::Length(Sign::Any),
        "what the measure that radii are set with reads at its pivot, if not 0: reading = radius + zero-offset; negative \
         where its zero lies from the pivot towards the pencil",
    ),
    PAPER,
    ROLL,
    PRINTER,
    optional(
        "room",
        Kind::Tuple(2, &LENGTH),
        "the length and the width of the floor that arches are set out on: ways that need more are told",
    ),
    not_yet("clamp"),
    not_yet("springback"),
];
