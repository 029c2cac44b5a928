//! A closed chain of lines and arcs: the edge of a part or of an opening.

use crate::path::{bounds, nearest, transformed};
use crate::winding::winding;
use crate::{Affine, Nearest, Path, Piece, Point, Rect, Vertex};

/// A closed chain of lines and arcs; the last vertex's piece runs back to the first vertex.
///
/// Edges of parts run counter-clockwise, openings clockwise, so that the wood is always on the left.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    vertices: Vec<Vertex>,
}

impl Outline {
    /// A closed chain through `vertices`, at least two (two half circles); the first is not repeated at the end.
    ///
    /// # Panics
    /// With fewer than two vertices, which enclose nothing.
    pub fn new(vertices: Vec<Vertex>) -> Self {
        assert!(vertices.len() >= 2, "an outline has at least two vertices");
        Self { vertices }
    }

    /// Closes a path by a straight line, or by its own ends where they meet within 1e-9 mm.
    pub fn closing(path: &Path) -> Self {
        let mut vertices = path.vertices().to_vec();
        if path.start().distance(path.end()) < 1e-9 {
            vertices.pop();
        }
        Self::new(vertices)
    }

    /// A circle, counter-clockwise, as two half circles.
    pub fn circle(centre: Point, radius: f64) -> Self {
        let vertex = |x| Vertex {
            point: Point::new(centre.x + x, centre.y),
            bulge: 1.0,
        };
        Self::new(vec![vertex(radius), vertex(-radius)])
    }

    /// A box, counter-clockwise from its lower left corner.
    pub fn rectangle(r: Rect) -> Self {
        Self::polygon(&[
            (r.x0, r.y0).into(),
            (r.x1, r.y0).into(),
            (r.x1, r.y1).into(),
            (r.x0, r.y1).into(),
        ])
    }

    /// A straight-sided outline through `points`.
    pub fn polygon(points: &[Point]) -> Self {
        Self::new(points.iter().map(|&point| Vertex { point, bulge: 0.0 }).collect())
    }

    /// Its vertices, as many as its pieces.
    pub fn vertices(&self) -> &[Vertex] {
        &self.vertices
    }

    /// Its pieces in order, the closing one last.
    pub fn pieces(&self) -> impl DoubleEndedIterator<Item = Piece> + ExactSizeIterator + Clone + '_ {
        let n = self.vertices.len();
        (0..n).map(move |i| {
            let (from, to) = (self.vertices[i], self.vertices[(i + 1) % n]);
            Piece {
                start: from.point,
                end: to.point,
                bulge: from.bulge,
            }
        })
    }

    /// The area inside, mm²; negative where it runs clockwise.
    pub fn area(&self) -> f64 {
        // Taken about the first vertex, so that a small outline far from the origin keeps its digits.
        let home = Affine::translate(-self.vertices[0].point.to_vec2());
        self.pieces()
            .map(|p| p.transformed(home).double_area())
            .sum::<f64>()
            / 2.0
    }

    /// Whether it runs counter-clockwise.
    pub fn is_counter_clockwise(&self) -> bool {
        self.area() > 0.0
    }

    /// The length round it, mm.
    pub fn length(&self) -> f64 {
        self.pieces().map(|p| p.length()).sum()
    }

    /// The least box that holds it.
    pub fn bounds(&self) -> Rect {
        bounds(self.pieces())
    }

    /// Its point nearest to `p`.
    pub fn nearest(&self, p: Point) -> Nearest {
        nearest(self.pieces(), p)
    }

    /// Whether `p` lies inside (by winding number, so the way round does not matter).
    ///
    /// A level or plumb edge belongs to what lies above it or to the right of it. On a slanted or curved one rounding decides;
    /// but of two outlines that share a straight edge and lie on either side of it just one holds each of its points.
    pub fn contains(&self, p: Point) -> bool {
        self.pieces().map(|piece| winding(&piece, p)).sum::<i32>() != 0
    }

    /// How far `p` lies outside (positive) or inside (negative), mm.
    pub fn signed_distance(&self, p: Point) -> f64 {
        let distance = self.nearest(p).distance;
        if self.contains(p) { -distance } else { distance }
    }

    /// The same edge run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        // A bulge belongs to the vertex that starts its piece, so the list is negated and shifted by one.
        Self::new(
            self.pieces()
                .rev()
                .map(|p| Vertex {
                    point: p.end,
                    bulge: -p.bulge,
                })
                .collect(),
        )
    }

    /// The edge run counter-clockwise (`true`) or clockwise, whichever way it runs now.
    #[must_use]
    pub fn oriented(&self, counter_clockwise: bool) -> Self {
        if self.is_counter_clockwise() == counter_clockwise {
            self.clone()
        } else {
            self.reversed()
        }
    }

    /// The edge moved by a similarity (shift, turn, mirror, even scale). A mirror turns its direction round.
    #[must_use]
    pub fn transformed(&self, by: Affine) -> Self {
        Self::new(transformed(&self.vertices, by))
    }

    /// The whole edge as an open path that begins and ends at a point on it: `fraction` along its piece number `piece`.
    pub fn opened_at(&self, piece: usize, fraction: f64) -> Path {
        let all: Vec<Piece> = self.pieces().collect();
        let first = all[piece];
        let mut round = Vec::with_capacity(all.len() + 1);
        if fraction < 1.0 {
            round.push(if fraction > 0.0 {
                first.part(fraction, 1.0)
            } else {
                first
            });
        }
        round.extend(all[piece + 1..].iter().chain(&all[..piece]));
        if fraction > 0.0 {
            round.push(if fraction < 1.0 {
                first.part(0.0, fraction)
            } else {
                first
            });
        }
        Path::from_pieces(&round)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::f64::consts::PI;

    #[test]
    fn a_circle_has_its_area_length_and_box() {
        let circle = Outline::circle(Point::new(1e4, -1e4), 25.0);
        assert!((circle.area() - PI * 625.0).abs() < 1e-7);
        assert!((circle.length() - PI * 50.0).abs() < 1e-9);
        assert!((circle.bounds().y1 - (-1e4 + 25.0)).abs() < 1e-9);
        assert!((circle.reversed().area() + PI * 625.0).abs() < 1e-7);
        assert!(circle.contains(Point::new(1e4, -1e4)) && !circle.contains(Point::new(1e4 + 26.0, -1e4)));
    }

    #[test]
    fn points_on_the_diameter_between_two_half_circles_lie_inside() {
        for (cos, sin) in [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)] {
            let circle = Outline::circle(Point::new(3.0, 4.0), 30.0)
                .transformed(Affine::new([cos, sin, -sin, cos, 0.0, 0.0]));
            let across = circle.vertices()[0].point.lerp(circle.vertices()[1].point, 0.25);
            assert!(
                circle.contains(across) && circle.reversed().contains(across),
                "turned to ({cos}, {sin})"
            );
        }
    }

    #[test]
    fn opening_anywhere_keeps_the_whole_edge() {
        let outline = Outline::rectangle(Rect::new(0.0, 0.0, 30.0, 20.0));
        for (piece, fraction) in [(0, 0.0), (1, 0.25), (3, 1.0)] {
            let path = outline.opened_at(piece, fraction);
            assert!((path.length() - 100.0).abs() < 1e-9 && path.start().distance(path.end()) < 1e-12);
        }
    }

    proptest! {
        #[test]
        fn inside_agrees_with_the_circle(x in -40.0..40.0f64, y in -40.0..40.0f64) {
            let p = Point::new(x, y);
            let r = x.hypot(y);
            prop_assume!((r - 25.0).abs() > 1e-6);
            let circle = Outline::circle(Point::ZERO, 25.0);
            prop_assert_eq!(circle.contains(p), r < 25.0);
            prop_assert_eq!(circle.reversed().contains(p), r < 25.0);
            prop_assert!((circle.signed_distance(p) - (r - 25.0)).abs() < 1e-9);
        }

        #[test]
        fn a_lens_holds_what_both_its_circles_hold(x in -60.0..60.0f64, y in -60.0..60.0f64) {
            // Two arcs of radius 50 on a chord of 60, bulging both ways.
            let (a, b) = (Point::new(-30.0, 0.0), Point::new(30.0, 0.0));
            let bulge = ((0.6f64).asin() / 2.0).tan();
            let lens = Outline::new(vec![Vertex { point: a, bulge }, Vertex { point: b, bulge }]);
            let p = Point::new(x, y);
            let (up, down) = (p.distance(Point::new(0.0, 40.0)), p.distance(Point::new(0.0, -40.0)));
            prop_assume!((up - 50.0).abs() > 1e-6 && (down - 50.0).abs() > 1e-6);
            prop_assert_eq!(lens.contains(p), up < 50.0 && down < 50.0);
        }
    }
}
