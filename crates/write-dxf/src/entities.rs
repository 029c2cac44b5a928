//! Shapes and texts as entities.

use crate::DxfVersion;
use crate::legend::Text;
use crate::tags::Tags;
use cintre_geometry::{Piece, Point, Vertex};
use cintre_work::{Figure, Layer, Shape};
use cintre_write::{NotFinite, fixed};

/// Decimals of a bulge: dR / R is about db / b, and flat arcs have small ones.
const BULGE: usize = 14;
/// Decimals of an angle, degrees.
const ANGLE: usize = 12;
/// A longer arc alone is written by its ends and bulge: its centre's six decimals would not place them.
const LONGEST_RADIUS: f64 = 1e6;

/// The layer's name in capitals.
pub(crate) fn layer_name(layer: Layer) -> String {
    layer.name().to_uppercase()
}

/// One shape, owned by the block record `owner`.
pub(crate) fn shape(tags: &mut Tags, owner: &str, shape: &Shape) -> Result<(), NotFinite> {
    let head = |tags: &mut Tags, kind: &str| entity(tags, kind, owner, shape.layer);
    match &shape.figure {
        Figure::Circle { centre, radius } => {
            head(tags, "CIRCLE");
            tags.class("AcDbCircle");
            tags.point(10, *centre)?;
            tags.length(40, *radius)
        }
        Figure::Closed(outline) => polyline(tags, owner, shape.layer, outline.vertices(), true),
        Figure::Open(path) => {
            let mut pieces = path.pieces();
            match (pieces.next(), pieces.next()) {
                (Some(line), None) if line.is_line() => {
                    head(tags, "LINE");
                    tags.class("AcDbLine");
                    tags.point(10, line.start)?;
                    tags.point(11, line.end)
                }
                (Some(arc), None) if arc.circle().is_some_and(|c| c.radius < LONGEST_RADIUS) => {
                    head(tags, "ARC");
                    arc_body(tags, arc)
                }
                _ => polyline(tags, owner, shape.layer, path.vertices(), false),
            }
        }
    }
}

/// One row of text on layer TEXT.
pub(crate) fn text(tags: &mut Tags, owner: &str, text: &Text) -> Result<(), NotFinite> {
    entity(tags, "TEXT", owner, Layer::Text);
    tags.class("AcDbText");
    tags.point(10, text.at)?;
    tags.length(40, text.height)?;
    tags.put(1, &text.words);
    tags.class("AcDbText");
    Ok(())
}

fn entity(tags: &mut Tags, kind: &str, owner: &str, layer: Layer) {
    tags.object(kind, 5, owner);
    tags.class("AcDbEntity");
    tags.put(8, layer_name(layer));
}

/// An arc always runs counter-clockwise from its first angle to its second.
fn arc_body(tags: &mut Tags, arc: Piece) -> Result<(), NotFinite> {
    let Some(circle) = arc.circle() else { return Ok(()) };
    let (from, to) = if arc.bulge > 0.0 {
        (arc.start, arc.end)
    } else {
        (arc.end, arc.start)
    };
    tags.class("AcDbCircle");
    tags.point(10, circle.centre)?;
    tags.length(40, circle.radius)?;
    tags.class("AcDbArc");
    for (code, end) in [(50, from), (51, to)] {
        let angle = fixed(
            (end - circle.centre).atan2().to_degrees().rem_euclid(360.0),
            ANGLE,
        )?;
        // A hair below the full turn rounds up to it.
        tags.put(
            code,
            if angle.starts_with("360") {
                fixed(0.0, ANGLE)?
            } else {
                angle
            },
        );
    }
    Ok(())
}

fn polyline(
    tags: &mut Tags,
    owner: &str,
    layer: Layer,
    vertices: &[Vertex],
    closed: bool,
) -> Result<(), NotFinite> {
    // Readers pair bulges with vertices by their order: all or none.
    let bulges = vertices.iter().any(|v| v.bulge != 0.0);
    let corner = |tags: &mut Tags, v: &Vertex, flat: bool| {
        if flat {
            tags.flat(10, v.point)
        } else {
            tags.point(10, v.point)
        }?;
        if bulges {
            tags.real(42, v.bulge, BULGE)
        } else {
            Ok(())
        }
    };
    match tags.version {
        DxfVersion::R12 => {
            entity(tags, "POLYLINE", owner, layer);
            tags.put(66, 1);
            tags.point(10, Point::ZERO)?;
            tags.put(70, u8::from(closed));
            for v in vertices {
                entity(tags, "VERTEX", owner, layer);
                corner(tags, v, false)?;
            }
            entity(tags, "SEQEND", owner, layer);
        }
        DxfVersion::R2010 => {
            entity(tags, "LWPOLYLINE", owner, layer);
            tags.class("AcDbPolyline");
            tags.put(90, vertices.len());
            tags.put(70, u8::from(closed));
            for v in vertices {
                corner(tags, v, true)?;
            }
        }
    }
    Ok(())
}
