//! Arcs and their mirror image as one chain.

use crate::{Affine, Piece, Point, Vec2};

/// tan(π / 8), the bulge of a quarter turn, which doubled is half a turn; less what rounding may add.
const HALF_TURN_AFTER_DOUBLING: f64 = std::f64::consts::SQRT_2 - 1.0 - 1e-9;

/// The pieces and then their mirror image about the line through `middle` square to `across`, a direction of length 1. The
/// pieces must end on that line, square to it.
///
/// The last of them and the first of its image lie on one circle, whose centre is on the line, and become one arc, unless that
/// would turn by half a circle or more.
pub(super) fn mirrored(mut pieces: Vec<Piece>, middle: Point, across: Vec2) -> Vec<Piece> {
    let image = reflection(middle, across);
    let mut other: Vec<Piece> = pieces
        .iter()
        .rev()
        .map(|piece| piece.transformed(image).reversed())
        .collect();
    if let Some(last) = pieces.last_mut()
        && last.bulge.abs() < HALF_TURN_AFTER_DOUBLING
    {
        // Twice the sweep: tan 2x = 2 tan x / (1 - tan² x).
        let bulge = 2.0 * last.bulge / (1.0 - last.bulge * last.bulge);
        *last = Piece {
            start: last.start,
            end: image * last.start,
            bulge,
        };
        other.remove(0);
    }
    pieces.append(&mut other);
    pieces
}

/// x - 2 ((x - m) · d) d.
fn reflection(m: Point, d: Vec2) -> Affine {
    let turned = [
        1.0 - 2.0 * d.x * d.x,
        -2.0 * d.x * d.y,
        -2.0 * d.x * d.y,
        1.0 - 2.0 * d.y * d.y,
    ];
    let shift = d * (2.0 * m.to_vec2().dot(d));
    Affine::new([turned[0], turned[1], turned[2], turned[3], shift.x, shift.y])
}
