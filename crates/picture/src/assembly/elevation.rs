//! A centre seen from the front, with the ring on it.

use super::{AssemblyDrawing, CentreDrawing, PAST, bounds, front};
use crate::arch::ring;
use crate::canvas::Canvas;
use crate::page::View;
use crate::pen::{CHAIN, EDGE, FINE, HIDDEN, STRONG, SUNK, WOOD};
use crate::wood;
use cintre_geometry::{Outline, Point, Rect};

pub(super) fn elevation(canvas: &mut Canvas, drawing: &AssemblyDrawing<'_>, view: &View) {
    if let Some(extrados) = &drawing.extrados {
        let face: Vec<_> = ring(&drawing.soffit, extrados)
            .iter()
            .map(|o| view.outline(o))
            .collect();
        canvas.tint(&face, SUNK);
        canvas.edges(&face, EDGE);
    }
    let joints: Vec<_> = drawing.joints.iter().map(|p| view.path(p)).collect();
    canvas.lines(&joints, FINE);
    for half in &drawing.halves {
        let boards: Vec<_> = half.boards.iter().map(|o| view.outline(o)).collect();
        canvas.tint(&boards, WOOD);
        canvas.edges(&boards, FINE);
        for part in &half.layers[0] {
            wood::draw(canvas, part, view);
        }
        let on_faces: Vec<_> = half.layers[2].iter().map(|p| view.outline(&p.outline)).collect();
        canvas.edges(&on_faces, HIDDEN);
        let behind: Vec<_> = half.layers[1].iter().map(|p| view.outline(&p.outline)).collect();
        canvas.edges(&behind, HIDDEN);
        for (x0, x1) in feet(half) {
            wedge_pair(canvas, view, half, (x0, x1));
        }
    }
    canvas.lines([&view.path(&drawing.soffit)], STRONG);
    let (x, box_) = (
        view.point(Point::new(centre(drawing), 0.0)).x,
        view.rect(front(drawing)),
    );
    canvas.line(
        Point::new(x, box_.y0 - PAST),
        Point::new(x, box_.y1 + PAST),
        CHAIN,
    );
}

/// Where the centre line stands.
pub(super) fn centre(drawing: &AssemblyDrawing<'_>) -> f64 {
    drawing.soffit.bounds().center().x
}

/// Where wedges stand under a level bottom: near both ends. The lower half of a closed arch has none of its own.
fn feet(half: &CentreDrawing) -> Vec<(f64, f64)> {
    if half.back.bounds().center().y < half.level {
        return Vec::new();
    }
    let rib = bounds(half.layers.iter().flatten());
    let wide = (rib.width() / 8.0).min(150.0);
    vec![
        (rib.x0 + wide / 4.0, rib.x0 + 1.25 * wide),
        (rib.x1 - 1.25 * wide, rib.x1 - wide / 4.0),
    ]
}

fn wedge_pair(canvas: &mut Canvas, view: &View, half: &CentreDrawing, (x0, x1): (f64, f64)) {
    let pair = view.rect(Rect::new(x0, half.level - half.wedges, x1, half.level));
    let outline = Outline::rectangle(pair);
    canvas.tint([&outline], WOOD);
    canvas.edges([&outline], EDGE);
    canvas.line(Point::new(pair.x0, pair.y1), Point::new(pair.x1, pair.y0), FINE);
}
