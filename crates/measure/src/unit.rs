//! The two units of the trade, and plain writing in either.

use std::fmt;

/// Millimetres in an inch, exactly.
pub const INCH: f64 = 25.4;

/// What a bare number means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unit {
    /// Millimetres.
    Millimetre,
    /// Inches of 25.4 mm.
    Inch,
}

impl Unit {
    /// Its length in mm.
    pub const fn mm(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Inch => INCH,
        }
    }

    /// How it is written: `mm` or `in`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Inch => "in",
        }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A length in mm written plainly in `unit`: `1371.6 mm`, `54.5 in`, to 0.0001 mm or 0.00001 in, no zeros at the end.
pub fn write_length(mm: f64, unit: Unit) -> String {
    let decimals = match unit {
        Unit::Millimetre => 4,
        Unit::Inch => 5,
    };
    format!("{} {unit}", trimmed(mm / unit.mm(), decimals))
}

/// A number to so many decimals, with no zeros at the end and no negative zero.
pub(crate) fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" { "0" } else { text }.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_written_plainly() {
        assert_eq!(write_length(1371.6, Unit::Millimetre), "1371.6 mm");
        assert_eq!(write_length(1371.6, Unit::Inch), "54 in");
        assert_eq!(write_length(1200.0, Unit::Millimetre), "1200 mm");
        assert_eq!(write_length(-0.000_01, Unit::Millimetre), "0 mm");
        assert_eq!(write_length(1.0 / 3.0, Unit::Inch), "0.01312 in");
    }
}
