//! What the bits leave of a patch of wood, point by point.

use super::steps;
use cintre_geometry::{Point, Rect};
use cintre_work::{Program, To};

/// The heights of a patch of stock under its bits.
pub(super) struct Wood {
    area: Rect,
    step: f64,
    across: usize,
    heights: Vec<f64>,
    /// The most that a move took at once of any point, mm.
    pub(super) deepest: f64,
    /// The most that a move straight down took.
    pub(super) plunged: f64,
}

impl Wood {
    pub(super) fn new(area: Rect, step: f64) -> Self {
        let count = |length: f64| (0_u32..).take_while(|k| f64::from(*k) * step <= length).count();
        let (across, up) = (count(area.width()), count(area.height()));
        Self {
            area,
            step,
            across,
            heights: vec![0.0; across * up],
            deepest: 0.0,
            plunged: 0.0,
        }
    }

    /// Sweeps a flat-ended bit along a whole program.
    pub(super) fn cut(&mut self, program: &Program, safe: f64) {
        let radius = program.diameter / 2.0;
        for (piece, from, to, how) in steps(program, safe) {
            if from.min(to) >= 0.0 || !piece.bounds().inflate(radius, radius).overlaps(self.area) {
                continue;
            }
            let upright = piece.length() < 1e-9;
            assert!(
                to > from || !matches!(how, To::Rapid),
                "a rapid down into the wood"
            );
            let bounds = piece.bounds().inflate(radius, radius);
            for k in 0..self.heights.len() {
                let p = self.place(k);
                if !bounds.contains(p) {
                    continue;
                }
                let near = piece.nearest(p);
                if near.distance > radius - 1e-7 {
                    continue;
                }
                let z = if upright {
                    from.min(to)
                } else {
                    from + (to - from) * near.fraction
                };
                let taken = self.heights[k] - z;
                if taken > 0.0 {
                    self.heights[k] = z;
                    self.deepest = self.deepest.max(taken);
                    if upright {
                        self.plunged = self.plunged.max(taken);
                    }
                }
            }
        }
    }

    fn place(&self, k: usize) -> Point {
        #[expect(clippy::cast_precision_loss, reason = "a few hundred points a side")]
        let at = |n: usize| n as f64 * self.step;
        Point::new(
            self.area.x0 + at(k % self.across),
            self.area.y0 + at(k / self.across),
        )
    }

    pub(super) fn points(&self) -> impl Iterator<Item = (Point, f64)> + '_ {
        (0..self.heights.len()).map(|k| (self.place(k), self.heights[k]))
    }
}
