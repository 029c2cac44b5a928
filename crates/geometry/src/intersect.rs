//! Where lines and circles of unlimited extent meet.

use crate::{Piece, Point, Vec2};

/// The line or circle that a piece lies on, without its ends.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Support {
    /// Through a point, along a direction of length 1.
    Line(Point, Vec2),
    /// About a centre, at a radius.
    Circle(Point, f64),
}

impl Support {
    pub(crate) fn of(piece: &Piece) -> Self {
        piece.circle().map_or_else(
            || Self::Line(piece.start, (piece.end - piece.start).normalize()),
            |circle| Self::Circle(circle.centre, circle.radius),
        )
    }

    /// The points that both lie on; a touching pair may give the point twice, coincident ones give none.
    pub(crate) fn meet(self, other: Self) -> Vec<Point> {
        match (self, other) {
            (Self::Line(p, u), Self::Line(q, v)) => lines(p, u, q, v).into_iter().collect(),
            (Self::Line(p, u), Self::Circle(c, r)) | (Self::Circle(c, r), Self::Line(p, u)) => {
                let foot = p + u * (c - p).dot(u);
                square_root(r * r - foot.distance_squared(c), r * r)
                    .map_or_else(Vec::new, |half| vec![foot - u * half, foot + u * half])
            }
            (Self::Circle(c, r), Self::Circle(d, s)) => circles(c, r, d, s),
        }
    }
}

impl Piece {
    /// The points that it and another piece have in common, nowhere farther than `slack` mm beside either; none where they
    /// run along one another.
    pub fn meetings(&self, other: &Self, slack: f64) -> Vec<Point> {
        let on_both = |p: &Point| self.nearest(*p).distance <= slack && other.nearest(*p).distance <= slack;
        Support::of(self)
            .meet(Support::of(other))
            .into_iter()
            .filter(on_both)
            .collect()
    }
}

fn lines(p: Point, u: Vec2, q: Point, v: Vec2) -> Option<Point> {
    let cross = u.cross(v);
    (cross != 0.0).then(|| p + u * ((q - p).cross(v) / cross))
}

fn circles(c: Point, r: f64, d: Point, s: f64) -> Vec<Point> {
    let between = d - c;
    let distance = between.hypot();
    if distance == 0.0 {
        return Vec::new();
    }
    let u = between / distance;
    // (r - s)(r + s) keeps the digits that r² - s² loses between large circles.
    let along = (distance + (r - s) * (r + s) / distance) / 2.0;
    square_root((r - along) * (r + along), r * r).map_or_else(Vec::new, |half| {
        let foot = c + u * along;
        let across = Vec2::new(-u.y, u.x) * half;
        vec![foot - across, foot + across]
    })
}

/// The root of a half chord's square; one that rounding of `scale` may have pushed below zero counts as zero.
fn square_root(square: f64, scale: f64) -> Option<f64> {
    const ROUNDING: f64 = 1e-14;
    (square > -ROUNDING * scale).then(|| square.max(0.0).sqrt())
}
