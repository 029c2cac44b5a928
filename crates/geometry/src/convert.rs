//! To and from the libraries' own types.
//!
//! The offset library keeps a chain just as we do, point and bulge, but takes arcs of at most half a turn: longer ones
//! are split in two on the way there. kurbo's paths hold no arcs: they serve pictures alone, within a tolerance.

use crate::{Outline, Path, Piece, Vec2, Vertex};
use cavalier_contours::polyline::{PlineSource, PlineSourceMut, Polyline};
use kurbo::{Arc, BezPath, Line};

impl Piece {
    /// The piece as it stands, or its halves where it turns through more than half a circle.
    pub fn within_half_turn(&self) -> impl Iterator<Item = Self> + use<> {
        let whole = self.bulge.abs() <= 1.0;
        let halves = if whole {
            [Some(*self), None]
        } else {
            self.halves().map(Some)
        };
        halves.into_iter().flatten()
    }

    /// kurbo's arc, none for a line.
    pub fn to_arc(&self) -> Option<Arc> {
        let c = self.circle()?;
        let from = (self.start - c.centre).atan2();
        Some(Arc::new(c.centre, (c.radius, c.radius), from, self.sweep(), 0.0))
    }

    /// The piece along kurbo's circular arc; none where its radii differ, or its axes are turned into an ellipse's.
    pub fn of_arc(arc: &Arc) -> Option<Self> {
        let radius = arc.radii.x;
        let round = (arc.radii.y - radius).abs() <= f64::EPSILON * radius.abs();
        let start = arc.center + Vec2::from_angle(arc.start_angle + arc.x_rotation) * radius;
        round.then(|| Self::arc(arc.center, start, arc.sweep_angle))
    }
}

impl From<Line> for Piece {
    fn from(line: Line) -> Self {
        Self::line(line.p0, line.p1)
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
    fn an_arc_comes_back_from_kurbo_as_it_went() {
        for sweep in [0.01, -1.2, 3.0, -5.9] {
            let piece = Piece::arc(Point::new(3.0, -4.0), Point::new(120.0, 7.0), sweep);
            let back = Piece::of_arc(&piece.to_arc().unwrap()).unwrap();
            assert!(back.start.distance(piece.start) < 1e-12 && back.end.distance(piece.end) < 1e-12);
            assert!((back.bulge - piece.bulge).abs() < 1e-12 * piece.bulge.abs().max(1.0));
        }
        let straight = Piece::from(Line::new((0.0, 1.0), (2.0, 3.0)));
        assert!(straight.is_line() && straight.to_arc().is_none());
        assert!(Piece::of_arc(&Arc::new((0.0, 0.0), (2.0, 1.0), 0.0, 1.0, 0.0)).is_none());
    }

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
