//! A drawing's lines as strokes, for a machine that draws them one after another.

use crate::{Drawing, Figure, Layer};
use cintre_geometry::{Outline, Piece, Point};

/// A chord shorter than this could round to nothing, mm.
const LEAST: f64 = 2e-4;

/// One line, drawn without a break.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// What it is.
    pub layer: Layer,
    /// Its pieces, end to end; at least one.
    pub pieces: Vec<Piece>,
}

impl Stroke {
    /// Where it begins.
    pub fn start(&self) -> Point {
        self.pieces[0].start
    }

    /// Where it ends.
    pub fn end(&self) -> Point {
        self.pieces[self.pieces.len() - 1].end
    }
}

impl Drawing {
    /// Its lines in the order of its layers and, within a layer, in its own; the edge of the stock is for sight only.
    pub fn strokes(&self) -> Vec<Stroke> {
        let shapes = self.finished(1.0, LEAST).into_iter();
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
}
