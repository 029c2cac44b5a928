//! A drawing's shapes made ready for a file.

use crate::{Drawing, Figure, Shape};
use cintre_geometry::{Affine, Circle, Outline, Point};
use std::collections::BTreeSet;

/// Bulges closer than this make one line.
const SAME_BULGE: f64 = 1e-6;

impl Drawing {
    /// Its shapes as a file holds them: multiplied by `scale` (the file's unit from mm), in the order of the layers,
    /// round outlines as circles, arcs below half a turn, nothing with a chord under `least` (in the file's unit),
    /// and no line twice on its layer.
    pub fn finished(&self, scale: f64, least: f64) -> Vec<Shape> {
        let mut seen = BTreeSet::new();
        let mut shapes: Vec<Shape> = self
            .shapes
            .iter()
            .filter_map(|shape| {
                let figure = shape.figure.scaled(scale).tidied(least)?;
                seen.insert((shape.layer, figure.key(least))).then_some(Shape {
                    layer: shape.layer,
                    figure,
                })
            })
            .collect();
        shapes.sort_by_key(|shape| shape.layer);
        shapes
    }
}

impl Figure {
    fn scaled(&self, scale: f64) -> Self {
        let by = Affine::scale(scale);
        match self {
            Self::Closed(outline) => Self::Closed(outline.transformed(by)),
            Self::Open(path) => Self::Open(path.transformed(by)),
            Self::Circle { centre, radius } => Self::Circle {
                centre: by * *centre,
                radius: radius * scale,
            },
        }
    }

    fn tidied(self, least: f64) -> Option<Self> {
        match self {
            Self::Closed(outline) => match as_circle(&outline, least / 100.0) {
                Some(Circle { centre, radius }) => Self::Circle { centre, radius }.tidied(least),
                None => outline.tidied(least).map(Self::Closed),
            },
            Self::Open(path) => path.tidied(least).map(Self::Open),
            Self::Circle { radius, .. } if radius < least => None,
            circle @ Self::Circle { .. } => Some(circle),
        }
    }

    /// The same for one line wherever it is begun and whichever way it runs.
    fn key(&self, grid: f64) -> Vec<[u64; 3]> {
        let row = |p: Point, bulge: f64| [cell(p.x, grid), cell(p.y, grid), cell(bulge, SAME_BULGE)];
        match self {
            Self::Circle { centre, radius } => {
                vec![[cell(centre.x, grid), cell(centre.y, grid), cell(*radius, grid)]]
            }
            Self::Open(path) => {
                let rows = |path: &cintre_geometry::Path| -> Vec<_> {
                    path.vertices().iter().map(|v| row(v.point, v.bulge)).collect()
                };
                rows(path).min(rows(&path.reversed()))
            }
            Self::Closed(outline) => {
                let rows = |outline: &Outline| {
                    let mut rows: Vec<_> = outline.vertices().iter().map(|v| row(v.point, v.bulge)).collect();
                    let first = (0..rows.len()).min_by_key(|&i| rows[i]).unwrap_or(0);
                    rows.rotate_left(first);
                    rows
                };
                rows(outline).min(rows(&outline.reversed()))
            }
        }
    }
}

/// The circle that an outline runs once around, its pieces agreeing within `tolerance`.
fn as_circle(outline: &Outline, tolerance: f64) -> Option<Circle> {
    let mut pieces = outline.pieces();
    let first = pieces.next()?;
    let circle = first.circle()?;
    let mut sweep = first.sweep();
    for piece in pieces {
        let other = piece.circle()?;
        let alike = other.centre.distance(circle.centre) < tolerance
            && (other.radius - circle.radius).abs() < tolerance
            && piece.bulge * first.bulge > 0.0;
        if !alike {
            return None;
        }
        sweep += piece.sweep();
    }
    ((sweep.abs() - std::f64::consts::TAU).abs() < SAME_BULGE).then_some(circle)
}

/// Which step of a grid a value falls in, as something that can be compared; 0 and -0 are one.
fn cell(value: f64, grid: f64) -> u64 {
    ((value / grid).round() + 0.0).to_bits()
}

#[cfg(test)]
mod tests {
    use crate::{Drawing, Figure, Layer, Shape};
    use cintre_geometry::{Outline, Path, Point, Rect};

    fn drawing(shapes: Vec<(Layer, Figure)>) -> Drawing {
        Drawing {
            title: String::new(),
            notes: Vec::new(),
            area: Rect::new(0.0, 0.0, 100.0, 100.0),
            shapes: shapes
                .into_iter()
                .map(|(layer, figure)| Shape { layer, figure })
                .collect(),
        }
    }

    #[test]
    fn a_line_drawn_twice_is_kept_once_on_its_layer() {
        let square = Outline::rectangle(Rect::new(0.0, 0.0, 10.0, 20.0));
        let begun_elsewhere = Outline::closing(&square.opened_at(2, 0.0)).reversed();
        let line = Path::polyline(&[Point::new(1.0, 1.0), Point::new(5.0, 1.0)]);
        let shapes = drawing(vec![
            (Layer::Outline, Figure::Closed(square.clone())),
            (Layer::Outline, Figure::Closed(begun_elsewhere)),
            (Layer::Opening, Figure::Closed(square)),
            (Layer::Mark, Figure::Open(line.clone())),
            (Layer::Mark, Figure::Open(line.reversed())),
        ])
        .finished(1.0, 1e-4);
        let layers: Vec<_> = shapes.iter().map(|s| s.layer).collect();
        assert_eq!(layers, [Layer::Mark, Layer::Opening, Layer::Outline]);
    }

    #[test]
    fn a_round_outline_is_a_circle_in_the_units_of_the_file() {
        let round = Outline::circle((254.0, 0.0).into(), 25.4);
        let shapes = drawing(vec![(Layer::Bore, Figure::Closed(round))]).finished(1.0 / 25.4, 1e-4);
        let Figure::Circle { centre, radius } = shapes[0].figure else {
            panic!("{:?}", shapes[0].figure);
        };
        assert!((radius - 1.0).abs() < 1e-12 && centre.distance((10.0, 0.0).into()) < 1e-12);
    }
}
