//! How deep each pass goes, and how the bit gets down to it.

/// The length of road on which a ramp of `slope` radians falls by `fall` mm.
pub fn ramp_length(fall: f64, slope: f64) -> f64 {
    fall / slope.tan()
}

/// Equal passes that make up a depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passes {
    /// How many.
    pub count: u32,
    /// How deep each goes, mm.
    pub step: f64,
}

impl Passes {
    /// The fewest equal passes to `total` mm of which none is deeper than `deepest`.
    pub fn of(total: f64, deepest: f64) -> Self {
        // A hair over a whole number of passes is rounding, not wood.
        let rounding = 1e-9;
        let mut count = 1;
        while total / f64::from(count) > deepest + rounding {
            count += 1;
        }
        Self {
            count,
            step: total / f64::from(count),
        }
    }

    /// The height of the last floor below the face, mm.
    pub fn bottom(self) -> f64 {
        -self.step * f64::from(self.count)
    }

    /// The height of each pass's floor below the face, from the first to the last, mm.
    pub fn floors(self) -> impl Iterator<Item = f64> {
        (1..=self.count).map(move |k| -self.step * f64::from(k))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn eighteen_and_three_tenths_at_three() {
        let passes = Passes::of(18.3, 3.0);
        assert_eq!(passes.count, 7);
        assert!((passes.step - 2.614).abs() < 5e-4);
        assert_eq!(Passes::of(18.3, 6.35 / 2.0).count, 6);
        assert_eq!(Passes::of(3.0 * 0.1, 0.1).count, 3);
        assert!((passes.floors().last().unwrap() + 18.3).abs() < 1e-12);
    }

    #[test]
    fn three_millimetres_take_57_mm_at_three_degrees_and_17_at_ten() {
        assert!((ramp_length(3.0, 3_f64.to_radians()) - 57.2).abs() < 0.05);
        assert!((ramp_length(3.0, 10_f64.to_radians()) - 17.0).abs() < 0.05);
    }
}
