//! SVG for cutting: finished drawings in, bytes out.
//!
//! One user unit is one millimetre, and `width` and `height` say so. Every number is baked in: no transform, style or
//! reference, so that the simplest reader finds what was drawn. SVG counts y downwards; the numbers are turned over about
//! the drawing's area, and the way of every arc with them. A group is named by what its lines are.

pub use palette::Palette;

use cintre_work::{Drawing, Layer, Shape};
use cintre_write::{NotFinite, trimmed};
use svg::node::element::{Description, Element, Group, Title};
use svg::{Document, Node};

mod palette;
mod shape;

/// Decimals of a coordinate, mm.
pub(crate) const DECIMALS: usize = 4;
/// A chord shorter than this could round to nothing, mm.
const LEAST: f64 = 2e-4;
/// Width of every line, mm: thin enough that no cutter takes it for an area.
const STROKE: f64 = 0.1;

/// Why a drawing cannot be written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Error {
    /// A coordinate is not a number.
    #[error("a coordinate of the drawing: {0}")]
    NotFinite(#[from] NotFinite),
    /// The area shown is empty.
    #[error("the drawing's area is {width} mm wide and {height} mm high, which shows nothing")]
    NoArea {
        /// Its width, mm.
        width: f64,
        /// Its height, mm.
        height: f64,
    },
}

/// A drawing as an SVG file: title and notes as `<title>` and `<desc>`, then a group for each layer in use.
///
/// What a layer's lines are drawn in comes from `palette`.
pub fn write(drawing: &Drawing, palette: &Palette) -> Result<Vec<u8>, Error> {
    let area = drawing.area;
    let (width, height) = (area.width(), area.height());
    let (w, h) = (trimmed(width, DECIMALS)?, trimmed(height, DECIMALS)?);
    if width <= 0.0 || height <= 0.0 {
        return Err(Error::NoArea { width, height });
    }
    let corner = (trimmed(area.x0, DECIMALS)?, trimmed(area.y0, DECIMALS)?);
    let mut document = Document::new()
        .set("width", format!("{w}mm"))
        .set("height", format!("{h}mm"))
        .set("viewBox", format!("{} {} {w} {h}", corner.0, corner.1))
        .add(Title::new(plain(&drawing.title)));
    if !drawing.notes.is_empty() {
        document.append(Description::new().add(svg::node::Text::new(plain(&drawing.notes.join("\n")))));
    }
    let shapes = drawing.finished(1.0, LEAST);
    for layer in Layer::ALL {
        let mut elements = shapes
            .iter()
            .filter(|shape| shape.layer == layer)
            .map(|shape: &Shape| shape::element(&shape.figure, area))
            .collect::<Result<Vec<Element>, NotFinite>>()?
            .into_iter()
            .peekable();
        if elements.peek().is_some() {
            document.append(group(layer, palette, elements)?);
        }
    }
    Ok(format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{document}\n").into_bytes())
}

fn group(
    layer: Layer,
    palette: &Palette,
    elements: impl Iterator<Item = Element>,
) -> Result<Group, NotFinite> {
    let group = Group::new()
        .set("id", layer.name())
        .set("fill", "none")
        .set("stroke", palette.colour(layer))
        .set("stroke-width", trimmed(STROKE, DECIMALS)?);
    Ok(elements.fold(group, Group::add))
}

/// Text without the control characters that XML cannot hold.
fn plain(text: &str) -> String {
    text.chars()
        .filter(|c| *c == '\n' || !(c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}')))
        .collect()
}

#[cfg(test)]
mod tests;
