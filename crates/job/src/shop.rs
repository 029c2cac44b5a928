//! What the shop has.

use crate::bending::{CLAMP, SPRINGBACK, SpringbackSpec, springback};
use crate::fault::{Fault, Faults, Places};
use crate::machine::MachineSpec;
use crate::machine_checks::check_machine;
use crate::machines::MACHINES;
use crate::paper::{ON_PAPER, PAPER, PRINTER, PaperSpec, ROLL, check_printer};
use crate::reader::read_file;
use crate::record::{Datum, Record};
use crate::router_base::{ROUTER_BASE, RouterBase, check_base};
use crate::stock::{STOCK, StockSpec, check_stock};
use crate::table::{Field, Kind, LENGTH, Of, Sign, default, optional, surrounding};
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
    /// The outer diameters of its guide bushes, mm.
    pub bushes: Vec<f64>,
    /// The base of its hand-held router, if the shop says.
    pub router_base: Option<RouterBase>,
    /// Where its fields were written.
    pub places: Places,
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
    /// How far its clamps open, and from their bar to the middle of their jaws, mm, if the shop says.
    pub clamp: Option<[f64; 2]>,
    /// What a laminated piece keeps of its bend, if the shop says.
    pub springback: Option<SpringbackSpec>,
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
                clamp: house
                    .maybe_record("clamp")
                    .map(|clamp| [clamp.number("opening"), clamp.number("throat")]),
                springback: springback(house),
                places: house.places(),
            },
            bushes: record.list("bushes").map(Datum::number).collect(),
            router_base: record.maybe_record("router-base").map(RouterBase::new),
            places: record.places(),
        }
    }

    /// The names that a job may ask for.
    pub(crate) fn names(&self) -> Vec<(Of, String)> {
        let stock = self.stock.keys().map(|name| (Of::Stock, name.clone()));
        let machines = self.machines.keys().map(|name| (Of::Machine, name.clone()));
        let bits = self.bits.keys().map(|name| (Of::Bit, name.clone()));
        stock.chain(machines).chain(bits).collect()
    }
}

/// What no single field of a shop can tell.
pub(crate) fn check_shop(record: &Record, faults: &mut Vec<Fault>) {
    for (name, machine) in record.named("machines") {
        check_machine(record, machine, faults);
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
    if let Some(base) = record.maybe_record("router-base") {
        check_base(base, faults);
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
    default(
        "bushes",
        Kind::List(&LENGTH),
        "[]",
        "the outer diameters of the guide bushes that the shop has",
    ),
    ROUTER_BASE,
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
    ON_PAPER,
    PRINTER,
    optional(
        "room",
        Kind::Tuple(2, &LENGTH),
        "the length and the width of the floor that arches are set out on: ways that need more are told",
    ),
    optional(
        "clamp",
        Kind::Group(CLAMP),
        "what the shop's clamps can do: bending forms that ask for more are refused",
    ),
    optional(
        "springback",
        SPRINGBACK,
        "the share of its bend that a laminated piece keeps where the job does not say: `layers`, `none`, or a number",
    ),
];
