//! Which bits cut what.

use crate::bore::by_drill;
use crate::demand::{Demand, Reach};
use crate::{BitError, Error};
use cintre_work::{Bit, BitKind, Feeds, MarkKind, Part, Router, Stock};

/// One straight bit does everything if it is at least this share of the widest that could cut the outlines: it then takes
/// about half as much a pass at worst, which costs less than a change of bits. A finer one only does what the widest does not enter.
const WORTH_A_CHANGE: f64 = 0.5;

/// The widest straight bit that scribes marks, mm: a wider one leaves a groove that tells no place, and eats into the edges
/// near which marks begin.
const SCRIBES: f64 = 3.5;

/// The bits that cut `parts` out of `stock`, in the order in which they run: the one that scribes marks, the drills that bores
/// call for, and then the straight bits, the one that cuts the outlines last. `bits` are those that the router holds; parts of
/// other stock are left out.
///
/// There are as few straight bits as will do; where one alone would have to be less than half as wide as could be, the widest
/// cuts what it enters and finer ones the rest.
pub fn choose_bits(parts: &[Part], stock: &Stock, router: &Router, bits: &[Bit]) -> Result<Vec<Bit>, Error> {
    let parts: Vec<&Part> = parts.iter().filter(|p| p.stock == stock.name).collect();
    let chosen = Chosen::for_parts(&parts, stock, router, bits)?;
    Ok(chosen.tools.into_iter().map(|t| t.bit.clone()).collect())
}

/// The feeds of a bit in a material on a router, if it may be used there at all.
fn usable_feeds<'a>(bit: &'a Bit, material: &str, router: &Router) -> Result<&'a Feeds, BitError> {
    let feeds = bit.feeds.get(material).ok_or_else(|| BitError::NoFeeds {
        bit: bit.name.clone(),
        material: material.to_owned(),
        known: bit.feeds.keys().cloned().collect(),
    })?;
    let (slowest, fastest) = router.speeds;
    if !(slowest..=fastest).contains(&feeds.speed) {
        return Err(BitError::Speed {
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
        Err(BitError::NoMotion {
            bit: bit.name.clone(),
            material: material.to_owned(),
            feed: feeds.feed,
            plunge: feeds.plunge,
            depth: feeds.depth,
        })
    }
}

/// A bit with its feeds in the material at hand.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Tool<'a> {
    pub(crate) bit: &'a Bit,
    pub(crate) feeds: &'a Feeds,
}

impl Tool<'_> {
    pub(crate) fn radius(&self) -> f64 {
        self.bit.diameter / 2.0
    }
}

/// The bits chosen for some parts.
#[derive(Debug)]
pub(crate) struct Chosen<'a> {
    /// In the order in which they run; the last cuts the outlines.
    pub(crate) tools: Vec<Tool<'a>>,
    /// The one that scribes marks, if any does.
    pub(crate) scribe: Option<Tool<'a>>,
    /// The one that takes off arrises, if any does.
    pub(crate) vee: Option<Tool<'a>>,
    pub(crate) drills: Vec<Tool<'a>>,
    /// From the finest to the widest.
    pub(crate) straights: Vec<Tool<'a>>,
}

impl<'a> Chosen<'a> {
    pub(crate) fn for_parts(
        parts: &[&Part],
        stock: &Stock,
        router: &Router,
        bits: &'a [Bit],
    ) -> Result<Self, Error> {
        let needed = stock.thickness + router.through;
        let usable =
            |bit: &'a Bit| usable_feeds(bit, &stock.material, router).map(|feeds| Tool { bit, feeds });
        let of_kind = |wanted: fn(&Bit) -> bool| -> Vec<Tool<'a>> {
            let kind = bits.iter().filter(|b| wanted(b));
            kind.filter_map(|b| usable(b).ok()).collect()
        };
        let mut drills = of_kind(|b| b.kind == BitKind::Drill);
        let straights = straights(bits, router, &usable)?;
        let mut demands = Vec::new();
        for part in parts {
            demands.extend(Demand::all(part, &part.name, needed, &drills)?);
        }
        let straights = enough(&demands, needed, &straights)?;
        let bores = || parts.iter().flat_map(|p| &p.bores);
        let all = drills.clone();
        drills
            .retain(|d| bores().any(|b| by_drill(b, &all, needed).is_some_and(|x| x.bit.name == d.bit.name)));
        let marked =
            |wanted: fn(&MarkKind) -> bool| parts.iter().flat_map(|p| &p.marks).any(|m| wanted(&m.kind));
        let vees = of_kind(|b| matches!(b.kind, BitKind::Vee(_)));
        let chamfers = marked(|k| matches!(k, MarkKind::Chamfer { .. }));
        let scribed = router.mark_depth > 0.0 && marked(|k| matches!(k, MarkKind::Line | MarkKind::Text));
        let fine = || {
            of_kind(|b| b.kind == BitKind::Straight && b.diameter <= SCRIBES)
                .into_iter()
                .min_by(|a, b| a.bit.diameter.total_cmp(&b.bit.diameter))
        };
        let vee = vees.first().copied();
        let scribe = vee.or_else(fine).filter(|_| scribed);
        let vee = vee.filter(|_| chamfers);
        Ok(Self {
            tools: in_order(scribe.into_iter().chain(vee), &drills, &straights),
            scribe,
            vee,
            drills,
            straights,
        })
    }

    /// The bit that cuts the outlines.
    pub(crate) fn widest(&self) -> Tool<'a> {
        self.straights[self.straights.len() - 1]
    }

    /// The bit that makes a cut: one as wide as a groove, else the widest that gets everywhere, else the finest that begins.
    pub(crate) fn for_demand(&self, demand: &Demand<'_>) -> Result<Tool<'a>, Error> {
        if let Some(tool) = self.straights.iter().find(|t| demand.is_as_wide(t.bit)) {
            return Ok(*tool);
        }
        let answers: Vec<_> = self
            .straights
            .iter()
            .map(|t| (*t, demand.answered_by(t.bit)))
            .collect();
        let whole = answers.iter().rev().find(|(_, a)| matches!(a, Ok(Reach::Whole)));
        let any = || answers.iter().find(|(_, a)| a.is_ok());
        match whole.or_else(any) {
            Some((tool, _)) => Ok(*tool),
            None => Err(nearest_refusal(answers.into_iter().map(|(_, a)| a))),
        }
    }
}

/// The straight bits that may be used, from the finest to the widest; refused where there is none.
fn straights<'a>(
    bits: &'a [Bit],
    router: &Router,
    usable: &impl Fn(&'a Bit) -> Result<Tool<'a>, BitError>,
) -> Result<Vec<Tool<'a>>, BitError> {
    let mut all: Vec<&Bit> = bits.iter().filter(|b| b.kind == BitKind::Straight).collect();
    all.sort_by(|a, b| a.diameter.total_cmp(&b.diameter));
    let mut refusal = BitError::NoStraightBit {
        router: router.name.clone(),
    };
    let mut found = Vec::new();
    for bit in all {
        match usable(bit) {
            Ok(tool) => found.push(tool),
            Err(refused) => refusal = refused,
        }
    }
    if found.is_empty() { Err(refusal) } else { Ok(found) }
}

/// The fewest straight bits that do, from the finest to the widest.
fn enough<'a>(demands: &[Demand<'_>], needed: f64, straights: &[Tool<'a>]) -> Result<Vec<Tool<'a>>, Error> {
    let through: Vec<usize> = (0..straights.len())
        .filter(|&i| straights[i].bit.reach() >= needed)
        .collect();
    let Some(&widest) = through.last() else {
        let part = demands.first().map_or("the stock", |d| d.part);
        let longest = straights
            .iter()
            .max_by(|a, b| a.bit.reach().total_cmp(&b.bit.reach()));
        let too_short = BitError::TooShort {
            bit: longest.map_or_else(String::new, |t| t.bit.name.clone()),
            part: part.to_owned(),
            length: longest.map_or(0.0, |t| t.bit.reach()),
            needed,
        };
        return Err(too_short.into());
    };
    let whole = |i: usize, d: &Demand<'_>| matches!(d.answered_by(straights[i].bit), Ok(Reach::Whole));
    let alone = through
        .iter()
        .rev()
        .find(|&&i| demands.iter().all(|d| whole(i, d)));
    let wide_enough =
        |i: &&usize| straights[**i].bit.diameter >= WORTH_A_CHANGE * straights[widest].bit.diameter;
    if let Some(&i) = alone.filter(wide_enough) {
        return Ok(vec![straights[i]]);
    }
    let mut chosen = vec![widest];
    let mut open: Vec<&Demand<'_>> = demands.iter().filter(|d| !whole(widest, d)).collect();
    while !open.is_empty() {
        let count = |i: usize| open.iter().filter(|d| whole(i, d)).count();
        // Of several that do as much the last, which is the widest.
        let Some((most, i)) = (0..straights.len()).map(|i| (count(i), i)).max() else {
            break;
        };
        if most == 0 {
            break;
        }
        chosen.push(i);
        open.retain(|d| !whole(i, d));
    }
    for demand in open {
        let begins = |i: &usize| demand.answered_by(straights[*i].bit).is_ok();
        if chosen.iter().any(begins) {
            continue;
        }
        match (0..straights.len()).rev().find(|i| begins(i)) {
            Some(i) => chosen.push(i),
            None => {
                let answers = straights.iter().map(|t| demand.answered_by(t.bit));
                return Err(nearest_refusal(answers));
            }
        }
    }
    chosen.sort_unstable();
    chosen.dedup();
    Ok(chosen.into_iter().map(|i| straights[i]).collect())
}

/// Of several refusals the finest bit's says the most, unless it is only too short: it came nearest.
fn nearest_refusal<T>(answers: impl Iterator<Item = Result<T, Error>>) -> Error {
    let mut refusals: Vec<Error> = answers.filter_map(Result::err).collect();
    let best = refusals
        .iter()
        .position(|e| !matches!(e, Error::Bit(BitError::TooShort { .. })))
        .unwrap_or(0);
    refusals.swap_remove(best)
}

/// Every tool once, in the order in which they run.
fn in_order<'a>(
    marking: impl Iterator<Item = Tool<'a>>,
    drills: &[Tool<'a>],
    straights: &[Tool<'a>],
) -> Vec<Tool<'a>> {
    let cuts = |t: &Tool<'_>| straights.iter().any(|s| s.bit.name == t.bit.name);
    let mut order: Vec<Tool<'a>> = Vec::new();
    for tool in marking
        .filter(|t| !cuts(t))
        .chain(drills.iter().copied())
        .chain(straights.iter().copied())
    {
        if order.iter().all(|t| t.bit.name != tool.bit.name) {
            order.push(tool);
        }
    }
    order
}
