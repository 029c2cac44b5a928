//! A ring of a recess, and the bit that goes round rings.

use crate::bore::fall_a_turn;
use crate::plan::APPROACH;
use crate::road::Road;
use crate::run::along;
use crate::scribe::over;
use crate::setup::Setup;
use cintre_geometry::{Outline, Piece, Point, Vec2};
use cintre_work::{Cut, Move, To};
use std::f64::consts::PI;

/// The step in which a ring is looked along for the way to the next, mm.
const LOOK: f64 = 0.5;

/// A ring shorter than this many diameters of the bit is too small to fall along: it would take many turns.
const SMALL: f64 = 1.5;

/// A helix in the middle of a recess has this share of the bit's diameter for its radius, so that no core is left in it.
const HELIX: f64 = 0.4;

/// A helix smaller than this leaves the chips no way out, mm.
const LEAST_HELIX: f64 = 0.2;

/// A closed road of the bit's centre in the bit's own direction.
#[derive(Debug)]
pub(crate) struct Ring {
    edge: Outline,
    road: Road,
}

impl Ring {
    pub(crate) fn new(edge: Outline) -> Self {
        let road = Road::of(edge.pieces());
        Self { edge, road }
    }

    pub(crate) fn start(&self) -> Point {
        self.road.start()
    }

    pub(crate) fn length(&self) -> f64 {
        self.road.length()
    }

    pub(crate) fn point_at(&self, along: f64) -> Point {
        self.road.point_at(along)
    }

    /// Places along the ring, from one once round, no farther apart than the step of looking; corners among them.
    fn places(&self, from: f64) -> Vec<f64> {
        let length = self.length();
        let mut places: Vec<f64> = (0..self.road.pieces.len())
            .flat_map(|i| {
                let (a, b) = self.road.extent(i);
                let count = ((b - a) / LOOK).ceil().max(1.0);
                let mut k = 0.0;
                std::iter::from_fn(move || {
                    (k < count).then(|| {
                        k += 1.0;
                        (a + (b - a) * (k - 1.0) / count - from).rem_euclid(length)
                    })
                })
            })
            .collect();
        places.push(0.0);
        places.sort_by(f64::total_cmp);
        places.into_iter().map(|s| from + s).collect()
    }

    /// How near another ring comes.
    pub(crate) fn gap(&self, other: &Self) -> f64 {
        self.places(0.0)
            .into_iter()
            .map(|s| other.edge.nearest(self.point_at(s)).distance)
            .fold(f64::INFINITY, f64::min)
    }

    /// The first place from `from` on where another ring is near, or else the one where it is nearest.
    fn way_to(&self, from: f64, other: &Self, near: f64) -> f64 {
        let places = self.places(from);
        let gap = |s: &f64| other.edge.nearest(self.point_at(*s)).distance;
        let first = places.iter().find(|s| gap(s) <= near);
        let nearest = || places.iter().min_by(|a, b| gap(a).total_cmp(&gap(b)));
        first.or_else(nearest).copied().unwrap_or(from)
    }

    /// How far along the ring its point nearest to `p` lies.
    fn along_of(&self, p: Point) -> f64 {
        let nearest = |i: usize| self.road.pieces[i].nearest(p);
        let best = (0..self.road.pieces.len())
            .map(|i| (i, nearest(i)))
            .min_by(|a, b| a.1.distance.total_cmp(&b.1.distance));
        best.map_or(0.0, |(i, n)| {
            let (a, b) = self.road.extent(i);
            a + (b - a) * n.fraction
        })
    }

    /// Where to come to this ring from the nearest of some others: a point on that one, and how far along this one.
    pub(crate) fn nearest_start(&self, others: &[&Self]) -> (Point, f64) {
        let middle = self
            .road
            .pieces
            .iter()
            .enumerate()
            .max_by(|a, b| a.1.length().total_cmp(&b.1.length()));
        let at = middle.map_or(0.0, |(i, _)| {
            f64::midpoint(self.road.extent(i).0, self.road.extent(i).1)
        });
        let p = self.point_at(at);
        let from = others
            .iter()
            .map(|o| o.edge.nearest(p))
            .min_by(|a, b| a.distance.total_cmp(&b.distance));
        (from.map_or(p, |n| n.point), at)
    }
}

/// The bit in a recess.
pub(crate) struct Pen<'a> {
    setup: Setup<'a>,
    at: Point,
    z: f64,
    /// How far along the ring that it is on.
    along: f64,
    pub(crate) moves: Vec<Move>,
}

impl<'a> Pen<'a> {
    /// At [`APPROACH`] over `at`.
    pub(crate) const fn new(at: Point, setup: Setup<'a>) -> Self {
        Self {
            setup,
            at,
            z: APPROACH,
            along: 0.0,
            moves: Vec::new(),
        }
    }

    fn feed(&self, z: f64) -> f64 {
        if z < self.z - 1e-9 {
            self.setup.tool.feeds.plunge
        } else {
            self.setup.tool.feeds.feed
        }
    }

    pub(crate) fn down(&mut self, z: f64) {
        let to = To::Straight { feed: self.feed(z) };
        self.moves.push(Move { end: self.at, z, to });
        self.z = z;
    }

    /// Straight across at the same height.
    pub(crate) fn straight(&mut self, end: Point) {
        if end.distance(self.at) > 1e-9 {
            let to = To::Straight {
                feed: self.setup.tool.feeds.feed,
            };
            self.moves.push(Move { end, z: self.z, to });
            self.at = end;
        }
    }

    /// Up to the safe height, and down again over `to`.
    pub(crate) fn lift_over(&mut self, to: Point, safe: f64) {
        self.moves.extend(over(self.at, to, safe));
        (self.at, self.z, self.along) = (to, APPROACH.min(safe), 0.0);
    }

    fn follow(&mut self, pieces: &[Piece], z: f64) {
        let (top, total) = (self.z, pieces.iter().map(Piece::length).sum::<f64>());
        let (feed, mut gone) = (self.feed(z), 0.0);
        for (i, piece) in pieces.iter().enumerate() {
            gone += piece.length();
            let here = if i + 1 == pieces.len() {
                z
            } else {
                top + (z - top) * gone / total
            };
            self.moves.push(along(piece, here, feed));
        }
        self.at = pieces.last().map_or(self.at, |p| p.end);
        self.z = z;
    }

    /// Round a ring from a place on it, level.
    pub(crate) fn round(&mut self, ring: &Ring, from: f64, length: f64) {
        let z = self.z;
        let from = from.rem_euclid(ring.length());
        self.follow(&ring.road.between(from, from + length), z);
        self.along = from + length;
    }

    /// Down to a floor and once round the ring there, from where the bit is on it: along the ring itself, round a helix where it is small and
    /// there is room for one, or straight down for a bit that may. Whether there was a way.
    pub(crate) fn enter(&mut self, ring: &Ring, room: f64, floor: f64) -> bool {
        let bit = self.setup.tool.bit;
        let length = ring.length();
        let helix = (HELIX * bit.diameter).min(room);
        if length >= SMALL * bit.diameter {
            let needed = (self.z - floor) / self.setup.router.ramp.tan();
            self.follow(&ring.road.between(self.along, self.along + needed), floor);
            self.round(ring, self.along + needed, length);
        } else if helix >= LEAST_HELIX {
            self.helix(helix, floor);
            self.round(ring, self.along, length);
        } else if bit.plunges {
            self.down(floor);
            self.round(ring, self.along, length);
        } else {
            return false;
        }
        true
    }

    /// Round and down about where the bit stands, once round on the floor, and back to the middle.
    fn helix(&mut self, radius: f64, floor: f64) {
        let middle = self.at;
        let sense = if self.setup.router.cut == Cut::Climb {
            PI
        } else {
            -PI
        };
        let there = Piece::arc(middle, middle + Vec2::new(radius, 0.0), sense);
        let back = Piece {
            start: there.end,
            end: there.start,
            bulge: there.bulge,
        };
        self.straight(there.start);
        let fall = fall_a_turn(radius, self.setup.tool, self.setup.router.ramp);
        let turns = crate::Passes::of(self.z - floor, fall);
        let top = self.z;
        for turn in 1..=turns.count {
            let z = if turn == turns.count {
                floor
            } else {
                top - turns.step * f64::from(turn)
            };
            self.follow(&[there, back], z);
        }
        self.follow(&[there, back], floor);
        self.straight(middle);
    }

    /// From the ring on which it is, the first, out to the last: each once round.
    pub(crate) fn outward(&mut self, rings: &[&Ring], near: f64) {
        for pair in rings.windows(2) {
            let (ring, next) = (pair[0], pair[1]);
            let leave = ring.way_to(self.along, next, near);
            if leave > self.along + 1e-6 {
                self.round(ring, self.along, leave - self.along);
            }
            let on = next.along_of(self.at);
            self.straight(next.point_at(on));
            self.round(next, on, next.length());
        }
    }

    /// Off the wall, straight to the nearest of some rings, so that the bit is not lifted along it; only where that is no farther
    /// than `near`, and so straight across what is cut.
    pub(crate) fn aside(&mut self, rings: &[&Ring], near: f64) {
        let at = self.at;
        let back = rings
            .iter()
            .map(|r| r.edge.nearest(at))
            .min_by(|a, b| a.distance.total_cmp(&b.distance));
        if let Some(back) = back.filter(|b| b.distance <= near) {
            self.straight(back.point);
        }
    }
}
