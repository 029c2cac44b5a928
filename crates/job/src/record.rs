//! A mapping that has been held against its table.

use crate::fault::{Fault, Place, Places};
use crate::value::Spacing;
use cintre_measure::{Rule, Unit};
use std::collections::BTreeMap;

/// A value that fits its field.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Datum {
    /// The word `none` where a mapping might stand.
    None,
    Text(String),
    /// A length or feed, mm or mm/min.
    Length(f64),
    /// Radians.
    Angle(f64),
    Number(f64),
    Whole(u32),
    YesNo(bool),
    Word(&'static str),
    Unit(Unit),
    Rule(Rule),
    Spacing(Spacing),
    List(Vec<Placed>),
    Record(Record),
    /// In the order of the file.
    Named(Vec<(String, Placed)>),
}

/// A value and where it was written.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Placed {
    pub(crate) place: Place,
    pub(crate) datum: Datum,
}

/// The fields of a mapping, those left out with their defaults.
///
/// The plain readers below are for records without a fault, and panic if the table and they disagree on a field.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Record {
    pub(crate) place: Place,
    /// The field that tells which of several cases it is; empty where none does.
    pub(crate) tag: &'static str,
    /// Which of several cases it is; empty where there is but one.
    pub(crate) case: &'static str,
    pub(crate) fields: BTreeMap<&'static str, Placed>,
}

impl Record {
    pub(crate) fn get(&self, field: &str) -> Option<&Datum> {
        self.fields.get(field).map(|placed| &placed.datum)
    }

    /// Whether one of these fields has a fault already, so that what it would have been is not to be spoken of.
    pub(crate) fn is_faulty(&self, fields: &[&str], faults: &[Fault]) -> bool {
        fields.iter().any(|field| {
            let path = format!("{}.{field}", self.place.field);
            faults.iter().any(|fault| {
                let inside = fault.field.strip_prefix(&path);
                fault.file == self.place.file
                    && inside.is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
            })
        })
    }

    pub(crate) fn places(&self) -> Places {
        let places = self.fields.iter();
        Places::new(
            self.place.clone(),
            places
                .map(|(name, placed)| ((*name).to_owned(), placed.place.clone()))
                .collect(),
        )
    }

    pub(crate) fn maybe_number(&self, field: &str) -> Option<f64> {
        self.get(field).map(Datum::number)
    }

    pub(crate) fn number(&self, field: &str) -> f64 {
        self.maybe_number(field).expect(TABLE)
    }

    pub(crate) fn maybe_whole(&self, field: &str) -> Option<u32> {
        self.get(field).map(|datum| match datum {
            Datum::Whole(whole) => *whole,
            _ => panic!("{TABLE}"),
        })
    }

    pub(crate) fn whole(&self, field: &str) -> u32 {
        self.maybe_whole(field).expect(TABLE)
    }

    pub(crate) fn maybe_text(&self, field: &str) -> Option<String> {
        self.get(field).map(Datum::text)
    }

    pub(crate) fn text(&self, field: &str) -> String {
        self.maybe_text(field).expect(TABLE)
    }

    pub(crate) fn word(&self, field: &str) -> &'static str {
        self.get(field).map_or_else(|| panic!("{TABLE}"), Datum::word)
    }

    pub(crate) fn yes_no(&self, field: &str) -> bool {
        match self.get(field) {
            Some(Datum::YesNo(yes)) => *yes,
            _ => panic!("{TABLE}"),
        }
    }

    pub(crate) fn unit(&self, field: &str) -> Unit {
        match self.get(field) {
            Some(Datum::Unit(unit)) => *unit,
            _ => panic!("{TABLE}"),
        }
    }

    pub(crate) fn rule(&self, field: &str) -> Option<Rule> {
        self.get(field).map(|datum| match datum {
            Datum::Rule(rule) => *rule,
            _ => panic!("{TABLE}"),
        })
    }

    /// The items of a list, none if it was left out.
    pub(crate) fn list(&self, field: &str) -> impl Iterator<Item = &Datum> {
        let items: &[Placed] = match self.get(field) {
            None => &[],
            Some(Datum::List(items)) => items,
            Some(_) => panic!("{TABLE}"),
        };
        items.iter().map(|item| &item.datum)
    }

    /// So many numbers.
    pub(crate) fn numbers<const N: usize>(&self, field: &str) -> [f64; N] {
        let numbers: Vec<_> = self.list(field).map(Datum::number).collect();
        numbers.try_into().expect(TABLE)
    }

    pub(crate) fn maybe_record(&self, field: &str) -> Option<&Self> {
        match self.get(field) {
            None | Some(Datum::None) => None,
            Some(Datum::Record(record)) => Some(record),
            Some(_) => panic!("{TABLE}"),
        }
    }

    pub(crate) fn record(&self, field: &str) -> &Self {
        self.maybe_record(field).expect(TABLE)
    }

    /// The numbers of a mapping of names, in the order of the file.
    pub(crate) fn named_numbers(&self, field: &str) -> impl Iterator<Item = (String, f64)> {
        let entries: &[(String, Placed)] = match self.get(field) {
            Some(Datum::Named(entries)) => entries,
            _ => &[],
        };
        entries
            .iter()
            .map(|(name, placed)| (name.clone(), placed.datum.number()))
    }

    /// The records of a mapping of names, in the order of the file.
    pub(crate) fn named(&self, field: &str) -> impl Iterator<Item = (&str, &Self)> {
        let entries: &[(String, Placed)] = match self.get(field) {
            Some(Datum::Named(entries)) => entries,
            _ => &[],
        };
        entries.iter().filter_map(|(name, placed)| match &placed.datum {
            Datum::Record(record) => Some((name.as_str(), record)),
            _ => None,
        })
    }
}

impl Datum {
    pub(crate) fn number(&self) -> f64 {
        match self {
            Self::Length(number) | Self::Angle(number) | Self::Number(number) => *number,
            _ => panic!("{TABLE}"),
        }
    }

    pub(crate) fn word(&self) -> &'static str {
        match self {
            Self::Word(word) => word,
            _ => panic!("{TABLE}"),
        }
    }

    pub(crate) fn text(&self) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Word(word) => (*word).to_owned(),
            _ => panic!("{TABLE}"),
        }
    }
}

const TABLE: &str = "the table of fields has this field, of this kind";
