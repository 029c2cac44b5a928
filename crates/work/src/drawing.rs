//! A finished drawing, ready for a writer.

use cintre_geometry::{Outline, Path, Point, Rect};

/// What a drawing writer takes: shapes by layer in the order to draw them, in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Its title.
    pub title: String,
    /// Plain sentences for whoever opens it: what it is, its unit, the cautions.
    pub notes: Vec<String>,
    /// The area shown, the stock's as a rule.
    pub area: Rect,
    /// What is drawn.
    pub shapes: Vec<Shape>,
}

/// One line of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// What the line is.
    pub layer: Layer,
    /// The line.
    pub figure: Figure,
}

/// A line's geometry.
#[derive(Clone, Debug, PartialEq)]
pub enum Figure {
    /// A closed chain.
    Closed(Outline),
    /// An open chain.
    Open(Path),
    /// A full circle.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its radius, mm.
        radius: f64,
    },
}

/// What a line of a drawing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// The edge of the stock, for sight only.
    Stock,
    /// Lettering and notes.
    Text,
    /// Lines scribed on a part.
    Mark,
    /// A round hole.
    Bore,
    /// The edge of a recess.
    Recess,
    /// An opening through a part.
    Opening,
    /// A part's outer edge.
    Outline,
}

impl Layer {
    /// Every layer, in the order in which a file holds them.
    pub const ALL: [Self; 7] = [
        Self::Stock,
        Self::Text,
        Self::Mark,
        Self::Bore,
        Self::Recess,
        Self::Opening,
        Self::Outline,
    ];

    /// Its name: an SVG group as it stands, a DXF layer in capitals.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stock => "stock",
            Self::Text => "text",
            Self::Mark => "mark",
            Self::Bore => "bore",
            Self::Recess => "recess",
            Self::Opening => "opening",
            Self::Outline => "outline",
        }
    }
}
