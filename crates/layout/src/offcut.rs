//! As large an offcut as can be had: the sheet with the least on it is shortened about its pieces, some of which find room on
//! the others, first from the right and then from above.

use crate::limit::Limit;
use crate::rng::Chance;
use crate::search::{FULLEST, pushed_in, swap_two};
use crate::separate::Search;
use crate::spread::{Spot, Spread};

/// A sheet is shortened by this share of what its pieces take up, and by half as much whenever that fails, down to the
/// least.
const FIRST: f32 = 0.4;
const LEAST: f32 = 0.01;

/// When that is had, it is shortened by this share at a time, from many beginnings, by the smaller where there is time for it;
/// and in the end by ever less.
const STEP: f32 = 0.005;
const FINE_STEP: f32 = 0.001;
const LEAST_STEP: f32 = 0.0002;

/// How many of the tries that failed are kept to begin anew from.
const MOST_FAILED: usize = 20;

/// How much of what may be spent goes for the way from the right, in tenths; what it leaves for the one from above.
const FROM_RIGHT: u64 = 7;

/// One sheet that is shortened along an axis.
#[derive(Clone, Copy)]
struct Stretch {
    sheet: usize,
    axis: usize,
}

/// Empties as much as can be of the sheet that has the least on it. Every piece is laid clear before and after.
pub(crate) fn largest(spread: &mut Spread<'_>, chance: &mut Chance, limit: Limit<'_>) {
    let all = 0..spread.boards.len();
    let Some(sheet) = all.min_by(|&a, &b| spread.area_on(a).total_cmp(&spread.area_on(b))) else {
        return;
    };
    // A search that never gives up spends all on the one way.
    let first = if limit.again() == usize::MAX {
        limit
    } else {
        limit.part(spread, FROM_RIGHT)
    };
    Stretch { sheet, axis: 0 }.shorten(spread, chance, first);
    Stretch { sheet, axis: 1 }.shorten(spread, chance, limit);
    for axis in [0, 1] {
        spread.shorten(sheet, axis, f32::INFINITY);
    }
}

impl Stretch {
    /// By large steps, each tried once, then by small ones, each tried from many beginnings, and at last by the smallest.
    fn shorten(self, spread: &mut Spread<'_>, chance: &mut Chance, limit: Limit<'_>) {
        let most = limit.part(spread, 8);
        let mut share = FIRST;
        while share > LEAST && !most.reached(spread) {
            if !self.shortened(spread, share, chance, most, 1) {
                share /= 2.0;
            }
        }
        let step = if limit.fine() { FINE_STEP } else { STEP };
        while !most.reached(spread) && self.shortened(spread, step, chance, most, limit.again()) {}
        let mut share = step / 2.0;
        while share > LEAST_STEP && !limit.reached(spread) {
            if !self.shortened(spread, share, chance, limit, 1) {
                share *= 0.7;
            }
        }
    }

    /// Whether the pieces of the sheet could be laid on a stretch that is shorter by this share, or on other sheets, in so
    /// many tries. If not, they lie as before.
    fn shortened(
        self,
        spread: &mut Spread<'_>,
        share: f32,
        chance: &mut Chance,
        limit: Limit<'_>,
        tries: usize,
    ) -> bool {
        let Self { sheet, axis } = self;
        let end = spread.end_of(sheet, axis);
        let begin = spread.boards[sheet].bounds[axis];
        let target = begin + (end - begin) * (1.0 - share);
        // The smallest steps may come as near to all that there is as they can.
        let fullest = if share > STEP { FULLEST } else { 1.0 };
        if !self.may_end_at(spread, target, fullest) {
            return false;
        }
        let before = spread.spots.clone();
        self.push_together(spread, chance.between(begin, target), end, target);
        let sheets = (0..spread.boards.len()).collect();
        let mut search = Search::new(spread, chance, sheets);
        let mut failed: Vec<(f32, Vec<Option<Spot>>)> = Vec::new();
        for _ in 0..tries {
            if search.separate(limit) {
                return true;
            }
            if limit.reached(search.spread) {
                break;
            }
            let total = search.overlaps.total();
            failed.push((total, search.spread.spots.clone()));
            failed.sort_by(|a, b| a.0.total_cmp(&b.0));
            failed.truncate(MOST_FAILED);
            let (a, b) = (
                search.chance.below(failed.len()),
                search.chance.below(failed.len()),
            );
            search.begin_at(&failed[a.min(b)].1);
            swap_two(&mut search);
        }
        spread.shorten(sheet, axis, end);
        spread.restore(&before);
        false
    }

    /// Makes the sheet end at `target`; what lies beyond `from` moves as far as the end does.
    fn push_together(self, spread: &mut Spread<'_>, from: f32, end: f32, target: f32) {
        spread.shorten(self.sheet, self.axis, target);
        for piece in spread.on(self.sheet) {
            if let Some(mut spot) = spread.spots[piece] {
                let middle = if self.axis == 0 {
                    &mut spot.pose.x
                } else {
                    &mut spot.pose.y
                };
                if *middle > from {
                    *middle -= end - target;
                }
                let spot = pushed_in(spread, piece, spot);
                spread.lift(piece);
                spread.put(piece, spot);
            }
        }
    }

    /// Whether the sheets could hold everything if this one ended there, filled no more than `fullest`, and it every piece
    /// that is on it.
    fn may_end_at(self, spread: &Spread<'_>, target: f32, fullest: f64) -> bool {
        let Self { sheet, axis } = self;
        let [x0, y0, x1, y1] = spread.boards[sheet].bounds;
        let whole = [x1 - x0, y1 - y0][axis];
        let left = target - [x0, y0][axis];
        let areas = (0..spread.boards.len()).map(|s| {
            let area = spread.lot.rooms[spread.boards[s].room].area;
            if s == sheet {
                area * f64::from(left / whole)
            } else {
                area
            }
        });
        self.shortest(spread) <= left && spread.grown_area() < fullest * areas.sum::<f64>()
    }

    /// What the longest piece on the sheet takes along the axis at least, mm.
    fn shortest(self, spread: &Spread<'_>) -> f32 {
        let shortest = |piece: usize| {
            let ways = spread.ways(piece, self.sheet).iter();
            ways.map(|w| w.reach[self.axis + 2] - w.reach[self.axis])
                .fold(f32::INFINITY, f32::min)
        };
        spread
            .on(self.sheet)
            .into_iter()
            .map(shortest)
            .fold(0.0, f32::max)
    }
}
