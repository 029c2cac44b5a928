//! Fingers cut in the ends of segments, seen on the face.

use super::Input;
use super::band::{Cut, MEET};
use cintre_geometry::{Path, Piece, Vec2};
use std::f64::consts::FRAC_PI_8;

/// The least radius that fingers turn with, mm.
const FINGER: f64 = 5.0;

/// What that is over the radius of the bit at least, mm: a bit turns no corner of its own radius without stopping in it.
const OVER_BIT: f64 = 0.5;

/// A finger reaches so many radii to each side of the joint.
pub(super) const FINGER_REACH: f64 = 3.0;

/// The radius that fingers turn with.
pub(super) fn finger_radius(input: &Input) -> f64 {
    FINGER.max(input.least_corner + OVER_BIT)
}

/// The same cut with fingers: half circles and straight flanks, so that a bit follows both sides and they close without a gap.
pub(super) fn fingered(cut: Cut, input: &Input) -> Option<Cut> {
    let (from, to) = (cut.line.start(), cut.line.end());
    let whole = from.distance(to);
    let radius = finger_radius(input);
    let count = (whole / (2.0 * radius)).floor() - 2.0;
    if count < 1.0 {
        return None;
    }
    let margin = (whole - (2.0 * count + 2.0) * radius) / 2.0;
    let across = (to - from) / whole;
    let along = Vec2::new(across.y, -across.x);
    let at = |a: f64, b: f64| from + across * a + along * b;
    let flank = radius * (FINGER_REACH - 1.0);
    let quarter = FRAC_PI_8.tan();
    let arc = |start, end, bulge| Piece { start, end, bulge };
    let mut side = 1.0;
    let mut a = margin + radius;
    let mut pieces = vec![
        Piece::line(from, at(margin, 0.0)),
        arc(at(margin, 0.0), at(a, radius), -quarter),
    ];
    let mut reached = radius;
    let mut left = count;
    while left > 0.0 {
        pieces.push(Piece::line(at(a, reached), at(a, side * flank)));
        let next = a + 2.0 * radius;
        pieces.push(arc(at(a, side * flank), at(next, side * flank), side));
        (a, reached, side, left) = (next, side * flank, -side, left - 1.0);
    }
    pieces.push(Piece::line(at(a, reached), at(a, side * radius)));
    let end = at(a + radius, 0.0);
    pieces.push(arc(at(a, side * radius), end, side * quarter));
    pieces.push(Piece::line(end, to));
    pieces.retain(|piece| piece.start.distance(piece.end) > MEET);
    Some(Cut {
        line: Path::from_pieces(&pieces),
        ..cut
    })
}
