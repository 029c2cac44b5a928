//! What a road is cut with: feeds, heights, ramps, and where the bit stays up.

use crate::passes::ramp_length;
use crate::road::Road;
use cintre_work::Feeds;

/// Heights this near are one, mm.
pub(crate) const LEVEL: f64 = 1e-6;

/// A stretch of road on which the bit stays up, lengths along the road, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Span {
    pub(crate) from: f64,
    /// Where what it is left for has its middle.
    pub(crate) middle: f64,
    pub(crate) to: f64,
}

/// What a road is cut with.
#[derive(Clone, Debug)]
pub(crate) struct Cutting<'a> {
    pub(crate) feeds: &'a Feeds,
    /// Whether the bit may go straight down after a tab.
    pub(crate) plunges: bool,
    /// How steeply it goes down along its road, radians.
    pub(crate) ramp: f64,
    /// Where the bit stays up, in order along the road.
    pub(crate) tabs: Vec<Span>,
    /// The height of the tabs' tops below the face (negative), mm.
    pub(crate) top: f64,
    /// The foot of the last pass (negative), mm.
    pub(crate) floor: f64,
    /// Whether it climbs to a tab along its road, one up in one; down again only a bit that plunges.
    pub(crate) ramped: bool,
}

impl Cutting<'_> {
    /// The same on a road that begins `along` farther on and is `length` long.
    pub(crate) fn from(&self, along: f64, length: f64) -> Self {
        let mut tabs: Vec<Span> = self
            .tabs
            .iter()
            .map(|tab| {
                let from = (tab.from - along).rem_euclid(length);
                Span {
                    from,
                    middle: from + tab.middle - tab.from,
                    to: from + tab.to - tab.from,
                }
            })
            .collect();
        tabs.sort_by(|a, b| a.from.total_cmp(&b.from));
        Self { tabs, ..self.clone() }
    }

    /// How far before a tab, and how far behind it, the bit is above a floor on the tab's account, mm.
    pub(crate) fn flanks(&self, floor: f64) -> (f64, f64) {
        let rise = (self.top - floor).max(0.0);
        match (self.ramped, self.plunges) {
            (false, _) => (0.0, 0.0),
            (true, true) => (rise, rise),
            (true, false) => (rise, 0.0),
        }
    }
}

/// A fall along the road from a height to a floor, level from there on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ramp {
    pub(crate) from: f64,
    pub(crate) floor: f64,
    /// Radians.
    pub(crate) slope: f64,
}

impl Ramp {
    /// No fall: as deep all along.
    pub(crate) const fn level(floor: f64) -> Self {
        Self {
            from: floor,
            floor,
            slope: std::f64::consts::FRAC_PI_4,
        }
    }

    pub(crate) fn length(self) -> f64 {
        ramp_length(self.from - self.floor, self.slope)
    }

    pub(crate) fn height(self, along: f64) -> f64 {
        if along >= self.length() {
            self.floor
        } else {
            self.from + (self.floor - self.from) * along / self.length()
        }
    }
}

/// The first place from `from` on, within one lap, where `length` of road is free of tabs at their full height and width.
pub(crate) fn free_of_tabs(road: &Road, cutting: &Cutting<'_>, from: f64, length: f64) -> Option<f64> {
    let lap = road.length();
    let (before, behind) = cutting.flanks(cutting.floor);
    let taken = |at: f64| {
        cutting.tabs.iter().find_map(|t| {
            let width = t.to - t.from + before + behind;
            let into = (at - (t.from - before)).rem_euclid(lap);
            let ahead = (lap - into).rem_euclid(lap);
            (into < width - LEVEL)
                .then_some(width - into)
                .or((ahead < length).then_some(ahead + width))
        })
    };
    let mut at = from;
    while let Some(step) = taken(at) {
        at += step;
        if at > from + lap {
            return None;
        }
    }
    Some(at)
}
