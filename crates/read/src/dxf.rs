//! DXF drawings, through the `dxf` crate: LINE, ARC, CIRCLE, LWPOLYLINE and POLYLINE of the XY plane.
//!
//! TEXT on the layer TEXT is passed over; every other entity is a fault, since a cutter may or may not take it. Only for a
//! traced outline do ELLIPSE and SPLINE become tangent arcs, within a tolerance that the caller gives.

mod curves;

pub(crate) use curves::bezier;

use crate::{DrawingRead, LengthUnit};
use cintre_geometry::{Affine, Outline, Piece, Point, Vertex};
use dxf::entities::{Entity, EntityType};
use dxf::enums::Units;
use std::io::Cursor;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Why a file is no DXF drawing at all.
#[derive(Debug, thiserror::Error)]
pub enum DxfError {
    /// The library refused it.
    #[error("not a DXF drawing: {0}")]
    Refused(String),
    /// The library fell over it.
    #[error("not a DXF drawing: its contents contradict one another")]
    Contradictory,
}

/// Off the XY plane by more than this, mm, an entity belongs to a solid and not to a drawing.
const FLAT: f64 = 1e-6;

/// How a drawing is to be understood.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Reading {
    /// The unit of its numbers, whatever the file states.
    pub(crate) unit: Option<LengthUnit>,
    /// Their unit where neither this nor the file says.
    pub(crate) unstated: LengthUnit,
    /// How far tangent arcs may stand off its ellipses and splines, mm; none where these are faults.
    pub(crate) curves: Option<f64>,
}

/// Reads a drawing. Where the file states no unit, its numbers are taken to be in `unstated`.
pub fn read(bytes: &[u8], unstated: LengthUnit) -> Result<DrawingRead, DxfError> {
    read_as(
        bytes,
        Reading {
            unit: None,
            unstated,
            curves: None,
        },
    )
}

/// Reads a drawing as the caller understands it.
pub(crate) fn read_as(bytes: &[u8], reading: Reading) -> Result<DrawingRead, DxfError> {
    // The library indexes and subtracts without looking on some malformed files; that must not take the caller down.
    let loaded = catch_unwind(AssertUnwindSafe(|| dxf::Drawing::load(&mut Cursor::new(bytes))));
    let file = loaded
        .map_err(|_| DxfError::Contradictory)?
        .map_err(|e| DxfError::Refused(e.to_string()))?;
    let mut drawing = DrawingRead {
        unit: match file.header.default_drawing_units {
            Units::Millimeters => Some(LengthUnit::Millimetre),
            Units::Inches => Some(LengthUnit::Inch),
            _ => None,
        },
        ..DrawingRead::default()
    };
    let stated = file.header.default_drawing_units;
    if drawing.unit.is_none() && reading.unit.is_none() && !matches!(stated, Units::Unitless) {
        drawing.fault(
            "",
            format!("its unit is {stated:?}, neither millimetres nor inches"),
        );
    }
    let unit = reading.unit.or(drawing.unit).unwrap_or(reading.unstated);
    for entity in file.entities() {
        take(entity, unit.millimetres(), reading.curves, &mut drawing);
    }
    Ok(drawing)
}

fn take(entity: &Entity, scale: f64, curves: Option<f64>, drawing: &mut DrawingRead) {
    let layer = entity.common.layer.as_str();
    if matches!(entity.specific, EntityType::Text(_)) && layer.eq_ignore_ascii_case("text") {
        return;
    }
    if entity.common.is_in_paper_space {
        drawing.fault(layer, "something on a layout sheet");
        return;
    }
    // A curve is fitted in the file's own unit.
    let taken = match (&entity.specific, curves) {
        (EntityType::Ellipse(ellipse), Some(tolerance)) => curves::ellipse(ellipse, tolerance / scale),
        (EntityType::Spline(spline), Some(tolerance)) => curves::spline(spline, tolerance / scale),
        (other, _) => chain(other).map(|(closed, vertices)| (closed, vertices, 0.0)),
    };
    match taken {
        Ok((closed, vertices, error)) => {
            drawing.fit_error = drawing.fit_error.max(error * scale);
            let scaled = vertices.into_iter().map(|v| Vertex {
                point: Affine::scale(scale) * v.point,
                ..v
            });
            drawing.take(layer, closed, scaled.collect());
        }
        Err(what) => drawing.fault(layer, what),
    }
}

type Taken = Result<(bool, Vec<Vertex>), String>;

fn chain(entity: &EntityType) -> Taken {
    match entity {
        EntityType::Line(l) => {
            flat(&l.extrusion_direction, &[l.p1.z, l.p2.z])?;
            Ok((
                false,
                vec![vertex(l.p1.x, l.p1.y, 0.0), vertex(l.p2.x, l.p2.y, 0.0)],
            ))
        }
        EntityType::Arc(a) => {
            flat(&a.normal, &[a.center.z])?;
            arc(a)
        }
        EntityType::Circle(c) => {
            flat(&c.normal, &[c.center.z])?;
            if c.radius.is_nan() || c.radius <= 0.0 {
                return Err(format!("a circle of radius {}", c.radius));
            }
            let round = Outline::circle(Point::new(c.center.x, c.center.y), c.radius);
            Ok((true, round.vertices().to_vec()))
        }
        EntityType::LwPolyline(p) => {
            flat(&p.extrusion_direction, &[])?;
            Ok((
                p.is_closed(),
                p.vertices.iter().map(|v| vertex(v.x, v.y, v.bulge)).collect(),
            ))
        }
        EntityType::Polyline(p) => polyline(p),
        other => Err(format!("{}, which is neither a line nor an arc", kind(other))),
    }
}

fn polyline(p: &dxf::entities::Polyline) -> Taken {
    if p.is_3d_polyline() || p.is_3d_polygon_mesh() || p.is_polyface_mesh() {
        return Err("a polyline in space".to_owned());
    }
    if p.curve_fit_vertices_added() || p.spline_fit_vertices_added() {
        return Err("a polyline that stands for a curve".to_owned());
    }
    let heights: Vec<f64> = p.vertices().map(|v| v.location.z).collect();
    flat(&p.normal, &heights)?;
    Ok((
        p.is_closed(),
        p.vertices()
            .map(|v| vertex(v.location.x, v.location.y, v.bulge))
            .collect(),
    ))
}

fn arc(a: &dxf::entities::Arc) -> Taken {
    let sweep = (a.end_angle - a.start_angle).rem_euclid(360.0);
    let sound = a.radius > 0.0 && sweep > 0.0;
    if !sound {
        return Err(format!("an arc of radius {} over {sweep} degrees", a.radius));
    }
    let centre = Point::new(a.center.x, a.center.y);
    let start = centre + cintre_geometry::Vec2::from_angle(a.start_angle.to_radians()) * a.radius;
    let piece = Piece::arc(centre, start, sweep.to_radians());
    Ok((
        false,
        vec![
            Vertex {
                point: piece.start,
                bulge: piece.bulge,
            },
            Vertex {
                point: piece.end,
                bulge: 0.0,
            },
        ],
    ))
}

const fn vertex(x: f64, y: f64, bulge: f64) -> Vertex {
    Vertex {
        point: Point::new(x, y),
        bulge,
    }
}

fn flat(normal: &dxf::Vector, heights: &[f64]) -> Result<(), String> {
    let upright = normal.x.abs() < FLAT && normal.y.abs() < FLAT && (normal.z - 1.0).abs() < FLAT;
    if upright && heights.iter().all(|z| z.abs() < FLAT) {
        Ok(())
    } else {
        Err("something out of the plane of the drawing".to_owned())
    }
}

/// The entity's own name, as its type is spelled.
fn kind(entity: &EntityType) -> String {
    let shown = format!("{entity:?}");
    shown.split(['(', ' ']).next().unwrap_or_default().to_uppercase()
}

#[cfg(test)]
mod tests;
