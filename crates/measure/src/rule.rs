//! Rounding to the marks of a rule, with what is left over said.

use crate::unit::INCH;
use std::fmt;
use std::str::FromStr;

/// The finest marks of the rule that figures are read off with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rule {
    /// Eighths of an inch.
    Eighth,
    /// Sixteenths: carpentry.
    Sixteenth,
    /// Thirty-seconds: joinery.
    ThirtySecond,
    /// Sixty-fourths: machine work.
    SixtyFourth,
    /// Millimetres.
    Millimetre,
    /// Half millimetres.
    HalfMillimetre,
}

impl Rule {
    /// Every rule.
    pub const ALL: [Self; 6] = [
        Self::Eighth,
        Self::Sixteenth,
        Self::ThirtySecond,
        Self::SixtyFourth,
        Self::Millimetre,
        Self::HalfMillimetre,
    ];

    /// How it is written: `1/32`, `0.5 mm`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Eighth => "1/8",
            Self::Sixteenth => "1/16",
            Self::ThirtySecond => "1/32",
            Self::SixtyFourth => "1/64",
            Self::Millimetre => "1 mm",
            Self::HalfMillimetre => "0.5 mm",
        }
    }

    /// The distance between two marks, mm.
    pub fn mark(self) -> f64 {
        match self.per_inch() {
            Some(marks) => INCH / f64::from(marks),
            None if self == Self::HalfMillimetre => 0.5,
            None => 1.0,
        }
    }

    /// The nearest mark to a length in mm. What lies midway goes away from zero.
    pub fn read(self, mm: f64) -> Reading {
        let marks = (mm / self.mark()).round();
        Reading {
            rule: self,
            marks,
            remainder: mm - marks * self.mark(),
        }
    }

    /// Marks in an inch, none for a metric rule.
    const fn per_inch(self) -> Option<u32> {
        match self {
            Self::Eighth => Some(8),
            Self::Sixteenth => Some(16),
            Self::ThirtySecond => Some(32),
            Self::SixtyFourth => Some(64),
            Self::Millimetre | Self::HalfMillimetre => None,
        }
    }
}

impl fmt::Display for Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A text that names no rule.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{given}` is no rule that is known; write 1/8, 1/16, 1/32, 1/64, 1 mm or 0.5 mm")]
pub struct RuleError {
    /// The text.
    pub given: String,
}

impl FromStr for Rule {
    type Err = RuleError;

    /// Reads `1/32`, `1/32 in`, `1/32"`, `1 mm`, `0.5 mm`, `1/2 mm`.
    fn from_str(text: &str) -> Result<Self, RuleError> {
        let close: String = text.split_whitespace().collect();
        let plain = close.trim_end_matches("in").trim_end_matches(['"', '″']);
        match plain {
            "1/8" => Ok(Self::Eighth),
            "1/16" => Ok(Self::Sixteenth),
            "1/32" => Ok(Self::ThirtySecond),
            "1/64" => Ok(Self::SixtyFourth),
            "1mm" => Ok(Self::Millimetre),
            "0.5mm" | ".5mm" | "1/2mm" => Ok(Self::HalfMillimetre),
            _ => Err(RuleError {
                given: text.to_owned(),
            }),
        }
    }
}

/// A length read off a rule: its nearest mark and what is left. The length is the mark plus the remainder.
///
/// Shown as `40 5/8" − 0.007` (inches) or `1031.5 mm + 0.2` (mm); a remainder that would show as nothing is left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    rule: Rule,
    marks: f64,
    remainder: f64,
}

impl Reading {
    /// The length of the mark, mm.
    pub fn mark(&self) -> f64 {
        self.marks * self.rule.mark()
    }

    /// The length less its mark, mm.
    pub const fn remainder(&self) -> f64 {
        self.remainder
    }

    /// The mark alone, in words that [`crate::parse_length`] reads: `40 5/8"`, `1031.5 mm`.
    pub fn mark_text(&self) -> String {
        match self.rule.per_inch() {
            Some(per_inch) => format!("{}{}\"", self.sign(), mixed(self.marks.abs(), per_inch)),
            None => self.metric(),
        }
    }

    /// Shown in feet and inches, from a foot upwards and under an inch rule: `4' 6 1/2"`.
    pub const fn in_feet(self) -> Feet {
        Feet(self)
    }

    fn metric(&self) -> String {
        let decimals = usize::from(self.rule == Rule::HalfMillimetre);
        format!("{}{:.decimals$} mm", self.sign(), self.mark().abs())
    }

    fn sign(&self) -> &'static str {
        if self.marks < 0.0 { "−" } else { "" }
    }

    /// ` − 0.007`, or nothing where it would show as nothing.
    fn remainder_text(&self) -> String {
        let size = match self.rule.per_inch() {
            Some(_) => format!("{:.3}", self.remainder.abs() / INCH),
            None => format!("{:.1}", self.remainder.abs()),
        };
        if size.bytes().all(|b| matches!(b, b'0' | b'.')) {
            return String::new();
        }
        let sign = if self.remainder < 0.0 { '−' } else { '+' };
        format!(" {sign} {size}")
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.mark_text(), self.remainder_text())
    }
}

/// A reading shown in feet and inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feet(Reading);

impl Feet {
    /// The mark alone, in words that [`crate::parse_length`] reads: `4' 6 1/2"`.
    pub fn mark_text(&self) -> String {
        let reading = &self.0;
        let marks = reading.marks.abs();
        match reading.rule.per_inch() {
            Some(per_inch) if marks >= 12.0 * f64::from(per_inch) => {
                let foot = 12.0 * f64::from(per_inch);
                let feet = (marks / foot).floor();
                let inches = marks - feet * foot;
                // The nought keeps a fraction from being taken for a part of a foot.
                let nought = if inches > 0.0 && inches < f64::from(per_inch) {
                    "0 "
                } else {
                    ""
                };
                let inches = mixed(inches, per_inch);
                format!("{}{feet:.0}' {nought}{inches}\"", reading.sign())
            }
            _ => reading.mark_text(),
        }
    }
}

impl fmt::Display for Feet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.mark_text(), self.0.remainder_text())
    }
}

/// So many marks as inches with a reduced fraction: `40 5/8`, `40`, `5/8`, `0`.
fn mixed(marks: f64, per_inch: u32) -> String {
    let under = f64::from(per_inch);
    let whole = (marks / under).floor();
    let (mut over, mut under) = (marks - whole * under, under);
    if over <= 0.0 {
        return format!("{whole:.0}");
    }
    while over % 2.0 <= 0.0 {
        over /= 2.0;
        under /= 2.0;
    }
    if whole > 0.0 {
        format!("{whole:.0} {over:.0}/{under:.0}")
    } else {
        format!("{over:.0}/{under:.0}")
    }
}

#[cfg(test)]
#[path = "rule_tests.rs"]
mod tests;
