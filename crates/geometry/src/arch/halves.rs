//! Arches whose left half mirrors the right one.

use crate::{Path, Piece, Point};

/// The whole soffit: the mirrored `right` pieces, the `crown` piece if there is one, and `right`, which runs from the crown
/// down to the right springing.
pub(super) fn both_halves(crown: Option<Piece>, right: &[Piece]) -> Path {
    let left = right.iter().rev().map(mirrored);
    let pieces: Vec<_> = left.chain(crown).chain(right.iter().copied()).collect();
    Path::from_pieces(&pieces)
}

/// The piece on the other side of the centre line, run from left to right: mirrored and reversed, so the bulge stays.
fn mirrored(piece: &Piece) -> Piece {
    Piece {
        start: other_side(piece.end),
        end: other_side(piece.start),
        bulge: piece.bulge,
    }
}

/// The arc about a `centre` on the centre line from the mirror of `join` over the crown to `join`.
pub(super) fn crown_arc(centre: Point, join: Point) -> Piece {
    Piece::arc_between(centre, other_side(join), join, false)
}

const fn other_side(p: Point) -> Point {
    Point::new(-p.x, p.y)
}
