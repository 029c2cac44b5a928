//! DXF: finished drawings in, bytes out.
//!
//! R12 is read by everything and is the default; R2010 says its unit in the standard's own way. Either holds lines, arcs,
//! circles and polylines with bulges only, on layers named in capitals by what the line is, and below the area a bar
//! to be measured and the notes. Numbers are in one unit, which the header names. No clock and no chance: same drawing,
//! same bytes.

use cintre_work::{Drawing, Unit};
use cintre_write::{LINE, MM_PER_INCH, NotFinite, ascii, wrapped};
use file::Sheet;

mod entities;
mod file;
mod legend;
mod tables;
mod tags;

/// A chord shorter than this is no line of a drawing, in the file's unit: 1e-4 and what rounding takes.
const LEAST: f64 = 1.02e-4;

/// A release of the format.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DxfVersion {
    /// AC1009.
    R12,
    /// AC1024.
    R2010,
}

/// Why a drawing cannot be written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Error {
    /// A coordinate is not a number.
    #[error("a coordinate of the drawing: {0}")]
    NotFinite(#[from] NotFinite),
}

/// A drawing as a DXF file, its numbers in `units`.
///
/// Title and notes stand in the head as comments (group 999) and below the area as TEXT on layer TEXT, in ASCII, with a bar
/// of 100 mm (4 in) by which a person finds a wrong scale.
pub fn write(drawing: &Drawing, version: DxfVersion, units: Unit) -> Result<Vec<u8>, Error> {
    let scale = match units {
        Unit::Millimetre => 1.0,
        Unit::Inch => 1.0 / MM_PER_INCH,
    };
    let notes: Vec<String> = std::iter::once(&drawing.title)
        .chain(&drawing.notes)
        .flat_map(|note| wrapped(&ascii(note), LINE))
        .collect();
    let legend = legend::Legend::new(drawing.area, units, scale, &notes);
    let mut shapes = drawing.finished(scale, LEAST);
    shapes.extend(legend.lines);
    let sheet = Sheet {
        version,
        units,
        shapes,
        texts: legend.texts,
        notes,
    };
    Ok(file::write(&sheet)?.into_bytes())
}
