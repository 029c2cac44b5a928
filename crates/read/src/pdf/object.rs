//! The objects of a PDF, by way of its cross-reference table.

use super::PdfError;
use super::token::{Token, Tokens};
use std::collections::BTreeMap;

/// Objects nested deeper than this are not taken: an array in an array in an array is no drawing.
const DEEPEST: usize = 16;
/// A reference to a reference to a reference is not followed farther.
const LONGEST_WAY: usize = 8;

/// An object and the byte that it begins at.
#[derive(Clone, Debug)]
pub(crate) struct Object {
    pub(crate) at: usize,
    pub(crate) value: Value,
}

#[derive(Clone, Debug)]
pub(crate) enum Value {
    Nothing,
    Number(f64),
    Name(String),
    Text,
    Reference(usize),
    List(Vec<Object>),
    Dictionary(BTreeMap<String, Object>),
}

impl Object {
    pub(crate) fn get(&self, key: &str) -> Option<&Self> {
        match &self.value {
            Value::Dictionary(fields) => fields.get(key),
            _ => None,
        }
    }

    pub(crate) fn keys(&self) -> impl Iterator<Item = &str> {
        let fields = match &self.value {
            Value::Dictionary(fields) => Some(fields),
            _ => None,
        };
        fields
            .into_iter()
            .flat_map(|fields| fields.keys().map(String::as_str))
    }

    pub(crate) fn items(&self) -> Option<&[Self]> {
        match &self.value {
            Value::List(items) => Some(items),
            _ => None,
        }
    }

    pub(crate) const fn number(&self) -> Option<f64> {
        match self.value {
            Value::Number(value) => Some(value),
            _ => None,
        }
    }

    pub(crate) fn name(&self) -> Option<&str> {
        match &self.value {
            Value::Name(name) => Some(name),
            _ => None,
        }
    }

    fn whole(&self) -> Option<usize> {
        self.number().and_then(whole)
    }
}

/// A whole number that could be a place or a length in a file.
fn whole(value: f64) -> Option<usize> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked in the same line"
    )]
    ((0.0..4e9).contains(&value) && value.fract() <= 0.0).then_some(value as usize)
}

/// A file with the places of its objects.
pub(crate) struct Body<'a> {
    bytes: &'a [u8],
    places: BTreeMap<usize, usize>,
    trailer: Object,
}

impl<'a> Body<'a> {
    pub(crate) fn open(bytes: &'a [u8]) -> Result<Self, PdfError> {
        if !bytes.starts_with(b"%PDF-") {
            return Err(PdfError::new(0, "this is no PDF"));
        }
        let tail = bytes.len().saturating_sub(64);
        let mark = b"startxref";
        let found = bytes[tail..].windows(mark.len()).rposition(|w| w == mark);
        let found = found.ok_or_else(|| PdfError::new(bytes.len(), "its end is missing"))? + tail;
        let table = match Tokens::new(bytes, found + mark.len()).next() {
            Some(Token::Number(value)) => whole(value).filter(|at| *at < bytes.len()),
            _ => None,
        };
        let table = table.ok_or_else(|| PdfError::new(found, "the place of its table is missing"))?;
        let (places, trailer) = places(bytes, table)?;
        Ok(Self {
            bytes,
            places,
            trailer,
        })
    }

    pub(crate) fn root(&self) -> Result<Object, PdfError> {
        self.look(self.trailer.get("Root"))
    }

    /// An object, or the one it refers to; nothing where there is none.
    pub(crate) fn look(&self, object: Option<&Object>) -> Result<Object, PdfError> {
        let nothing = Object {
            at: 0,
            value: Value::Nothing,
        };
        let mut object = object.cloned().unwrap_or(nothing);
        for _ in 0..LONGEST_WAY {
            let Value::Reference(number) = object.value else {
                return Ok(object);
            };
            object = self.numbered(number, object.at)?.0;
        }
        Err(PdfError::new(object.at, "a reference that leads nowhere"))
    }

    /// The bytes of an unfiltered stream.
    pub(crate) fn stream(&self, object: Option<&Object>) -> Result<&'a [u8], PdfError> {
        let Some(&Object {
            at,
            value: Value::Reference(number),
        }) = object
        else {
            return Err(PdfError::new(0, "a page without contents"));
        };
        let (head, mut tokens) = self.numbered(number, at)?;
        if head.get("Filter").is_some() {
            return Err(PdfError::new(
                head.at,
                "a filtered stream, which is not read here",
            ));
        }
        let length = self.look(head.get("Length"))?.whole();
        if tokens.next() != Some(Token::Word("stream".to_owned())) {
            return Err(PdfError::new(head.at, "no stream"));
        }
        let rest = &self.bytes[tokens.at..];
        let start = if rest.starts_with(b"\r\n") {
            2
        } else {
            usize::from(rest.starts_with(b"\n"))
        };
        length
            .and_then(|length| rest.get(start..)?.get(..length))
            .ok_or_else(|| PdfError::new(tokens.at, "a stream that runs past the end"))
    }

    /// Object `number`, and the words after it.
    fn numbered(&self, number: usize, from: usize) -> Result<(Object, Tokens<'a>), PdfError> {
        let place = self.places.get(&number);
        let place = *place.ok_or_else(|| PdfError::new(from, format!("object {number} is missing")))?;
        let mut tokens = Tokens::new(self.bytes, place);
        let head: Vec<Token> = tokens.by_ref().take(3).collect();
        match head.as_slice() {
            [Token::Number(n), Token::Number(_), Token::Word(word)]
                if whole(*n) == Some(number) && word == "obj" => {}
            _ => {
                return Err(PdfError::new(
                    place,
                    format!("object {number} does not begin here"),
                ));
            }
        }
        let object = object(&mut tokens, 0)?;
        Ok((object, tokens))
    }
}

/// The cross-reference table at a place, and the trailer after it.
fn places(bytes: &[u8], table: usize) -> Result<(BTreeMap<usize, usize>, Object), PdfError> {
    let broken = |at: usize| PdfError::new(at, "its table of objects is broken");
    let mut tokens = Tokens::new(bytes, table);
    if tokens.next() != Some(Token::Word("xref".to_owned())) {
        return Err(broken(table));
    }
    let mut places = BTreeMap::new();
    loop {
        let first = match tokens.next() {
            Some(Token::Word(word)) if word == "trailer" => break,
            Some(Token::Number(first)) => whole(first),
            _ => None,
        };
        let count = match tokens.next() {
            Some(Token::Number(count)) => whole(count),
            _ => None,
        };
        let (Some(first), Some(count)) = (first, count) else {
            return Err(broken(tokens.at));
        };
        for number in first..first.saturating_add(count) {
            let row: Vec<Token> = tokens.by_ref().take(3).collect();
            let [Token::Number(at), Token::Number(_), Token::Word(kind)] = row.as_slice() else {
                return Err(broken(tokens.at));
            };
            if kind == "n" {
                places.insert(number, whole(*at).ok_or_else(|| broken(tokens.at))?);
            }
        }
    }
    Ok((places, object(&mut tokens, 0)?))
}

fn object(tokens: &mut Tokens<'_>, depth: usize) -> Result<Object, PdfError> {
    let at = tokens.at;
    let broken = || PdfError::new(at, "an object that is broken off");
    if depth > DEEPEST {
        return Err(PdfError::new(at, "objects nested too deep"));
    }
    let value = match tokens.next().ok_or_else(broken)? {
        Token::Number(value) => reference(tokens, value).unwrap_or(Value::Number(value)),
        Token::Name(name) => Value::Name(name),
        Token::Text => Value::Text,
        Token::Word(word) if word == "[" => {
            let mut items = Vec::new();
            while !closes(tokens, "]") {
                items.push(object(tokens, depth + 1)?);
            }
            Value::List(items)
        }
        Token::Word(word) if word == "<<" => {
            let mut fields = BTreeMap::new();
            while !closes(tokens, ">>") {
                let Some(Token::Name(key)) = tokens.next() else {
                    return Err(broken());
                };
                fields.insert(key, object(tokens, depth + 1)?);
            }
            Value::Dictionary(fields)
        }
        Token::Word(word) if matches!(word.as_str(), "true" | "false" | "null") => Value::Nothing,
        Token::Word(_) => return Err(broken()),
    };
    Ok(Object { at, value })
}

/// A reference, where `first` begins one.
fn reference(tokens: &mut Tokens<'_>, first: f64) -> Option<Value> {
    let number = whole(first)?;
    let mut ahead = tokens.clone();
    let is_reference = matches!(ahead.next(), Some(Token::Number(_)))
        && matches!(ahead.next(), Some(Token::Word(word)) if word == "R");
    is_reference.then(|| {
        *tokens = ahead;
        Value::Reference(number)
    })
}

/// Takes the closing word if it is next.
fn closes(tokens: &mut Tokens<'_>, word: &str) -> bool {
    let mut ahead = tokens.clone();
    let closes = matches!(ahead.next(), Some(Token::Word(found)) if found == word);
    if closes {
        *tokens = ahead;
    }
    closes
}
