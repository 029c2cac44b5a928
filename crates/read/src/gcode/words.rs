//! A line of a program as its words: letters with numbers, and the comments between them.

/// A letter and its number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Word {
    /// In capitals.
    pub(super) letter: char,
    pub(super) value: f64,
}

/// The words and comments of one line.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Line {
    pub(super) words: Vec<Word>,
    pub(super) comments: Vec<String>,
}

/// Beyond this a number is a slip of the pen, whatever its word (a spindle's speed is the largest that is met).
const LARGEST: f64 = 1e6;

/// Splits a line into words. Spaces stand between words only, never inside one.
pub(super) fn split(text: &str) -> Result<Line, String> {
    let mut line = Line::default();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        if first == ' ' || first == '\t' {
            rest = &rest[1..];
        } else if first == '(' {
            let end = comment_end(rest)?;
            line.comments.push(rest[1..end].to_owned());
            rest = &rest[end + 1..];
        } else if first.is_ascii_alphabetic() {
            let (value, length) = number(&rest[1..])?;
            line.words.push(Word {
                letter: first.to_ascii_uppercase(),
                value,
            });
            rest = &rest[1 + length..];
        } else {
            return Err(stray(first));
        }
    }
    Ok(line)
}

fn stray(found: char) -> String {
    match found {
        ')' => "a comment is closed that was never opened".to_owned(),
        ';' => "a comment outside parentheses".to_owned(),
        '/' => "a block that may be skipped".to_owned(),
        '%' => "a % inside the program".to_owned(),
        _ => format!("{found:?} is not the beginning of a word"),
    }
}

/// Where the comment that `text` begins with is closed.
fn comment_end(text: &str) -> Result<usize, String> {
    match text[1..].find(['(', ')']).map(|i| i + 1) {
        Some(i) if text[i..].starts_with(')') => Ok(i),
        Some(_) => Err("a comment inside a comment".to_owned()),
        None => Err("a comment that is not closed".to_owned()),
    }
}

/// The plain decimal number that `text` begins with, and how many bytes it takes.
fn number(text: &str) -> Result<(f64, usize), String> {
    let length = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '+' | '-')))
        .unwrap_or(text.len());
    let digits = &text[..length];
    let wrong = || format!("{digits:?} is not a number");
    // The parser of f64 also takes words and exponents, but the slice holds only digits, signs and points.
    let value: f64 = digits.parse().map_err(|_| wrong())?;
    if value.abs() > LARGEST {
        return Err(format!("{digits} is too large a number"));
    }
    Ok((value, length))
}
