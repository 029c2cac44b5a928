//! Many lines and arcs under a spatial index.

use crate::distance;
use cintre_geometry::{Piece, Point, Rect};
use rstar::{AABB, ParentNode, PointDistance, RTree, RTreeNode, RTreeObject};

/// How many of the nearest pieces are tried as the one that a stretch of edge runs along.
const TRIED: usize = 8;
/// A bound on a whole stretch that is over what its own middle has by no more than this is as good as any, mm.
const TIGHT: f64 = 1e-5;
/// How finely a greatest distance is found, mm.
const FINE: f64 = 0.0005;
/// And as a share of itself, where it is large and only its size matters.
const COARSE: f64 = 0.01;

/// A piece with its box.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line {
    pub(crate) piece: Piece,
    bounds: Rect,
}

/// An indexed set of pieces.
#[derive(Debug)]
pub(crate) struct Lines {
    tree: RTree<Line>,
}

/// The nearest piece found so far.
struct Nearest<'a> {
    to: [f64; 2],
    /// The square of how far off it is.
    square: f64,
    line: Option<&'a Line>,
}

impl<'a> Nearest<'a> {
    /// Looks through what is below a node, the nearest box first.
    fn search(&mut self, node: &'a ParentNode<Line>) {
        let children = node.children();
        let to = self.to;
        let off = |child: &RTreeNode<Line>| child.envelope().distance_2(&to);
        let first = (0..children.len()).min_by(|&a, &b| off(&children[a]).total_cmp(&off(&children[b])));
        let Some(first) = first else { return };
        let rest = (0..children.len()).filter(|&i| i != first);
        for child in std::iter::once(first).chain(rest).map(|i| &children[i]) {
            if off(child) >= self.square {
                continue;
            }
            match child {
                RTreeNode::Parent(parent) => self.search(parent),
                RTreeNode::Leaf(line) => {
                    let square = line.distance_2(&to);
                    if square < self.square {
                        (self.square, self.line) = (square, Some(line));
                    }
                }
            }
        }
    }
}

impl RTreeObject for Line {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        envelope(self.bounds)
    }
}

impl PointDistance for Line {
    fn distance_2(&self, p: &[f64; 2]) -> f64 {
        self.piece
            .foot(Point::new(p[0], p[1]))
            .distance_squared(Point::new(p[0], p[1]))
    }
}

pub(crate) fn envelope(r: Rect) -> AABB<[f64; 2]> {
    AABB::from_corners([r.x0, r.y0], [r.x1, r.y1])
}

impl Lines {
    pub(crate) fn new(pieces: impl IntoIterator<Item = Piece>) -> Self {
        let lines = pieces.into_iter().map(|piece| Line {
            piece,
            bounds: piece.bounds(),
        });
        Self {
            tree: RTree::bulk_load(lines.collect()),
        }
    }

    /// Every piece.
    pub(crate) fn all(&self) -> impl Iterator<Item = &Piece> {
        self.tree.iter().map(|line| &line.piece)
    }

    /// The pieces whose boxes come within `reach` of `bounds`.
    pub(crate) fn around(&self, bounds: Rect, reach: f64) -> impl Iterator<Item = &Line> {
        let wide = bounds.inflate(reach, reach);
        self.tree.locate_in_envelope_intersecting(envelope(wide))
    }

    /// The distance from `p` to the nearest piece; infinite where there is none.
    pub(crate) fn distance(&self, p: Point) -> f64 {
        self.search(p).square.sqrt()
    }

    /// The piece nearest to `p`.
    pub(crate) fn nearest(&self, p: Point) -> Option<&Line> {
        self.search(p).line
    }

    /// How far the middle of `s`, which has this length, lies from the set, and a bound on how far any point of it does.
    pub(crate) fn along(&self, s: &Piece, middle: Point, length: f64) -> (f64, f64) {
        let nearest = self.search(middle);
        let distance = nearest.square.sqrt();
        let mut bound = distance + length / 2.0;
        let near = self.tree.nearest_neighbor_iter([middle.x, middle.y]);
        for line in nearest.line.into_iter().chain(near.take(TRIED)) {
            if let Some(greatest) = distance::greatest(s, &line.piece) {
                bound = bound.min(greatest);
            }
            if bound <= distance + TIGHT {
                break;
            }
        }
        (distance, bound)
    }

    /// Not the tree's own search, whose pruning drops a piece whose box is no wider than rounding: one of many short chords.
    fn search(&self, p: Point) -> Nearest<'_> {
        let mut nearest = Nearest {
            to: [p.x, p.y],
            square: f64::INFINITY,
            line: None,
        };
        nearest.search(self.tree.root());
        nearest
    }

    /// The least distance of `s` from the set, where it is no more than `reach`; infinite otherwise.
    pub(crate) fn least(&self, s: &Piece, reach: f64) -> f64 {
        let near = self.around(s.bounds(), reach);
        near.map(|line| s.distance_to(&line.piece).0)
            .fold(f64::INFINITY, f64::min)
    }

    /// The greatest distance of any point of `s` from the set, and where.
    pub(crate) fn greatest(&self, s: &Piece) -> (f64, Point) {
        let mut best = (0.0, s.start);
        let mut open = vec![*s];
        while let Some(part) = open.pop() {
            let halves = part.halves();
            let middle = halves[0].end;
            let (distance, bound) = self.along(&part, middle, part.length());
            if distance.is_infinite() {
                return (distance, middle);
            }
            if distance > best.0 {
                best = (distance, middle);
            }
            let fine = FINE.max(best.0 * COARSE);
            if bound > best.0 + fine {
                open.extend(halves);
            }
        }
        best
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The strokes of a plotted sheet: among flat boxes the quick search for the nearest once passed over the right one.
    #[test]
    fn the_nearest_of_many_flat_strokes_is_found() {
        let plot = cintre_read::hpgl::read(include_bytes!("tests/niche.plt"), 40.0);
        let drawn = plot.moves.iter().filter(|m| m.spindle > 0.0);
        let strokes: Vec<Piece> = drawn.map(cintre_read::ReadMove::piece).collect();
        let lines = Lines::new(strokes.iter().copied());
        let stroke = Piece::line(
            Point::new(57.943_805_6, 182.857_142_9),
            Point::new(63.086_662_7, 182.857_142_9),
        );
        for i in 0..=2048 {
            let p = stroke.point_at(f64::from(i) / 2048.0);
            let least = strokes
                .iter()
                .map(|s| s.nearest(p).distance)
                .fold(f64::INFINITY, f64::min);
            assert!(
                (lines.distance(p) - least).abs() < 1e-9,
                "{} for {least} at {p}",
                lines.distance(p)
            );
        }
        assert!(lines.greatest(&stroke).0 < 0.02);
    }
}
