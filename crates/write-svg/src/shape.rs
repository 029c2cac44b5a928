//! One shape as an element.

use crate::DECIMALS;
use cintre_geometry::{Piece, Point, Rect};
use cintre_work::Figure;
use cintre_write::{NotFinite, trimmed};
use svg::node::element::{Circle, Element, Path};

/// An arc that stands off its chord by less than this is written as the chord: half of the last decimal, mm.
const FLAT: f64 = 0.5e-4;
/// How much longer than its diameter a chord can come out by rounding, halved, mm: a reader would enlarge the arc.
const ROUNDING: f64 = 1.25e-4;

/// A figure, turned over about `area`.
pub(crate) fn element(figure: &Figure, area: Rect) -> Result<Element, NotFinite> {
    let turned = |p: Point| Point::new(p.x, area.y0 + area.y1 - p.y);
    Ok(match figure {
        Figure::Circle { centre, radius } => {
            let centre = turned(*centre);
            Circle::new()
                .set("cx", number(centre.x)?)
                .set("cy", number(centre.y)?)
                .set("r", number(*radius)?)
                .into()
        }
        Figure::Open(path) => Path::new()
            .set("d", commands(path.pieces(), turned)?.join(" "))
            .into(),
        Figure::Closed(outline) => Path::new()
            .set("d", closed(commands(outline.pieces(), turned)?))
            .into(),
    })
}

/// Absolute commands with a space between all words.
fn commands(
    pieces: impl Iterator<Item = Piece>,
    turned: impl Fn(Point) -> Point,
) -> Result<Vec<String>, NotFinite> {
    let mut words = Vec::new();
    for piece in pieces {
        if words.is_empty() {
            words.push(format!("M {}", place(turned(piece.start))?));
        }
        let end = place(turned(piece.end))?;
        words.push(match piece.circle().filter(|_| height(&piece) >= FLAT) {
            None => format!("L {end}"),
            Some(circle) => {
                let least = piece.start.distance(piece.end) / 2.0 + ROUNDING;
                let radius = number(circle.radius.max(least))?;
                // Counter-clockwise with y up is against the sense in which SVG counts angles.
                let way = u8::from(piece.bulge < 0.0);
                format!("A {radius} {radius} 0 0 {way} {end}")
            }
        });
    }
    Ok(words)
}

/// The same, closed: Z draws a straight piece back to the start by itself.
fn closed(mut words: Vec<String>) -> String {
    if words.last().is_some_and(|last| last.starts_with('L')) {
        words.pop();
    }
    words.push("Z".to_owned());
    words.join(" ")
}

/// How far an arc stands off its chord: h = c |b| / 2.
fn height(piece: &Piece) -> f64 {
    piece.start.distance(piece.end) * piece.bulge.abs() / 2.0
}

fn place(p: Point) -> Result<String, NotFinite> {
    Ok(format!("{} {}", number(p.x)?, number(p.y)?))
}

fn number(value: f64) -> Result<String, NotFinite> {
    trimmed(value, DECIMALS)
}
