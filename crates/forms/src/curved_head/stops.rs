//! Where the segments of a run meet, so that each asks as much of its board as its neighbours.

use super::divide::Divider;
use super::segment::Segment;
use crate::centering::as_length;

/// Rounding of a box that just fits, mm, and of an angle that is just the limit, radians.
const ROUNDING: f64 = 1e-9;

/// Centres and radii nearer than this are one circle's, mm.
pub(super) const SAME: f64 = 1e-6;

/// Halvings that bring a length of any head below a micrometre.
const HALVINGS: u32 = 32;

/// And the load of a board below a millionth.
const LOAD_HALVINGS: u32 = 20;

/// So many times what a board has is looked at for a count that is too small.
const OVERLOAD: f64 = 32.0;

impl Divider<'_> {
    /// Where the segments of a run end, its own ends among them.
    pub(super) fn stops(&self, run: (f64, f64), count: usize) -> Vec<f64> {
        let (from, to) = run;
        let even = || {
            let share = |i: usize| from + (to - from) * as_length(i) / as_length(count);
            (0..=count).map(share).collect()
        };
        if count < 2 || self.is_circular(run) {
            return even();
        }
        let mut found = self.greedy(run, 1.0, count);
        let mut under = 0.0;
        // Fewer than fit ask for more than the boards have: for the refusal.
        let mut over = if found.is_some() { 1.0 } else { OVERLOAD };
        for _ in 0..LOAD_HALVINGS {
            let load = f64::midpoint(under, over);
            match self.greedy(run, load, count) {
                Some(stops) => (over, found) = (load, Some(stops)),
                None => under = load,
            }
        }
        match found {
            Some(stops) if stops.len() == count + 1 => self.evened_out(stops),
            _ => even(),
        }
    }

    /// Stops as far from one end as from the other, where the whole run is alike left and right: they are so but for rounding.
    fn evened_out(&self, stops: Vec<f64>) -> Vec<f64> {
        let whole = stops[0] + stops[stops.len() - 1];
        if !self.band.is_mirrored() || !self.band.corners.is_empty() {
            return stops;
        }
        let pairs = stops.iter().zip(stops.iter().rev());
        pairs
            .map(|(near, far)| f64::midpoint(*near, whole - far))
            .collect()
    }

    /// The ends of segments that each load their board as much as they may; none where it takes more than `most`.
    pub(super) fn greedy(&self, (from, to): (f64, f64), load: f64, most: usize) -> Option<Vec<f64>> {
        let mut stops = vec![from];
        let mut start = from;
        for _ in 0..most {
            if self.load_between(start, to) <= load {
                stops.push(to);
                return Some(stops);
            }
            let (mut fits, mut not) = (start, to);
            for _ in 0..HALVINGS {
                let middle = f64::midpoint(fits, not);
                if self.load_between(start, middle) <= load {
                    fits = middle;
                } else {
                    not = middle;
                }
            }
            if fits - start < SAME {
                return None;
            }
            stops.push(fits);
            start = fits;
        }
        None
    }

    /// What a segment asks of its board: 1 where it just fits.
    pub(super) fn load(&self, segment: &Segment) -> f64 {
        let boards = &self.input.boards;
        let bounds = segment.bounds();
        let width = (bounds.height() - self.band.width) / (boards.across() - self.band.width).max(ROUNDING);
        let length = bounds.width() / boards.along();
        let grain = segment.cross_grain() / self.input.cross_grain;
        // Rounding is taken off in the units that it is met in.
        (width - ROUNDING).max(length - ROUNDING).max(grain - ROUNDING)
    }

    fn load_between(&self, from: f64, to: f64) -> f64 {
        let segment = || Segment::new(self.band, &self.band.cut(from)?, &self.band.cut(to)?);
        match segment() {
            Some(segment) => self.load(&segment),
            // Nothing lies between yet, or the upper edge is cut short there: a longer piece may do.
            None => 0.0,
        }
    }

    /// Whether a run lies on one circle, or is one straight line.
    pub(super) fn is_circular(&self, (from, to): (f64, f64)) -> bool {
        let part = self.band.lower.part(from, to);
        let mut circles = part.pieces().map(|piece| piece.circle());
        let Some(first) = circles.next() else { return true };
        circles.all(|other| match (first, other) {
            (Some(a), Some(b)) => a.centre.distance(b.centre) < SAME && (a.radius - b.radius).abs() < SAME,
            _ => false,
        })
    }
}
