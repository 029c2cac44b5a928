//! A closed road cut in passes: down a ramp, round, over the tabs, and once more over the last ramp.

use crate::passes::{Passes, ramp_length};
use crate::plan::APPROACH;
use crate::road::Road;
use cintre_geometry::Piece;
use cintre_work::{Feeds, Move, To};

/// Heights this near are one, mm.
const LEVEL: f64 = 1e-6;

/// A stretch of road on which the bit stays up, lengths along the road, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Span {
    pub(crate) from: f64,
    pub(crate) to: f64,
}

/// What a road is cut with.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cutting<'a> {
    pub(crate) feeds: &'a Feeds,
    /// Whether the bit may go straight down after a tab.
    pub(crate) plunges: bool,
    /// Where the bit stays up, in order along the road.
    pub(crate) tabs: &'a [Span],
    /// The height of the tabs' tops below the face (negative), mm.
    pub(crate) top: f64,
}

/// The moves of a closed road, from [`APPROACH`] over its start to the foot of its last pass.
///
/// Each pass falls along the road to its own floor and runs on to the start. Its ramp lies one pass above the next one's,
/// so the bit never takes more than one pass; the last ramp's own stretch is cleared at the end.
pub(crate) fn laps(road: &Road, passes: Passes, cutting: &Cutting<'_>) -> Vec<Move> {
    let mut run = Run {
        road,
        cutting,
        z: APPROACH,
        moves: Vec::new(),
    };
    let length = road.length();
    let mut overlap = 0.0;
    for floor in passes.floors() {
        let ramp = Ramp { from: run.z, floor };
        let laps = (ramp.length() / length).ceil().max(1.0);
        run.along(0.0, laps * length, ramp);
        overlap = ramp.length() - (laps - 1.0) * length;
    }
    let floor = -passes.step * f64::from(passes.count);
    run.along(0.0, overlap, Ramp { from: floor, floor });
    run.moves
}

/// A fall along the road from a height to a floor, level from there on.
#[derive(Clone, Copy)]
struct Ramp {
    from: f64,
    floor: f64,
}

impl Ramp {
    fn length(self) -> f64 {
        ramp_length(self.from - self.floor)
    }

    fn height(self, along: f64) -> f64 {
        if along >= self.length() {
            self.floor
        } else {
            self.from + (self.floor - self.from) * along / self.length()
        }
    }
}

struct Run<'a> {
    road: &'a Road,
    cutting: &'a Cutting<'a>,
    z: f64,
    moves: Vec<Move>,
}

impl Run<'_> {
    /// Along the road from `from` to `to`, falling by `ramp`, never lower than a tab's top on a tab.
    fn along(&mut self, from: f64, to: f64, ramp: Ramp) {
        let stops = self.stops(from, to, ramp);
        for ends in stops.windows(2) {
            let (a, b) = (ends[0], ends[1]);
            let least = if self.on_tab(a.midpoint(b)) {
                self.cutting.top
            } else {
                f64::NEG_INFINITY
            };
            let (begin, end) = (ramp.height(a).max(least), ramp.height(b).max(least));
            if begin > self.z + LEVEL {
                self.straight_to(begin, self.cutting.feeds.feed);
            } else if begin < self.z - LEVEL {
                self.down(a, begin);
            }
            self.follow(&self.road.between(a, b), end);
        }
    }

    /// Lengths at which the height changes its course: the ramp's foot and the tabs' ends.
    fn stops(&self, from: f64, to: f64, ramp: Ramp) -> Vec<f64> {
        let length = self.road.length();
        let mut stops = vec![from, to, ramp.length()];
        let mut lap = 0.0;
        while lap < to {
            stops.extend(self.cutting.tabs.iter().flat_map(|t| [t.from + lap, t.to + lap]));
            lap += length;
        }
        stops.retain(|s| (from..=to).contains(s));
        stops.sort_by(f64::total_cmp);
        // Nothing is cut between stops that only rounding sets apart.
        stops.dedup_by(|b, a| *b - *a < 1e-6);
        stops
    }

    fn on_tab(&self, along: f64) -> bool {
        let s = along.rem_euclid(self.road.length());
        self.cutting.tabs.iter().any(|t| (t.from..t.to).contains(&s))
    }

    /// Down behind a tab: straight, or for a bit that does not plunge in zigzags along the road that end where they began.
    fn down(&mut self, at: f64, z: f64) {
        if self.cutting.plunges {
            return self.straight_to(z, self.cutting.feeds.plunge);
        }
        let s = at.rem_euclid(self.road.length());
        let lap = self.road.length();
        let next = self
            .cutting
            .tabs
            .iter()
            .map(|t| (t.from - s).rem_euclid(lap))
            .filter(|d| *d > 1e-6)
            .fold(lap, f64::min);
        let half = ramp_length(self.z - z) / 2.0;
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
    fn follow(&mut self, pieces: &[Piece], z: f64) {
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
