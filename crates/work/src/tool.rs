//! Bits, and what they may be asked to do.

use std::collections::BTreeMap;

/// A cutter.
#[derive(Clone, Debug, PartialEq)]
pub struct Bit {
    /// The shop's name for it: `straight-6`.
    pub name: String,
    /// What it is.
    pub kind: BitKind,
    /// Its cutting diameter, mm.
    pub diameter: f64,
    /// How many cutting edges it has.
    pub flutes: u32,
    /// How much of its length cuts, mm.
    pub cutting_length: f64,
    /// Whether it may be driven straight down into the work.
    pub plunges: bool,
    /// Its number in the machine, if it has one.
    pub number: Option<u32>,
    /// What holds it, where the shop said.
    pub holder: Option<Holder>,
    /// Its speeds and feeds by material.
    pub feeds: BTreeMap<String, Feeds>,
}

/// What holds a bit: a collet's nut, or the spindle's nose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holder {
    /// Its diameter, mm.
    pub diameter: f64,
    /// How far above the bit's tip it begins, mm.
    pub above: f64,
}

impl Bit {
    /// How deep it cuts at most, mm: as far as it has edges, and no deeper than what holds it is above the stock, for a cut is as
    /// narrow as its bit.
    pub fn reach(&self) -> f64 {
        let strikes = self.holder.filter(|holder| holder.diameter > self.diameter);
        strikes.map_or(self.cutting_length, |holder| {
            self.cutting_length.min(holder.above)
        })
    }

    /// How far it stands out of what holds it, mm: as far as it cuts at least, where the shop did not say.
    pub fn stands_out(&self) -> f64 {
        self.holder.map_or(self.cutting_length, |holder| holder.above)
    }
}

/// What a bit is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BitKind {
    /// A straight or spiral cutter with parallel sides.
    Straight,
    /// A twist drill: straight down only.
    Drill,
    /// A pointed cutter, with its included angle in radians.
    Vee(f64),
    /// A straight cutter with a bearing of this diameter, mm.
    Bearing(f64),
}

/// Speeds and feeds of one bit in one material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feeds {
    /// Spindle speed, turns a minute.
    pub speed: f64,
    /// Feed along the cut, mm/min.
    pub feed: f64,
    /// Feed straight down and on ramps, mm/min.
    pub plunge: f64,
    /// The deepest single pass, mm.
    pub depth: f64,
}
