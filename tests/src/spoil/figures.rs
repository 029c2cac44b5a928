//! The figures of a file.

use std::ops::Range;

/// A number behind a letter, and where it stands in the text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Figure {
    pub(crate) letter: char,
    pub(crate) value: f64,
    pub(crate) at: Range<usize>,
}

/// Every number that follows one of `letters`, outside comments in parentheses.
pub(crate) fn behind(text: &str, letters: &str) -> Vec<Figure> {
    let bytes = text.as_bytes();
    let (mut found, mut i, mut comment) = (Vec::new(), 0, false);
    while i < bytes.len() {
        let letter = char::from(bytes[i]);
        i += 1;
        comment = match letter {
            '(' => true,
            ')' => false,
            _ => comment,
        };
        if comment || !letters.contains(letter) {
            continue;
        }
        let length = digits(&text[i..]);
        if let Ok(value) = text[i..i + length].parse() {
            let at = i..i + length;
            found.push(Figure { letter, value, at });
            i += length;
        }
    }
    found
}

/// How many bytes of a plain number a text begins with.
fn digits(text: &str) -> usize {
    text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-')))
        .unwrap_or(text.len())
}

/// The text with a figure made another.
pub(crate) fn put(text: &str, figure: &Figure, by: &str) -> String {
    format!("{}{by}{}", &text[..figure.at.start], &text[figure.at.end..])
}

/// The text with every figure made what `change` says.
pub(crate) fn put_all(text: &str, figures: &[Figure], change: impl Fn(&Figure) -> String) -> String {
    let (mut made, mut from) = (String::new(), 0);
    for figure in figures {
        made.push_str(&text[from..figure.at.start]);
        made.push_str(&change(figure));
        from = figure.at.end;
    }
    made.push_str(&text[from..]);
    made
}
