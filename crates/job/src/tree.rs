//! A YAML file as a tree in which every value knows its place.
//!
//! `serde_yaml` gives the values and a second parser their places; the two walk side by side, and a file that they do not
//! read alike is refused.

use crate::fault::{Fault, Place};
use crate::marks::{Mark, marks};
use serde::de::{Deserialize, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// The largest file that is read, bytes: far more than any job.
pub(crate) const LARGEST: usize = 1 << 20;

/// A value and its place.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Node {
    pub(crate) mark: Mark,
    pub(crate) content: Content,
}

/// What a value is. A scalar's text is in its mark.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Content {
    Empty,
    YesNo(bool),
    Scalar,
    List(Vec<Node>),
    Map(Vec<(Mark, Node)>),
}

/// Reads a file: its tree, and the faults that do not keep it from being read on.
pub(crate) fn read(file: &str, text: &str) -> Result<(Node, Vec<Fault>), Box<Fault>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let whole = |what: String| Box::new(start(file).fault(what, None));
    if text.len() > LARGEST {
        let what = format!(
            "the file has {} bytes; the most that is read is {LARGEST}",
            text.len()
        );
        return Err(whole(what));
    }
    let (marks, twice) = marks(file, text)?;
    if marks.is_empty() {
        return Err(whole("the file is empty".to_owned()));
    }
    let raw: Raw = serde_yaml::from_str(text).map_err(|error| {
        let mut place = start(file);
        if let Some(at) = error.location() {
            (place.line, place.column) = (at.line(), at.column());
        }
        Box::new(place.fault(format!("this is not YAML: {error}"), None))
    })?;
    let mut marks = marks.into_iter();
    match node(raw, &mut marks) {
        Some(node) if marks.next().is_none() => Ok((node, twice)),
        _ => Err(whole(
            "the file can be read in two ways; write it more simply".to_owned(),
        )),
    }
}

fn start(file: &str) -> Place {
    Place {
        file: file.to_owned(),
        line: 1,
        column: 1,
        field: String::new(),
        given: None,
    }
}

/// Puts the next marks to a value and all that is in it, none if they do not fit.
fn node(raw: Raw, marks: &mut impl Iterator<Item = Mark>) -> Option<Node> {
    let mark = marks.next()?;
    let scalar = mark.text.is_some();
    let content = match raw {
        Raw::Empty if scalar => Content::Empty,
        Raw::YesNo(yes) if scalar => Content::YesNo(yes),
        Raw::Scalar if scalar => Content::Scalar,
        Raw::List(items) if !scalar => Content::List(
            items
                .into_iter()
                .map(|item| node(item, marks))
                .collect::<Option<_>>()?,
        ),
        Raw::Map(values) if !scalar => Content::Map(
            values
                .into_iter()
                .map(|value| Some((marks.next()?, node(value, marks)?)))
                .collect::<Option<_>>()?,
        ),
        _ => return None,
    };
    Some(Node { mark, content })
}

/// A value as `serde_yaml` reads it; a mapping keeps the values alone, since the marks know the keys, and may hold a key
/// twice.
enum Raw {
    Empty,
    YesNo(bool),
    Scalar,
    List(Vec<Self>),
    Map(Vec<Self>),
}

impl<'de> Deserialize<'de> for Raw {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(RawVisitor)
    }
}

struct RawVisitor;

impl<'de> Visitor<'de> for RawVisitor {
    type Value = Raw;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_unit<E>(self) -> Result<Raw, E> {
        Ok(Raw::Empty)
    }

    fn visit_bool<E>(self, yes: bool) -> Result<Raw, E> {
        Ok(Raw::YesNo(yes))
    }

    fn visit_i64<E>(self, _: i64) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_i128<E>(self, _: i128) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_u64<E>(self, _: u64) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_u128<E>(self, _: u128) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_f64<E>(self, _: f64) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_str<E>(self, _: &str) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Raw, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element()? {
            list.push(item);
        }
        Ok(Raw::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Raw, A::Error> {
        let mut values = Vec::new();
        while let Some((IgnoredAny, value)) = entries.next_entry()? {
            values.push(value);
        }
        Ok(Raw::Map(values))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fault(text: &str) -> Fault {
        *read("job.yaml", text).unwrap_err()
    }

    #[test]
    fn values_know_their_places() {
        let (node, _) = read("job.yaml", "a: 1\nb:\n  - { c: \"x\", d: [2, true] }\n  - ~\n").unwrap();
        let Content::Map(top) = node.content else {
            panic!("a mapping")
        };
        assert_eq!((top[0].1.mark.line, top[0].1.mark.column), (1, 4));
        let Content::List(items) = &top[1].1.content else {
            panic!("a list")
        };
        assert_eq!(items[1].content, Content::Empty);
        let Content::Map(inner) = &items[0].content else {
            panic!("a mapping")
        };
        assert_eq!((inner[0].1.mark.line, inner[0].1.mark.column), (3, 10));
        assert_eq!(inner[0].1.mark.text.as_deref(), Some("x"));
        assert!(!inner[0].1.mark.plain);
    }

    #[test]
    fn what_may_not_be_is_refused() {
        assert!(fault("").what.contains("empty"));
        assert!(fault("a: [1, 2").what.contains("not YAML"));
        assert_eq!(fault("a: 1\nb: {c: }}\n").line, 2);
        assert!(fault("a: &x 1\nb: *x\n").what.contains("anchors"));
        assert!(fault("a: !!str 1\n").what.contains("tags"));
        assert!(fault("a: 1\n---\nb: 2\n").what.contains("second document"));
        assert!(fault("{ {a: 1}: 2 }").what.contains("field's name"));
        let nested = |deep| format!("{}{}", "[".repeat(deep), "]".repeat(deep));
        assert!(read("job.yaml", &nested(32)).is_ok());
        assert!(fault(&nested(33)).what.contains("more than 32 deep"));
        let bomb = fault(&"[".repeat(200_000));
        assert!(!bomb.what.is_empty(), "{bomb}");
        let long = format!("title: {}\n", "x".repeat(LARGEST));
        assert!(fault(&long).what.contains("bytes"));
    }

    #[test]
    fn a_field_given_twice_is_a_fault_that_does_not_stop_the_reading() {
        let (_, twice) = read("job.yaml", "a: { b: 1, b: 2 }\nc: 1\nc: 2\n").unwrap();
        let fields: Vec<_> = twice.iter().map(|f| (f.field.as_str(), f.line)).collect();
        assert_eq!(fields, [("a.b", 1), ("c", 3)]);
    }
}
