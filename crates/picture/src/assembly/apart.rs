//! One rib of a centre taken apart.

use super::{AssemblyDrawing, Row, bounds};
use cintre_geometry::{Affine, Point};
use cintre_work::Part;

/// How far the pieces of a rib are drawn from each other, of how far apart their middles are.
const EXPLODED: f64 = 0.16;
/// And how far at most up and down, where a rib is low and its tie lies near the band.
const LIFTED: f64 = 0.4;
/// The least clear space between two pieces, of the rib's width.
const CLEAR: f64 = 0.008;
/// How much farther they are lifted at a time where they still touch, and how often at most.
const FARTHER: f64 = 1.15;
const TIMES: usize = 12;

/// One rib taken apart, layer by layer, the pieces moved away from its middle.
pub(super) fn rows(drawing: &AssemblyDrawing<'_>) -> Vec<Row> {
    let mut rows = Vec::new();
    for (half, which) in drawing.halves.iter().zip(["", "lower half, "]) {
        let which = if drawing.halves.len() == 2 && which.is_empty() {
            "upper half, "
        } else {
            which
        };
        let whole = bounds(half.layers.iter().flatten());
        let middle = whole.center();
        let up = (LIFTED * (LIFTED * whole.width() / whole.height()).min(1.0)).max(EXPLODED);
        let headings = if half.layers[1].is_empty() {
            ["one rib", "", "on its faces"]
        } else {
            [
                "one rib, layer A, the near one",
                "layer B, behind it",
                "on its faces",
            ]
        };
        for (layer, heading) in half.layers.iter().zip(headings) {
            if !layer.is_empty() {
                let moved = taken_apart(layer, middle, whole.width() * CLEAR, up);
                rows.push((format!("{which}{heading}"), moved));
            }
        }
    }
    rows
}

/// Pieces moved away from the middle, and lifted until none touches another.
fn taken_apart(pieces: &[Part], middle: Point, clear: f64, up: f64) -> Vec<Part> {
    let moved = |up: f64| -> Vec<Part> {
        let one = |part: &Part| {
            let away = part.outline.bounds().center() - middle;
            part.transformed(Affine::translate((away.x * EXPLODED, away.y * up)))
        };
        pieces.iter().map(one).collect()
    };
    let tries = std::iter::successors(Some(up), |up| Some(up * FARTHER)).take(TIMES);
    let apart = |laid: &Vec<Part>| {
        let pairs = laid
            .iter()
            .enumerate()
            .flat_map(|(i, a)| laid[i + 1..].iter().map(move |b| (a, b)));
        pairs
            .into_iter()
            .all(|(a, b)| !near(a, b, clear) && !near(b, a, clear))
    };
    tries.map(moved).find(apart).unwrap_or_else(|| moved(up))
}

/// Whether the edge of one piece comes nearer than `clear` to another, or lies in it.
fn near(one: &Part, other: &Part, clear: f64) -> bool {
    let bounds = other.outline.bounds().inflate(clear, clear);
    let edge = one.outline.pieces();
    let mut places = edge.flat_map(|piece| [0.0, 0.25, 0.5, 0.75].map(|f| piece.point_at(f)));
    places.any(|p| bounds.contains(p) && other.outline.signed_distance(p) < clear)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::assembly_drawing;

    #[test]
    fn the_pieces_of_a_rib_are_drawn_apart() {
        let rows = rows(&assembly_drawing());
        let headings: Vec<_> = rows.iter().map(|(heading, _)| heading.as_str()).collect();
        assert_eq!(
            headings,
            [
                "one rib, layer A, the near one",
                "layer B, behind it",
                "on its faces"
            ]
        );
        let [left, right] = &rows[0].1[..] else {
            panic!("two pieces in the near layer")
        };
        assert!(right.outline.bounds().x0 - left.outline.bounds().x1 > 50.0);
    }

    #[test]
    fn pieces_that_would_touch_are_lifted_farther() {
        let layer = &assembly_drawing().halves[0].layers[0];
        let height = layer[0].outline.bounds().height();
        let low = layer[0].transformed(Affine::translate((0.0, -height - 1.0)));
        let pieces = [layer[0].clone(), low];
        let middle = bounds(&pieces).center();
        let laid = taken_apart(&pieces, middle, 5.0, 0.01);
        assert!(!near(&laid[0], &laid[1], 5.0) && !near(&laid[1], &laid[0], 5.0));
    }
}
