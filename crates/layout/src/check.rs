//! The last word on a layout: every gap measured again, exactly, from the outlines where they lie.

use crate::gap::{between, between_boxes};
use crate::{Error, ROUNDING};
use cintre_geometry::{Outline, Rect};
use cintre_work::{Placed, Sheet, Stock};

/// What a gap may fall short by, mm: the rounding that the placing allows itself, and that of moving an outline there.
const SHORT: f64 = 10.0 * ROUNDING;

/// The least gap between two parts that was measured, mm; none where no two lie on one sheet. Refuses a layout whose parts
/// lie nearer than `spacing` to each other or to a place kept free, or than the trim to an edge.
pub(crate) fn check(sheets: &[Sheet], spacing: f64) -> Result<Option<f64>, Error> {
    let mut least: Option<f64> = None;
    for sheet in sheets {
        let boxes: Vec<Rect> = sheet.parts.iter().map(|p| p.part.outline.bounds()).collect();
        for (i, placed) in sheet.parts.iter().enumerate() {
            let fault = |other: &str, gap: f64, wanted: f64| Error::Gap {
                sheet: sheet.id.clone(),
                part: placed.name.clone(),
                other: other.to_owned(),
                gap,
                wanted,
            };
            if let Some((gap, trim)) = edge_gap(placed, boxes[i], &sheet.stock) {
                return Err(fault("the edge of the sheet", gap, trim));
            }
            for kept in &sheet.stock.keep_outs {
                let gap = apart(&placed.part.outline, kept, spacing + 1.0);
                if gap < spacing - SHORT {
                    return Err(fault("a place kept free", gap, spacing));
                }
            }
            for (j, other) in sheet.parts.iter().enumerate().skip(i + 1) {
                // Beyond what is wanted, and beyond the least so far, it does not matter how far.
                let most = least.unwrap_or(f64::INFINITY).max(spacing + 1.0);
                if between_boxes(boxes[i], boxes[j]) >= most {
                    continue;
                }
                let gap = parts_gap(placed, other, most);
                if gap < spacing - SHORT {
                    return Err(fault(&other.name, gap, spacing));
                }
                least = Some(least.map_or(gap, |so_far| so_far.min(gap)));
            }
        }
    }
    Ok(least)
}

/// How far a part lies inside an edge of its sheet, mm, negative where it stands out, and the trim there, where it is too near.
fn edge_gap(placed: &Placed, a: Rect, stock: &Stock) -> Option<(f64, f64)> {
    let (size, trim) = (stock.size, stock.trim);
    let too_near = |&(gap, trim): &(f64, f64)| gap < trim - SHORT;
    let Some(edge) = &stock.outline else {
        let edges = [
            (a.x0, trim.left),
            (a.y0, trim.bottom),
            (size.0 - a.x1, trim.right),
            (size.1 - a.y1, trim.top),
        ];
        return edges.into_iter().find(too_near);
    };
    let outline = &placed.part.outline;
    let first = outline.vertices()[0].point;
    let trim = trim.widest();
    let gap = if edge.contains(first) {
        between(outline, edge, trim + 1.0)
    } else {
        -edge.signed_distance(first)
    };
    Some((gap, trim)).filter(too_near)
}

/// The gap between two parts, either of which may lie in an opening of the other.
fn parts_gap(a: &Placed, b: &Placed, most: f64) -> f64 {
    let in_opening = |inner: &Placed, outer: &Placed| {
        let p = inner.part.outline.vertices()[0].point;
        let mut openings = outer.part.openings.iter();
        openings
            .find(|opening| opening.contains(p))
            .map(|opening| between(&inner.part.outline, opening, most))
    };
    in_opening(a, b)
        .or_else(|| in_opening(b, a))
        .unwrap_or_else(|| apart(&a.part.outline, &b.part.outline, most))
}

/// The gap between two outlines that must lie outside each other; negative where one lies in the other.
fn apart(a: &Outline, b: &Outline, most: f64) -> f64 {
    let gap = between(a, b, most);
    let inside = |a: &Outline, b: &Outline| b.contains(a.vertices()[0].point);
    if inside(a, b) || inside(b, a) { -gap } else { gap }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::Point;

    #[test]
    fn one_inside_another_is_no_gap() {
        let (small, large) = (
            Outline::circle(Point::ZERO, 3.0),
            Outline::circle(Point::ZERO, 30.0),
        );
        assert!((apart(&small, &large, 100.0) + 27.0).abs() < 1e-9);
        assert!((apart(&large, &small, 100.0) + 27.0).abs() < 1e-9);
        let beside = Outline::circle(Point::new(50.0, 0.0), 3.0);
        assert!((apart(&beside, &large, 100.0) - 17.0).abs() < 1e-9);
    }
}
