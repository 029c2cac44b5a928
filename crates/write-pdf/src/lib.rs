//! PDF for paper: finished pages in, bytes out.
//!
//! Lines and arcs only: no font, no picture, no date, no file identity, so the same pages give the same bytes. The viewer is
//! asked not to scale them. Content streams are plain text; what a line is stands round it as marked content (`/outline BMC
//! … EMC`), so that whoever reads the file finds the bars, the crosses and the drawing itself.

use cintre_work::{Document, Page};
use cintre_write::{NotFinite, ascii};
use content::content;
use pdf_writer::{Name, Pdf, Rect, Ref, TextStr};

mod content;

/// Points in an inch, the unit of a PDF.
const POINTS: f64 = 72.0;
/// The longest side that every viewer shows, mm: 14 400 points.
pub const LONGEST: f64 = 5080.0;

/// Why pages cannot be written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Error {
    /// A coordinate or a weight is not a number.
    #[error("page {page}: {what}")]
    NotFinite {
        /// The page, counted from 1.
        page: usize,
        /// The number.
        what: NotFinite,
    },
    /// A page of a size that viewers do not show.
    #[error("page {page} is {width} × {height} mm: both must be over 0 and at most {LONGEST} mm")]
    Size {
        /// The page, counted from 1.
        page: usize,
        /// Its width in the file, mm.
        width: f64,
        /// Its height in the file, mm.
        height: f64,
    },
    /// There is no page.
    #[error("there is no page to write")]
    Empty,
    /// There are more pages than a file can number.
    #[error("{0} pages are more than a file can number")]
    TooMany(usize),
}

/// The pages as a PDF file, title and notes in its document information, in ASCII.
pub fn write(document: &Document) -> Result<Vec<u8>, Error> {
    let count = i32::try_from(document.pages.len())
        .ok()
        .filter(|n| *n < i32::MAX / 4);
    let count = count.ok_or(Error::TooMany(document.pages.len()))?;
    if count == 0 {
        return Err(Error::Empty);
    }
    let (catalog, tree, info) = (Ref::new(1), Ref::new(2), Ref::new(3));
    let page_ref = |i: i32| Ref::new(4 + 2 * i);
    let content_ref = |i: i32| Ref::new(5 + 2 * i);
    let mut pdf = Pdf::new();
    // No byte of it is beyond ASCII, and the mark says so: it may be carried as text.
    pdf.set_binary_marker(b"text");
    let mut root = pdf.catalog(catalog);
    root.pages(tree);
    let mut wishes = root.viewer_preferences();
    wishes.pair(Name(b"PrintScaling"), Name(b"None"));
    wishes
        .insert(Name(b"Enforce"))
        .array()
        .item(Name(b"PrintScaling"));
    drop(wishes);
    drop(root);
    pdf.pages(tree).kids((0..count).map(page_ref)).count(count);
    let mut about = pdf.document_info(info);
    about.title(TextStr(&ascii(&document.title)));
    let notes: Vec<_> = document.notes.iter().map(|note| ascii(note)).collect();
    about.subject(TextStr(&notes.join(" - ")));
    drop(about);
    for (i, page) in (0..count).zip(&document.pages) {
        let number = usize::try_from(i).unwrap_or_default() + 1;
        let (width, height) = sides(page, number)?;
        let text = content(page).map_err(|what| Error::NotFinite { page: number, what })?;
        pdf.stream(content_ref(i), text.as_bytes());
        let mut leaf = pdf.page(page_ref(i));
        leaf.parent(tree)
            .contents(content_ref(i))
            .media_box(Rect::new(0.0, 0.0, width, height));
        leaf.resources();
    }
    Ok(pdf.finish())
}

/// A page's sides in points.
fn sides(page: &Page, number: usize) -> Result<(f32, f32), Error> {
    let (width, height) = (page.size.0 * page.stretch.0, page.size.1 * page.stretch.1);
    let shown = |mm: f64| mm > 0.0 && mm <= LONGEST;
    if !shown(width) || !shown(height) {
        return Err(Error::Size {
            page: number,
            width,
            height,
        });
    }
    #[expect(
        clippy::cast_possible_truncation,
        reason = "what is left over is under a thousandth of a point"
    )]
    let points = |mm: f64| content::points(mm) as f32;
    Ok((points(width), points(height)))
}

#[cfg(test)]
mod tests;
