//! A centre cut through on its centre line.

use super::elevation::centre;
use super::{AssemblyDrawing, CentreDrawing, HEADING, around, bounds, front};
use crate::canvas::Canvas;
use crate::dimension::{self, Dimension, Side};
use crate::page::View;
use crate::pen::{EDGE, STOCK, SUNK, WOOD};
use cintre_geometry::{Outline, Path, Piece, Point, Rect};
use cintre_lettering::Anchor;

/// Cut through on the centre line, the wall's near face to the left.
pub(super) fn section(canvas: &mut Canvas, drawing: &AssemblyDrawing<'_>, view: &View, at: f64) {
    let slab = |canvas: &mut Canvas, (u0, u1): (f64, f64), (y0, y1): (f64, f64), tint: &'static str| {
        let outline = Outline::rectangle(view.rect(Rect::new(at + u0, y0, at + u1, y1)));
        canvas.tint([&outline], tint);
        canvas.edges([&outline], EDGE);
    };
    let soffit = drawing.soffit.bounds();
    let closed = drawing.soffit.start().distance(drawing.soffit.end()) < 1e-6;
    if let Some(back) = drawing.extrados.as_ref().map(Path::bounds) {
        slab(canvas, (0.0, drawing.wall), (soffit.y1, back.y1), SUNK);
        if closed {
            slab(canvas, (0.0, drawing.wall), (back.y0, soffit.y0), SUNK);
        }
    }
    let boards = (drawing.inside_faces, drawing.wall - drawing.inside_faces);
    for half in &drawing.halves {
        let crown = half.back.bounds();
        let upright = crown.center().y > half.level;
        let edge = if upright { crown.y1 } else { crown.y0 };
        let out = if upright {
            edge + half.lagging
        } else {
            edge - half.lagging
        };
        slab(canvas, boards, (edge.min(out), edge.max(out)), WOOD);
        for &rib in &half.ribs {
            slab(canvas, rib, (edge.min(half.level), edge.max(half.level)), STOCK);
            for cut in cut_wood(half, centre(drawing)) {
                slab(canvas, rib, cut, WOOD);
            }
            if upright {
                slab(canvas, rib, (half.level - half.wedges, half.level), WOOD);
            }
        }
    }
    let top = view
        .rect(Rect::new(at, soffit.y1, at + drawing.wall, soffit.y1))
        .y0;
    let crown = drawing
        .extrados
        .as_ref()
        .map_or(top, |back| view.point(Point::new(at, back.bounds().y1)).y);
    let middle = view.point(Point::new(at + drawing.wall / 2.0, 0.0)).x;
    canvas.text(
        "section",
        HEADING,
        Point::new(middle, crown - 3.0),
        Anchor::Middle,
    );
    let low = front(drawing).y0;
    let width = Dimension {
        from: Point::new(at, low),
        to: Point::new(at + drawing.wall, low),
        side: Side::Below,
        text: format!("wall {}", drawing.lengths.write(drawing.wall)),
    };
    dimension::draw(canvas, &[width], view, around(drawing, view));
}

/// From where to where a plumb line beside the middle goes through a rib's wood.
fn cut_wood(half: &CentreDrawing, centre: f64) -> Vec<(f64, f64)> {
    let whole = bounds(half.layers[0].iter());
    // Beside a joint on the middle.
    let x = centre + whole.width() * 0.003;
    let mut heights: Vec<f64> = Vec::new();
    for part in &half.layers[0] {
        for outline in std::iter::once(&part.outline).chain(&part.openings) {
            let line = Piece::line(Point::new(x, whole.y0 - 1.0), Point::new(x, whole.y1 + 1.0));
            heights.extend(
                outline
                    .pieces()
                    .flat_map(|piece| piece.meetings(&line, 1e-6))
                    .map(|p| p.y),
            );
        }
    }
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|b, a| (*b - *a).abs() < 1e-6);
    let inside = |y: f64| {
        let p = Point::new(x, y);
        half.layers[0]
            .iter()
            .any(|part| part.outline.contains(p) && !part.openings.iter().any(|o| o.contains(p)))
    };
    let spans = heights.windows(2).map(|pair| (pair[0], pair[1]));
    spans
        .filter(|&(low, high)| inside(f64::midpoint(low, high)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::assembly_drawing;

    #[test]
    fn the_section_shows_wood_where_the_middle_of_a_rib_has_some() {
        let mut drawing = assembly_drawing();
        let half = &mut drawing.halves[0];
        let whole = cut_wood(half, 0.0);
        assert_eq!(whole.len(), 1, "{whole:?}");
        assert!(
            (whole[0].0 + 100.0).abs() < 1e-9 && (whole[0].1 - 242.0).abs() < 0.1,
            "{whole:?}"
        );
        // An opening through both pieces.
        for part in &mut half.layers[0] {
            part.openings
                .push(Outline::rectangle(Rect::new(-50.0, 0.0, 50.0, 80.0)).reversed());
        }
        let open = cut_wood(half, 0.0);
        assert_eq!(open.len(), 2, "{open:?}");
        assert!(
            (open[0].1 - 0.0).abs() < 1e-9 && (open[1].0 - 80.0).abs() < 1e-9,
            "{open:?}"
        );
    }
}
