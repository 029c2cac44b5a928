//! SVG drawings in real millimetres: shapes in groups named by what their lines are.
//!
//! Taken are `path` of M L H V A Z, and C S Q T where curves are asked for, `line`, `circle`, `polyline` and `polygon`; `title`, `desc` and `metadata` are passed
//! over. The root states width and height in mm and a viewBox of the same shape. y is turned up, the origin is the lower
//! left corner of that area.

mod path_data;

use crate::{DrawingRead, LengthUnit};
use cintre_geometry::{Affine, Outline, Point, Rect, Vertex};
use path_data::Sub;
use roxmltree::{Document, Node};

/// Why a file is no drawing in millimetres at all.
#[derive(Debug, thiserror::Error)]
pub enum SvgError {
    /// Not text.
    #[error("not an SVG drawing: it is not UTF-8 text")]
    NotText,
    /// Not XML.
    #[error("not an SVG drawing: {0}")]
    NotXml(#[from] roxmltree::Error),
    /// Its root is something else.
    #[error("not an SVG drawing: its root is {0}")]
    Root(String),
    /// It does not say how large it is.
    #[error("the drawing does not state its size in mm: {0}")]
    Size(String),
}

/// How far width and height may disagree about the scale: the last digit of a printed length.
const SCALE_SLACK: f64 = 1e-6;

/// Reads a drawing that is cut from: a curve in it is a fault, since a cutter makes what it likes of one.
pub fn read(bytes: &[u8]) -> Result<DrawingRead, SvgError> {
    read_as(bytes, None)
}

/// Reads a drawing, its curves (C S Q T) as tangent arcs within so many mm; without a tolerance they are faults.
pub fn read_as(bytes: &[u8], curves: Option<f64>) -> Result<DrawingRead, SvgError> {
    let text = std::str::from_utf8(bytes).map_err(|_| SvgError::NotText)?;
    let document = Document::parse(text)?;
    let root = document.root_element();
    if root.tag_name().name() != "svg" {
        return Err(SvgError::Root(root.tag_name().name().to_owned()));
    }
    let (place, area) = frame(root)?;
    let mut drawing = DrawingRead {
        unit: Some(LengthUnit::Millimetre),
        area: Some(area),
        ..DrawingRead::default()
    };
    for node in root.descendants().skip(1).filter(Node::is_element) {
        element(node, place, curves, &mut drawing);
    }
    Ok(drawing)
}

/// From the file's own numbers to mm with y up, and the area shown.
fn frame(root: Node<'_, '_>) -> Result<(Affine, Rect), SvgError> {
    let wrong = |what: &str| SvgError::Size(what.to_owned());
    let side = |name: &str| {
        root.attribute(name)
            .and_then(|v| v.strip_suffix("mm"))
            .and_then(|v| v.parse::<f64>().ok())
            .filter(|v| *v > 0.0 && *v < crate::drawing::FARTHEST)
            .ok_or_else(|| wrong(name))
    };
    let (width, height) = (side("width")?, side("height")?);
    let view: Vec<f64> = root
        .attribute("viewBox")
        .map(|v| v.split([' ', ',']).filter_map(|n| n.parse().ok()).collect())
        .unwrap_or_default();
    let &[x, y, w, h] = view.as_slice() else {
        return Err(wrong("viewBox"));
    };
    let sound = w > 0.0 && h > 0.0 && [x, y, w, h].iter().all(|v| v.abs() < crate::drawing::FARTHEST);
    if !sound || (width / w - height / h).abs() > SCALE_SLACK * width / w {
        return Err(wrong(
            "viewBox, which is not of the same shape as width and height",
        ));
    }
    let scale = width / w;
    let place = Affine::new([scale, 0.0, 0.0, -scale, -x * scale, (y + h) * scale]);
    Ok((place, Rect::new(0.0, 0.0, width, height)))
}

fn element(node: Node<'_, '_>, place: Affine, curves: Option<f64>, drawing: &mut DrawingRead) {
    let name = node.tag_name().name();
    let layer = layer(node);
    for barred in [
        "transform",
        "style",
        "clip-path",
        "mask",
        "marker-end",
        "display",
        "visibility",
    ] {
        if node.has_attribute(barred) {
            drawing.fault(
                &layer,
                format!("{name} with {barred}, which not every reader follows"),
            );
            return;
        }
    }
    // The curve is fitted in the file's own numbers.
    let scale = place.as_coeffs()[0];
    match shapes(node, curves.map(|tolerance| tolerance / scale)) {
        Ok(subs) => {
            for sub in subs {
                drawing.fit_error = drawing.fit_error.max(sub.fit_error * scale);
                let placed = sub.vertices.into_iter().map(|v| Vertex {
                    point: place * v.point,
                    bulge: -v.bulge,
                });
                drawing.take(&layer, sub.closed, placed.collect());
            }
        }
        Err(what) => drawing.fault(&layer, what),
    }
}

/// The name of the nearest group that has one.
fn layer(node: Node<'_, '_>) -> String {
    node.ancestors()
        .filter(|n| n.tag_name().name() == "g")
        .find_map(|n| n.attribute("id"))
        .unwrap_or_default()
        .to_owned()
}

fn shapes(node: Node<'_, '_>, curves: Option<f64>) -> Result<Vec<Sub>, String> {
    let number = |name: &str| {
        node.attribute(name)
            .and_then(|v| v.trim().parse::<f64>().ok())
            .ok_or_else(|| format!("{} without a plain {name}", node.tag_name().name()))
    };
    let one = |closed, vertices| {
        Ok(vec![Sub {
            closed,
            vertices,
            fit_error: 0.0,
        }])
    };
    let corner = |x, y| Vertex {
        point: Point::new(x, y),
        bulge: 0.0,
    };
    match node.tag_name().name() {
        "g" | "title" | "desc" | "metadata" => Ok(Vec::new()),
        "path" => path_data::parse(node.attribute("d").unwrap_or_default(), curves),
        "circle" => {
            let (x, y, r) = (number("cx")?, number("cy")?, number("r")?);
            if r.is_nan() || r <= 0.0 {
                return Err(format!("a circle of radius {r}"));
            }
            one(true, Outline::circle(Point::new(x, y), r).vertices().to_vec())
        }
        "line" => one(
            false,
            vec![
                corner(number("x1")?, number("y1")?),
                corner(number("x2")?, number("y2")?),
            ],
        ),
        name @ ("polyline" | "polygon") => {
            let values = path_data::numbers(node.attribute("points").unwrap_or_default())?;
            let corners: Vec<Vertex> = values.chunks_exact(2).map(|p| corner(p[0], p[1])).collect();
            one(name == "polygon", corners)
        }
        other => Err(format!("{other}, which is neither a line nor an arc")),
    }
}

#[cfg(test)]
mod tests;
