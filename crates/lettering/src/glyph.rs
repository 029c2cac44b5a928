//! Letters put together from their drawings.

use crate::face::{CEDILLA, DRAWN, FRACTIONS, MARKED};
use cintre_geometry::{Affine, Path, Point, Vertex};

/// The size of a fraction's numerals, of full ones: 8 on the grid.
const SMALL: f64 = 8.0 / 14.0;

/// The clear height between a letter and a mark over it.
const MARK_GAP: f64 = 2.0;

/// One letter on the grid: its foot on y = 0, its left on x = 0.
#[derive(Clone, Debug)]
pub(crate) struct Glyph {
    pub(crate) width: f64,
    pub(crate) strokes: Vec<Path>,
}

/// The drawing of a letter, if the face has it.
pub(crate) fn glyph(letter: char) -> Option<Glyph> {
    drawn(letter)
        .or_else(|| marked(letter))
        .or_else(|| fraction(letter))
}

fn drawn(letter: char) -> Option<Glyph> {
    let &(_, width, strokes) = DRAWN.iter().find(|g| g.0 == letter)?;
    Some(Glyph {
        width,
        strokes: parse(strokes),
    })
}

fn marked(letter: char) -> Option<Glyph> {
    let &(_, base, mark) = MARKED.iter().find(|g| g.0 == letter)?;
    let mut glyph = drawn(base)?;
    let foot = if mark == CEDILLA {
        0.0
    } else {
        let tops = glyph.strokes.iter().map(|s| s.bounds().y1);
        tops.fold(0.0, f64::max) + MARK_GAP
    };
    let marks = parse(mark);
    let reach = marks.iter().map(|m| m.bounds().x1).fold(0.0, f64::max);
    // A stem narrower than its mark is given the mark's width.
    let middle = reach.max(glyph.width / 2.0);
    let aside = Affine::translate((middle - glyph.width / 2.0, 0.0));
    let place = Affine::translate((middle, foot));
    glyph.strokes = glyph.strokes.iter().map(|s| s.transformed(aside)).collect();
    glyph.strokes.extend(marks.iter().map(|m| m.transformed(place)));
    glyph.width = 2.0 * middle;
    Some(glyph)
}

/// Small numerals either side of a slash that leans between them.
fn fraction(letter: char) -> Option<Glyph> {
    let &(_, above, below) = FRACTIONS.iter().find(|g| g.0 == letter)?;
    let (above, slash, below) = (drawn(above)?, drawn('/')?, drawn(below)?);
    let small = Affine::scale(SMALL);
    let bar = above.width * SMALL;
    let right = bar + 4.0;
    let parts = [
        (above.strokes, Affine::translate((0.0, 6.0)) * small),
        (slash.strokes, Affine::translate((bar - 1.0, 0.0))),
        (below.strokes, Affine::translate((right, 0.0)) * small),
    ];
    Some(Glyph {
        width: right + below.width * SMALL,
        strokes: parts
            .iter()
            .flat_map(|(strokes, by)| strokes.iter().map(|s| s.transformed(*by)))
            .collect(),
    })
}

fn parse(strokes: &str) -> Vec<Path> {
    strokes
        .split('|')
        .filter(|s| !s.trim().is_empty())
        .map(|s| stroke(s.trim()))
        .collect()
}

fn stroke(text: &str) -> Path {
    let mut vertices: Vec<Vertex> = Vec::new();
    for step in text.split_whitespace() {
        let coordinates = step.trim_start_matches(['<', '>', '{', '}', '[', ']']);
        let sign = &step[..step.len() - coordinates.len()];
        if let Some(last) = vertices.last_mut() {
            last.bulge = bulge(sign);
        }
        let (x, y) = coordinates.split_once(',').unwrap_or((coordinates, ""));
        let point = Point::new(number(x), number(y));
        vertices.push(Vertex { point, bulge: 0.0 });
    }
    Path::new(vertices)
}

/// tan(sweep / 4) of a bend sign; half the sweep is the angle between the chord and the end that runs along the grid.
fn bulge(sign: &str) -> f64 {
    let slope = |chord: f64| (chord.atan() / 2.0).tan();
    match sign {
        "<<" => 1.0,
        ">>" => -1.0,
        "<" => slope(1.0),
        ">" => -slope(1.0),
        "{" => slope(1.0 / 2.0),
        "}" => -slope(1.0 / 2.0),
        "[" => slope(1.0 / 3.0),
        "]" => -slope(1.0 / 3.0),
        _ => 0.0,
    }
}

/// A grid number of the face.
fn number(text: &str) -> f64 {
    text.parse::<i32>()
        .map(f64::from)
        .expect("the face is written in whole numbers, and a test reads all of it")
}
