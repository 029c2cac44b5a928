//! A closed edge to be cut, and the places at which the bit may go in.

use crate::cuts::OneCut;
use crate::cutting::Cutting;
use crate::lap::{LastLap, by_loop, by_ramp, with_last_lap};
use crate::lead::{Lead, OVERLAP, Room};
use crate::passes::Passes;
use crate::road::Road;
use cintre_geometry::{Outline, Point};

/// At most so many places to go in are looked at along one road.
const MOST: usize = 8;

/// A straight piece longer than this has a place at each quarter of it, mm.
const LONG: f64 = 400.0;

/// Where the bit may go in: how far along the road, and by which loop.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Way {
    pub(crate) along: f64,
    pub(crate) lead: Option<Lead>,
}

/// A closed edge to be cut.
#[derive(Debug)]
pub(crate) struct Contour<'a> {
    pub(crate) part: String,
    /// The edge itself: what it encloses is cut before it.
    pub(crate) edge: Outline,
    pub(crate) road: Road,
    pub(crate) passes: Passes,
    pub(crate) cutting: Cutting<'a>,
    /// The ways in, at least one.
    pub(crate) ways: Vec<Way>,
    /// The bit's radius, mm.
    pub(crate) radius: f64,
    pub(crate) last: Option<LastLap<'a>>,
}

impl Contour<'_> {
    /// Where the bit goes in by each way.
    pub(crate) fn starts(&self) -> Vec<Point> {
        let start = |way: &Way| {
            way.lead
                .map_or_else(|| self.road.point_at(way.along), |l| l.inward.start)
        };
        self.ways.iter().map(start).collect()
    }

    /// The cut, gone in by one of the ways.
    pub(crate) fn cut(&self, way: usize) -> OneCut {
        let Way { along, lead } = self.ways[way];
        let road = self.road.from(along);
        let cutting = self.cutting.from(along, road.length());
        let moves = match (&self.last, lead) {
            (Some(last), _) => with_last_lap(&road, self.passes, &cutting, last),
            (None, Some(lead)) => by_loop(&road, &lead, OVERLAP * self.radius, self.passes, &cutting),
            (None, None) => by_ramp(&road, self.passes, &cutting),
        };
        OneCut {
            part: self.part.clone(),
            start: lead.map_or_else(|| road.start(), |l| l.inward.start),
            moves,
        }
    }
}

/// The ways in by a loop that there is room for, on the longest pieces first. The waste lies on the left where `left`.
pub(crate) fn ways(road: &Road, left: bool, room: &Room<'_>) -> Vec<Way> {
    let found = places(road, room.radius).into_iter().filter_map(|along| {
        Some(Way {
            along,
            lead: Some(Lead::at(road, along, left, room)?),
        })
    });
    found.take(MOST).collect()
}

/// Places to go in: the middle of a straight piece, the start of a curve, which so stays whole.
pub(crate) fn places(road: &Road, radius: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..road.pieces.len()).collect();
    let length = |i: usize| road.pieces[i].length();
    order.retain(|&i| length(i) > 2.0 * radius);
    order.sort_by(|&a, &b| length(b).total_cmp(&length(a)));
    let at = |i: usize| {
        let (from, to) = road.extent(i);
        let shares: &[f64] = if !road.pieces[i].is_line() {
            &[0.0]
        } else if to - from > LONG {
            &[0.5, 0.25, 0.75]
        } else {
            &[0.5]
        };
        shares.iter().map(move |share| from + (to - from) * share)
    };
    order.into_iter().flat_map(at).collect()
}
