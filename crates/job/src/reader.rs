//! Holds a tree against the tables, and gathers every fault on the way.

use crate::fault::{Fault, Faults, joined};
use crate::marks::Mark;
use crate::names::Names;
use crate::nearest::suggestion;
use crate::record::{Datum, Placed, Record};
use crate::table::{Case, Field, Need};
use crate::tree::{self, Content, Node};
use cintre_measure::Unit;
use std::collections::BTreeMap;

/// Reads a whole file against its table; `also` gathers what is wrong with it as a whole.
pub(crate) fn read_file(
    file: &str,
    text: &str,
    fields: &'static [Field],
    also: impl FnOnce(&Record, &mut Vec<Fault>),
) -> Result<(Record, Names), Faults> {
    let mut read = begin_file(file, text, fields, also);
    read.names.check(&mut read.faults, None);
    Faults::check(read.faults)?;
    // With no fault there is a record: a file that is no mapping is a fault.
    read.record
        .map(|record| (record, read.names))
        .ok_or_else(|| Faults(Vec::new()))
}

/// What could be read of a file, whatever is wrong with the rest.
pub(crate) struct Begun {
    /// None where the file is no mapping, or no YAML.
    pub(crate) record: Option<Record>,
    pub(crate) names: Names,
    /// What is wrong so far: the names that it asks for are still to be held against those that there are.
    pub(crate) faults: Vec<Fault>,
}

/// Reads what can be read of a file; see [`read_file`].
pub(crate) fn begin_file(
    file: &str,
    text: &str,
    fields: &'static [Field],
    also: impl FnOnce(&Record, &mut Vec<Fault>),
) -> Begun {
    let (node, faults) = match tree::read(file, text) {
        Ok(read) => read,
        Err(fault) => {
            return Begun {
                record: None,
                names: Names::default(),
                faults: vec![*fault],
            };
        }
    };
    let mut reader = Reader {
        file,
        unit: Unit::Millimetre,
        faults,
        names: Names::default(),
    };
    let record = reader.document(&node, "", fields);
    if let Some(record) = &record {
        also(record, &mut reader.faults);
    }
    Begun {
        record,
        names: reader.names,
        faults: reader.faults,
    }
}

/// Which of several cases a mapping is.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Told {
    /// The field that tells; empty where the name over the mapping does.
    pub(crate) by: &'static str,
    pub(crate) case: &'static Case,
}

pub(crate) struct Reader<'f> {
    pub(crate) file: &'f str,
    /// What a bare number means here.
    pub(crate) unit: Unit,
    pub(crate) faults: Vec<Fault>,
    pub(crate) names: Names,
}

impl Reader<'_> {
    pub(crate) fn fault(&mut self, mark: &Mark, path: &str, what: impl Into<String>, help: Option<String>) {
        self.faults.push(mark.place(self.file, path).fault(what, help));
    }

    /// A mapping whose `units` say what a bare number in it means.
    pub(crate) fn document(&mut self, node: &Node, path: &str, fields: &'static [Field]) -> Option<Record> {
        let outer = self.unit;
        if let Some(units) = child(node, "units") {
            match units.mark.text.as_deref() {
                Some("in") => self.unit = Unit::Inch,
                Some("mm") => self.unit = Unit::Millimetre,
                // Any other is a fault when the field itself is read.
                _ => {}
            }
        }
        let record = self.mapping(node, path, &[fields], None);
        self.unit = outer;
        record
    }

    /// A mapping of fields, with the case that it is, if there are several.
    pub(crate) fn mapping(
        &mut self,
        node: &Node,
        path: &str,
        tables: &[&'static [Field]],
        told: Option<Told>,
    ) -> Option<Record> {
        let Content::Map(entries) = &node.content else {
            let help = "write its fields as `name: value`".to_owned();
            self.fault(&node.mark, path, "a mapping of fields is wanted here", Some(help));
            return None;
        };
        let known = || tables.iter().flat_map(|table| table.iter());
        let mut given: BTreeMap<&'static str, &Node> = BTreeMap::new();
        for (key, value) in entries {
            let name = key.text.as_deref().unwrap_or_default();
            if let Some(field) = known().find(|field| field.name == name) {
                given.entry(field.name).or_insert(value);
            } else if told.is_none_or(|told| told.by != name) {
                let names = known().map(|f| f.name);
                let tag = told.map(|told| told.by).filter(|by| !by.is_empty());
                let help = suggestion(name, tag.into_iter().chain(names));
                self.unknown(key, path, name, &help);
            }
        }
        let mut fields = BTreeMap::new();
        for field in known() {
            let value = given.get(field.name).copied();
            if let Some(placed) = self.field(node, value, path, field) {
                fields.insert(field.name, placed);
            }
        }
        if let Some(told) = told {
            self.exactly(node, path, told.case, &given);
        }
        Some(Record {
            place: node.mark.place(self.file, path),
            tag: told.map_or("", |told| told.by),
            case: told.map_or("", |told| told.case.name),
            fields,
        })
    }

    fn unknown(&mut self, key: &Mark, path: &str, name: &str, help: &str) {
        let bare = Mark {
            text: None,
            ..key.clone()
        };
        self.fault(
            &bare,
            &joined(path, name),
            "no such field is known here",
            Some(help.to_owned()),
        );
    }

    /// One field of the mapping at `whole`: as given, or its default.
    fn field(
        &mut self,
        whole: &Node,
        value: Option<&Node>,
        path: &str,
        field: &'static Field,
    ) -> Option<Placed> {
        let path = joined(path, field.name);
        if let Some(value) = value {
            return self.value(value, &path, field);
        }
        let bare = Mark {
            text: None,
            ..whole.mark.clone()
        };
        match field.need {
            Need::Optional => None,
            Need::Surrounding => Some(Placed {
                place: bare.place(self.file, &path),
                datum: Datum::Unit(self.unit),
            }),
            Need::Required => {
                let help = format!("{}; {}", field.help, field.kind.wanted());
                self.fault(&bare, &path, "this field is missing", Some(help));
                None
            }
            Need::Default(text) => {
                let (mut node, _) = tree::read("default", text).expect("a default is YAML");
                stand_at(&mut node, &bare);
                let mut placed = self.value(&node, &path, field)?;
                placed.place.given = None;
                Some(placed)
            }
        }
    }

    fn value(&mut self, node: &Node, path: &str, field: &'static Field) -> Option<Placed> {
        if node.content == Content::Empty {
            let help = format!("{}; {}", field.help, field.kind.wanted());
            self.fault(&node.mark, path, "nothing is given here", Some(help));
            return None;
        }
        self.datum(node, path, &field.kind)
    }

    fn exactly(&mut self, node: &Node, path: &str, case: &Case, given: &BTreeMap<&'static str, &Node>) {
        let Some((count, of)) = case.exactly else { return };
        let found: Vec<_> = of
            .iter()
            .filter(|name| given.contains_key(*name))
            .copied()
            .collect();
        if found.len() == count {
            return;
        }
        let bare = Mark {
            text: None,
            ..node.mark.clone()
        };
        let given = if found.is_empty() {
            "none".to_owned()
        } else {
            found.join(", ")
        };
        let what = format!(
            "{count} of {} fix it, neither more nor fewer; given: {given}",
            of.join(", ")
        );
        self.fault(&bare, path, what, None);
    }
}

/// The first value of a name in a mapping.
pub(crate) fn child<'n>(node: &'n Node, name: &str) -> Option<&'n Node> {
    let Content::Map(entries) = &node.content else {
        return None;
    };
    let mut entries = entries.iter();
    entries
        .find(|(key, _)| key.text.as_deref() == Some(name))
        .map(|(_, value)| value)
}

/// Gives a default the place of the mapping that left it out.
fn stand_at(node: &mut Node, mark: &Mark) {
    (node.mark.line, node.mark.column) = (mark.line, mark.column);
    node.mark.plain = false;
    match &mut node.content {
        Content::List(items) => items.iter_mut().for_each(|item| stand_at(item, mark)),
        Content::Map(entries) => {
            for (key, value) in entries {
                (key.line, key.column) = (mark.line, mark.column);
                stand_at(value, mark);
            }
        }
        Content::Empty | Content::YesNo(_) | Content::Scalar => {}
    }
}
