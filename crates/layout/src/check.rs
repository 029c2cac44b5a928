//! The last word on a layout: every gap measured again, from the outlines where they lie.

use crate::{Error, ROUNDING};
use cintre_geometry::Rect;
use cintre_work::Sheet;

/// What a gap may fall short by, mm: the rounding that the placing allows itself, and that of moving an outline there.
const SHORT: f64 = 10.0 * ROUNDING;

/// Refuses a layout whose parts lie nearer than `spacing` to each other, or than the trim to an edge.
pub(crate) fn check(sheets: &[Sheet], spacing: f64) -> Result<(), Error> {
    for sheet in sheets {
        let boxes: Vec<Rect> = sheet.parts.iter().map(|p| p.part.outline.bounds()).collect();
        for (i, &a) in boxes.iter().enumerate() {
            let fault = |other: &str, gap: f64, wanted: f64| Error::Gap {
                sheet: sheet.id.clone(),
                part: sheet.parts[i].name.clone(),
                other: other.to_owned(),
                gap,
                wanted,
            };
            let edge = edge_gap(a, sheet.stock.size);
            if edge < sheet.stock.trim - SHORT {
                return Err(fault("the edge of the sheet", edge, sheet.stock.trim));
            }
            for (j, &b) in boxes.iter().enumerate().skip(i + 1) {
                let gap = gap(a, b);
                if gap < spacing - SHORT {
                    return Err(fault(&sheet.parts[j].name, gap, spacing));
                }
            }
        }
    }
    Ok(())
}

fn edge_gap(a: Rect, size: (f64, f64)) -> f64 {
    a.x0.min(a.y0).min(size.0 - a.x1).min(size.1 - a.y1)
}

/// How far apart two boxes lie along x or y, whichever is more; negative where they overlap. The outlines in them lie no nearer.
fn gap(a: Rect, b: Rect) -> f64 {
    let along_x = (b.x0 - a.x1).max(a.x0 - b.x1);
    let along_y = (b.y0 - a.y1).max(a.y0 - b.y1);
    along_x.max(along_y)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gaps_are_signed() {
        let a = Rect::new(0.0, 0.0, 10.0, 10.0);
        let gap_to = |x: f64, y: f64| gap(a, Rect::new(x, y, x + 5.0, y + 5.0));
        assert!((gap_to(13.0, 4.0) - 3.0).abs() < 1e-12);
        assert!((gap_to(4.0, -9.0) - 4.0).abs() < 1e-12);
        assert!((gap_to(8.0, 9.0) + 1.0).abs() < 1e-12);
        assert!((edge_gap(a, (12.0, 9.0)) + 1.0).abs() < 1e-12);
    }
}
