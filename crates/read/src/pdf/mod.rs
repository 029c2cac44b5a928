//! The pages of a PDF: their boxes and the lines on them, with what each is marked as.
//!
//! Only what a plain drawing needs is taken: a cross-reference table, streams without filters, lines and Bézier curves
//! stroked in grey under `cm`, `q` and `Q`. Whatever else a page does is a fault, for it could draw or hide something.

mod content;
mod object;
mod token;

use cintre_geometry::Point;
use content::Drawing;
use object::{Body, Object};

/// Points in an inch, and an inch in mm.
const MM_PER_POINT: f64 = 25.4 / 72.0;

/// A PDF as read. Lengths in mm, x to the right, y up, from the lower left corner of each page.
#[derive(Clone, Debug, PartialEq)]
pub struct PdfRead {
    /// Its pages, in order.
    pub pages: Vec<PageRead>,
    /// What the viewer is told of scaling in its print dialogue: `None` asks it not to.
    pub print_scaling: Option<String>,
}

/// One page.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PageRead {
    /// Width and height of the page.
    pub size: (f64, f64),
    /// What is stroked on it, in order.
    pub strokes: Vec<StrokeRead>,
    /// What else it holds, in plain words: fonts, pictures, operators that are not taken.
    pub faults: Vec<String>,
}

/// One subpath that is stroked.
#[derive(Clone, Debug, PartialEq)]
pub struct StrokeRead {
    /// The innermost mark that it stands in; empty where it stands in none.
    pub mark: String,
    /// How wide it is drawn.
    pub weight: f64,
    /// 0 for black to 1 for white.
    pub grey: f64,
    /// Its curves from end to end, each its start, two controls and its end; a line has its controls on its ends.
    pub curves: Vec<[Point; 4]>,
}

/// Why a PDF cannot be read at all.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("byte {at}: {what}")]
pub struct PdfError {
    /// Where, counted from 0.
    pub at: usize,
    /// What is wrong.
    pub what: String,
}

impl PdfError {
    pub(crate) fn new(at: usize, what: impl Into<String>) -> Self {
        Self {
            at,
            what: what.into(),
        }
    }
}

/// Reads the pages of a PDF.
pub fn read(bytes: &[u8]) -> Result<PdfRead, PdfError> {
    let body = Body::open(bytes)?;
    let root = body.root()?;
    let wishes = body.look(root.get("ViewerPreferences"))?;
    let print_scaling = body.look(wishes.get("PrintScaling"))?.name().map(str::to_owned);
    let mut pages = Vec::new();
    let tree = body.look(root.get("Pages"))?;
    let kids = body.look(tree.get("Kids"))?;
    for kid in kids
        .items()
        .ok_or_else(|| PdfError::new(0, "there is no list of pages"))?
    {
        pages.push(page(&body, &body.look(Some(kid))?)?);
    }
    Ok(PdfRead { pages, print_scaling })
}

fn page(body: &Body<'_>, object: &Object) -> Result<PageRead, PdfError> {
    let broken = |what: &str| PdfError::new(object.at, what);
    let media = body.look(object.get("MediaBox"))?;
    let numbers: Vec<f64> = media
        .items()
        .into_iter()
        .flatten()
        .filter_map(Object::number)
        .collect();
    let [x0, y0, x1, y1] = numbers[..] else {
        return Err(broken("a page without a box of four numbers"));
    };
    let mut faults = Vec::new();
    for key in ["Annots", "UserUnit", "CropBox", "Rotate"] {
        if object.get(key).is_some() {
            faults.push(format!("{key} on the page"));
        }
    }
    let resources = body.look(object.get("Resources"))?;
    for key in resources.keys().filter(|key| *key != "ProcSet") {
        faults.push(format!("{key} among its resources"));
    }
    let stream = body.stream(object.get("Contents"))?;
    let mut drawing = Drawing::on(Point::new(x0, y0), faults);
    drawing.read(stream);
    Ok(PageRead {
        size: ((x1 - x0) * MM_PER_POINT, (y1 - y0) * MM_PER_POINT),
        strokes: drawing.strokes,
        faults: drawing.faults,
    })
}

#[cfg(test)]
mod tests;
