//! The order in which lines are cut and drawn.

use cintre_geometry::{Point, Vec2};
use cintre_work::{Figure, Layer, Shape};

/// Layer by layer, within each the nearest next; what is open is begun at its nearer end.
pub(super) fn in_order(shapes: Vec<Shape>) -> Vec<Shape> {
    let mut here = Point::ZERO;
    let mut ordered = Vec::with_capacity(shapes.len());
    for layer in Layer::ALL {
        let mut left: Vec<Shape> = shapes.iter().filter(|s| s.layer == layer).cloned().collect();
        while let Some(next) =
            (0..left.len()).min_by(|&a, &b| away(&left[a], here).total_cmp(&away(&left[b], here)))
        {
            let shape = begun_near(left.remove(next), here);
            here = ends(&shape).1;
            ordered.push(shape);
        }
    }
    ordered
}

fn ends(shape: &Shape) -> (Point, Point) {
    match &shape.figure {
        Figure::Closed(outline) => {
            let first = outline.vertices()[0].point;
            (first, first)
        }
        Figure::Open(path) => (path.start(), path.end()),
        Figure::Circle { centre, radius } => {
            let first = *centre + Vec2::new(*radius, 0.0);
            (first, first)
        }
    }
}

fn away(shape: &Shape, here: Point) -> f64 {
    let (start, end) = ends(shape);
    here.distance(start).min(here.distance(end))
}

fn begun_near(shape: Shape, here: Point) -> Shape {
    let (start, end) = ends(&shape);
    match shape.figure {
        Figure::Open(path) if here.distance(end) < here.distance(start) => Shape {
            layer: shape.layer,
            figure: Figure::Open(path.reversed()),
        },
        figure => Shape {
            layer: shape.layer,
            figure,
        },
    }
}
