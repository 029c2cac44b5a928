//! What a wide bit leaves and a finer one gets: inside corners and narrow places.

use crate::road::Road;
use cintre_geometry::{Outline, Path, Point};

/// Wood thinner than this is not gone after, mm: it lies below what an edge may be left by the rounding of a program.
const SLIGHT: f64 = 0.005;

/// The step in which a road is looked along, as a share of the finer bit's radius.
const LOOK: f64 = 0.15;

/// A bit has been where its centre ran: along `roads`, and over all that they enclose where `filled`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Swept<'a> {
    pub(crate) roads: &'a [Outline],
    pub(crate) radius: f64,
    pub(crate) filled: bool,
}

impl Swept<'_> {
    /// Whether all that a bit of `radius` takes at `p` has been taken.
    fn covers(&self, p: Point, radius: f64) -> bool {
        let near = |o: &Outline| o.nearest(p).distance <= self.radius - radius + SLIGHT;
        self.roads.iter().any(near)
            || self.filled && self.roads.iter().filter(|o| o.contains(p)).count() % 2 == 1
    }
}

/// The stretches of a finer bit's roads on which it takes something, carried on at both ends to where it takes no more.
pub(crate) fn stretches(fine: &[Outline], radius: f64, swept: &Swept<'_>) -> Vec<Path> {
    fine.iter()
        .flat_map(|road| of_road(road, radius, swept))
        .collect()
}

fn of_road(road: &Outline, radius: f64, swept: &Swept<'_>) -> Vec<Path> {
    let road = Road::of(road.pieces());
    let (length, step) = (road.length(), LOOK * radius);
    let looks = Looks::along(length, step, |s| !swept.covers(road.point_at(s), radius));
    looks
        .runs()
        .into_iter()
        .map(|(from, to)| {
            let (from, to) = (from - step, to + step);
            // More than once round is once round.
            let to = to.min(from + length);
            Path::from_pieces(&road.between(from.rem_euclid(length), to + from.rem_euclid(length) - from))
        })
        .collect()
}

/// What was seen at even steps round a closed road.
struct Looks {
    open: Vec<bool>,
    step: f64,
}

impl Looks {
    fn along(length: f64, about: f64, open: impl Fn(f64) -> bool) -> Self {
        let count = (length / about).ceil().max(8.0);
        let step = length / count;
        let mut seen = Vec::new();
        let mut k = 0.0;
        while k < count {
            seen.push(open(k * step));
            k += 1.0;
        }
        Self { open: seen, step }
    }

    /// The stretches that are open, each from its first to its last place; the whole road as one.
    fn runs(&self) -> Vec<(f64, f64)> {
        let n = self.open.len();
        let Some(closed) = self.open.iter().position(|o| !o) else {
            return vec![(0.0, self.place(n))];
        };
        let mut runs: Vec<(usize, usize)> = Vec::new();
        for k in closed..closed + n {
            if !self.open[k % n] {
                continue;
            }
            match runs.last_mut() {
                Some(run) if run.1 + 1 == k => run.1 = k,
                _ => runs.push((k, k)),
            }
        }
        runs.into_iter()
            .map(|(a, b)| (self.place(a), self.place(b)))
            .collect()
    }

    #[expect(clippy::cast_precision_loss, reason = "far fewer looks than a float counts")]
    fn place(&self, k: usize) -> f64 {
        k as f64 * self.step
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::{Rect, parallel};

    #[test]
    fn the_four_corners_of_an_opening_are_all_that_is_left() {
        let edge = Outline::rectangle(Rect::new(0.0, 0.0, 100.0, 60.0)).reversed();
        let (wide, fine) = (parallel(&edge, 6.0).unwrap(), parallel(&edge, 2.0).unwrap());
        let swept = Swept {
            roads: &wide,
            radius: 6.0,
            filled: false,
        };
        let found = stretches(&fine, 2.0, &swept);
        assert_eq!(found.len(), 4);
        for path in &found {
            // From where the wide bit leaves one wall to where it takes up the other.
            assert!((7.5..9.5).contains(&path.length()), "{}", path.length());
        }
        // A road that is the wide bit's own leaves nothing to do.
        assert!(stretches(&wide, 6.0, &swept).is_empty());
    }

    #[test]
    fn a_room_that_the_wide_bit_does_not_enter_is_gone_round_whole() {
        let edge = Outline::rectangle(Rect::new(0.0, 0.0, 100.0, 10.0)).reversed();
        let swept = Swept {
            roads: &[],
            radius: 6.0,
            filled: true,
        };
        let fine = parallel(&edge, 2.0).unwrap();
        let found = stretches(&fine, 2.0, &swept);
        assert_eq!(found.len(), 1);
        assert!((found[0].length() - 204.0).abs() < 1e-6);
    }
}
