//! A bit on its way along a road: where it is, how deep, and over the tabs.

use crate::cutting::{Cutting, LEVEL, Ramp, Span};
use crate::passes::ramp_length;
use crate::plan::APPROACH;
use crate::road::Road;
use cintre_geometry::Piece;
use cintre_work::{Move, To};

#[derive(Debug)]
pub(crate) struct Run<'a> {
    road: &'a Road,
    cutting: &'a Cutting<'a>,
    pub(crate) z: f64,
    pub(crate) moves: Vec<Move>,
}

impl<'a> Run<'a> {
    pub(crate) const fn new(road: &'a Road, cutting: &'a Cutting<'a>) -> Self {
        Self {
            road,
            cutting,
            z: APPROACH,
            moves: Vec::new(),
        }
    }

    /// Along the road from `from` to `to`, falling by `ramp`, never lower than a tab on a tab.
    pub(crate) fn along(&mut self, from: f64, to: f64, ramp: Ramp) {
        let stops = self.stops(from, to, ramp);
        for ends in stops.windows(2) {
            let (a, b) = (ends[0], ends[1]);
            let on_tab = self.on_tab(a.midpoint(b));
            let height = |s: f64| {
                let least = if on_tab { self.cutting.top } else { self.flank(s) };
                ramp.height(s).max(least)
            };
            let (begin, end) = (height(a), height(b));
            if begin > self.z + LEVEL {
                self.straight_to(begin, self.cutting.feeds.feed);
            } else if begin < self.z - LEVEL {
                self.down(a, begin);
            }
            self.follow(&self.road.between(a, b), end);
        }
    }

    /// Lengths at which the height changes its course: the ramp's foot and the tabs' ends and feet.
    fn stops(&self, from: f64, to: f64, ramp: Ramp) -> Vec<f64> {
        let length = self.road.length();
        let mut stops = vec![from, to, ramp.length()];
        let (before, behind) = self.cutting.flanks(ramp.floor);
        // Above the tabs' tops nothing changes at them.
        let mut lap = if ramp.floor < self.cutting.top - LEVEL {
            -length
        } else {
            f64::INFINITY
        };
        while lap < to + before {
            stops.extend(self.cutting.tabs.iter().flat_map(|t| {
                let (on, off) = (t.from + lap, t.to + lap);
                [on - before, on, off, off + behind]
            }));
            lap += length;
        }
        stops.retain(|s| (from..=to).contains(s));
        stops.sort_by(f64::total_cmp);
        // Nothing is cut between stops that only rounding sets apart.
        stops.dedup_by(|b, a| *b - *a < 1e-6);
        stops
    }

    /// The least height beside tabs that are climbed to along the road.
    fn flank(&self, along: f64) -> f64 {
        let length = self.road.length();
        let (before, behind) = self.cutting.flanks(self.cutting.floor);
        let rise = |tab: &Span| {
            // What only rounding sets before a place is at it, and not a lap away.
            let way = |d: f64| (d + LEVEL).rem_euclid(length) - LEVEL;
            let (ahead, gone) = (way(tab.from - along), way(along - tab.to));
            let up = if before > 0.0 {
                self.cutting.top - ahead
            } else {
                f64::NEG_INFINITY
            };
            let down = if behind > 0.0 {
                self.cutting.top - gone
            } else {
                f64::NEG_INFINITY
            };
            up.max(down)
        };
        self.cutting
            .tabs
            .iter()
            .map(rise)
            .fold(f64::NEG_INFINITY, f64::max)
    }

    /// Up out of the cut along the road, as steeply as there is room before the next tab.
    pub(crate) fn rise(&mut self, at: f64) {
        let rise = APPROACH - self.z;
        let length = self.next_tab(at).min(rise);
        if !self.on_tab(at) {
            self.follow(&self.road.between(at, at + length), APPROACH);
        }
    }

    /// How far the next tab is, mm; a lap where there is none.
    fn next_tab(&self, along: f64) -> f64 {
        let (s, lap) = (along.rem_euclid(self.road.length()), self.road.length());
        let (before, _) = self.cutting.flanks(self.z);
        let ahead = self
            .cutting
            .tabs
            .iter()
            .map(|t| (t.from - before - s).rem_euclid(lap));
        ahead.filter(|d| *d > 1e-6).fold(lap, f64::min)
    }

    fn on_tab(&self, along: f64) -> bool {
        let s = along.rem_euclid(self.road.length());
        self.cutting.tabs.iter().any(|t| (t.from..t.to).contains(&s))
    }

    /// Down to a height where the bit stands, if it is above it.
    pub(crate) fn down_to(&mut self, at: f64, z: f64) {
        if self.z > z + LEVEL {
            self.down(at, z);
        }
    }

    /// Down behind a tab: straight, or for a bit that does not plunge in zigzags along the road that end where they began.
    fn down(&mut self, at: f64, z: f64) {
        if self.cutting.plunges {
            return self.straight_to(z, self.cutting.feeds.plunge);
        }
        let next = self.next_tab(at);
        let half = ramp_length(self.z - z, self.cutting.ramp) / 2.0;
        let count = (half / next).ceil().max(1.0);
        let out = self.road.between(at, at + half / count);
        let back: Vec<Piece> = out.iter().rev().map(|p| p.reversed()).collect();
        let fall = (self.z - z) / count;
        let top = self.z;
        let mut k = 0.0;
        while k < count {
            self.follow(&out, top - fall * (k + 0.5));
            self.follow(
                &back,
                if k + 1.0 < count {
                    top - fall * (k + 1.0)
                } else {
                    z
                },
            );
            k += 1.0;
        }
    }

    /// Straight up or down where the bit stands.
    fn straight_to(&mut self, z: f64, feed: f64) {
        let here = self.moves.last().map_or(self.road.start(), |m| m.end);
        self.moves.push(Move {
            end: here,
            z,
            to: To::Straight { feed },
        });
        self.z = z;
    }

    /// Along pieces, the height changing evenly to `z`.
    pub(crate) fn follow(&mut self, pieces: &[Piece], z: f64) {
        let (from, total) = (self.z, pieces.iter().map(Piece::length).sum::<f64>());
        let feed = if z < from {
            self.cutting.feeds.plunge
        } else {
            self.cutting.feeds.feed
        };
        let mut gone = 0.0;
        for (i, piece) in pieces.iter().enumerate() {
            gone += piece.length();
            let here = if i + 1 == pieces.len() {
                z
            } else {
                from + (z - from) * gone / total
            };
            self.moves.push(along(piece, here, feed));
        }
        self.z = z;
    }
}

/// The move along a piece.
pub(crate) fn along(piece: &Piece, z: f64, feed: f64) -> Move {
    let to = if piece.is_line() {
        To::Straight { feed }
    } else {
        To::Arc {
            bulge: piece.bulge,
            feed,
        }
    };
    Move {
        end: piece.end,
        z,
        to,
    }
}
