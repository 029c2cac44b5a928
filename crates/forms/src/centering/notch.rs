//! Notches in the level bottom of a rib, for timbers that run across under all ribs.

use super::bolts::edge_distance;
use super::member::Member;
use crate::Error;
use cintre_geometry::{Outline, Point, Vertex};

/// Edges within this of the bottom are the bottom, mm.
const LEVEL: f64 = 1e-6;

/// A place that meets a joint is tried again so much farther in, mm.
const STEP: f64 = 10.0;

/// Width and depth of the notches, and where they are wanted.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Notches {
    pub(crate) width: f64,
    pub(crate) depth: f64,
    pub(crate) bottom: f64,
    pub(crate) tie: f64,
    /// The x of the rib's sides.
    pub(crate) sides: (f64, f64),
    pub(crate) bolt: f64,
}

impl Notches {
    /// Cuts one near each side, clear of all joints, and says at which x.
    pub(crate) fn cut(&self, members: &mut [Member]) -> Result<Vec<f64>, Error> {
        let edge = edge_distance(self.bolt);
        // A row of bolts stands in the middle of the tie.
        let limit = self.tie / 2.0 - edge;
        let (left, right) = self.sides;
        let refused = Error::Notch {
            width: self.width,
            depth: self.depth,
            tie: self.tie,
            limit: limit.max(0.0),
        };
        if self.depth > limit {
            return Err(refused);
        }
        let mut places = Vec::new();
        for (side, inwards) in [(left, 1.0), (right, -1.0)] {
            let start = side + inwards * (edge + self.width / 2.0);
            let steps = std::iter::successors(Some(start), |x| Some(x + inwards * STEP));
            let mut tried = steps.take_while(|x| (left + self.width..=right - self.width).contains(x));
            let found = tried.find(|&x| members.iter().all(|m| self.may(m, x)));
            places.push(found.ok_or(refused.clone())?);
        }
        for &x in &places {
            for member in members.iter_mut() {
                if let Some(notched) = self.notched(&member.outline, x) {
                    member.outline = notched;
                }
            }
        }
        Ok(places)
    }

    /// Whether a notch lies well within a member's level bottom, or well clear of it.
    fn may(&self, member: &Member, x: f64) -> bool {
        let half = self.width / 2.0 + edge_distance(self.bolt);
        let low = member.outline.pieces().filter(|p| {
            p.is_line() && (p.start.y - self.bottom).abs() < LEVEL && (p.end.y - self.bottom).abs() < LEVEL
        });
        low.into_iter().all(|p| {
            let (a, b) = (p.start.x.min(p.end.x), p.start.x.max(p.end.x));
            // The rib's own side may be nearer than another joint.
            let least = self.width / 2.0 + LEVEL;
            (a + least <= x && x <= b - half)
                || (a + half <= x && x <= b - least)
                || x + half <= a
                || b + half <= x
        })
    }

    fn notched(&self, outline: &Outline, x: f64) -> Option<Outline> {
        let (from, to) = (x - self.width / 2.0, x + self.width / 2.0);
        let at = outline.pieces().position(|p| {
            p.is_line()
                && (p.start.y - self.bottom).abs() < LEVEL
                && (p.end.y - self.bottom).abs() < LEVEL
                && p.start.x < from
                && p.end.x > to
        })?;
        let corner = |x: f64, up: f64| Vertex {
            point: Point::new(x, self.bottom + up),
            bulge: 0.0,
        };
        let mut vertices = outline.vertices().to_vec();
        let new = [
            corner(from, 0.0),
            corner(from, self.depth),
            corner(to, self.depth),
            corner(to, 0.0),
        ];
        vertices.splice(at + 1..at + 1, new);
        Some(Outline::new(vertices))
    }
}
