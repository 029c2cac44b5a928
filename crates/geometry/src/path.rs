//! An open chain of lines and arcs.

use crate::{Affine, Nearest, Piece, Point, Rect, Vec2};

/// What rounding leaves of a neighbour where a chain is parted at a vertex, mm.
const NOTHING: f64 = 1e-9;

/// A corner of a chain, with the bulge of the piece that starts there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vertex {
    /// Where it is.
    pub point: Point,
    /// tan(sweep / 4) of the piece from here to the next vertex; 0 for a line.
    pub bulge: f64,
}

/// An open chain of lines and arcs, each beginning where the one before ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    vertices: Vec<Vertex>,
}

impl Path {
    /// A chain through `vertices`, at least two; the last one's bulge is not used and becomes 0.
    ///
    /// # Panics
    /// With fewer than two vertices, which make no chain.
    pub fn new(mut vertices: Vec<Vertex>) -> Self {
        assert!(vertices.len() >= 2, "a path has a start and an end");
        if let Some(last) = vertices.last_mut() {
            last.bulge = 0.0;
        }
        Self { vertices }
    }

    /// A chain of pieces, each taken to begin where the one before ends.
    ///
    /// # Panics
    /// With no piece at all.
    pub fn from_pieces(pieces: &[Piece]) -> Self {
        let mut vertices: Vec<_> = pieces
            .iter()
            .map(|p| Vertex {
                point: p.start,
                bulge: p.bulge,
            })
            .collect();
        vertices.extend(pieces.last().map(|p| Vertex {
            point: p.end,
            bulge: 0.0,
        }));
        Self::new(vertices)
    }

    /// Straight lines through `points`, at least two.
    pub fn polyline(points: &[Point]) -> Self {
        Self::new(points.iter().map(|&point| Vertex { point, bulge: 0.0 }).collect())
    }

    /// Its vertices, one more than its pieces.
    pub fn vertices(&self) -> &[Vertex] {
        &self.vertices
    }

    /// Its pieces in order.
    pub fn pieces(&self) -> impl DoubleEndedIterator<Item = Piece> + ExactSizeIterator + Clone + '_ {
        self.vertices.windows(2).map(|w| Piece {
            start: w[0].point,
            end: w[1].point,
            bulge: w[0].bulge,
        })
    }

    /// Where it begins.
    pub fn start(&self) -> Point {
        self.vertices[0].point
    }

    /// Where it ends.
    pub fn end(&self) -> Point {
        self.vertices[self.vertices.len() - 1].point
    }

    /// Its length, mm.
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

    /// The point `along` mm from its start and the direction of travel there, of length 1; past an end, that end.
    pub fn station(&self, along: f64) -> (Point, Vec2) {
        let (piece, fraction) = self.place(along);
        (piece.point_at(fraction), piece.tangent_at(fraction))
    }

    /// The part of it between two lengths from its start, mm (`from` < `to`, with some of the chain between them).
    ///
    /// # Panics
    /// If there is nothing of the chain between them.
    #[must_use]
    pub fn part(&self, from: f64, to: f64) -> Self {
        let mut passed = 0.0;
        let mut kept = Vec::new();
        for piece in self.pieces() {
            let length = piece.length();
            let (a, b) = ((from - passed) / length, (to - passed) / length);
            passed += length;
            if (b.min(1.0) - a.max(0.0)) * length > NOTHING {
                kept.push(if a <= 0.0 && b >= 1.0 {
                    piece
                } else {
                    piece.part(a.max(0.0), b.min(1.0))
                });
            }
        }
        Self::from_pieces(&kept)
    }

    /// The piece that holds the point `along` mm from the start, and the fraction of it that lies before.
    fn place(&self, along: f64) -> (Piece, f64) {
        let mut left = along.max(0.0);
        let mut last = None;
        for piece in self.pieces() {
            let length = piece.length();
            if left <= length {
                return (piece, left / length);
            }
            left -= length;
            last = Some((piece, 1.0));
        }
        last.unwrap_or((Piece::line(self.start(), self.end()), 1.0))
    }

    /// The same chain run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self::from_pieces(&self.pieces().rev().map(|p| p.reversed()).collect::<Vec<_>>())
    }

    /// The chain moved by a similarity (shift, turn, mirror, even scale).
    #[must_use]
    pub fn transformed(&self, by: Affine) -> Self {
        Self::new(transformed(&self.vertices, by))
    }

    /// This chain and then `next`, which is taken to begin where this one ends.
    #[must_use]
    pub fn then(&self, next: &Self) -> Self {
        let kept = &self.vertices[..self.vertices.len() - 1];
        Self::new([kept, &next.vertices].concat())
    }
}

pub(crate) fn bounds(pieces: impl Iterator<Item = Piece>) -> Rect {
    pieces
        .map(|p| p.bounds())
        .reduce(|a, b| a.union(b))
        .unwrap_or_default()
}

pub(crate) fn nearest(pieces: impl Iterator<Item = Piece>, p: Point) -> Nearest {
    pieces
        .enumerate()
        .map(|(piece, line)| Nearest {
            piece,
            ..line.nearest(p)
        })
        .min_by(|a, b| a.distance.total_cmp(&b.distance))
        .unwrap_or(Nearest {
            point: p,
            distance: f64::INFINITY,
            piece: 0,
            fraction: 0.0,
        })
}

pub(crate) fn transformed(vertices: &[Vertex], by: Affine) -> Vec<Vertex> {
    let sign = if by.determinant() < 0.0 { -1.0 } else { 1.0 };
    vertices
        .iter()
        .map(|v| Vertex {
            point: by * v.point,
            bulge: sign * v.bulge,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn parted_at_a_vertex_no_sliver_of_the_neighbour_is_left() {
        let half = Piece::arc(Point::new(0.1, 0.0), Point::new(-0.7, 0.0), -1.1);
        let path = Path::from_pieces(&[half, Piece::line(half.end, Point::new(5.0, 0.3))]);
        let first = half.length();
        for off in [-1e-13, 0.0, 1e-13] {
            assert_eq!(path.part(0.0, first + off).pieces().len(), 1);
            assert_eq!(path.part(first + off, path.length()).pieces().len(), 1);
        }
    }

    proptest! {
        #[test]
        fn a_part_has_its_length_and_its_stations(from in 0.0_f64..0.9, share in 0.01_f64..1.0) {
            let arc = Piece::arc(Point::ZERO, Point::new(-50.0, 0.0), -2.0);
            let path = Path::from_pieces(&[Piece::line(Point::new(-50.0, -30.0), arc.start), arc, Piece::line(arc.end, Point::new(99.0, 0.0))]);
            let length = path.length();
            let (from, to) = (from * length, (from + share * (1.0 - from)) * length);
            let part = path.part(from, to);
            prop_assert!((part.length() - (to - from)).abs() < 1e-9);
            prop_assert!(part.start().distance(path.station(from).0) < 1e-9);
            prop_assert!(part.end().distance(path.station(to).0) < 1e-9);
        }
    }
}
