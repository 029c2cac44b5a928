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
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// A drawing of release 12 with `entities`, group and value on a line each.
    fn drawing(header: &str, entities: &str) -> Vec<u8> {
        let start = "0 SECTION 2 HEADER 9 $ACADVER 1 AC1009";
        let all = format!("{start} {header} 0 ENDSEC 0 SECTION 2 ENTITIES {entities} 0 ENDSEC 0 EOF");
        let lines: Vec<&str> = all.split_whitespace().collect();
        (lines.join("\r\n") + "\r\n").into_bytes()
    }

    const ROUND: &str = "0 CIRCLE 8 BORE 10 20.0 20 30.0 40 4.0";
    const RIB: &str = "0 POLYLINE 8 OUTLINE 66 1 70 1 0 VERTEX 8 OUTLINE 10 0.0 20 0.0 42 0.0 0 VERTEX 8 OUTLINE 10 100.0 20 0.0 \
                       42 1.0 0 SEQEND 8 OUTLINE";

    fn plain(entities: &str) -> DrawingRead {
        read(&drawing("", entities), LengthUnit::Millimetre).unwrap()
    }

    #[test]
    fn lines_arcs_and_circles_come_out_as_they_are() {
        let arc = "0 ARC 8 MARK 10 0.0 20 0.0 40 50.0 50 350.0 51 10.0";
        let line = "0 LINE 8 MARK 10 1.0 20 2.0 11 3.0 21 4.0 0 TEXT 8 TEXT 10 0.0 20 0.0 40 5.0 1 RIB";
        let read = plain(&format!("{ROUND} {RIB} {arc} {line}"));
        assert!(read.faults.is_empty(), "{:?}", read.faults);
        assert_eq!(read.unit, None);
        let [round, rib, arc, line] = read.chains.as_slice() else {
            panic!("{read:?}")
        };
        assert!(
            (round.outline().unwrap().area() - std::f64::consts::PI * 16.0).abs() < 1e-9
                && round.layer == "BORE"
        );
        assert!((rib.outline().unwrap().area() - std::f64::consts::PI * 1250.0).abs() < 1e-6 && rib.closed);
        let piece = arc.pieces()[0];
        assert!(
            (piece.sweep().to_degrees() - 20.0).abs() < 1e-9 && (piece.point_at(0.5).x - 50.0).abs() < 1e-9
        );
        assert!(line.path().is_some() && line.outline().is_none());
    }

    #[test]
    fn units_are_the_headers_or_the_callers() {
        let metric = read(&drawing("9 $INSUNITS 70 4", ROUND), LengthUnit::Inch).unwrap();
        assert_eq!(metric.unit, Some(LengthUnit::Millimetre));
        assert!((metric.chains[0].vertices[0].point.x - 24.0).abs() < 1e-9);
        let unstated = read(&drawing("", ROUND), LengthUnit::Inch).unwrap();
        assert!((unstated.chains[0].vertices[0].point.x - 24.0 * 25.4).abs() < 1e-9);
        let feet = read(&drawing("9 $INSUNITS 70 2", ROUND), LengthUnit::Inch).unwrap();
        assert!(feet.faults[0].what.contains("Feet"));
    }

    #[test]
    fn anything_else_is_a_fault() {
        for (entity, expected) in [
            ("0 POINT 8 OUTLINE 10 1.0 20 1.0", "MODELPOINT"),
            ("0 TEXT 8 OUTLINE 10 0.0 20 0.0 40 5.0 1 RIB", "TEXT, which"),
            ("0 CIRCLE 8 BORE 10 1.0 20 1.0 40 -2.0", "radius -2"),
            (
                "0 LINE 8 MARK 10 1.0 20 2.0 30 9.0 11 3.0 21 4.0",
                "out of the plane",
            ),
            (
                "0 ARC 8 MARK 10 0.0 20 0.0 40 50.0 50 0.0 51 90.0 210 0.0 220 0.0 230 -1.0",
                "out of the plane",
            ),
            ("0 CIRCLE 8 BORE 10 1e9 20 1.0 40 2.0", "farther than a kilometre"),
        ] {
            let read = plain(entity);
            assert!(read.chains.is_empty(), "{read:?}");
            assert!(
                read.faults.iter().any(|f| f.what.contains(expected)),
                "{entity} gave {read:?}"
            );
        }
        assert!(read(b"no drawing", LengthUnit::Millimetre).is_err());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]
        #[test]
        fn no_bytes_get_out_as_a_panic(bytes in prop::collection::vec(any::<u8>(), 0..200), at in 0..400usize, cut in 0..6usize) {
            let _ = read(&bytes, LengthUnit::Millimetre);
            let mut text = drawing("9 $INSUNITS 70 4", &format!("{ROUND} {RIB}"));
            let at = at.min(text.len());
            let end = (at + cut).min(text.len());
            text.splice(at..end, bytes.iter().copied().take(3));
            let _ = read(&text, LengthUnit::Millimetre);
        }
    }
}
