//! Coordinates as text.

/// Hundredths of a millimetre of paper, finer than any print or screen shows.
pub(crate) fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::number;

    #[test]
    fn numbers_are_short_and_never_minus_nothing() {
        let written: Vec<_> = [0.0, -0.001, 12.5, -3.149, 100.0].map(number).into();
        assert_eq!(written, ["0", "0", "12.5", "-3.15", "100"]);
    }
}
