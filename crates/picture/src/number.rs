//! Coordinates as text.

use cintre_write::trimmed;

/// Hundredths of a millimetre of paper, finer than any print or screen shows.
const DECIMALS: usize = 2;

/// A coordinate or a weight on the page.
pub(crate) fn number(value: f64) -> String {
    trimmed(value, DECIMALS).expect("what is drawn has finite coordinates")
}
