//! Angles: degrees, or a slope.

use crate::length::{LengthFault, quantity};
use crate::scan::{MINUS, Scan};
use crate::unit::trimmed;
use std::ops::Range;

/// Reads an angle, in radians: degrees (`15`, `15 deg`, `15°`, `22 1/2`) or a slope of rise to run (`1:8`).
pub fn parse_angle(text: &str) -> Result<f64, AngleError> {
    let mut scan = Scan::new(text);
    scan.space();
    let negative = scan.take(MINUS).is_some();
    let start = scan.at();
    let first = number(&mut scan)?;
    scan.space();
    let angle = if scan.take(&[':']).is_some() {
        scan.space();
        slope(first, number(&mut scan)?).ok_or_else(|| AngleFault::NoSlope.at(start..scan.at()))?
    } else {
        degree_mark(&mut scan)?;
        if first > FULL_TURN {
            return Err(AngleFault::OverAFullTurn { degrees: first }.at(start..scan.at()));
        }
        first.to_radians()
    };
    scan.space();
    let rest = scan.rest().trim_end();
    if !rest.is_empty() {
        let at = scan.at()..scan.at() + rest.len();
        return Err(AngleFault::Junk {
            rest: rest.to_owned(),
        }
        .at(at));
    }
    Ok(if negative { -angle } else { angle })
}

/// An angle in radians written in degrees: `15 deg`, to a millionth of a degree.
pub fn write_angle(radians: f64) -> String {
    format!("{} deg", trimmed(radians.to_degrees(), 6))
}

/// Degrees in a full turn, the most that an angle may be.
const FULL_TURN: f64 = 360.0;

/// Why a text is no angle, and where.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{fault}")]
pub struct AngleError {
    /// What is wrong.
    pub fault: AngleFault,
    /// The bytes of the text that are wrong.
    pub at: Range<usize>,
}

/// What is wrong with a text that should be an angle.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AngleFault {
    /// Its number is wrong.
    #[error("{0}")]
    Number(LengthFault),
    /// Nothing to nothing.
    #[error("a slope of nothing to nothing has no direction")]
    NoSlope,
    /// More than a full turn.
    #[error("{degrees} deg is over a full turn")]
    OverAFullTurn {
        /// The angle, degrees.
        degrees: f64,
    },
    /// Something after the angle.
    #[error("`{rest}` after the angle is not understood; write degrees (15 deg) or a slope (1:8)")]
    Junk {
        /// What there is.
        rest: String,
    },
}

impl AngleFault {
    const fn at(self, at: Range<usize>) -> AngleError {
        AngleError { fault: self, at }
    }
}

fn number(scan: &mut Scan<'_>) -> Result<f64, AngleError> {
    match quantity(scan) {
        Ok(quantity) => Ok(quantity.value),
        Err(error) => Err(AngleFault::Number(error.fault).at(error.at)),
    }
}

fn slope(rise: f64, run: f64) -> Option<f64> {
    (rise > 0.0 || run > 0.0).then(|| rise.atan2(run))
}

fn degree_mark(scan: &mut Scan<'_>) -> Result<(), AngleError> {
    if scan.take(&['°', 'º']).is_some() {
        return Ok(());
    }
    let start = scan.at();
    match scan.run(char::is_alphabetic).to_lowercase().as_str() {
        "" | "deg" | "degree" | "degrees" => Ok(()),
        word => Err(AngleFault::Junk {
            rest: word.to_owned(),
        }
        .at(start..scan.at())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn angles_are_read() {
        for (text, degrees) in [
            ("15", 15.0),
            ("15 deg", 15.0),
            ("15°", 15.0),
            ("22 1/2", 22.5),
            ("22½°", 22.5),
            ("-15", -15.0),
            ("1:1", 45.0),
            ("1 : 8", 7.125_016_348_901_798),
            ("0", 0.0),
        ] {
            let read = parse_angle(text).unwrap().to_degrees();
            assert!((read - degrees).abs() < 1e-12, "{text}: {read}");
        }
    }

    #[test]
    fn troubles_are_pointed_at() {
        let fault = |text| {
            let error = parse_angle(text).unwrap_err();
            (error.fault, error.at)
        };
        assert_eq!(fault("0:0"), (AngleFault::NoSlope, 0..3));
        assert_eq!(fault("400"), (AngleFault::OverAFullTurn { degrees: 400.0 }, 0..3));
        assert_eq!(fault("15 rad"), (AngleFault::Junk { rest: "rad".into() }, 3..6));
        assert_eq!(fault("12,5"), (AngleFault::Number(LengthFault::Comma), 0..4));
        assert_eq!(fault("").0, AngleFault::Number(LengthFault::Empty));
        assert_eq!(fault("15 deg 3"), (AngleFault::Junk { rest: "3".into() }, 7..8));
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_pointed_at(text in "[-0-9 .:/°deg,½x]{0,12}") {
            match parse_angle(&text) {
                Ok(angle) => prop_assert!(angle.is_finite()),
                Err(error) => prop_assert!(text.get(error.at).is_some()),
            }
        }

        #[test]
        fn written_then_read_it_is_the_same(degrees in -360.0_f64..360.0) {
            let read = parse_angle(&write_angle(degrees.to_radians())).unwrap().to_degrees();
            prop_assert!((read - degrees).abs() <= 0.6e-6);
        }
    }
}
