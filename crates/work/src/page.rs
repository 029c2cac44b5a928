//! Pages of paper, ready for a writer.

use crate::Layer;
use cintre_geometry::Path;

/// What a page writer takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// Its title.
    pub title: String,
    /// Plain sentences for whoever opens it: what it is, the cautions.
    pub notes: Vec<String>,
    /// Its pages, in order.
    pub pages: Vec<Page>,
}

/// One page: mm of print, x to the right, y up, from its lower left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Its width and height as they come out of the printer.
    pub size: (f64, f64),
    /// What all on it is multiplied by, across and up, on its way into the file: over 1 for a printer that prints small.
    pub stretch: (f64, f64),
    /// What is drawn on it, from the undermost.
    pub strokes: Vec<PageStroke>,
}

/// Lines of one kind, drawn with one pen.
#[derive(Clone, Debug, PartialEq)]
pub struct PageStroke {
    /// What they are.
    pub ink: Ink,
    /// The lines; one that ends where it begins is closed.
    pub lines: Vec<Path>,
    /// How wide they are drawn, mm.
    pub weight: f64,
    /// Dash and gap lengths, mm; empty for a full line.
    pub dashes: Vec<f64>,
    /// Whether they are drawn in white, to clear what lies under a letter, and not in black.
    pub white: bool,
}

/// What a line on a page is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ink {
    /// A line of the drawing.
    Drawn(Layer),
    /// A bar of known length.
    Bar,
    /// A cross where pages meet.
    Cross,
    /// Frames, letters, and whatever else belongs to the page alone.
    Page,
}

impl Ink {
    /// Its name: a drawing's layer, `bar`, `cross` or `page`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Drawn(layer) => layer.name(),
            Self::Bar => "bar",
            Self::Cross => "cross",
            Self::Page => "page",
        }
    }
}
