//! One page as a content stream.

use crate::POINTS;
use cintre_geometry::{Path, Piece, Point, Vec2};
use cintre_work::{Ink, Page, PageStroke};
use cintre_write::{MM_PER_INCH, NotFinite, trimmed};

/// Decimals of a coordinate, in points: 0.000 04 mm.
const DECIMALS: usize = 4;
/// An arc is drawn as Bézier curves of at most this many degrees each: they stand within 1e-11 of its radius.
const MOST_DEGREES: f64 = 5.0;
/// Of what only stands round a drawing, letters for the most part: 0.004 mm.
const DECIMALS_ROUND_IT: usize = 2;
/// In small arcs, those of letters for the most part, within 4e-7 of it: less than the last decimal.
const MOST_DEGREES_SMALL: f64 = 30.0;
/// The largest radius of a small arc, mm.
const SMALL: f64 = 20.0;

/// Millimetres in points.
pub(crate) fn points(mm: f64) -> f64 {
    mm / MM_PER_INCH * POINTS
}

/// The strokes of a page, each group between the marks that say what it is.
pub(crate) fn content(page: &Page) -> Result<String, NotFinite> {
    // Round ends and joins, so that the end of every line stands where it is said to.
    let mut out = String::from("1 J 1 j\n");
    for stroke in page.strokes.iter().filter(|stroke| !stroke.lines.is_empty()) {
        draw(&mut out, stroke, page.stretch)?;
    }
    Ok(out)
}

fn draw(out: &mut String, stroke: &PageStroke, stretch: (f64, f64)) -> Result<(), NotFinite> {
    put(out, &["/", stroke.ink.name(), " BMC"]);
    put(out, &[if stroke.white { "1" } else { "0" }, " G"]);
    put(out, &[&length(stroke.weight)?, " w"]);
    let dashes = stroke
        .dashes
        .iter()
        .map(|&mm| length(mm))
        .collect::<Result<Vec<_>, _>>()?;
    put(out, &["[", &dashes.join(" "), "] 0 d"]);
    let decimals = match stroke.ink {
        Ink::Page => DECIMALS_ROUND_IT,
        Ink::Drawn(_) | Ink::Bar | Ink::Cross => DECIMALS,
    };
    for line in &stroke.lines {
        trace(out, line, stretch, decimals)?;
    }
    put(out, &["S\nEMC"]);
    Ok(())
}

fn trace(out: &mut String, line: &Path, stretch: (f64, f64), decimals: usize) -> Result<(), NotFinite> {
    let place = |p: Point| -> Result<String, NotFinite> {
        let x = trimmed(points(p.x * stretch.0), decimals)?;
        Ok(format!("{x} {}", trimmed(points(p.y * stretch.1), decimals)?))
    };
    put(out, &[&place(line.start())?, " m"]);
    for piece in line.pieces() {
        if piece.is_line() {
            put(out, &[&place(piece.end)?, " l"]);
        } else {
            for [a, b, end] in beziers(&piece) {
                put(out, &[&place(a)?, " ", &place(b)?, " ", &place(end)?, " c"]);
            }
        }
    }
    if line.vertices().len() > 2 && line.start() == line.end() {
        put(out, &["h"]);
    }
    Ok(())
}

/// An arc as Bézier curves: the two controls and the end of each.
fn beziers(piece: &Piece) -> Vec<[Point; 3]> {
    let sweep = piece.sweep();
    let radius = piece.circle().map_or(0.0, |circle| circle.radius);
    let most = if radius > SMALL {
        MOST_DEGREES
    } else {
        MOST_DEGREES_SMALL
    };
    let count = (sweep.to_degrees().abs() / most).ceil().max(1.0);
    // The control points of the best curve through both ends with their tangents.
    let reach = 4.0 / 3.0 * (sweep / count / 4.0).tan().abs() * radius;
    let direction = |fraction: f64| -> Vec2 { piece.tangent_at(fraction) };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "at most 72 to a turn"
    )]
    let steps = count as u32;
    (0..steps)
        .map(|i| {
            let (from, to) = (f64::from(i) / count, f64::from(i + 1) / count);
            let end = if i + 1 == steps {
                piece.end
            } else {
                piece.point_at(to)
            };
            [
                piece.point_at(from) + direction(from) * reach,
                end - direction(to) * reach,
                end,
            ]
        })
        .collect()
}

fn length(mm: f64) -> Result<String, NotFinite> {
    trimmed(points(mm), DECIMALS)
}

fn put(out: &mut String, words: &[&str]) {
    out.extend(words.iter().copied());
    out.push('\n');
}
