//! HP-GL: finished drawings in, bytes out.
//!
//! Only what every plotter takes: IN, SP, PU and PD, absolute whole numbers, one line of the file to a command. Arcs go out
//! as chords, since plotters draw arcs of their own by chords of their own choice. HP-GL has no comments, and its label
//! command would draw: what must be said stands beside the file.

use cintre_geometry::{Piece, Point, Vec2};
use cintre_work::{Drawing, Pen};
use cintre_write::{NotFinite, fixed};

/// How far a chord may stand off its arc, mm: what a plotter cannot show.
const CHORD_ERROR: f64 = 0.005;
/// Coordinate pairs in one command: small plotters hold no more.
const PAIRS: usize = 80;

/// Why a drawing cannot be written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Error {
    /// A coordinate is not a number.
    #[error("a coordinate of the drawing: {0}")]
    NotFinite(#[from] NotFinite),
    /// A plotter without steps.
    #[error("{0} plotter units to the millimetre")]
    Steps(f64),
    /// The drawing goes farther than the plotter's numbers.
    #[error(
        "a line goes to {reached:.0} plotter units from zero, and the plotter's numbers end at {farthest}"
    )]
    TooFar {
        /// How far, in plotter units.
        reached: f64,
        /// The most that the plotter takes.
        farthest: u32,
    },
}

/// A drawing's lines in their order, each on its own: the pen comes down at its start and goes up at its end.
pub fn write(drawing: &Drawing, pen: &Pen) -> Result<Vec<u8>, Error> {
    if !(pen.steps_per_mm.is_finite() && pen.steps_per_mm > 0.0) {
        return Err(Error::Steps(pen.steps_per_mm));
    }
    let mut lines = vec!["IN;".to_owned(), "SP1;".to_owned()];
    for stroke in drawing.strokes() {
        let places = places(&stroke.pieces, pen)?;
        let Some((first, rest)) = places.split_first() else {
            continue;
        };
        lines.push(format!("PU{first};"));
        for some in rest.chunks(PAIRS) {
            lines.push(format!("PD{};", some.join(",")));
        }
    }
    lines.push("PU;".to_owned());
    lines.push("SP0;".to_owned());
    Ok((lines.join("\n") + "\n").into_bytes())
}

/// The places along a stroke, `x,y` in plotter units, none twice in a row.
fn places(pieces: &[Piece], pen: &Pen) -> Result<Vec<String>, Error> {
    let mut places = Vec::new();
    for point in pieces
        .first()
        .map(|p| p.start)
        .into_iter()
        .chain(pieces.iter().flat_map(chords))
    {
        let place = place(point, pen)?;
        if places.last() != Some(&place) {
            places.push(place);
        }
    }
    // A stroke within one unit is still a dot.
    if places.len() == 1 {
        places.push(places[0].clone());
    }
    Ok(places)
}

/// Each place is rounded by itself, so that rounding does not add up.
fn place(point: Point, pen: &Pen) -> Result<String, Error> {
    let at = (point - Vec2::from(pen.dialect.zero)).to_vec2() * pen.steps_per_mm;
    for reached in [at.x, at.y] {
        if let Some(farthest) = pen.farthest
            && reached.abs().round() > f64::from(farthest)
        {
            return Err(Error::TooFar {
                reached: reached.abs(),
                farthest,
            });
        }
    }
    Ok(format!("{},{}", fixed(at.x, 0)?, fixed(at.y, 0)?))
}

/// The ends of the chords of a piece, without its start: half a chord's angle is acos(1 - e / r).
fn chords(piece: &Piece) -> Vec<Point> {
    let half = piece
        .circle()
        .map(|c| 2.0 * (CHORD_ERROR / (2.0 * c.radius)).sqrt().min(0.5).asin());
    let count = half.map_or(1.0, |half| (piece.sweep().abs() / (2.0 * half)).ceil().max(1.0));
    let mut ends = Vec::new();
    let mut i = 1.0;
    while i < count {
        ends.push(piece.point_at(i / count));
        i += 1.0;
    }
    ends.push(piece.end);
    ends
}

#[cfg(test)]
mod tests;
