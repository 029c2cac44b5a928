//! Which bits cut what.

use crate::bore::{by_drill, least_for_bit};
use crate::cuts::parallels;
use crate::{Edge, Error};
use cintre_geometry::{Outline, parallel};
use cintre_work::{Bit, BitKind, Bore, Depth, Feeds, Part, Router, Stock};

/// The bits that cut `parts` out of `stock`, in the order in which they run: the drills that its bores call for, and then
/// one straight bit for everything else, the widest that goes into every opening and bore. `bits` are those that the router
/// holds; parts of other stock are left out.
pub fn choose_bits(parts: &[Part], stock: &Stock, router: &Router, bits: &[Bit]) -> Result<Vec<Bit>, Error> {
    let parts: Vec<&Part> = parts.iter().filter(|p| p.stock == stock.name).collect();
    let chosen = Chosen::for_parts(&parts, stock, router, bits)?;
    Ok(chosen
        .drills
        .into_iter()
        .chain([chosen.straight])
        .cloned()
        .collect())
}

/// The feeds of a bit in a material on a router, if it may be used there at all.
pub fn usable_feeds<'a>(bit: &'a Bit, material: &str, router: &Router) -> Result<&'a Feeds, Error> {
    let feeds = bit.feeds.get(material).ok_or_else(|| Error::NoFeeds {
        bit: bit.name.clone(),
        material: material.to_owned(),
        known: bit.feeds.keys().cloned().collect(),
    })?;
    let (slowest, fastest) = router.speeds;
    if !(slowest..=fastest).contains(&feeds.speed) {
        return Err(Error::Speed {
            bit: bit.name.clone(),
            router: router.name.clone(),
            speed: feeds.speed,
            slowest,
            fastest,
        });
    }
    if [feeds.feed, feeds.plunge, feeds.depth].iter().all(|f| *f > 0.0) {
        Ok(feeds)
    } else {
        Err(Error::NoMotion {
            bit: bit.name.clone(),
            material: material.to_owned(),
        })
    }
}

/// The bits chosen for some parts.
#[derive(Debug)]
pub(crate) struct Chosen<'a> {
    pub(crate) drills: Vec<&'a Bit>,
    pub(crate) straight: &'a Bit,
}

impl<'a> Chosen<'a> {
    pub(crate) fn for_parts(
        parts: &[&Part],
        stock: &Stock,
        router: &Router,
        bits: &'a [Bit],
    ) -> Result<Self, Error> {
        let needed = stock.thickness + router.through;
        let drills: Vec<&Bit> = bits
            .iter()
            .filter(|b| b.kind == BitKind::Drill && usable_feeds(b, &stock.material, router).is_ok())
            .collect();
        let mut straight: Vec<&Bit> = bits.iter().filter(|b| b.kind == BitKind::Straight).collect();
        straight.sort_by(|a, b| b.diameter.total_cmp(&a.diameter));
        let usable = |bit: &&Bit| {
            usable_feeds(bit, &stock.material, router)?;
            long_enough(bit, parts.first().map_or("the stock", |p| &p.name), needed)
        };
        let none = || Error::NoStraightBit {
            router: router.name.clone(),
        };
        let mut refusal = straight
            .first()
            .map_or_else(|| Some(none()), |bit| usable(bit).err());
        for bit in straight.into_iter().filter(|b| usable(b).is_ok()) {
            match fits(parts, bit, &drills, needed) {
                Ok(()) => {
                    let used = |d: &&Bit| {
                        parts
                            .iter()
                            .flat_map(|p| &p.bores)
                            .any(|b| by_drill(b, &drills, needed).is_some_and(|x| x.name == d.name))
                    };
                    return Ok(Self {
                        drills: drills.iter().copied().filter(used).collect(),
                        straight: bit,
                    });
                }
                // Of several refusals the smallest bit's says the most: it came nearest.
                Err(refused) => refusal = Some(refused),
            }
        }
        Err(refusal.unwrap_or_else(none))
    }
}

fn long_enough(bit: &Bit, part: &str, needed: f64) -> Result<(), Error> {
    if bit.cutting_length >= needed {
        return Ok(());
    }
    Err(Error::TooShort {
        bit: bit.name.clone(),
        part: part.to_owned(),
        length: bit.cutting_length,
        needed,
    })
}

/// Whether a straight bit goes into every opening, and into every bore that no drill makes.
fn fits(parts: &[&Part], bit: &Bit, drills: &[&Bit], needed: f64) -> Result<(), Error> {
    for part in parts {
        for (k, opening) in part.openings.iter().enumerate() {
            let edge = Edge::Opening(k);
            if parallels(&part.name, edge, &opening.oriented(false), bit.diameter / 2.0)?.is_empty() {
                return Err(Error::TooNarrow {
                    part: part.name.clone(),
                    edge,
                    bit: bit.name.clone(),
                    diameter: bit.diameter,
                    widest: widest(opening, bit.diameter),
                });
            }
        }
        let refused =
            |b: &&Bore| by_drill(b, drills, needed).is_none() && b.diameter < least_for_bit(bit.diameter);
        if let Some(bore) = part.bores.iter().find(refused) {
            let widest = bore.diameter / least_for_bit(1.0);
            return Err(Error::NoBitForBore {
                part: part.name.clone(),
                diameter: bore.diameter,
                widest,
            });
        }
    }
    Ok(())
}

/// The widest bit that goes into an opening, below one that does not, rounded down to a hundredth, mm.
fn widest(opening: &Outline, too_wide: f64) -> f64 {
    let opening = opening.oriented(false);
    let goes_in = |d: f64| parallel(&opening, d / 2.0).is_ok_and(|found| !found.is_empty());
    let (mut low, mut high) = (0.0, too_wide);
    while high - low > 1e-3 {
        let middle = f64::midpoint(low, high);
        if goes_in(middle) {
            low = middle
        } else {
            high = middle
        }
    }
    (low * 100.0).floor() / 100.0
}

/// The depth of a bore in stock cut `needed` mm deep.
pub(crate) fn depth_of(bore: &Bore, needed: f64) -> f64 {
    match bore.depth {
        Depth::Through => needed,
        Depth::Blind(depth) => depth,
    }
}
