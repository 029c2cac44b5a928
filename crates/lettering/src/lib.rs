//! The stroke face for marks, part names and drawings.
//!
//! Single strokes, drawn for this project on a grid of whole numbers: capitals are 14 high, small letters 10, tails reach
//! down to -5. Bows are true arcs. Every file and picture takes its letters from here, so that they look the same on
//! paper, in a program and on the wood, and no font is needed anywhere.

pub use spell::spell;

use cintre_geometry::{Affine, Path, Point};
use glyph::glyph;
use thiserror::Error;

mod face;
mod glyph;
mod spell;

/// The height of the capitals on the grid.
const CAPITAL: f64 = 14.0;

/// The clear width between two letters on the grid.
const GAP: f64 = 4.0;

/// Where the given point lies on a line of letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// At its left end.
    Start,
    /// At its middle.
    Middle,
    /// At its right end.
    End,
}

/// A letter that the face does not have.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error("the lettering has no '{letter}' (U+{code:04X}), letter {place} of the text", code = u32::from(*letter))]
pub struct UnknownLetter {
    /// The letter.
    pub letter: char,
    /// Which one of the text it is, counted from 1.
    pub place: usize,
}

/// The strokes of one line of text whose capitals are `height` mm high; `at` lies on its foot, at `anchor`.
pub fn strokes(text: &str, height: f64, at: Point, anchor: Anchor) -> Result<Vec<Path>, UnknownLetter> {
    let left = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => width(text, height)? / 2.0,
        Anchor::End => width(text, height)?,
    };
    let scale = height / CAPITAL;
    let mut across = -left / scale;
    let mut paths = Vec::new();
    for glyph in glyphs(text) {
        let glyph = glyph?;
        let place = Affine::translate(at.to_vec2()) * Affine::scale(scale) * Affine::translate((across, 0.0));
        paths.extend(glyph.strokes.iter().map(|stroke| stroke.transformed(place)));
        across += glyph.width + GAP;
    }
    Ok(paths)
}

/// The width of a line of text whose capitals are `height` mm high, from the first letter's left to the last one's right.
pub fn width(text: &str, height: f64) -> Result<f64, UnknownLetter> {
    let mut total = 0.0;
    for (i, glyph) in glyphs(text).enumerate() {
        total += glyph?.width + if i > 0 { GAP } else { 0.0 };
    }
    Ok(total * height / CAPITAL)
}

/// A text broken at its spaces into lines at most `widest` mm wide with capitals `height` mm high, each spelled in letters of
/// the face. A word that is wider alone stands alone.
pub fn wrapped(text: &str, height: f64, widest: f64) -> Vec<String> {
    let fits = |line: &str| width(line, height).is_ok_and(|wide| wide <= widest);
    let mut lines: Vec<String> = Vec::new();
    for word in spell(text).split_whitespace() {
        match lines.last_mut() {
            Some(line) if fits(&format!("{line} {word}")) => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

fn glyphs(text: &str) -> impl Iterator<Item = Result<glyph::Glyph, UnknownLetter>> + '_ {
    text.chars()
        .enumerate()
        .map(|(i, letter)| glyph(letter).ok_or(UnknownLetter { letter, place: i + 1 }))
}

#[cfg(test)]
mod tests;
