//! Chance that is the same on every run: numbers from a seed.

/// A stream of numbers from a seed (`SplitMix64`: Steele, Lea and Flood, 2014).
#[derive(Clone, Debug)]
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Evenly from 0 up to, but not, 1.
    pub(crate) fn share(&mut self) -> f32 {
        let high = (self.next() >> 48) as u16;
        #[expect(clippy::cast_possible_truncation, reason = "the low 8 bits are meant")]
        let low = self.next() as u8;
        (f32::from(high) + f32::from(low) / 256.0) / 65536.0
    }

    /// Evenly between two numbers; the first where they are out of order.
    pub(crate) fn between(&mut self, from: f32, to: f32) -> f32 {
        from + (to - from).max(0.0) * self.share()
    }

    /// Evenly from 0 to `count` - 1; 0 where there is nothing to choose from.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        let count = count.max(1) as u64;
        usize::try_from(self.next() % count).unwrap_or(0)
    }

    /// Puts a list into any order.
    pub(crate) fn shuffle<T>(&mut self, list: &mut [T]) {
        for i in (1..list.len()).rev() {
            list.swap(i, self.below(i + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seed_gives_the_same_numbers_and_they_are_spread_evenly() {
        let (mut a, mut b, mut c) = (Chance::new(7), Chance::new(7), Chance::new(8));
        let of = |chance: &mut Chance| (0..4000).map(|_| chance.share()).collect::<Vec<_>>();
        let numbers = of(&mut a);
        assert_eq!(numbers, of(&mut b));
        assert_ne!(numbers, of(&mut c));
        assert!(numbers.iter().all(|n| (0.0..1.0).contains(n)));
        let mean = numbers.iter().sum::<f32>() / 4000.0;
        assert!((mean - 0.5).abs() < 0.02, "{mean}");
        let mut list: Vec<usize> = (0..50).collect();
        a.shuffle(&mut list);
        assert_ne!(list, (0..50).collect::<Vec<_>>());
        list.sort_unstable();
        assert_eq!(list, (0..50).collect::<Vec<_>>());
    }
}
