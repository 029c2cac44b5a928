//! Sizes for the benches: mixed as on a site, and the same on every run.

use std::ops::Range;

/// A fixed sequence of sizes: x → 1664525 x + 1013904223 modulo 2³², of which the share of 2³² is taken.
pub(crate) struct Sizes(u32);

impl Sizes {
    /// The sequence from its beginning.
    pub(crate) const fn new() -> Self {
        Self(1)
    }

    /// The next size, within `range`.
    pub(crate) fn within(&mut self, range: Range<f64>) -> f64 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let share = f64::from(self.0) / 2.0f64.powi(32);
        range.start + share * (range.end - range.start)
    }
}
