//! Pulling overlapping pieces apart.
//!
//! Piece by piece, each that overlaps anything is laid where it overlaps least, by weight, anywhere on any sheet that is
//! open to it; then the pairs that still overlap are weighed anew. Until nothing overlaps, or it no longer gets better.

use crate::collisions::Pose;
use crate::first::{at, span};
use crate::limit::Limit;
use crate::overlap::Overlaps;
use crate::rng::Chance;
use crate::spread::{Spot, Spread, Way};

/// A round that leaves this share of the least overlap so far counts as less.
const LESS: f32 = 0.98;

/// Places tried for a piece: near where it lies, on its own sheet, and for each other sheet, up to so many in all.
const NEAR: usize = 10;
const OWN: usize = 24;
const OTHER: usize = 6;
const MOST_OTHER: usize = 40;

/// How many of the best are moved on from.
const KEPT: usize = 3;

/// Steps, as shares of a piece's length: the first of the coarse search, its last, and the last of the fine search.
const COARSE: f32 = 0.04;
const MIDDLE: f32 = 0.008;
const FINE: f32 = 0.0006;

/// The search, with what it knows and may spend.
#[derive(Debug)]
pub(crate) struct Search<'s, 'a> {
    pub(crate) spread: &'s mut Spread<'a>,
    pub(crate) chance: &'s mut Chance,
    pub(crate) overlaps: Overlaps,
    /// The sheets that pieces may be laid on.
    pub(crate) sheets: Vec<usize>,
}

impl<'s, 'a> Search<'s, 'a> {
    pub(crate) fn new(spread: &'s mut Spread<'a>, chance: &'s mut Chance, sheets: Vec<usize>) -> Self {
        let mut overlaps = Overlaps::new(spread);
        overlaps.measure_all(spread);
        Self {
            overlaps,
            spread,
            chance,
            sheets,
        }
    }

    /// Lays all pieces as given, every pair of the weight that it had at first.
    pub(crate) fn begin_at(&mut self, spots: &[Option<Spot>]) {
        self.spread.restore(spots);
        self.overlaps = Overlaps::new(self.spread);
        self.overlaps.measure_all(self.spread);
    }

    /// Whether all pieces came to lie apart. If not, they lie where they overlapped least.
    pub(crate) fn separate(&mut self, limit: Limit<'_>) -> bool {
        let mut least = self.overlaps.total();
        let mut best = self.spread.spots.clone();
        let mut tries = 0;
        while tries < limit.tries() && least > 0.0 {
            let begun = least;
            let mut since = 0;
            while since < limit.rounds() && !limit.reached(self.spread) {
                limit.tell(self.spread);
                self.round(limit);
                let total = self.overlaps.total();
                if total <= 0.0 {
                    return true;
                }
                since = if total < least * LESS { 0 } else { since + 1 };
                if total < least {
                    least = total;
                    best.clone_from(&self.spread.spots);
                }
                self.overlaps.weigh_anew();
            }
            tries = if least < begun * LESS { 0 } else { tries + 1 };
            self.spread.restore(&best);
            self.overlaps.measure_all(self.spread);
            if limit.reached(self.spread) {
                break;
            }
        }
        least <= 0.0
    }

    /// Lays each overlapping piece once where it overlaps less.
    fn round(&mut self, limit: Limit<'_>) {
        let mut those: Vec<usize> = (0..self.spread.spots.len())
            .filter(|&p| self.overlaps.overlaps(p))
            .collect();
        self.chance.shuffle(&mut those);
        for piece in those {
            if !self.overlaps.overlaps(piece) {
                continue;
            }
            if limit.reached(self.spread) {
                return;
            }
            let now = self.overlaps.weighed(piece);
            if let Some((weighed, spot)) = self.best_spot(piece)
                && weighed < now
            {
                self.spread.lift(piece);
                self.spread.put(piece, spot);
                self.overlaps.measure(self.spread, piece);
            }
        }
    }

    /// The best place found for a piece, with what it would overlap there, by weight.
    pub(crate) fn best_spot(&mut self, piece: usize) -> Option<(f32, Spot)> {
        let mut kept: Vec<(f32, Spot)> = Vec::new();
        let own = self.spread.spots[piece];
        if let Some(spot) = own {
            if let Some(weighed) = self.overlaps.weigh(self.spread, piece, spot, f32::INFINITY) {
                kept.push((weighed, spot));
            }
            for _ in 0..NEAR {
                self.try_near(piece, spot, &mut kept);
            }
            for _ in 0..OWN {
                self.try_any(piece, spot.sheet, &mut kept);
            }
        }
        let others: Vec<usize> = self
            .sheets
            .iter()
            .copied()
            .filter(|&s| own.is_none_or(|o| o.sheet != s))
            .collect();
        let count = (OTHER * others.len()).min(MOST_OTHER);
        for n in 0..count {
            let sheet = if count < OTHER * others.len() {
                others[self.chance.below(others.len())]
            } else {
                others[n % others.len()]
            };
            self.try_any(piece, sheet, &mut kept);
        }
        let moved: Vec<(f32, Spot)> = kept
            .into_iter()
            .map(|from| self.descend(piece, from, COARSE, MIDDLE))
            .collect();
        let best = moved.into_iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
        Some(self.descend(piece, best, MIDDLE, FINE))
    }

    fn try_any(&mut self, piece: usize, sheet: usize, kept: &mut Vec<(f32, Spot)>) {
        let Some(way) = self.any_way(piece, sheet) else {
            return;
        };
        let bounds = self.spread.boards[sheet].bounds;
        let (x, y) = (span(&way, bounds, 0), span(&way, bounds, 1));
        if x.1 < x.0 || y.1 < y.0 {
            return;
        }
        let pose = at(&way, self.chance.between(x.0, x.1), self.chance.between(y.0, y.1));
        self.keep(piece, Spot { sheet, pose }, kept);
    }

    /// One of the ways that it may lie; where it turns freely, every other time any angle.
    fn any_way(&mut self, piece: usize, sheet: usize) -> Option<Way> {
        let ways = self.spread.ways(piece, sheet);
        let way = *ways.get(self.chance.below(ways.len()))?;
        let grain = self.spread.lot.rooms[self.spread.boards[sheet].room].grain();
        if self.spread.lot.kind(piece).turns_freely(grain) && self.chance.share() < 0.5 {
            let turn = f64::from(self.chance.share()) * std::f64::consts::TAU;
            let reach = self.spread.reach(piece, turn, way.flipped);
            return Some(Way { turn, reach, ..way });
        }
        Some(way)
    }

    fn try_near(&mut self, piece: usize, spot: Spot, kept: &mut Vec<(f32, Spot)>) {
        let off = 0.15 * self.spread.lot.kind(piece).shape.length();
        let Spot { sheet, pose } = spot;
        let way = if self.chance.share() < 0.7 {
            Some(self.way(piece, pose))
        } else {
            self.any_way(piece, sheet)
        };
        let Some(way) = way else { return };
        let bounds = self.spread.boards[sheet].bounds;
        let (x, y) = (span(&way, bounds, 0), span(&way, bounds, 1));
        if x.1 < x.0 || y.1 < y.0 {
            return;
        }
        let pose = at(
            &way,
            (pose.x + self.chance.between(-off, off)).clamp(x.0, x.1),
            (pose.y + self.chance.between(-off, off)).clamp(y.0, y.1),
        );
        self.keep(piece, Spot { sheet, pose }, kept);
    }

    fn way(&mut self, piece: usize, pose: Pose) -> Way {
        Way {
            turn: pose.turn,
            flipped: pose.flipped,
            reach: self.spread.reach(piece, pose.turn, pose.flipped),
        }
    }

    fn keep(&mut self, piece: usize, spot: Spot, kept: &mut Vec<(f32, Spot)>) {
        let bound = kept.get(KEPT - 1).map_or(f32::INFINITY, |k| k.0);
        if let Some(weighed) = self.overlaps.weigh(self.spread, piece, spot, bound) {
            kept.push((weighed, spot));
            kept.sort_by(|a, b| a.0.total_cmp(&b.0));
            kept.truncate(KEPT);
        }
    }

    /// Moved on by steps that shrink, for as long as it overlaps less.
    fn descend(&mut self, piece: usize, from: (f32, Spot), first: f32, last: f32) -> (f32, Spot) {
        let (mut least, mut spot) = from;
        let length = self.spread.lot.kind(piece).shape.length();
        let bounds = self.spread.boards[spot.sheet].bounds;
        let grain = self.spread.lot.rooms[self.spread.boards[spot.sheet].room].grain();
        let turns = self.spread.lot.kind(piece).turns_freely(grain);
        let mut way = self.way(piece, spot.pose);
        let mut step = first * length;
        while step > last * length && least > 0.0 {
            let by = step * (if self.chance.share() < 0.5 { 1.0 } else { -1.0 });
            let choice = self.chance.below(if turns { 5 } else { 4 });
            let moves = [(by, 0.0), (0.0, by), (by, by), (by, -by), (0.0, 0.0)];
            let (dx, dy) = moves[choice];
            let mut better = false;
            for sign in [1.0, -1.0] {
                let tried = if choice == 4 {
                    let turn = spot.pose.turn + f64::from(sign * by / length * 2.0);
                    let reach = self.spread.reach(piece, turn, way.flipped);
                    Way { turn, reach, ..way }
                } else {
                    way
                };
                let (x, y) = (span(&tried, bounds, 0), span(&tried, bounds, 1));
                if x.1 < x.0 || y.1 < y.0 {
                    continue;
                }
                let pose = at(
                    &tried,
                    (spot.pose.x + sign * dx).clamp(x.0, x.1),
                    (spot.pose.y + sign * dy).clamp(y.0, y.1),
                );
                let next = Spot { pose, ..spot };
                if let Some(weighed) = self.overlaps.weigh(self.spread, piece, next, least) {
                    (least, spot, way) = (weighed, next, tried);
                    better = true;
                    break;
                }
            }
            step *= if better { 1.1 } else { 0.6 };
        }
        (least, spot)
    }
}
