//! What each tooth of a bit takes off, held against the trade's starting values.

use cintre_work::{Bit, BitKind, Feeds, Router};
use std::fmt;

/// Feeds that are far from what a bit bears.
#[derive(Clone, Debug, PartialEq)]
pub enum Chips {
    /// A bit whose teeth take off too little to cut.
    Rubs {
        /// The bit's name.
        bit: String,
        /// The material.
        material: String,
        /// What a tooth takes off, mm.
        chip: f64,
        /// The middle of the trade's starting values, mm.
        wanted: f64,
        /// The feed that gives it at the bit's speed, mm/min.
        feed: f64,
        /// The speed that gives it at the bit's feed, turns a minute, if the spindle turns so slowly.
        speed: Option<f64>,
        /// The feed that gives it with a single flute, for a bit with more, mm/min.
        one_flute: Option<f64>,
    },
    /// A bit whose teeth take off more than they bear.
    Overload {
        /// The bit's name.
        bit: String,
        /// The material.
        material: String,
        /// What a tooth takes off, mm.
        chip: f64,
        /// The most that it bears in passes so deep, mm.
        most: f64,
        /// The feed that gives that at the bit's speed, mm/min.
        feed: f64,
    },
}

impl fmt::Display for Chips {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Rubs {
                bit,
                material,
                chip,
                wanted,
                feed,
                speed,
                one_flute,
            } => {
                write!(
                    f,
                    "{bit} takes off {chip:.3} mm a tooth in {material}: it rubs and burns instead of cutting; {wanted:.2} mm is a usual start, which is {feed:.0} mm a minute at its speed"
                )?;
                if let Some(feed) = one_flute {
                    write!(f, ", {feed:.0} mm a minute with one flute")?;
                }
                if let Some(speed) = speed {
                    write!(f, ", or {speed:.0} turns a minute at its feed")?;
                }
                Ok(())
            }
            Self::Overload {
                bit,
                material,
                chip,
                most,
                feed,
            } => {
                write!(
                    f,
                    "{bit} takes off {chip:.3} mm a tooth in {material}, more than it bears in passes so deep: at most {most:.2} mm, which is {feed:.0} mm a minute at its speed"
                )
            }
        }
    }
}

/// A thinner chip rubs and burns the wood, whatever the bit: 0.002 in, mm.
pub const RUBS: f64 = 0.05;

/// Lengths of the trade's tables, mm.
const INCH: f64 = 25.4;

/// Starting values for cuts as deep as the bit is wide, in per tooth: bit diameter, then least and most for each material.
/// Tables differ by a factor of two, and light frames take a quarter to a half of it, so only what lies far out is told.
const STARTS: [(f64, [(f64, f64); 4]); 4] = [
    (
        0.125,
        [(0.004, 0.007), (0.002, 0.005), (0.003, 0.005), (0.003, 0.005)],
    ),
    (
        0.25,
        [(0.012, 0.015), (0.005, 0.007), (0.006, 0.008), (0.006, 0.009)],
    ),
    (
        0.375,
        [(0.017, 0.019), (0.013, 0.015), (0.015, 0.017), (0.015, 0.018)],
    ),
    (
        0.5,
        [(0.020, 0.025), (0.017, 0.019), (0.019, 0.021), (0.018, 0.021)],
    ),
];

/// How far over the trade's most a chip is too much: as far as its tables differ.
const TABLES_DIFFER: f64 = 2.0;

/// What a tooth takes off at each turn, mm: the feed over all the cuts that are made meanwhile.
pub fn chip(feed: f64, speed: f64, flutes: u32) -> f64 {
    feed / (speed * f64::from(flutes))
}

/// The trade's starting values for a chip, mm, least and most, by what the material's name says; none for one it does not know.
pub fn starting_chips(material: &str, diameter: f64) -> Option<(f64, f64)> {
    let column = column(material)?;
    let row = |i: usize| (STARTS[i].0 * INCH, STARTS[i].1[column]);
    let size = diameter.clamp(row(0).0, row(STARTS.len() - 1).0);
    let above = (1..STARTS.len()).find(|&i| row(i).0 >= size - 1e-9)?;
    let ((d0, low), (d1, high)) = (row(above - 1), row(above));
    let share = (size - d0) / (d1 - d0);
    let between = |a: f64, b: f64| (a + (b - a) * share) * INCH;
    Some((between(low.0, high.0), between(low.1, high.1)))
}

fn column(material: &str) -> Option<usize> {
    let name = material.to_lowercase();
    let says = |words: &[&str]| words.iter().any(|w| name.contains(w));
    if says(&["mdf", "fibreboard", "hardboard"]) {
        Some(0)
    } else if says(&["hardwood", "oak", "ash", "beech", "maple", "sapele"]) {
        Some(1)
    } else if says(&["ply"]) {
        Some(3)
    } else if says(&["softwood", "pine", "spruce", "fir", "larch"]) {
        Some(2)
    } else {
        None
    }
}

/// How much of a chip a bit bears in passes so deep: a quarter less at two diameters, half at three.
fn for_depth(depth: f64, diameter: f64) -> f64 {
    let over = (depth / diameter - 1.0).clamp(0.0, 2.0);
    1.0 - 0.25 * over
}

/// What is to be said where a bit's feeds would rub or overload it.
pub(crate) fn note(bit: &Bit, feeds: &Feeds, material: &str, router: &Router) -> Option<Chips> {
    if bit.kind != BitKind::Straight || bit.flutes == 0 {
        return None;
    }
    let taken = chip(feeds.feed, feeds.speed, bit.flutes);
    let start = starting_chips(material, bit.diameter);
    let middle = start.map_or(2.0 * RUBS, |(least, most)| f64::midpoint(least, most));
    // A small bit's own chips are thin: half the trade's least is what a light frame takes.
    let rubs = start.map_or(RUBS, |(least, _)| RUBS.min(least / 2.0));
    let bears = start.map(|(_, most)| TABLES_DIFFER * most * for_depth(feeds.depth, bit.diameter));
    let feed = |chip: f64| chip * feeds.speed * f64::from(bit.flutes);
    let (bit_name, material) = (bit.name.clone(), material.to_owned());
    if taken < rubs {
        let slower = feeds.feed / (middle * f64::from(bit.flutes));
        return Some(Chips::Rubs {
            bit: bit_name,
            material,
            chip: taken,
            wanted: middle,
            feed: feed(middle),
            speed: (slower >= router.speeds.0).then_some(slower),
            one_flute: (bit.flutes > 1).then_some(middle * feeds.speed),
        });
    }
    bears.filter(|most| taken > *most).map(|most| Chips::Overload {
        bit: bit_name,
        material,
        chip: taken,
        most,
        feed: feed(most),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::{bit, router};

    #[test]
    fn a_bit_that_burns_and_what_would_do() {
        assert!((chip(1000.0, 18000.0, 2) - 0.0278).abs() < 5e-5);
        assert!((chip(5400.0, 18000.0, 2) - 0.15).abs() < 1e-12);
        assert!((chip(2700.0, 18000.0, 1) - 0.15).abs() < 1e-12);
        assert!((chip(2500.0, 8333.0, 2) - 0.15).abs() < 1e-4);
        assert!((chip(100.0 * INCH, 18000.0, 2) / INCH - 0.0028).abs() < 5e-5);
    }

    #[test]
    fn starting_values_lie_between_the_sizes_of_the_table() {
        let (least, most) = starting_chips("plywood", 6.35).unwrap();
        assert!((least - 0.1524).abs() < 1e-9 && (most - 0.2286).abs() < 1e-9);
        let (least, _) = starting_chips("Birch ply", 9.525 / 2.0 + 6.35 / 2.0).unwrap();
        assert!((least - f64::midpoint(0.006, 0.015) * INCH).abs() < 1e-9);
        assert_eq!(starting_chips("mdf", 25.0), starting_chips("mdf", 12.7));
        assert_eq!(starting_chips("acrylic", 6.0), None);
    }

    #[test]
    fn rubbing_and_overload_are_told_with_their_figures_and_the_usual_is_not() {
        let straight = bit("straight-6", BitKind::Straight, 6.35);
        let told = |speed: f64, feed: f64, depth: f64| {
            let feeds = Feeds {
                speed,
                feed,
                plunge: 900.0,
                depth,
            };
            note(&straight, &feeds, "plywood", &router()).map(|n| n.to_string())
        };
        assert_eq!(told(16000.0, 3200.0, 5.0), None);
        let rubs = told(18000.0, 1000.0, 3.0).unwrap();
        assert!(
            rubs.contains("0.028 mm") && rubs.contains("0.19 mm") && rubs.contains("6858 mm"),
            "{rubs}"
        );
        assert!(rubs.contains("3429 mm a minute with one flute"), "{rubs}");
        let too_much = told(8000.0, 9000.0, 3.0).unwrap();
        assert!(
            too_much.contains("0.562 mm") && too_much.contains("0.46 mm"),
            "{too_much}"
        );
        assert!(
            told(8000.0, 6500.0, 6.0).is_none() && told(8000.0, 6500.0, 12.7).is_some(),
            "deep passes bear less"
        );
    }
}
