//! Text from users brought into the letters that the face has.

use crate::glyph::glyph;

/// Signs that are written otherwise here.
const OTHERWISE: &[(char, &str)] = &[
    ('“', "\""),
    ('”', "\""),
    ('„', "\""),
    ('«', "\""),
    ('»', "\""),
    ('‘', "'"),
    ('’', "'"),
    ('‚', ","),
    ('`', "'"),
    ('´', "'"),
    ('—', "–"),
    ('‐', "-"),
    ('‑', "-"),
    ('…', "..."),
    ('·', "."),
    ('•', "-"),
    ('{', "("),
    ('}', ")"),
    ('@', " at "),
    ('$', "USD"),
    ('€', "EUR"),
    ('£', "GBP"),
    ('^', "'"),
    ('μ', "µ"),
    ('∅', "⌀"),
    ('⁄', "/"),
    ('⅓', "1/3"),
    ('⅔', "2/3"),
    ('²', "2"),
    ('³', "3"),
    ('º', "°"),
    ('≤', "<="),
    ('≥', ">="),
    ('≈', "~"),
    ('→', "->"),
    ('æ', "ae"),
    ('Æ', "AE"),
    ('œ', "oe"),
    ('Œ', "OE"),
    ('ẞ', "SS"),
    ('ð', "d"),
    ('Ð', "D"),
    ('þ', "th"),
    ('Þ', "Th"),
    ('ł', "l"),
    ('Ł', "L"),
    ('đ', "d"),
    ('Đ', "D"),
];

/// Letters with marks that the face does not draw, by the plain letter that stands for them.
const PLAIN: &[(char, &str)] = &[
    ('A', "ÃĀĂĄ"),
    ('C', "ĆČĈĊ"),
    ('D', "Ď"),
    ('E', "ĒĘĚĖ"),
    ('G', "ĞĢĠĜ"),
    ('I', "ÍÌÏĪĮİ"),
    ('K', "Ķ"),
    ('L', "ĹĻĽ"),
    ('N', "ŃŇŅ"),
    ('O', "ÒÕŌŐ"),
    ('R', "ŔŘ"),
    ('S', "ŚŠŞȘ"),
    ('T', "ŤŢȚ"),
    ('U', "ÙŪŮŰŲ"),
    ('W', "Ŵ"),
    ('Y', "ÝŸŶ"),
    ('Z', "ŹŽŻ"),
    ('a', "āăą"),
    ('c', "ćčĉċ"),
    ('d', "ď"),
    ('e', "ēęěė"),
    ('g', "ğģġĝ"),
    ('i', "īį"),
    ('k', "ķ"),
    ('l', "ĺļľ"),
    ('n', "ńňņ"),
    ('o', "ōő"),
    ('r', "ŕř"),
    ('s', "śšşș"),
    ('t', "ťţț"),
    ('u', "ūůűų"),
    ('w', "ŵ"),
    ('y', "ýÿŷ"),
    ('z', "źžż"),
];

/// The text in letters of the face, so that [`strokes`](crate::strokes) always takes it.
///
/// Quotation marks, dashes and letters of other alphabets' making are written the nearest way; white space becomes a
/// space, control characters go, and a sign that cannot be written at all becomes `?`.
pub fn spell(text: &str) -> String {
    let mut spelled = String::with_capacity(text.len());
    for letter in text.chars() {
        if glyph(letter).is_some() {
            spelled.push(letter);
        } else if letter.is_whitespace() {
            spelled.push(' ');
        } else if let Some((_, other)) = OTHERWISE.iter().find(|o| o.0 == letter) {
            spelled.push_str(other);
        } else if let Some((plain, _)) = PLAIN.iter().find(|p| p.1.contains(letter)) {
            spelled.push(*plain);
        } else if !unseen(letter) {
            spelled.push('?');
        }
    }
    spelled
}

/// Whether a character takes no room: controls, joiners and marks that combine with the letter before.
fn unseen(letter: char) -> bool {
    let combining = ('\u{300}'..='\u{36f}').contains(&letter);
    let joining = ('\u{200b}'..='\u{200f}').contains(&letter) || letter == '\u{feff}';
    letter.is_control() || combining || joining
}
