//! What is cut to try the beam and the sheet with: a comb of slots, a tongue that goes into them, and blocks that tell the kerf.

use super::kit::Kit;
use super::label::Piece;
use super::wood::polygon;
use cintre_geometry::{Outline, Point, Rect};

/// How much tighter each slot of the comb is than the one before, mm.
pub const STEP: f64 = 0.02;

/// The slots to each side of the one with the interference asked for.
pub const BESIDE: u32 = 3;

/// The blocks that are pushed up against one another, and the side of each, mm: together a length that any rule has.
pub const BLOCKS: usize = 10;
const BLOCK: f64 = 10.0;

/// The least distance from slot to slot, mm: each bears its figure.
const PITCH: f64 = 8.0;

/// The room for figures under the slots, mm.
const FIGURES: f64 = 5.0;

/// How far letters on it stand from an edge, mm.
const LETTERS: f64 = 2.0;

/// The interference of each slot of the comb, from the easiest on.
pub(crate) fn steps(interference: f64) -> Vec<f64> {
    (0..=2 * BESIDE)
        .map(|i| interference + (f64::from(i) - f64::from(BESIDE)) * STEP)
        .collect()
}

/// The pieces to try with.
pub(crate) fn pieces(kit: &Kit<'_>) -> Vec<Piece> {
    let deep = kit.fit.slot_depth(kit.spacer);
    let block = Rect::new(0.0, 0.0, BLOCK, BLOCK);
    let tongue = Rect::new(0.0, 0.0, 2.0 * PITCH, deep.max(kit.fit.bridge) + FIGURES);
    vec![
        comb(kit, deep),
        Piece::new("fit tongue", &["tongue", "t"], Outline::rectangle(tongue)),
        Piece {
            count: BLOCKS,
            ..Piece::new("kerf block", &["k"], Outline::rectangle(block))
        },
    ]
}

fn comb(kit: &Kit<'_>, deep: f64) -> Piece {
    let t = kit.input.thickness;
    let steps = steps(kit.input.interference);
    // The easiest slot is the widest.
    let pitch = (t - steps[0] + kit.fit.bridge).max(PITCH);
    let middles: Vec<f64> = (0..steps.len())
        .map(|i| (super::as_length(i) + 0.75) * pitch)
        .collect();
    let long = (super::as_length(steps.len()) + 0.5) * pitch;
    let floor = kit.fit.bridge + FIGURES;
    let top = floor + deep;
    let mut corners = vec![(0.0, 0.0), (long, 0.0), (long, top)];
    for (middle, interference) in middles.iter().zip(&steps).rev() {
        let half = (t - interference) / 2.0;
        corners.extend([
            (middle + half, top),
            (middle + half, floor),
            (middle - half, floor),
            (middle - half, top),
        ]);
    }
    corners.push((0.0, top));
    let figures = middles.iter().zip(steps);
    Piece {
        letters: figures
            .map(|(&x, step)| (format!("{step:.2}"), Point::new(x, LETTERS)))
            .collect(),
        ..Piece::new("fit comb", &[], polygon(&corners))
    }
}
