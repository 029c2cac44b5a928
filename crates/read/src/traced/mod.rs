//! An arch that somebody else drew: a DXF or SVG outline brought to where arches stand.
//!
//! The pieces of one layer are joined where their ends lie within a stated gap, the springing line is found, and the line
//! is moved so that its origin is the middle of it. Whatever is in doubt is refused with what is there.

mod error;
mod join;
mod place;
#[cfg(test)]
mod tests;

pub use error::TracedError;

use crate::{Chain, DrawingRead, LengthUnit, dxf, svg};
use cintre_geometry::{Affine, Path};
use join::Line;
use std::collections::BTreeSet;

/// What is wanted of a drawing. Lengths in mm.
#[derive(Clone, Debug)]
pub struct Wanted<'a> {
    /// The layer, or in SVG the id of the group; if none is named, the drawing must have but one with lines on it.
    pub layer: Option<&'a str>,
    /// Ends that lie this near to one another are meant to meet, and springings that differ by no more are meant to be level.
    pub gap: f64,
    /// The unit of its numbers, whatever the file states.
    pub unit: Option<LengthUnit>,
    /// How far tangent arcs may stand off its ellipses, splines and other curves.
    pub tolerance: f64,
    /// Whether a span that looks like a mistaken unit is meant.
    pub size_meant: bool,
}

/// An arch as it was traced. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Traced {
    /// Its soffit, from the left springing to the right one, the origin in the middle between them.
    pub soffit: Path,
    /// The width between the springings.
    pub span: f64,
    /// The height of the highest point above them.
    pub rise: f64,
    /// The unit that the file states; none where it states none.
    pub stated: Option<LengthUnit>,
    /// The layer that it was on.
    pub layer: String,
    /// How many joints were closed, and the widest gap among them; 0 where all ends met.
    pub joined: (usize, f64),
    /// How far the springings were out of level; they were brought to the mean height.
    pub out_of_level: f64,
    /// How far its arcs stand off the curves that were drawn, at most.
    pub fit_error: f64,
    /// What on the layer was passed over, each kind once.
    pub passed_over: Vec<String>,
}

/// More pieces than these are a scan, not a drawing.
const MOST_PIECES: usize = 3000;
/// Longer spans than this are taken for a mistaken unit, mm.
const LONGEST_SPAN: f64 = 20_000.0;
/// And shorter ones than this, mm.
const SHORTEST_SPAN: f64 = 30.0;

/// Reads an arch from a drawing; the ending of `file`, dxf or svg, says which format it is in.
pub fn read(bytes: &[u8], file: &str, wanted: &Wanted<'_>) -> Result<Traced, TracedError> {
    let (drawing, unit) = drawing(bytes, file, wanted)?;
    let (layer, chains) = on_layer(&drawing, wanted.layer)?;
    let on_it = drawing
        .faults
        .iter()
        .filter(|f| f.layer.eq_ignore_ascii_case(&layer));
    let passed_over: BTreeSet<String> = on_it.map(|fault| fault.what.clone()).collect();
    let passed_over: Vec<String> = passed_over.into_iter().collect();
    let joined = join::joined(&chains, wanted.gap, &passed_over)?;
    let placed = place::placed(&joined.line, wanted.gap)?;
    let span = placed.soffit.end().x - placed.soffit.start().x;
    check_size(span, unit, &drawing, wanted)?;
    Ok(Traced {
        rise: placed.soffit.bounds().y1,
        soffit: placed.soffit,
        span,
        stated: drawing.unit,
        layer,
        joined: (joined.count, joined.widest),
        out_of_level: placed.out_of_level,
        fit_error: drawing.fit_error,
        passed_over,
    })
}

/// The drawing, and the unit in which it was read.
fn drawing(bytes: &[u8], file: &str, wanted: &Wanted<'_>) -> Result<(DrawingRead, LengthUnit), TracedError> {
    let ending = file.rsplit_once('.').map_or("", |(_, ending)| ending);
    let drawing = if ending.eq_ignore_ascii_case("dxf") {
        dxf::read_as(
            bytes,
            dxf::Reading {
                unit: wanted.unit,
                unstated: LengthUnit::Millimetre,
                curves: Some(wanted.tolerance),
            },
        )?
    } else if ending.eq_ignore_ascii_case("svg") {
        let scale = wanted.unit.map_or(1.0, LengthUnit::millimetres);
        let mut drawing = svg::read_as(bytes, Some(wanted.tolerance / scale))?;
        drawing.fit_error *= scale;
        for vertex in drawing.chains.iter_mut().flat_map(|chain| &mut chain.vertices) {
            vertex.point = Affine::scale(scale) * vertex.point;
        }
        drawing
    } else {
        return Err(TracedError::Format(file.to_owned()));
    };
    // A fault of no layer is one of the whole drawing: the unit.
    if let Some(fault) = drawing
        .faults
        .iter()
        .find(|fault| fault.layer.is_empty() && ending.eq_ignore_ascii_case("dxf"))
    {
        return Err(TracedError::Unit(fault.what.clone()));
    }
    let unit = wanted.unit.or(drawing.unit).unwrap_or(LengthUnit::Millimetre);
    Ok((drawing, unit))
}

/// The layer that is meant, as the file spells it, and its chains.
fn on_layer(drawing: &DrawingRead, wanted: Option<&str>) -> Result<(String, Vec<Chain>), TracedError> {
    let found: BTreeSet<&str> = drawing.chains.iter().map(|chain| chain.layer.as_str()).collect();
    let names = || found.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    let passed_over = || {
        let kinds: BTreeSet<String> = drawing.faults.iter().map(|fault| fault.what.clone()).collect();
        kinds.into_iter().collect::<Vec<_>>()
    };
    let layer = match (wanted, found.len()) {
        (_, 0) => {
            return Err(TracedError::Nothing {
                passed_over: passed_over(),
            });
        }
        (None, 1) => found.first().copied().unwrap_or_default(),
        (None, _) => return Err(TracedError::WhichLayer { found: names() }),
        (Some(name), _) => found
            .iter()
            .copied()
            .find(|layer| layer.eq_ignore_ascii_case(name))
            .ok_or_else(|| TracedError::NoLayer {
                wanted: name.to_owned(),
                found: names(),
            })?,
    };
    let chains: Vec<Chain> = drawing
        .chains
        .iter()
        .filter(|chain| chain.layer == layer)
        .cloned()
        .collect();
    let pieces: usize = chains.iter().map(|chain| chain.vertices.len()).sum();
    if pieces > MOST_PIECES {
        return Err(TracedError::TooMany {
            pieces,
            most: MOST_PIECES,
        });
    }
    Ok((layer.to_owned(), chains))
}

fn check_size(
    span: f64,
    unit: LengthUnit,
    drawing: &DrawingRead,
    wanted: &Wanted<'_>,
) -> Result<(), TracedError> {
    let number = span / unit.millimetres();
    if drawing.unit.is_none() && wanted.unit.is_none() {
        return Err(TracedError::NoUnit {
            number,
            inches: number * LengthUnit::Inch.millimetres(),
        });
    }
    if wanted.size_meant || (SHORTEST_SPAN..=LONGEST_SPAN).contains(&span) {
        return Ok(());
    }
    let other = match unit {
        LengthUnit::Millimetre => LengthUnit::Inch,
        LengthUnit::Inch => LengthUnit::Millimetre,
    };
    Err(TracedError::Doubtful {
        span,
        number,
        unit: unit.name(),
        other: other.name(),
        other_span: number * other.millimetres(),
    })
}
