//! Holds a tree against the tables, and gathers every fault on the way.

use crate::fault::{Fault, Faults, Place, joined};
use crate::marks::Mark;
use crate::nearest::suggestion;
use crate::record::{Datum, Placed, Record};
use crate::table::{Case, Cases, Field, Kind, Need, Of};
use crate::tree::{self, Content, Node};
use crate::value::MOST;
use cintre_measure::Unit;
use std::collections::BTreeMap;

/// Reads a whole file against its table; `also` gathers what is wrong with it as a whole.
pub(crate) fn read_file(
    file: &str,
    text: &str,
    fields: &'static [Field],
    also: impl FnOnce(&Record, &mut Vec<Fault>),
) -> Result<(Record, Names), Faults> {
    let (node, faults) = tree::read(file, text).map_err(|fault| Faults(vec![*fault]))?;
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
    reader.names.check(&mut reader.faults, None);
    Faults::check(reader.faults)?;
    // With no fault there is a record: a file that is no mapping is a fault.
    record
        .map(|record| (record, reader.names))
        .ok_or_else(|| Faults(Vec::new()))
}

/// Names that stand for things, and places that ask for them.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Names {
    pub(crate) given: Vec<(Of, String)>,
    pub(crate) asked: Vec<(Of, Place)>,
    /// Kinds that stand in another file.
    pub(crate) elsewhere: bool,
}

impl Names {
    /// A fault for every name that is asked for and not given, here or by `others`.
    pub(crate) fn check(&self, faults: &mut Vec<Fault>, others: Option<&[(Of, String)]>) {
        for (of, place) in &self.asked {
            if self.elsewhere && others.is_none() && *of != Of::Arch {
                continue;
            }
            let all = self.given.iter().chain(others.unwrap_or_default());
            let known: Vec<_> = all
                .filter(|(o, _)| o == of)
                .map(|(_, name)| name.as_str())
                .collect();
            let name = place.given.as_deref().unwrap_or_default();
            if !known.contains(&name) {
                let what = format!("there is no {} of this name", of.noun());
                faults.push(place.fault(what, Some(suggestion(name, known))));
            }
        }
    }
}

/// Which of several cases a mapping is.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Told {
    /// The field that tells; empty where the name over the mapping does.
    by: &'static str,
    case: &'static Case,
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
                let names = known()
                    .filter(|f| !matches!(f.kind, Kind::NotYet))
                    .map(|f| f.name);
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
        if matches!(field.kind, Kind::NotYet) {
            let help = "leave it out for now, so that nobody relies on it".to_owned();
            self.fault(
                &node.mark,
                path,
                "this is known, but nothing is made of it yet",
                Some(help),
            );
            return None;
        }
        if node.content == Content::Empty {
            let help = format!("{}; {}", field.help, field.kind.wanted());
            self.fault(&node.mark, path, "nothing is given here", Some(help));
            return None;
        }
        self.datum(node, path, &field.kind)
    }

    pub(crate) fn named(&mut self, node: &Node, path: &str, of: Of, kind: &'static Kind) -> Option<Datum> {
        let Content::Map(entries) = &node.content else {
            let help = Some(Kind::Named(of, kind).wanted());
            self.fault(&node.mark, path, "a mapping of names is wanted here", help);
            return None;
        };
        if entries.len() > MOST {
            let what = format!("this holds {} names", entries.len());
            self.fault(&node.mark, path, what, Some(format!("take at most {MOST}")));
            return None;
        }
        let mut named: Vec<(String, Placed)> = Vec::new();
        for (key, value) in entries {
            let name = key.text.clone().unwrap_or_default();
            let path = joined(path, &name);
            // A name that is not fit still answers those who ask for it: its own fault is enough.
            self.names.given.push((of, name.clone()));
            if let Err(what) = fit_for_a_name(&name) {
                let help = "take letters without accents, digits, `-` and `_`, at most 40".to_owned();
                self.fault(key, &path, what, Some(help));
                continue;
            }
            if let Some((other, _)) = named
                .iter()
                .find(|(n, _)| *n != name && n.eq_ignore_ascii_case(&name))
            {
                let what = format!(
                    "this differs from `{other}` by capitals alone, which some disks cannot tell apart"
                );
                self.fault(key, &path, what, None);
            }
            if let Some(placed) = self.datum(value, &path, kind)
                && named.iter().all(|(n, _)| *n != name)
            {
                named.push((name, placed));
            }
        }
        Some(Datum::Named(named))
    }

    /// A mapping in which the field `tag` says which case it is.
    pub(crate) fn cases(&mut self, node: &Node, path: &str, cases: &'static Cases) -> Option<Record> {
        let tag = child(node, cases.tag);
        let case = match (tag, cases.default) {
            (Some(tag), _) => self.case(&tag.mark, &joined(path, cases.tag), cases)?,
            (None, Some(name)) => cases.cases.iter().find(|case| case.name == name)?,
            (None, None) if matches!(node.content, Content::Map(_)) => {
                let bare = Mark {
                    text: None,
                    ..node.mark.clone()
                };
                let help = format!("{}; {}", cases.help, made(cases));
                self.fault(
                    &bare,
                    &joined(path, cases.tag),
                    "this field is missing",
                    Some(help),
                );
                return None;
            }
            (None, None) => return self.mapping(node, path, &[], None),
        };
        let told = Told { by: cases.tag, case };
        self.mapping(node, path, &[cases.common, case.fields], Some(told))
    }

    /// A mapping whose one name is that of the case.
    pub(crate) fn one_case(&mut self, node: &Node, path: &str, cases: &'static Cases) -> Option<Record> {
        match &node.content {
            Content::Map(entries) if entries.len() == 1 => {
                let (key, value) = &entries[0];
                let path = joined(path, key.text.as_deref().unwrap_or_default());
                let case = self.case(key, &path, cases)?;
                if value.content == Content::Empty {
                    let help = "set its fields further in than its name, or in braces after it".to_owned();
                    self.fault(&value.mark, &path, "nothing is given here", Some(help));
                    return None;
                }
                let told = Told { by: "", case };
                self.mapping(value, &path, &[cases.common, case.fields], Some(told))
            }
            _ => {
                let what = format!("each {} is one name with its fields under it", cases.tag);
                let help = format!(
                    "write `- {}: {{ … }}`, or set its fields further in",
                    cases.cases[0].name
                );
                self.fault(&node.mark, path, what, Some(help));
                None
            }
        }
    }

    fn case(&mut self, mark: &Mark, path: &str, cases: &'static Cases) -> Option<&'static Case> {
        let name = mark.text.as_deref().unwrap_or_default();
        match cases.cases.iter().find(|case| case.name == name) {
            Some(case) if case.made => Some(case),
            Some(_) => {
                let what = format!("this {} is known, but it cannot be made yet", cases.tag);
                self.fault(mark, path, what, Some(made(cases)));
                None
            }
            None => {
                let names = cases.cases.iter().filter(|case| case.made).map(|case| case.name);
                let what = format!("no such {} is known", cases.tag);
                let near = crate::nearest::nearest(name, cases.cases.iter().map(|case| case.name));
                let help = match near {
                    Some(near) => format!("did you mean `{near}`? {}", made(cases)),
                    None => suggestion(name, names),
                };
                self.fault(mark, path, what, Some(help));
                None
            }
        }
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

fn made(cases: &Cases) -> String {
    let names: Vec<_> = cases
        .cases
        .iter()
        .filter(|case| case.made)
        .map(|case| case.name)
        .collect();
    format!("can be made: {}", names.join(", "))
}

/// The first value of a name in a mapping.
fn child<'n>(node: &'n Node, name: &str) -> Option<&'n Node> {
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

/// Names reach the names of files and folders, so they hold nothing that a disk or a controller stumbles over.
fn fit_for_a_name(name: &str) -> Result<(), &'static str> {
    /// The longest name, characters.
    const LONGEST: usize = 40;
    let plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    match name.chars().next() {
        None => Err("a name is empty"),
        Some(c) if !c.is_ascii_alphanumeric() => Err("a name begins with a letter or a digit"),
        Some(_) if !name.chars().all(plain) => Err("a name holds something that a file's name cannot"),
        Some(_) if name.len() > LONGEST => Err("a name is too long"),
        Some(_) => Ok(()),
    }
}
