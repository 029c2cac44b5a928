//! The shop's own lines: what a controller wants besides the words that this reader knows.

use super::words::split;

/// Whether a line of a controller's own may be passed over by a reader that does not know its words: every word of it says how a controller drives or what it switches
/// beside the spindle, and none where the bit goes or what the numbers mean.
pub fn is_harmless(line: &str) -> bool {
    split(line).is_ok_and(|line| {
        !(line.words.is_empty() && line.comments.is_empty())
            && line.words.iter().all(|word| match word.letter {
                // Exact stop, path blending and the offset of the work.
                'G' => (54.0..=64.0).contains(&word.value),
                // Coolant and what a maker added; not the program's end, the spindle or a call of another program.
                'M' => {
                    word.value >= 7.0
                        && !(30.0..31.0).contains(&word.value)
                        && !(96.0..100.0).contains(&word.value)
                }
                'P' | 'Q' => true,
                _ => false,
            })
    })
}

#[cfg(test)]
mod tests {
    use super::is_harmless;

    #[test]
    fn only_what_moves_nothing_and_means_nothing_else_is_passed_over() {
        for line in ["G64 P0.01", "G54", "M8", "M110 P2", "(dust)"] {
            assert!(is_harmless(line), "{line}");
        }
        for line in [
            "G91", "G92 X0", "G28", "G20", "X5", "M98 P100", "M30", "M3 S9000", "", "G43 H1", "G1 F100",
        ] {
            assert!(!is_harmless(line), "{line}");
        }
    }
}
