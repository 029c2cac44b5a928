//! Corners relieved, so that a square edge seats in them.
//!
//! In a corner between two straight sides a bit leaves r (1 / sin(a / 2) - 1) along the bisector of the angle a between
//! them. A relief lets its centre leave the road and come back: outward along the bisector until the bit touches the corner,
//! its centre one radius short of it; or along the longer side until it stands square beside the corner.

use cintre_geometry::{Outline, Piece, Point, Vec2, Vertex};
use cintre_work::Relief;

/// Sides that meet more bluntly than this seat nothing square, radians: at 150 degrees a bit leaves 0.035 of its radius.
const BLUNTEST: f64 = 150.0 * std::f64::consts::PI / 180.0;

/// Or more sharply than this.
const SHARPEST: f64 = 20.0 * std::f64::consts::PI / 180.0;

/// The true corner is taken from the edge within this, mm.
const AT_CORNER: f64 = 1e-3;

/// How the bit's centre leaves its road into a corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spur {
    pub(crate) from: Point,
    pub(crate) to: Point,
}

/// What comes of relieving a road.
#[derive(Clone, Debug)]
pub(crate) struct Relieved {
    pub(crate) roads: Vec<Outline>,
    pub(crate) spurs: Vec<Spur>,
    /// Corners that cannot be relieved since the bit would break out into another edge.
    pub(crate) left: Vec<Point>,
}

/// The roads of a bit of `radius`, `off` mm from some edges, the wood on the left of both, with a spur into each corner between
/// two straight sides that are at least a radius long. No spur comes within a radius of any other edge, nor of any of `others`.
pub(crate) fn relieved(
    edges: &[Outline],
    roads: Vec<Outline>,
    (off, radius): (f64, f64),
    rule: Relief,
    others: &[&Outline],
) -> Relieved {
    let mut done = Relieved {
        roads: Vec::new(),
        spurs: Vec::new(),
        left: Vec::new(),
    };
    if rule == Relief::None {
        done.roads = roads;
        return done;
    }
    for road in roads {
        let pieces: Vec<Piece> = road.pieces().collect();
        let mut vertices = Vec::new();
        for (i, piece) in pieces.iter().enumerate() {
            let before = &pieces[(i + pieces.len() - 1) % pieces.len()];
            if let Some(corner) = Corner::between(edges, before, piece, off) {
                let spur = corner.spur(radius, rule);
                if corner.breaks_out(spur.to, radius, edges, others) {
                    done.left.push(corner.at);
                } else {
                    vertices.extend(there_and_back(piece.start, spur));
                    done.spurs.push(spur);
                }
            }
            vertices.push(Vertex {
                point: piece.start,
                bulge: piece.bulge,
            });
        }
        done.roads.push(Outline::new(vertices));
    }
    done
}

/// From a corner of the road into a spur and out again, but for the corner itself at the end.
fn there_and_back(corner: Point, spur: Spur) -> Vec<Vertex> {
    let mut points = vec![corner];
    if corner.distance(spur.from) > AT_CORNER {
        points.extend([spur.from, spur.to, spur.from]);
    } else {
        points.push(spur.to);
    }
    let vertex = |point| Vertex { point, bulge: 0.0 };
    points.into_iter().map(vertex).collect()
}

/// An inside corner of an edge between two straight sides.
struct Corner {
    at: Point,
    /// The side that leads to it and the one that leads away.
    sides: (Piece, Piece),
}

impl Corner {
    fn between(edges: &[Outline], before: &Piece, after: &Piece, off: f64) -> Option<Self> {
        if !(before.is_line() && after.is_line()) {
            return None;
        }
        let (a, b) = (before.tangent_at(1.0), after.tangent_at(0.0));
        let turn = a.cross(b).atan2(a.dot(b));
        let angle = std::f64::consts::PI + turn;
        if turn >= 0.0 || !(SHARPEST..=BLUNTEST).contains(&angle) {
            return None;
        }
        let outward = left(a) + left(b);
        let at = after.start + outward / outward.hypot() * (off / (angle / 2.0).sin());
        edges.iter().find_map(|edge| {
            let sides: Vec<Piece> = edge.pieces().collect();
            let k = sides.iter().position(|s| s.start.distance(at) < AT_CORNER)?;
            let pair = (sides[(k + sides.len() - 1) % sides.len()], sides[k]);
            let straight = |s: &Piece| s.is_line() && s.length() >= off;
            (straight(&pair.0) && straight(&pair.1)).then_some(Self {
                at: sides[k].start,
                sides: pair,
            })
        })
    }

    /// Where the bit's centre goes, from the corner of the road along the edge.
    fn spur(&self, radius: f64, rule: Relief) -> Spur {
        let (a, b) = (self.sides.0.tangent_at(1.0), self.sides.1.tangent_at(0.0));
        let outward = left(a) + left(b);
        let outward = outward / outward.hypot();
        let longer = if self.sides.0.length() >= self.sides.1.length() {
            a
        } else {
            b
        };
        Spur {
            // The sine of half the angle between the sides.
            from: self.at - outward * (radius / left(a).dot(outward)),
            to: match rule {
                Relief::LongSide => self.at - left(longer) * radius,
                _ => self.at - outward * radius,
            },
        }
    }

    /// Whether the bit at `to` would come through to another edge, or to a side of its own beyond the next corner.
    fn breaks_out(&self, to: Point, radius: f64, edges: &[Outline], others: &[&Outline]) -> bool {
        let own = |p: &Piece| *p == self.sides.0 || *p == self.sides.1;
        edges
            .iter()
            .chain(others.iter().copied())
            .flat_map(Outline::pieces)
            .filter(|p| !own(p))
            .any(|p| p.nearest(to).distance < radius - AT_CORNER && p.nearest(self.at).distance > AT_CORNER)
    }
}

fn left(t: Vec2) -> Vec2 {
    Vec2::new(-t.y, t.x)
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::{leftovers, parallel};

    /// A wedge of an opening whose first corner has the angle, its sides 100 and 120 long.
    fn wedge(degrees: f64) -> Outline {
        let a = degrees.to_radians();
        Outline::polygon(&[
            Point::ZERO,
            Point::new(120.0, 0.0),
            Point::new(100.0 * a.cos(), 100.0 * a.sin()),
        ])
        .reversed()
    }

    #[test]
    fn the_figures_of_a_twelve_millimetre_bit() {
        for (degrees, left) in [(90.0, 2.49), (60.0, 6.00), (120.0, 0.93)] {
            let edge = wedge(degrees);
            let roads = parallel(&edge, 6.0).unwrap();
            let first = |roads: &[Outline]| {
                let found = leftovers(&edge, roads, 6.0);
                found.into_iter().find(|l| l.at.distance(Point::ZERO) < 1e-6)
            };
            assert!((first(&roads).unwrap().depth - left).abs() < 0.01);
            for rule in [Relief::Bisector, Relief::LongSide] {
                let done = relieved(std::slice::from_ref(&edge), roads.clone(), (6.0, 6.0), rule, &[]);
                let spur = done
                    .spurs
                    .iter()
                    .find(|s| (s.to.distance(Point::ZERO) - 6.0).abs() < 1e-6)
                    .unwrap();
                // The bit touches the corner and no more.
                assert!((spur.to.to_vec2().hypot() - 6.0).abs() < 1e-9);
                if rule == Relief::Bisector {
                    let half = (degrees / 2.0).to_radians();
                    assert!((spur.to.to_vec2().atan2() - half).abs() < 1e-9);
                } else {
                    assert!(
                        spur.to.distance(Point::new(0.0, 6.0)) < 1e-9,
                        "square beside the longer side"
                    );
                }
                assert!(first(&done.roads).is_none(), "nothing is left in the corner");
            }
        }
    }

    #[test]
    fn a_corner_beside_another_opening_or_between_curves_is_left() {
        let edge = wedge(90.0);
        let roads = parallel(&edge, 6.0).unwrap();
        let near = Outline::circle(Point::new(6.0, -6.0), 5.0);
        let done = relieved(
            std::slice::from_ref(&edge),
            roads,
            (6.0, 6.0),
            Relief::Bisector,
            &[&near],
        );
        assert_eq!(done.left.len(), 1);
        let round = Outline::new(vec![
            Vertex {
                point: Point::ZERO,
                bulge: 0.4,
            },
            Vertex {
                point: Point::new(100.0, 0.0),
                bulge: 0.4,
            },
        ])
        .reversed();
        let roads = parallel(&round, 6.0).unwrap();
        let done = relieved(
            std::slice::from_ref(&round),
            roads,
            (6.0, 6.0),
            Relief::Bisector,
            &[],
        );
        assert!(done.spurs.is_empty() && done.left.is_empty());
    }
}
