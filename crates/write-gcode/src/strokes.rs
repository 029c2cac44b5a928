//! A drawing's lines as strokes, one after another.

use cintre_geometry::{Outline, Piece, Point};
use cintre_work::{Drawing, Figure, Layer};

/// A chord shorter than this could round to nothing, mm.
const LEAST: f64 = 2e-4;

/// One line, drawn without a break.
#[derive(Clone, Debug)]
pub(crate) struct Stroke {
    /// What it is.
    pub(crate) layer: Layer,
    /// Its pieces, end to end; at least one.
    pub(crate) pieces: Vec<Piece>,
}

impl Stroke {
    pub(crate) fn start(&self) -> Point {
        self.pieces[0].start
    }
}

/// The strokes of a drawing in its order; the edge of the stock is for sight only.
pub(crate) fn strokes(drawing: &Drawing) -> Vec<Stroke> {
    let shapes = drawing.finished(1.0, LEAST).into_iter();
    shapes
        .filter(|shape| shape.layer != Layer::Stock)
        .map(|shape| Stroke {
            layer: shape.layer,
            pieces: match &shape.figure {
                Figure::Closed(outline) => outline.pieces().collect(),
                Figure::Open(path) => path.pieces().collect(),
                Figure::Circle { centre, radius } => Outline::circle(*centre, *radius).pieces().collect(),
            },
        })
        .filter(|stroke| !stroke.pieces.is_empty())
        .collect()
}
