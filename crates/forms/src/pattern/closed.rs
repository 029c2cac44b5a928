//! Patterns of closed soffits: round and oval windows, whole, or the ring all round them.

use super::{Input, Piece, Shape, back, has_radius_left};
use crate::Error;
use crate::marks::from_edge;
use cintre_geometry::{LineError, Outline, Path, Point, Vec2, parallel_line};
use cintre_work::Mark;

/// The edge of a pattern of a closed soffit.
pub(super) fn shape(input: &Input) -> Result<Shape, Error> {
    let soffit = &input.soffit;
    match input.piece {
        Piece::Ring { depth } => {
            let back = back(soffit, depth)?;
            Ok(Shape {
                name: "ring",
                note: "it goes all round; its marks stand on the plumb and the level line through the centre",
                lower: upper_half(soffit),
                upper: upper_half(&back),
                outline: all_round(&back),
                openings: vec![all_round(soffit).reversed()],
                back_length: back.length(),
            })
        }
        Piece::Inside { gap: None } => Ok(disc(
            soffit,
            "inside",
            "its marks stand on the plumb and the level line through the centre",
        )),
        Piece::Inside { gap: Some(gap) } => {
            has_radius_left(input, gap)?;
            let line = parallel_line(soffit, gap)
                .map_err(|LineError::TooFar { given, limit }| Error::Gap { given, limit })?;
            Ok(disc(
                &line,
                "leaf",
                "it stands clear of the opening by its gap all round; its marks stand on the lines through the centre",
            ))
        }
    }
}

fn disc(line: &Path, name: &'static str, note: &'static str) -> Shape {
    let half = line.length() / 2.0;
    Shape {
        name,
        note,
        lower: line.part(half, line.length()).reversed(),
        upper: upper_half(line),
        outline: all_round(line),
        openings: Vec::new(),
        back_length: 0.0,
    }
}

/// The half of a closed line that is run first, over the top.
fn upper_half(line: &Path) -> Path {
    line.part(0.0, line.length() / 2.0)
}

fn all_round(line: &Path) -> Outline {
    Outline::closing(line).oriented(true)
}

/// Marks on the plumb and the level line through the centre, at every edge.
pub(super) fn centre_lines(shape: &Shape) -> Vec<Mark> {
    let ways = [(0.0, 1.0), (0.0, -1.0), (-1.0, 0.0), (1.0, 0.0)].map(Vec2::from);
    let edge = |outline: &Outline, way: Vec2| {
        let (middle, size) = (outline.bounds().center(), outline.bounds().size());
        middle + Vec2::new(way.x * size.width / 2.0, way.y * size.height / 2.0)
    };
    let middle = shape.outline.bounds().center();
    let marks = ways.into_iter().flat_map(|way| {
        let outer: Point = edge(&shape.outline, way);
        let inner = shape.openings.first().map(|opening| edge(opening, way));
        let room = outer.distance(inner.unwrap_or(middle));
        let from_inside = inner.map(|inner| from_edge(inner, way, room));
        std::iter::once(from_edge(outer, -way, room)).chain(from_inside)
    });
    marks.collect()
}
