//! Numbers as files hold them: plain decimals with a point.

/// One inch, mm.
pub const MM_PER_INCH: f64 = 25.4;

/// A value that no file can hold.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("{0} is not a finite number")]
pub struct NotFinite(pub f64);

/// `value` rounded to `decimals` places, all of them written: `1.500`. Never an exponent, never `-0`.
pub fn fixed(value: f64, decimals: usize) -> Result<String, NotFinite> {
    if !value.is_finite() {
        return Err(NotFinite(value));
    }
    let written = format!("{value:.decimals$}");
    let is_zero = written.bytes().all(|b| matches!(b, b'-' | b'0' | b'.'));
    Ok(if is_zero {
        written.trim_start_matches('-').to_owned()
    } else {
        written
    })
}

/// `value` rounded to `decimals` places, without the zeros at the end: `1.5`, `100`.
pub fn trimmed(value: f64, decimals: usize) -> Result<String, NotFinite> {
    let written = fixed(value, decimals)?;
    Ok(if decimals == 0 {
        written
    } else {
        written.trim_end_matches('0').trim_end_matches('.').to_owned()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn known_values() {
        let cases = [
            (1.5, 3, "1.500", "1.5"),
            (-0.0004, 3, "0.000", "0"),
            (-0.0006, 3, "-0.001", "-0.001"),
            (100.0, 0, "100", "100"),
            (100.0, 2, "100.00", "100"),
            (1e20, 1, "100000000000000000000.0", "100000000000000000000"),
            (4_924.038_765, 4, "4924.0388", "4924.0388"),
        ];
        for (value, decimals, all, short) in cases {
            assert_eq!(fixed(value, decimals).unwrap(), all);
            assert_eq!(trimmed(value, decimals).unwrap(), short);
        }
    }

    #[test]
    fn what_is_not_finite_is_refused() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(fixed(value, 3).is_err());
            assert!(trimmed(value, 3).is_err());
        }
    }

    proptest! {
        #[test]
        fn reads_back_within_half_a_unit(value in -1e6..1e6f64, decimals in 0usize..10) {
            let half = 0.5 * 10f64.powi(-i32::try_from(decimals).unwrap());
            for written in [fixed(value, decimals).unwrap(), trimmed(value, decimals).unwrap()] {
                let back: f64 = written.parse().unwrap();
                prop_assert!((back - value).abs() <= half + 2.0 * f64::EPSILON * value.abs());
                prop_assert!(written.bytes().all(|b| b.is_ascii_digit() || b == b'.' || b == b'-'));
                prop_assert!(!(back == 0.0 && written.starts_with('-')));
            }
        }
    }
}
