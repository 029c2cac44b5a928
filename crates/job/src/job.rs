//! A job: arches, and what is made for them.

use crate::arch::{ArchSpec, check_spans};
use crate::fault::{Fault, Faults, Place, Places};
use crate::form::{FORMS, FormSpec, check_forms, forms};
use crate::names::Names;
use crate::reader::{begin_file, read_file};
use crate::record::{Datum, Record};
use crate::setting_out::check_voussoirs;
use crate::shapes::ARCHES;
use crate::shop::{SHOP, Shop, check_shop};
use crate::table::{Field, Kind, LENGTH, default, optional, required, word};
use cintre_measure::{Rule, Unit};

/// A job as it was written. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// Its title.
    pub title: String,
    /// What a bare number in its file means.
    pub units: Unit,
    /// How far tangent arcs may stand off a curve that is not circular, mm.
    pub tolerance: f64,
    /// How long its layout is searched for.
    pub effort: Effort,
    /// The marks of the rule that its figures are read off with, if it says.
    pub rule: Option<Rule>,
    /// The shop, or where it is.
    pub shop: ShopAt,
    /// Its arches with their names, in the order of the file.
    pub arches: Vec<(String, ArchSpec)>,
    /// What is made, in the order of the file.
    pub make: Vec<FormSpec>,
    /// Where its fields were written.
    pub places: Places,
    names: Names,
}

/// How long a layout is searched for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effort {
    /// The first placement stands.
    Quick,
    /// Seconds.
    Usual,
    /// Minutes.
    Patient,
}

/// Where the shop of a job is.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopAt {
    /// In this file, beside the job's.
    File(String),
    /// In the job itself.
    Inline(Box<Shop>),
}

/// Reads a job file; `file` is its name, for faults. If the shop is in a file of its own, call [`Job::check_shop`] once
/// both are read, or read both by [`read_job_and_shop`].
pub fn read_job(file: &str, text: &str) -> Result<Job, Faults> {
    let (record, names) = read_file(file, text, JOB, check_job)?;
    Ok(Job::new(&record, names))
}

/// Reads a job file and its shop, and tells what is wrong with both at once. `shop_file` is asked for the name and the text of
/// the shop's file where the job names one, and may fail in its own way.
pub fn read_job_and_shop<E: From<Faults>>(
    file: &str,
    text: &str,
    shop_file: impl FnOnce(&Place, &str) -> Result<(String, String), E>,
) -> Result<(Job, Shop), E> {
    let mut job = begin_file(file, text, JOB, check_job);
    let named = job.record.as_ref().and_then(|record| record.fields.get("shop"));
    let Some((place, Datum::Text(name))) = named.map(|placed| (&placed.place, &placed.datum)) else {
        // The shop stands in the job itself, or nowhere that can be told.
        let job = read_job(file, text)?;
        return match &job.shop {
            ShopAt::Inline(shop) => {
                let shop = (**shop).clone();
                Ok((job, shop))
            }
            ShopAt::File(_) => Err(Faults(Vec::new()).into()),
        };
    };
    let (shop_name, shop_text) = shop_file(place, name)?;
    let shop = begin_file(&shop_name, &shop_text, SHOP, check_shop);
    job.names.check(
        &mut job.faults,
        shop.record.is_some().then_some(&shop.names.given[..]),
    );
    let mut shop_faults = shop.faults;
    shop.names.check(&mut shop_faults, None);
    let told = [Faults::check(job.faults), Faults::check(shop_faults)];
    let all: Vec<Fault> = told
        .into_iter()
        .filter_map(Result::err)
        .flat_map(|faults| faults.0)
        .collect();
    match (job.record, shop.record) {
        (Some(record), Some(shop)) if all.is_empty() => Ok((Job::new(&record, job.names), Shop::new(&shop))),
        _ => Err(Faults(all).into()),
    }
}

impl Job {
    fn new(record: &Record, names: Names) -> Self {
        Self {
            title: record.text("title"),
            units: record.unit("units"),
            tolerance: record.number("tolerance"),
            effort: match record.word("effort") {
                "quick" => Effort::Quick,
                "patient" => Effort::Patient,
                _ => Effort::Usual,
            },
            rule: record.rule("rule"),
            shop: match record.get("shop") {
                Some(Datum::Record(shop)) => ShopAt::Inline(Box::new(Shop::new(shop))),
                _ => ShopAt::File(record.text("shop")),
            },
            arches: record
                .named("arches")
                .map(|(name, record)| (name.to_owned(), ArchSpec::new(record)))
                .collect(),
            make: forms(record, "make"),
            places: record.places(),
            names,
        }
    }

    /// An arch by its name.
    pub fn arch(&self, name: &str) -> Option<&ArchSpec> {
        self.arches.iter().find(|(n, _)| n == name).map(|(_, arch)| arch)
    }

    /// A fault for every stock and machine that the job asks for and the shop has not.
    pub fn check_shop(&self, shop: &Shop) -> Result<(), Faults> {
        let mut faults = Vec::new();
        self.names.check(&mut faults, Some(&shop.names()));
        Faults::check(faults)
    }

    /// The rule that figures are read off with: the job's, else the shop's, else 0.5 mm or 1/32 by the job's units.
    pub fn rule_in(&self, shop: &Shop) -> Rule {
        let usual = match self.units {
            Unit::Millimetre => Rule::HalfMillimetre,
            Unit::Inch => Rule::ThirtySecond,
        };
        self.rule.or(shop.house.rule).unwrap_or(usual)
    }
}

/// What no single field of a job can tell.
pub(crate) fn check_job(record: &Record, faults: &mut Vec<Fault>) {
    let units = match record.get("units") {
        Some(Datum::Unit(unit)) => *unit,
        _ => Unit::Millimetre,
    };
    for (_, arch) in record.named("arches") {
        check_spans(arch, units, faults);
        check_voussoirs(arch, faults);
    }
    check_forms(record, faults);
    if let Some(Datum::Record(shop)) = record.get("shop") {
        check_shop(shop, faults);
    }
    if let Some(placed) = record.fields.get("tolerance")
        && let Datum::Length(mm) = placed.datum
        && !(FINEST..=COARSEST).contains(&mm)
    {
        let what = format!("a tolerance is from {FINEST} mm to {COARSEST} mm");
        faults.push(
            placed
                .place
                .fault(what, Some("0.02 mm is taken if it is left out".to_owned())),
        );
    }
    if let Some(placed) = record.fields.get("arches")
        && matches!(&placed.datum, Datum::Named(arches) if arches.is_empty())
        && faults.is_empty()
    {
        let help = "name an arch and give its shape and sizes".to_owned();
        faults.push(placed.place.fault("there is no arch in it", Some(help)));
    }
}

/// Finer than this, arcs are too many and too short for any machine, mm.
const FINEST: f64 = 0.001;
/// Coarser than this is seen and felt, mm.
const COARSEST: f64 = 1.0;

/// The fields of a job file.
pub(crate) static JOB: &[Field] = &[
    required(
        "title",
        Kind::Text,
        "what the job is, for the head of every sheet",
    ),
    default("units", Kind::Unit, "mm", "what a bare number means"),
    default(
        "tolerance",
        LENGTH,
        "0.02 mm",
        "how far tangent arcs may stand off a curve that is not circular, from 0.001 mm to 1 mm",
    ),
    default(
        "effort",
        Kind::Word(&[
            word("quick", "the first layout that goes on"),
            word("usual", "fewer sheets and a larger offcut, for some seconds"),
            word("patient", "the same, for some minutes"),
        ]),
        "usual",
        "how long the layout of the sheets is searched for",
    ),
    optional(
        "rule",
        Kind::Rule,
        "the marks of the rule that figures are read off with",
    ),
    default(
        "shop",
        Kind::FileOr(SHOP),
        "{}",
        "the shop file, beside the job's, or what would be in it; figures and paper need none",
    ),
    required("arches", ARCHES, "the arches by their names"),
    default(
        "make",
        Kind::List(&Kind::OneCase(&FORMS)),
        "[]",
        "what is made of them",
    ),
];
