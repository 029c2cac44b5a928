//! How much two shapes overlap, near enough to tell better from worse.
//!
//! A shape stands as the round holes that fill it, the poles. Two poles overlap as deep as they reach into each other; a
//! pair that lies apart still counts for a little that falls with its distance, so that the measure always has a slope.
//! After the overlap measure of Gardeyn, Vanden Berghe and Wauters, 'An open-source heuristic to reboot 2D nesting
//! research' (2025).

/// The poles of one shape, column by column; filled up to whole lanes with poles of no size, which count for nothing.
#[derive(Clone, Debug, Default)]
pub(crate) struct Poles {
    x: Vec<f32>,
    y: Vec<f32>,
    r: Vec<f32>,
    whole: usize,
}

const LANES: usize = 8;

/// Where the poles of no size lie: so far off that they meet none.
const FAR: f32 = 1e9;

impl Poles {
    pub(crate) fn fill(&mut self, poles: impl Iterator<Item = [f32; 3]>) {
        self.x.clear();
        self.y.clear();
        self.r.clear();
        for [x, y, r] in poles {
            self.x.push(x);
            self.y.push(y);
            self.r.push(r);
        }
        self.whole = self.x.len();
        let full = self.whole.div_ceil(LANES) * LANES;
        self.x.resize(full, FAR);
        self.y.resize(full, FAR);
        self.r.resize(full, 0.0);
    }

    /// How much the two overlap, mm²; `soft` is the depth, mm, below which a pair counts for less than its depth.
    pub(crate) fn overlap(&self, other: &Self, soft: f32) -> f32 {
        let mut sums = [0.0f32; LANES];
        for i in 0..self.whole {
            let (x, y, r) = (self.x[i], self.y[i], self.r[i]);
            let columns = other
                .x
                .chunks_exact(LANES)
                .zip(other.y.chunks_exact(LANES))
                .zip(other.r.chunks_exact(LANES));
            for ((xs, ys), rs) in columns {
                for k in 0..LANES {
                    let (dx, dy) = (xs[k] - x, ys[k] - y);
                    let depth = r + rs[k] - (dx * dx + dy * dy).sqrt();
                    let apart = soft * soft / (2.0 * soft - depth.min(soft));
                    let counted = if depth >= soft { depth } else { apart };
                    sums[k] += counted * r.min(rs[k]);
                }
            }
        }
        sums.iter().sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn poles(of: &[[f32; 3]]) -> Poles {
        let mut poles = Poles::default();
        poles.fill(of.iter().copied());
        poles
    }

    #[test]
    fn overlap_falls_with_distance_without_a_step_and_never_to_nothing() {
        let fixed = poles(&[[0.0, 0.0, 50.0], [80.0, 0.0, 30.0]]);
        let at = |x: f32| poles(&[[x, 10.0, 40.0]]).overlap(&fixed, 2.0);
        let along: Vec<f32> = (0..40u8).map(|k| at(-10.0 * f32::from(k))).collect();
        assert!(along.windows(2).all(|w| w[1] < w[0]), "{along:?}");
        assert!(along[39] > 0.0);
        let one = poles(&[[0.0, 0.0, 50.0]]);
        let deep = poles(&[[60.0, 0.0, 40.0]]).overlap(&one, 2.0);
        assert!((deep - 30.0 * 40.0).abs() < 1.0, "{deep}");
        let (before, after) = (poles(&[[87.99, 0.0, 40.0]]), poles(&[[88.01, 0.0, 40.0]]));
        assert!((before.overlap(&one, 2.0) - after.overlap(&one, 2.0)).abs() < 1.0);
    }
}
