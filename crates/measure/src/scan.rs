//! Walks along a text, number by number.

use std::ops::Range;

/// A place in a text that moves forward only.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scan<'t> {
    text: &'t str,
    at: usize,
}

/// A run of digits, perhaps with a decimal point.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Digits {
    pub(crate) value: f64,
    pub(crate) whole: bool,
    pub(crate) at: Range<usize>,
}

impl<'t> Scan<'t> {
    pub(crate) const fn new(text: &'t str) -> Self {
        Self { text, at: 0 }
    }

    pub(crate) const fn at(&self) -> usize {
        self.at
    }

    pub(crate) fn rest(&self) -> &'t str {
        &self.text[self.at..]
    }

    /// What has been stepped over since byte `start`.
    pub(crate) fn since(&self, start: usize) -> &'t str {
        &self.text[start..self.at]
    }

    pub(crate) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    /// Steps over white space, and says whether there was any.
    pub(crate) fn space(&mut self) -> bool {
        let before = self.at;
        self.at = self.text.len() - self.rest().trim_start().len();
        self.at > before
    }

    /// Steps over `c` if one of `any` comes next.
    pub(crate) fn take(&mut self, any: &[char]) -> Option<char> {
        let c = self.peek().filter(|c| any.contains(c))?;
        self.at += c.len_utf8();
        Some(c)
    }

    /// Steps over a run of characters that `want`.
    pub(crate) fn run(&mut self, want: impl Fn(char) -> bool) -> &'t str {
        let rest = self.rest();
        let len = rest.find(|c| !want(c)).unwrap_or(rest.len());
        self.at += len;
        &rest[..len]
    }

    /// Steps over digits with at most one point: `54`, `54.5`, `.5`, `54.`; nothing without a digit.
    pub(crate) fn digits(&mut self) -> Option<Digits> {
        let start = self.at;
        let mut look = *self;
        let before = look.run(|c| c.is_ascii_digit());
        let point = look.take(&['.']).is_some();
        let after = if point {
            look.run(|c| c.is_ascii_digit())
        } else {
            ""
        };
        if before.is_empty() && after.is_empty() {
            return None;
        }
        let value = self.text[start..look.at].parse().ok()?;
        *self = look;
        Some(Digits {
            value,
            whole: !point,
            at: start..self.at,
        })
    }

    /// Steps over one typographic fraction.
    pub(crate) fn vulgar(&mut self) -> Option<f64> {
        let c = self.peek()?;
        let &(_, over, under) = VULGAR.iter().find(|(sign, ..)| *sign == c)?;
        self.at += c.len_utf8();
        Some(over / under)
    }

    /// What is here up to the next white space, for pointing at.
    pub(crate) fn word(&self) -> Range<usize> {
        let rest = self.rest();
        let len = rest.find(char::is_whitespace).unwrap_or(rest.len());
        self.at..self.at + len
    }
}

/// Slashes that part a fraction.
pub(crate) const SLASH: &[char] = &['/', '\u{2044}', '\u{2215}'];

/// Signs that mean less than nothing.
pub(crate) const MINUS: &[char] = &['-', '\u{2212}'];

const VULGAR: [(char, f64, f64); 15] = [
    ('½', 1.0, 2.0),
    ('¼', 1.0, 4.0),
    ('¾', 3.0, 4.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
    ('⅓', 1.0, 3.0),
    ('⅔', 2.0, 3.0),
    ('⅕', 1.0, 5.0),
    ('⅖', 2.0, 5.0),
    ('⅗', 3.0, 5.0),
    ('⅘', 4.0, 5.0),
    ('⅙', 1.0, 6.0),
    ('⅚', 5.0, 6.0),
];
