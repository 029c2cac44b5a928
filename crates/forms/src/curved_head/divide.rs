//! How many segments, and where they meet.
//!
//! The fewest that the boards allow: each segment's box inside the board's width less its clean-up and inside its length, and
//! the grain at its ends within the limit. On one circle they are alike; on other lines every segment asks as much of its
//! board as its neighbours, so that none could be spared.

use super::band::{Band, Cut};
use super::segment::Segment;
use super::stops::SAME;
use super::{HeadError, Input, Joint, fingers, room};
use crate::Error;
use crate::centering::as_length;

/// A head's layers, each divided into segments.
#[derive(Debug)]
pub(super) struct Divided {
    /// The segments of the first layer, and of the second where layers lap.
    pub(super) layers: Vec<Vec<Segment>>,
}

pub(super) struct Divider<'a> {
    pub(super) input: &'a Input,
    pub(super) band: &'a Band,
    pub(super) joint: Joint,
    pub(super) lapped: bool,
}

impl Divider<'_> {
    pub(super) fn divided(&self) -> Result<Divided, Error> {
        let runs = self.band.runs();
        let most: Vec<usize> = runs.iter().map(|run| self.most(*run)).collect();
        if self.input.boards.across() < self.band.width {
            return Err(self.none_fits(&runs, &most).into());
        }
        let mut fewest = Vec::new();
        for (run, limit) in runs.iter().zip(&most) {
            match self.fewest(*run, *limit) {
                Some(count) => fewest.push(count),
                None => return Err(self.none_fits(&runs, &most).into()),
            }
        }
        let counts = match self.input.segments {
            None => fewest,
            Some(asked) => self.asked(asked, &runs, &fewest, &most)?,
        };
        let stops = self.all_stops(&runs, &counts);
        self.layers(&stops)
            .map(|layers| Divided { layers })
            .ok_or_else(|| room::no_room(self.input, self.joint, counts.iter().sum()).into())
    }

    /// The counts of each run that come to what was asked for.
    fn asked(
        &self,
        asked: usize,
        runs: &[(f64, f64)],
        fewest: &[usize],
        most: &[usize],
    ) -> Result<Vec<usize>, Error> {
        let (least, greatest) = (fewest.iter().sum::<usize>(), most.iter().sum::<usize>());
        if asked > greatest {
            return Err(HeadError::Many {
                given: asked,
                most: greatest,
            }
            .into());
        }
        if asked < runs.len() {
            return Err(HeadError::Corners {
                given: asked,
                fewest: least,
            }
            .into());
        }
        if asked < least {
            return Err(self.too_few(asked, runs, least).into());
        }
        let mut counts = fewest.to_vec();
        for _ in least..asked {
            share_out(&mut counts, runs, most);
        }
        Ok(counts)
    }

    fn too_few(&self, asked: usize, runs: &[(f64, f64)], fewest: usize) -> HeadError {
        let mut counts = vec![1; runs.len()];
        for _ in runs.len()..asked {
            share_out(&mut counts, runs, &vec![asked; runs.len()]);
        }
        let stops = self.all_stops(runs, &counts);
        let worst = Worst::of(self.segments(&stops).iter().flatten());
        HeadError::Few {
            given: asked,
            needed: worst.width,
            across_grain: worst.cross_grain.to_degrees(),
            across: self.input.boards.across(),
            limit: self.input.cross_grain.to_degrees(),
            fewest,
        }
    }

    /// The most segments of a run that make sense: none shorter along its middle than the head is wide.
    fn most(&self, (from, to): (f64, f64)) -> usize {
        let band = self.band;
        let upper = |at: f64| band.cut(at).map_or(0.0, |cut| cut.upper);
        let middle = f64::midpoint(to - from, upper(to) - upper(from));
        whole((middle / band.width).floor().max(1.0))
    }

    /// The fewest segments of a run that fit the boards.
    fn fewest(&self, run: (f64, f64), most: usize) -> Option<usize> {
        let first = if self.is_circular(run) {
            1
        } else {
            self.greedy(run, 1.0, most)?.len() - 1
        };
        (first..=most).find(|&count| {
            let stops = self.stops(run, count);
            let fits = |segments: Option<Vec<Segment>>| {
                segments.is_some_and(|all| all.iter().all(|one| self.load(one) <= 1.0))
            };
            fits(self.segments(&stops)) && (!self.lapped || fits(self.segments(&self.half_way(&stops))))
        })
    }

    /// Where the segments of all runs end.
    fn all_stops(&self, runs: &[(f64, f64)], counts: &[usize]) -> Vec<f64> {
        let mut all = vec![0.0];
        for (run, count) in runs.iter().zip(counts) {
            all.extend(self.stops(*run, *count).into_iter().skip(1));
        }
        all
    }

    /// The ends of the pieces of a layer whose joints lie half way between those of the layer before.
    fn half_way(&self, stops: &[f64]) -> Vec<f64> {
        let middles = stops.windows(2).map(|pair| f64::midpoint(pair[0], pair[1]));
        let mut all: Vec<f64> = middles.collect();
        if self.band.closed {
            all.push(all[0] + self.band.lower.length());
            return all;
        }
        // At a corner a piece of either layer ends: none goes round it.
        let (first, last) = (stops[0], stops[stops.len() - 1]);
        all.extend(
            self.band
                .corners
                .iter()
                .filter(|corner| (first..last).contains(*corner)),
        );
        all.extend([first, last]);
        all.sort_by(f64::total_cmp);
        all.dedup_by(|b, a| *b - *a < SAME);
        all
    }

    fn layers(&self, stops: &[f64]) -> Option<Vec<Vec<Segment>>> {
        let mut layers = vec![self.segments(stops)?];
        if self.lapped {
            layers.push(self.segments(&self.half_way(stops))?);
        }
        Some(layers)
    }

    fn segments(&self, stops: &[f64]) -> Option<Vec<Segment>> {
        let cuts: Option<Vec<Cut>> = stops.iter().map(|&at| self.cut(at)).collect();
        cuts?
            .windows(2)
            .map(|pair| Segment::new(self.band, &pair[0], &pair[1]))
            .collect()
    }

    fn cut(&self, at: f64) -> Option<Cut> {
        let cut = self.band.cut(at)?;
        if cut.joined && self.joint == Joint::Finger {
            return fingers::fingered(cut, self.input);
        }
        Some(cut)
    }

    /// Why not even the most segments fit.
    fn none_fits(&self, runs: &[(f64, f64)], most: &[usize]) -> HeadError {
        let boards = &self.input.boards;
        let stops = self.all_stops(runs, most);
        let worst = Worst::of(self.segments(&stops).iter().flatten());
        let count = most.iter().sum();
        if worst.width > boards.across() {
            return HeadError::Narrow {
                width: boards.size.1,
                clean_up: boards.clean_up,
                across: boards.across(),
                most: count,
                needed: worst.width,
                buy: worst.width + boards.clean_up,
            };
        }
        if worst.length > boards.along() {
            return HeadError::Short {
                length: boards.size.0,
                clean_up: boards.clean_up,
                most: count,
                needed: worst.length,
            };
        }
        HeadError::CrossGrain {
            given: self.input.cross_grain.to_degrees(),
            most: count,
            limit: worst.cross_grain.to_degrees(),
        }
    }
}

/// The most that any of some segments asks for.
#[derive(Clone, Copy, Debug, Default)]
struct Worst {
    width: f64,
    length: f64,
    cross_grain: f64,
}

impl Worst {
    fn of<'s>(segments: impl IntoIterator<Item = &'s Segment>) -> Self {
        segments.into_iter().fold(Self::default(), |worst, segment| {
            let bounds = segment.bounds();
            Self {
                width: worst.width.max(bounds.height()),
                length: worst.length.max(bounds.width()),
                cross_grain: worst.cross_grain.max(segment.cross_grain()),
            }
        })
    }
}

/// One more segment for the run whose segments are longest and may be shorter.
fn share_out(counts: &mut [usize], runs: &[(f64, f64)], most: &[usize]) {
    let length = |i: usize| (runs[i].1 - runs[i].0) / as_length(counts[i]);
    let room = (0..runs.len()).filter(|&i| counts[i] < most[i]);
    // Of runs alike the first.
    let longest = room.rev().max_by(|&a, &b| length(a).total_cmp(&length(b)));
    if let Some(i) = longest {
        counts[i] += 1;
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a small whole number, not negative"
)]
const fn whole(number: f64) -> usize {
    number as usize
}
