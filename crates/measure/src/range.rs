//! What a length may be where a size is meant.

use crate::unit::trimmed;

/// The longest length that is believed, mm: a kilometre.
pub const LONGEST: f64 = 1.0e6;

/// The shortest length that anyone means, mm: a thousandth.
pub const SHORTEST: f64 = 1.0e-3;

/// A length that cannot be the size of anything.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum RangeError {
    /// Below zero, where zero would do.
    #[error("must be nothing or more, and is {} mm", trimmed(*mm, 4))]
    Negative {
        /// The length, mm.
        mm: f64,
    },
    /// Below zero, where zero would not do either.
    #[error("must be more than nothing, and is {} mm", trimmed(*mm, 4))]
    NotPositive {
        /// The length, mm.
        mm: f64,
    },
    /// Nothing at all.
    #[error("must be more than nothing, and is 0")]
    Zero,
    /// Above zero, but less than anyone means.
    #[error("is {mm:e} mm, less than a thousandth of a millimetre")]
    TooSmall {
        /// The length, mm.
        mm: f64,
    },
    /// More than a kilometre.
    #[error("is {mm:e} mm, over a kilometre")]
    TooLong {
        /// The length, mm.
        mm: f64,
    },
    /// Infinite, or not a number.
    #[error("is not a number")]
    NotFinite,
}

/// `mm` if it can be the size of something: from a thousandth of a millimetre to a kilometre.
pub fn positive(mm: f64) -> Result<f64, RangeError> {
    match not_negative(mm) {
        Ok(mm) if mm <= 0.0 => Err(RangeError::Zero),
        Err(RangeError::Negative { mm }) => Err(RangeError::NotPositive { mm }),
        read => read,
    }
}

/// `mm` if it is zero or the size of something.
pub fn not_negative(mm: f64) -> Result<f64, RangeError> {
    match mm {
        mm if !mm.is_finite() => Err(RangeError::NotFinite),
        mm if mm < 0.0 => Err(RangeError::Negative { mm }),
        mm if mm > 0.0 && mm < SHORTEST => Err(RangeError::TooSmall { mm }),
        mm if mm > LONGEST => Err(RangeError::TooLong { mm }),
        mm => Ok(mm),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_have_limits() {
        assert_eq!(positive(1220.0), Ok(1220.0));
        assert_eq!(positive(0.0), Err(RangeError::Zero));
        assert_eq!(positive(-3.0), Err(RangeError::NotPositive { mm: -3.0 }));
        assert_eq!(positive(1e-4), Err(RangeError::TooSmall { mm: 1e-4 }));
        assert_eq!(positive(2e6), Err(RangeError::TooLong { mm: 2e6 }));
        assert_eq!(positive(f64::NAN), Err(RangeError::NotFinite));
        assert_eq!(not_negative(0.0), Ok(0.0));
        assert_eq!(not_negative(-0.1), Err(RangeError::Negative { mm: -0.1 }));
    }
}
