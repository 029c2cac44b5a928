//! To and from the libraries' own types.
//!
//! The offset library keeps a chain just as we do, point and bulge, but takes arcs of at most half a turn: longer ones
//! are split in two on the way there. kurbo's paths hold no arcs: they serve pictures alone, within a tolerance.

use crate::{Outline, Path, Piece, Vertex};
use cavalier_contours::polyline::{PlineSource, PlineSourceMut, Polyline};
use kurbo::{Arc, BezPath};

impl Piece {
    /// The piece as it stands, or its halves where it turns through more than half a circle.
    pub fn within_half_turn(&self) -> impl Iterator<Item = Self> + use<> {
        let whole = self.bulge.abs() <= 1.0;
        let halves = if whole {
            [Some(*self), None]
        } else {
            [Some(self.part(0.0, 0.5)), Some(self.part(0.5, 1.0))]
        };
        halves.into_iter().flatten()
    }

    /// kurbo's arc, none for a line.
    pub fn to_arc(&self) -> Option<Arc> {
        let c = self.circle()?;
        let from = (self.start - c.centre).atan2();
        Some(Arc::new(c.centre, (c.radius, c.radius), from, self.sweep(), 0.0))
    }
}

impl Outline {
    /// The edge as Béziers for a picture, off by at most `tolerance` mm.
    pub fn to_bez_path(&self, tolerance: f64) -> BezPath {
        let mut path = bez_path(self.vertices()[0], self.pieces(), tolerance);
        path.close_path();
        path
    }
}

impl Path {
    /// The chain as Béziers for a picture, off by at most `tolerance` mm.
    pub fn to_bez_path(&self, tolerance: f64) -> BezPath {
        bez_path(self.vertices()[0], self.pieces(), tolerance)
    }
}

fn bez_path(first: Vertex, pieces: impl Iterator<Item = Piece>, tolerance: f64) -> BezPath {
    let mut path = BezPath::new();
    path.move_to(first.point);
    for piece in pieces {
        match piece.to_arc() {
            Some(arc) => path.extend(arc.append_iter(tolerance)),
            None => path.line_to(piece.end),
        }
    }
    path
}

/// The offset library's polyline of the same edge.
pub(crate) fn to_polyline(outline: &Outline) -> Polyline<f64> {
    let mut line = Polyline::new_closed();
    for piece in outline.pieces().flat_map(|p| p.within_half_turn()) {
        line.add(piece.start.x, piece.start.y, piece.bulge);
    }
    line
}

/// The edge that the library gave back, none where it is not closed or encloses nothing.
pub(crate) fn from_polyline(line: &Polyline<f64>) -> Option<Outline> {
    let vertices: Vec<_> = line
        .iter_vertexes()
        .map(|v| Vertex {
            point: (v.x, v.y).into(),
            bulge: v.bulge,
        })
        .collect();
    (line.is_closed() && vertices.len() >= 2).then(|| Outline::new(vertices))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Point;
    use kurbo::Shape as _;

    #[test]
    fn there_and_back_loses_nothing() {
        let vertex = |x: f64, y: f64, bulge| Vertex {
            point: Point::new(x, y),
            bulge,
        };
        let outline = Outline::new(vec![
            vertex(0.1, 0.2, 0.3),
            vertex(50.7, 0.0, 0.0),
            vertex(40.0, 33.3, -0.25),
        ]);
        assert_eq!(from_polyline(&to_polyline(&outline)), Some(outline));
    }

    #[test]
    fn three_quarters_of_a_circle_go_as_two_arcs_on_the_same_circle() {
        let arc = Piece::arc(Point::ZERO, Point::new(10.0, 0.0), 4.7);
        let halves: Vec<_> = arc.within_half_turn().collect();
        assert_eq!(halves.len(), 2);
        for half in halves {
            assert!(half.bulge < 1.0 && half.circle().unwrap().centre.to_vec2().hypot() < 1e-12);
        }
    }

    #[test]
    fn a_circle_in_a_picture_has_its_area() {
        let circle = Outline::circle(Point::new(5.0, 6.0), 20.0);
        assert!((circle.to_bez_path(1e-4).area() - circle.area()).abs() < 0.02);
    }
}
