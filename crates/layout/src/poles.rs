//! How much two shapes overlap, near enough to tell better from worse.
//!
//! A shape stands as the round holes that fill it, the poles. Two poles overlap as deep as they reach into each other; a
//! pair that lies apart still counts for a little that falls with its distance, so that the measure always has a slope.
//! After the overlap measure of Gardeyn, Vanden Berghe and Wauters, 'An open-source heuristic to reboot 2D nesting
//! research' (2025).

/// The poles of one shape: by themselves, and in lanes that are worked on side by side. Lanes are filled up with poles of no
/// size, which count for nothing.
#[derive(Clone, Debug, Default)]
pub(crate) struct Poles {
    whole: Vec<[f32; 3]>,
    lanes: Vec<[Lane; 3]>,
}

const LANES: usize = 8;

type Lane = [f32; LANES];

/// Where the poles of no size lie: so far off that they meet none.
const NOTHING: [Lane; 3] = [[1e9; LANES], [1e9; LANES], [0.0; LANES]];

impl Poles {
    /// Takes these poles, each its centre and its radius, in place of those before.
    pub(crate) fn fill(&mut self, poles: impl Iterator<Item = [f32; 3]>) {
        self.whole.clear();
        self.whole.extend(poles);
        self.lanes.clear();
        self.lanes.extend(self.whole.chunks(LANES).map(|some| {
            let mut lanes = NOTHING;
            for (k, pole) in some.iter().enumerate() {
                for (lane, value) in lanes.iter_mut().zip(pole) {
                    lane[k] = *value;
                }
            }
            lanes
        }));
    }

    /// How much the two overlap, mm²; `soft` is the depth, mm, below which a pair counts for less than its depth.
    pub(crate) fn overlap(&self, other: &Self, soft: f32) -> f32 {
        let mut sums = [0.0; LANES];
        for &pole in &self.whole {
            for lanes in &other.lanes {
                sums = added(sums, pole, lanes, soft);
            }
        }
        sums.iter().sum()
    }
}

/// The sums with what one pole overlaps a lane of others. Written without a branch, so that it is done for all at once.
#[inline]
fn added(sums: Lane, [x, y, r]: [f32; 3], [xs, ys, rs]: &[Lane; 3], soft: f32) -> Lane {
    std::array::from_fn(|k| {
        let (dx, dy) = (xs[k] - x, ys[k] - y);
        let over = r + rs[k] - (dx * dx + dy * dy).sqrt() - soft;
        let counted = soft * soft / (soft - lesser(over, 0.0)) - lesser(-over, 0.0);
        sums[k] + counted * lesser(r, rs[k])
    })
}

/// `f32::min` minds what is no number, which none of these is, and takes longer.
const fn lesser(a: f32, b: f32) -> f32 {
    if a < b { a } else { b }
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
