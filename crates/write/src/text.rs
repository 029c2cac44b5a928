//! Text in the few characters that every reader of a file takes.

/// The longest line of text put into a file, in characters: some small controllers take no more.
pub const LINE: usize = 70;

/// `text` in printable ASCII: signs of the trade are spelled out (`90°` is `90 deg`), accents go, what is left is `_`.
pub fn ascii(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            ' '..='~' => out.push(c),
            '°' => out.push_str(" deg"),
            '½' | '¼' | '¾' | '⅛' | '⅜' | '⅝' | '⅞' => {
                // 4½ is four and a half, not 41/2.
                if out.ends_with(|before: char| before.is_ascii_digit()) {
                    out.push(' ');
                }
                out.push_str(spelled(c));
            }
            c if c.is_whitespace() => out.push(' '),
            c if c.is_control() || is_combining(c) => {}
            c => out.push_str(spelled(c)),
        }
    }
    out
}

/// `text` as an RS-274 comment may hold it, without its brackets: letters, digits, space and `. , - _ / + =`.
/// The prime signs become FT and IN, so that lengths keep their unit; colons and brackets become dashes and semicolons
/// commas, so that sentences stay sentences; the rest becomes spaces.
pub fn comment(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in ascii(text).chars() {
        let after_digit = out.ends_with(|before: char| before.is_ascii_digit());
        match c {
            'A'..='Z' | 'a'..='z' | '0'..='9' | '.' | ',' | '-' | '_' | '/' | '+' | '=' => out.push(c),
            '\'' if after_digit => out.push_str(" ft"),
            '"' if after_digit => out.push_str(" in"),
            '\'' | '"' => {}
            ':' => out.push_str(" -"),
            '(' => out.push_str(" - "),
            ')' => {}
            ';' => out.push(','),
            _ => out.push(' '),
        }
    }
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// `text` broken between words into lines of at most `longest` characters; a longer word is broken where it must be.
pub fn wrapped(text: &str, longest: usize) -> Vec<String> {
    let longest = longest.max(1);
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut length = 0;
    for word in text.split_whitespace() {
        let letters: Vec<char> = word.chars().collect();
        for (i, bit) in letters.chunks(longest).enumerate() {
            let gap = usize::from(length > 0 && i == 0);
            if length + gap + bit.len() > longest || i > 0 {
                lines.push(std::mem::take(&mut line));
                length = 0;
            }
            if length > 0 {
                line.push(' ');
                length += 1;
            }
            line.extend(bit);
            length += bit.len();
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// Marks that stand over the letter before them.
const fn is_combining(c: char) -> bool {
    matches!(c, '\u{300}'..='\u{36f}')
}

/// A character beyond ASCII in ASCII.
const fn spelled(c: char) -> &'static str {
    match c {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '×' => "x",
        '′' | '‘' | '’' => "'",
        '″' | '“' | '”' => "\"",
        '±' => "+/-",
        '⌀' | 'Ø' => "O",
        'ø' => "o",
        '–' | '—' | '‐' | '‑' | '−' => "-",
        '…' => "...",
        '·' | '•' => ".",
        '²' => "2",
        '³' => "3",
        'µ' | 'μ' => "u",
        '≤' => "<=",
        '≥' => ">=",
        'À' | 'Á' | 'Â' | 'Ã' | 'Ä' | 'Å' => "A",
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' => "a",
        'Æ' => "AE",
        'æ' => "ae",
        'Ç' => "C",
        'ç' => "c",
        'È' | 'É' | 'Ê' | 'Ë' => "E",
        'è' | 'é' | 'ê' | 'ë' => "e",
        'Ì' | 'Í' | 'Î' | 'Ï' => "I",
        'ì' | 'í' | 'î' | 'ï' => "i",
        'Ñ' => "N",
        'ñ' => "n",
        'Ò' | 'Ó' | 'Ô' | 'Õ' | 'Ö' => "O",
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' => "o",
        'Œ' => "OE",
        'œ' => "oe",
        'ß' => "ss",
        'Ù' | 'Ú' | 'Û' | 'Ü' => "U",
        'ù' | 'ú' | 'û' | 'ü' => "u",
        'Ý' | 'Ÿ' => "Y",
        'ý' | 'ÿ' => "y",
        'Š' => "S",
        'š' => "s",
        'Ž' => "Z",
        'ž' => "z",
        'Ł' => "L",
        'ł' => "l",
        _ => "_",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn signs_of_the_trade_are_spelled_out() {
        assert_eq!(
            ascii("4½″ × 2′ at 30°, voûte – 日"),
            "4 1/2\" x 2' at 30 deg, voute - _"
        );
        assert_eq!(ascii("cafe\u{301}\n½"), "cafe 1/2");
    }

    #[test]
    fn a_comment_closes_on_nothing_but_its_own_bracket() {
        assert_eq!(
            comment("rib (half); 100% × 4' 6\": 3 off!"),
            "rib - half, 100 x 4 ft 6 in - 3 off"
        );
    }

    #[test]
    fn words_are_kept_whole_unless_longer_than_a_line() {
        assert_eq!(wrapped("hand on the stop", 8), ["hand on", "the stop"]);
        assert_eq!(wrapped("a bricklayer's", 5), ["a", "brick", "layer", "'s"]);
        assert!(wrapped("  ", 8).is_empty());
    }

    proptest! {
        #[test]
        fn the_alphabets_are_closed(text in "\\PC{0,80}") {
            prop_assert!(ascii(&text).bytes().all(|b| (b' '..=b'~').contains(&b)));
            let kept = |c: char| c.is_ascii_alphanumeric() || " .,-_/+=".contains(c);
            prop_assert!(comment(&text).chars().all(kept));
        }

        #[test]
        fn no_line_is_too_long_and_no_letter_is_lost(text in "[a-z ]{0,200}", longest in 1usize..90) {
            let lines = wrapped(&text, longest);
            prop_assert!(lines.iter().all(|l| !l.is_empty() && l.chars().count() <= longest));
            let letters = |t: &str| t.chars().filter(|c| *c != ' ').collect::<String>();
            prop_assert_eq!(letters(&lines.concat()), letters(&text));
        }
    }
}
