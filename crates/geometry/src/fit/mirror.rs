//! Curves that mirror themselves, and arcs with their mirror image as one chain.

use super::search::Chain;
use crate::{Affine, Curve, Piece, Point, Vec2};

/// A curve mirrors itself if its image is nowhere farther off than this, mm: rounding leaves less.
const SAME: f64 = 1e-9;

/// Places at which that is looked at.
const PLACES: u32 = 32;

/// A whole ellipse mirrors itself, and so does its half; nothing but a circle goes on so.
const MOST: u32 = 2;

/// tan(π / 8), the bulge of a quarter turn, which doubled is half a turn; less what rounding may add.
const HALF_TURN_AFTER_DOUBLING: f64 = std::f64::consts::SQRT_2 - 1.0 - 1e-9;

/// How often the parameter can be halved so that the second half of the curve is the first, mirrored about the normal between
/// them: 0 if it does not mirror itself, 1 for an arch, 2 for a whole ellipse from the end of an axis.
pub(super) fn mirrorings(curve: &dyn Curve) -> u32 {
    let (from, mut to) = curve.domain();
    let mut count = 0;
    while count < MOST && mirrors_itself(curve, from, to) {
        count += 1;
        to = f64::midpoint(from, to);
    }
    count
}

fn mirrors_itself(curve: &dyn Curve, from: f64, to: f64) -> bool {
    let middle = f64::midpoint(from, to);
    let image = reflection(curve.point(middle), curve.tangent(middle));
    (0..PLACES).all(|i| {
        let step = (middle - from) * f64::from(i) / f64::from(PLACES);
        (image * curve.point(from + step)).distance(curve.point(to - step)) < SAME
    })
}

/// The chain and then its mirror image about the normal of the curve at the parameter `axis`. The chain must end on that line,
/// square to it.
///
/// The last arc and the first of its image lie on one circle, whose centre is on the line, and become one arc, unless that would
/// turn by half a circle or more.
pub(super) fn mirrored(chain: Chain, axis: f64, curve: &dyn Curve) -> Chain {
    let image = reflection(curve.point(axis), curve.tangent(axis));
    let Chain {
        mut pieces,
        mut parameters,
    } = chain;
    let mut other: Vec<Piece> = pieces
        .iter()
        .rev()
        .map(|piece| piece.transformed(image).reversed())
        .collect();
    let other_parameters: Vec<f64> = parameters.iter().rev().skip(1).map(|t| 2.0 * axis - t).collect();
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
        parameters.pop();
    }
    pieces.append(&mut other);
    parameters.extend(other_parameters);
    Chain { pieces, parameters }
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
