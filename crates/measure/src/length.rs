//! Lengths as they are written on site.
//!
//! One quantity with a unit, or feet and inches. A quantity is a number, a fraction, or a whole number and a fraction:
//! `1371.6`, `5/8`, `54 1/2`, `54-1/2`, `54½`. Two numbers that no unit parts are never guessed at.

use crate::range::LONGEST;
use crate::scan::{Digits, MINUS, SLASH, Scan};
use crate::unit::{INCH, Unit};
use std::ops::Range;

/// Reads a length, in mm; a bare number is in `bare`. It may be negative, for coordinates: see [`crate::positive`].
pub fn parse_length(text: &str, bare: Unit) -> Result<f64, LengthError> {
    let mut scan = Scan::new(text);
    scan.space();
    let negative = scan.take(MINUS).is_some();
    if !negative {
        scan.take(&['+']);
    }
    let start = scan.at();
    let first = quantity(&mut scan)?;
    let unit = unit(&mut scan)?;
    let mm = match unit {
        Some(Measure::Foot) => first.value * 12.0 * INCH + inches_after_feet(&mut scan)?,
        Some(unit) => first.value * unit.mm(),
        None if first.fraction && bare == Unit::Millimetre => {
            return Err(LengthFault::BareFraction.at(start..scan.at()));
        }
        None => first.value * bare.mm(),
    };
    end(&mut scan)?;
    if !mm.is_finite() {
        return Err(LengthFault::NotFinite.at(start..text.len()));
    }
    if mm > LONGEST {
        return Err(LengthFault::TooLong { mm }.at(start..text.len()));
    }
    Ok(if negative { -mm } else { mm })
}

/// Why a text is no length, and where.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{fault}")]
pub struct LengthError {
    /// What is wrong.
    pub fault: LengthFault,
    /// The bytes of the text that are wrong.
    pub at: Range<usize>,
}

/// What is wrong with a text that should be a length.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LengthFault {
    /// Nothing is written.
    #[error("a length is missing")]
    Empty,
    /// Something else stands where a number should.
    #[error("a number is missing where `{found}` stands")]
    NoNumber {
        /// What stands there.
        found: String,
    },
    /// A comma in a number.
    #[error(
        "a comma is not read in a number, since it parts thousands for some and decimals for others; write a point: 137.5"
    )]
    Comma,
    /// A fraction over nothing.
    #[error("a fraction cannot have 0 below the line")]
    ZeroDenominator,
    /// A fraction's number below the line is missing.
    #[error("the number below the line of the fraction is missing")]
    NoDenominator,
    /// A fraction with a decimal point in it, or a decimal followed by a fraction.
    #[error("a decimal and a fraction do not mix")]
    DecimalFraction,
    /// A fraction of one or more after a whole number.
    #[error("a fraction after a whole number must be less than one")]
    ImproperFraction,
    /// A fraction without a unit where bare numbers are millimetres.
    #[error(
        "a fraction without a unit, where bare numbers are millimetres; if inches are meant, write `in` after it"
    )]
    BareFraction,
    /// Two numbers with no unit between them.
    #[error("two numbers with no unit between them can be read in more than one way")]
    TwoNumbers,
    /// A word that is no unit.
    #[error("`{word}` is no unit of length that is known; write mm, cm, m, in or ft")]
    UnknownUnit {
        /// The word.
        word: String,
    },
    /// Twelve inches or more after feet.
    #[error("inches after feet must be less than 12, not {inches}")]
    TwelveInches {
        /// How many there are.
        inches: f64,
    },
    /// Something after the length.
    #[error("`{rest}` after the length is not understood")]
    Junk {
        /// What there is.
        rest: String,
    },
    /// Infinite, or not a number.
    #[error("this is not a finite number")]
    NotFinite,
    /// More than a kilometre.
    #[error("{mm:e} mm is over a kilometre")]
    TooLong {
        /// The length, mm.
        mm: f64,
    },
}

impl LengthFault {
    const fn at(self, at: Range<usize>) -> LengthError {
        LengthError { fault: self, at }
    }
}

/// A number with its fraction.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Quantity {
    pub(crate) value: f64,
    fraction: bool,
}

/// Reads a number, a fraction, or a whole number and a fraction.
pub(crate) fn quantity(scan: &mut Scan<'_>) -> Result<Quantity, LengthError> {
    if let Some(value) = scan.vulgar() {
        return Ok(Quantity {
            value,
            fraction: true,
        });
    }
    let Some(first) = scan.digits() else {
        return Err(no_number(*scan));
    };
    if scan.peek() == Some(',') {
        return Err(LengthFault::Comma.at(first.at.start..scan.word().end));
    }
    if !first.value.is_finite() {
        return Err(LengthFault::NotFinite.at(first.at));
    }
    if scan.take(SLASH).is_some() {
        let value = fraction(scan, &first)?;
        return Ok(Quantity {
            value,
            fraction: true,
        });
    }
    let part = fraction_after(scan, &first)?;
    Ok(Quantity {
        value: first.value + part.unwrap_or(0.0),
        fraction: part.is_some(),
    })
}

/// The fraction after a whole number, parted from it by a space or a hyphen, if one is there.
fn fraction_after(scan: &mut Scan<'_>, whole: &Digits) -> Result<Option<f64>, LengthError> {
    let mut look = *scan;
    look.space();
    look.take(&['-']);
    look.space();
    let start = look.at();
    let value = if let Some(value) = look.vulgar() {
        value
    } else {
        let Some(over) = look.digits() else {
            return Ok(None);
        };
        if look.take(SLASH).is_none() {
            return Err(LengthFault::TwoNumbers.at(whole.at.start..over.at.end));
        }
        fraction(&mut look, &over)?
    };
    *scan = look;
    if !whole.whole {
        return Err(LengthFault::DecimalFraction.at(whole.at.start..look.at()));
    }
    if value >= 1.0 {
        return Err(LengthFault::ImproperFraction.at(start..look.at()));
    }
    Ok(Some(value))
}

/// The value of the fraction whose upper number and line have been read.
fn fraction(scan: &mut Scan<'_>, over: &Digits) -> Result<f64, LengthError> {
    let Some(under) = scan.digits() else {
        return Err(LengthFault::NoDenominator.at(over.at.start..scan.at()));
    };
    let at = over.at.start..under.at.end;
    if !(over.whole && under.whole) {
        return Err(LengthFault::DecimalFraction.at(at));
    }
    if under.value <= 0.0 {
        return Err(LengthFault::ZeroDenominator.at(at));
    }
    Ok(over.value / under.value)
}

fn no_number(scan: Scan<'_>) -> LengthError {
    let word = scan.word();
    let found = scan.rest()[..word.len()].to_owned();
    let bare = found.trim_start_matches('.').to_lowercase();
    let fault = match bare.as_str() {
        "inf" | "infinity" | "nan" => LengthFault::NotFinite,
        "" if found.is_empty() => LengthFault::Empty,
        _ => LengthFault::NoNumber { found },
    };
    fault.at(word)
}

/// A unit of length that is written out.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Measure {
    Millimetre,
    Centimetre,
    Metre,
    Inch,
    Foot,
}

impl Measure {
    const fn mm(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Centimetre => 10.0,
            Self::Metre => 1000.0,
            Self::Inch => INCH,
            Self::Foot => 12.0 * INCH,
        }
    }
}

/// Single strokes, for feet; two of them are one for inches.
const PRIME: &[char] = &['\'', '′', '’'];
/// Double strokes, for inches.
const DOUBLE_PRIME: &[char] = &['"', '″', '”'];

/// The unit that comes next, if one does.
fn unit(scan: &mut Scan<'_>) -> Result<Option<Measure>, LengthError> {
    scan.space();
    if scan.take(DOUBLE_PRIME).is_some() {
        return Ok(Some(Measure::Inch));
    }
    if scan.take(PRIME).is_some() {
        let inch = scan.take(PRIME).is_some();
        return Ok(Some(if inch { Measure::Inch } else { Measure::Foot }));
    }
    let start = scan.at();
    let word = scan.run(char::is_alphabetic);
    let unit = match word.to_lowercase().as_str() {
        "" => return Ok(None),
        "mm" => Measure::Millimetre,
        "cm" => Measure::Centimetre,
        "m" => Measure::Metre,
        "in" | "inch" | "inches" => Measure::Inch,
        "ft" | "foot" | "feet" => Measure::Foot,
        _ => {
            let word = word.to_owned();
            return Err(LengthFault::UnknownUnit { word }.at(start..scan.at()));
        }
    };
    if matches!(unit, Measure::Inch | Measure::Foot) {
        scan.take(&['.']);
    }
    Ok(Some(unit))
}

/// The inches after feet, in mm, 0 if there are none. Their mark may be left out.
fn inches_after_feet(scan: &mut Scan<'_>) -> Result<f64, LengthError> {
    scan.space();
    let joined = scan.take(&['-']).is_some();
    scan.space();
    if scan.rest().is_empty() && !joined {
        return Ok(0.0);
    }
    let start = scan.at();
    let inches = quantity(scan)?;
    match unit(scan)? {
        None | Some(Measure::Inch) => {}
        Some(_) => {
            let rest = scan.since(start).to_owned();
            return Err(LengthFault::Junk { rest }.at(start..scan.at()));
        }
    }
    if inches.value >= 12.0 {
        let inches = inches.value;
        return Err(LengthFault::TwelveInches { inches }.at(start..scan.at()));
    }
    Ok(inches.value * INCH)
}

fn end(scan: &mut Scan<'_>) -> Result<(), LengthError> {
    scan.space();
    let rest = scan.rest().trim_end();
    if rest.is_empty() {
        return Ok(());
    }
    let at = scan.at()..scan.at() + rest.len();
    let digit = rest.starts_with(|c: char| c.is_ascii_digit());
    Err(match digit {
        true => LengthFault::TwoNumbers,
        false => LengthFault::Junk {
            rest: rest.to_owned(),
        },
    }
    .at(at))
}

#[cfg(test)]
#[path = "length_tests.rs"]
mod tests;
