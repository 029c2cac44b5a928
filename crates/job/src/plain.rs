//! A file written out again with nothing left unsaid: every default in its place, every length in mm.

use crate::fault::Faults;
use crate::job::{JOB, check_job};
use crate::reader::read_file;
use crate::record::{Datum, Record};
use crate::shop::{SHOP, check_shop};
use crate::value::Spacing;
use cintre_measure::{Unit, parse_angle, write_angle};
use serde_yaml::{Mapping, Value};

/// A job as it was understood: it reads back as the same job, whatever unit and defaults it was written with.
pub fn plain_job(file: &str, text: &str) -> Result<String, Faults> {
    let (record, _) = read_file(file, text, JOB, check_job)?;
    Ok(written(&record))
}

/// A shop as it was understood.
pub fn plain_shop(file: &str, text: &str) -> Result<String, Faults> {
    let (record, _) = read_file(file, text, SHOP, check_shop)?;
    Ok(written(&record))
}

fn written(record: &Record) -> String {
    serde_yaml::to_string(&mapping(record, true)).expect("names and plain values can be written")
}

/// A mapping; the `units` of a whole file become mm, those of a machine are what its files are in.
fn mapping(record: &Record, document: bool) -> Mapping {
    let mut mapping = Mapping::new();
    if !record.tag.is_empty() {
        mapping.insert(record.tag.into(), record.case.into());
    }
    for (&name, placed) in &record.fields {
        let value = match &placed.datum {
            Datum::Unit(_) if document => Unit::Millimetre.name().into(),
            datum => value(datum, document && name == "shop"),
        };
        mapping.insert(name.into(), value);
    }
    mapping
}

/// An angle in degrees, or as the slope that it is: `1:8` keeps its last digit that way.
fn angle(radians: f64) -> String {
    let slope = format!("1:{:.0}", 1.0 / radians.tan());
    match parse_angle(&slope) {
        Ok(same) if same.to_bits() == radians.to_bits() => slope,
        _ => write_angle(radians),
    }
}

fn value(datum: &Datum, document: bool) -> Value {
    match datum {
        Datum::None => "none".into(),
        Datum::Text(text) => text.as_str().into(),
        Datum::Length(mm) => length(*mm),
        Datum::Angle(radians) => angle(*radians).into(),
        Datum::Number(number) => (*number).into(),
        Datum::Whole(whole) => (*whole).into(),
        Datum::YesNo(yes) => (*yes).into(),
        Datum::Word(word) => (*word).into(),
        Datum::Unit(unit) => unit.name().into(),
        Datum::Rule(rule) => rule.name().into(),
        Datum::Spacing(Spacing::Length(mm)) => length(*mm),
        Datum::Spacing(Spacing::Margin(mm)) => format!("margin {mm} mm").into(),
        Datum::List(items) => items.iter().map(|item| listed(&item.datum)).collect(),
        Datum::Record(record) => Value::Mapping(mapping(record, document)),
        Datum::Named(entries) => {
            let entries = entries.iter();
            let entries = entries.map(|(name, placed)| (name.as_str().into(), value(&placed.datum, false)));
            Value::Mapping(entries.collect())
        }
    }
}

/// In a list, a mapping stands under the name of its case.
fn listed(datum: &Datum) -> Value {
    match datum {
        Datum::Record(record) if !record.case.is_empty() => {
            let inner = Value::Mapping(mapping(record, false));
            Value::Mapping([(record.case.into(), inner)].into_iter().collect())
        }
        datum => value(datum, false),
    }
}

/// All digits, and never an exponent, which no rule has.
fn length(mm: f64) -> Value {
    format!("{mm} mm").into()
}
