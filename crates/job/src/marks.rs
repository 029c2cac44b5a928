//! The places of a YAML file's values, from its event stream, and what the file may not hold.
//!
//! Anchors, aliases and tags are refused: a job says each thing where it stands, and a short file cannot grow into a
//! huge one.

use crate::fault::{Fault, Place, joined};
use saphyr_parser::{Event, Marker, Parser, ScalarStyle};
use std::collections::BTreeSet;

/// The deepest that lists and mappings may be nested.
const DEEPEST: usize = 32;

/// Where a key or a value begins.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Mark {
    /// Counted from 1.
    pub(crate) line: usize,
    /// Counted from 1, in characters.
    pub(crate) column: usize,
    /// A scalar's text.
    pub(crate) text: Option<String>,
    /// Whether the text stands in the file as it is, with no quotes around it.
    pub(crate) plain: bool,
}

impl Mark {
    pub(crate) fn place(&self, file: &str, field: &str) -> Place {
        Place {
            file: file.to_owned(),
            line: self.line,
            column: self.column,
            field: field.to_owned(),
            given: self.text.clone(),
        }
    }
}

/// The marks of all keys and values in the order of the file, and a fault for every field that is given twice.
pub(crate) fn marks(file: &str, text: &str) -> Result<(Vec<Mark>, Vec<Fault>), Box<Fault>> {
    let mut walk = Walk {
        file,
        marks: Vec::new(),
        twice: Vec::new(),
        open: Vec::new(),
        documents: 0,
    };
    for event in Parser::new_from_str(text) {
        let (event, span) = event.map_err(|error| {
            let what = format!("this is not YAML: {}", error.info());
            Box::new(mark(*error.marker()).place(file, "").fault(what, None))
        })?;
        walk.step(event, span.start)?;
    }
    Ok((walk.marks, walk.twice))
}

fn mark(at: Marker) -> Mark {
    Mark {
        line: at.line(),
        column: at.col() + 1,
        ..Mark::default()
    }
}

struct Walk<'f> {
    file: &'f str,
    marks: Vec<Mark>,
    twice: Vec<Fault>,
    open: Vec<Open>,
    documents: usize,
}

/// A list or mapping that has begun and not ended.
enum Open {
    List {
        path: String,
        count: usize,
    },
    Map {
        path: String,
        keys: BTreeSet<String>,
        key: Option<String>,
    },
}

impl Walk<'_> {
    fn step(&mut self, event: Event<'_>, at: Marker) -> Result<(), Box<Fault>> {
        let mark = mark(at);
        let refuse = |what: &str, help: &str| {
            let place = mark.place(self.file, "");
            Err(Box::new(place.fault(what, Some(help.to_owned()))))
        };
        match event {
            Event::DocumentStart(_) if self.documents > 0 => {
                return refuse("a second document begins here", "a file holds one");
            }
            Event::DocumentStart(_) => self.documents += 1,
            Event::Alias(_) => return refuse("aliases are not read", "write the value out"),
            Event::Scalar(_, _, anchor, ref tag)
            | Event::SequenceStart(anchor, ref tag)
            | Event::MappingStart(anchor, ref tag)
                if anchor > 0 || tag.is_some() =>
            {
                return refuse(
                    "anchors and tags are not read",
                    "put a text that begins with & or ! in quotes",
                );
            }
            Event::Scalar(text, style, ..) => self.scalar(&text, style == ScalarStyle::Plain, mark),
            Event::SequenceStart(..) => {
                let path = self.begin(&mark)?;
                self.open.push(Open::List { path, count: 0 });
            }
            Event::MappingStart(..) => {
                let path = self.begin(&mark)?;
                self.open.push(Open::Map {
                    path,
                    keys: BTreeSet::new(),
                    key: None,
                });
            }
            Event::SequenceEnd | Event::MappingEnd => {
                self.open.pop();
            }
            Event::Nothing | Event::StreamStart | Event::StreamEnd | Event::DocumentEnd => {}
        }
        Ok(())
    }

    fn scalar(&mut self, text: &str, plain: bool, mark: Mark) {
        let mark = Mark {
            text: Some(text.to_owned()),
            plain,
            ..mark
        };
        if let Some(Open::Map { path, keys, key }) = self.open.last_mut()
            && key.is_none()
        {
            *key = Some(text.to_owned());
            if !keys.insert(text.to_owned()) {
                let mut place = mark.place(self.file, &joined(path, text));
                place.given = None;
                let help = "keep the one that is meant".to_owned();
                self.twice
                    .push(place.fault("this field is given twice", Some(help)));
            }
        } else {
            self.value();
        }
        self.marks.push(mark);
    }

    /// Begins a list or mapping, and says its path.
    fn begin(&mut self, mark: &Mark) -> Result<String, Box<Fault>> {
        let place = mark.place(self.file, "");
        if self.open.len() >= DEEPEST {
            let what = format!("lists and mappings are nested more than {DEEPEST} deep");
            return Err(Box::new(place.fault(what, None)));
        }
        if matches!(self.open.last(), Some(Open::Map { key: None, .. })) {
            let help = "if a value in braces was meant, put the field's name before it".to_owned();
            let what = "a list or mapping stands where a field's name should";
            return Err(Box::new(place.fault(what, Some(help))));
        }
        self.marks.push(mark.clone());
        Ok(self.value())
    }

    /// Takes the next value of the innermost list or mapping, and says its path.
    fn value(&mut self) -> String {
        match self.open.last_mut() {
            None => String::new(),
            Some(Open::List { path, count }) => {
                *count += 1;
                format!("{path}[{}]", *count - 1)
            }
            Some(Open::Map { path, key, .. }) => joined(path, &key.take().unwrap_or_default()),
        }
    }
}
