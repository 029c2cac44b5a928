//! Coordinates as text.

use cintre_write::trimmed;

/// Hundredths of a millimetre of paper, finer than any print or screen shows.
const DECIMALS: usize = 2;

/// A coordinate or a weight on the page.
pub(crate) fn number(value: f64) -> String {
    measured(value, DECIMALS)
}

/// A figure to so many decimals, without zeros at the end.
pub(crate) fn measured(value: f64, decimals: usize) -> String {
    trimmed(value, decimals).expect("what is drawn has finite coordinates")
}
