//! An edge that is cut all round: its road, its tabs, the way in, the lap that finishes it.

use crate::contour::{Contour, Way, ways};
use crate::cutting::{Cutting, Span};
use crate::lead::{Lead, Room};
use crate::owner::Owner;
use crate::passes::{Passes, ramp_length};
use crate::plan::APPROACH;
use crate::road::Road;
use crate::setup::Setup;
use crate::tabs::{self, Tabs};
use crate::{Edge, Error, Note};
use cintre_geometry::{Outline, Point, Rect};
use cintre_work::{Cut, Tab, TabRule};
use rough::Rough;

mod holding;
mod rough;

/// An edge of a part, the wood on its left.
pub(crate) struct Profile<'w, 'a> {
    pub(crate) owner: &'w Owner<'w>,
    pub(crate) edge: Edge,
    pub(crate) outline: &'w Outline,
    pub(crate) setup: &'w Setup<'a>,
}

/// What comes of one road along it.
pub(crate) struct Made<'a> {
    pub(crate) contour: Contour<'a>,
    pub(crate) tabs: Vec<Tab>,
    pub(crate) notes: Vec<Note>,
}

impl<'a> Profile<'_, 'a> {
    fn radius(&self) -> f64 {
        self.setup.tool.bit.diameter / 2.0
    }

    /// Whether the waste lies on the left of the bit's travel.
    fn waste_left(&self) -> bool {
        self.setup.router.cut == Cut::Climb
    }

    /// A parallel in the bit's own direction of travel.
    fn run(&self, centre: &Outline) -> Outline {
        if self.waste_left() {
            centre.reversed()
        } else {
            centre.clone()
        }
    }

    /// The cut along one road of the bit's centre, which is `plain` with its corners relieved.
    pub(crate) fn made(&self, centre: &Outline, plain: &Outline) -> Result<Made<'a>, Error> {
        let mut notes = Vec::new();
        let rule = self.rule()?;
        let run = self.run(centre);
        let finish = self.allowance()?;
        let rough = (finish > 0.0).then(|| self.allowing(plain, finish)).flatten();
        let mut entry = self.entry(&run, rule.as_ref(), rough.is_some());
        if entry.tabs.spans.is_empty() && rule.is_some() && self.others_tabs_matter() {
            return Err(self.no_tabs());
        }
        let last = rough.and_then(|rough| self.last_lap(&entry, rule.as_ref(), rough));
        if finish > 0.0 && last.is_none() {
            notes.push(Note::NoLastLap {
                part: self.owner.name.to_owned(),
                edge: self.edge,
            });
            entry = self.entry(&run, rule.as_ref(), false);
        }
        if last.is_none() && entry.ways.iter().all(|way| way.lead.is_none()) {
            notes.push(Note::NoLead {
                part: self.owner.name.to_owned(),
                edge: self.edge,
            });
        }
        notes.extend(self.of_tabs(&entry, rule.as_ref()));
        let tabs = self.left_standing(&entry, rule.as_ref());
        Ok(Made {
            contour: self.contour(entry, last),
            tabs,
            notes,
        })
    }

    fn contour(&self, entry: Entry, last: Option<Rough<'a>>) -> Contour<'a> {
        let (road, spans, ways, last) = match last {
            Some(rough) => (rough.road, rough.spans, rough.ways, Some(rough.last)),
            None => (entry.road, entry.tabs.spans, entry.ways, None),
        };
        Contour {
            part: self.owner.name.to_owned(),
            edge: self.outline.clone(),
            road,
            passes: self.passes(),
            cutting: self.cutting(spans),
            ways,
            radius: self.radius(),
            last,
        }
    }

    fn passes(&self) -> Passes {
        Passes::of(self.setup.profile_depth(), self.setup.tool.feeds.depth)
    }

    fn cutting(&self, tabs: Vec<Span>) -> Cutting<'a> {
        let rule = self.setup.tabs();
        Cutting {
            feeds: self.setup.tool.feeds,
            plunges: self.setup.tool.bit.plunges,
            ramp: self.setup.router.ramp,
            tabs,
            top: rule.map_or(0.0, |r| r.height - self.setup.stock.thickness),
            floor: self.passes().bottom(),
            ramped: rule.is_some_and(|r| r.ramped),
        }
    }

    /// Where the bit goes in and where the tabs stand: beside a loop in the waste if there is room for one that costs no tab,
    /// or else behind the ramp along the edge.
    fn entry(&self, run: &Outline, rule: Option<&TabRule>, finished_later: bool) -> Entry {
        let road = Road::of(run.pieces());
        if finished_later {
            let tabs = self.placed(&road, rule, 0.0, None);
            return Entry {
                road,
                tabs,
                ways: Vec::new(),
            };
        }
        let ramp = ramp_length(APPROACH + self.passes().step, self.setup.router.ramp);
        let start = Road::starting_well(run, ramp);
        let along = self.placed(&start, rule, ramp, None);
        let found = ways(&road, self.waste_left(), &self.room());
        if let Some(first) = found.first() {
            let tabs = self.placed(&road, rule, 0.0, Some(self.beside(&road, first, rule)));
            let ways: Vec<Way> = found
                .into_iter()
                .filter(|way| self.stands_clear(&road, way, &tabs, rule))
                .collect();
            if tabs.spans.len() >= along.spans.len() && !ways.is_empty() {
                return Entry { road, tabs, ways };
            }
        }
        let ways = vec![Way {
            along: 0.0,
            lead: None,
        }];
        Entry {
            road: start,
            tabs: along,
            ways,
        }
    }

    /// Where a loop comes onto the road, and how far from there the middle of a tab must stand.
    fn beside(&self, road: &Road, way: &Way, rule: Option<&TabRule>) -> (Point, f64) {
        let wide = |lead: &Lead| lead.inward.circle().map_or(0.0, |c| c.radius);
        let loop_radius = way.lead.as_ref().map_or(0.0, wide);
        let half_tab = rule.map_or(0.0, |r| r.width / 2.0 + tabs::flank(r));
        let off = half_tab + loop_radius + 2.5 * self.radius();
        (road.point_at(way.along), off)
    }

    fn stands_clear(&self, road: &Road, way: &Way, tabs: &Tabs, rule: Option<&TabRule>) -> bool {
        let (at, off) = self.beside(road, way, rule);
        tabs.spans
            .iter()
            .all(|s| road.point_at(s.middle).distance(at) >= off - 1e-6)
    }

    fn room(&self) -> Room<'_> {
        let (setup, r) = (self.setup, self.radius());
        let (length, width) = setup.stock.size;
        let stock = Rect::new(r, r, length - r, width - r);
        let bed = Rect::new(0.0, 0.0, setup.router.bed.0, setup.router.bed.1);
        Room {
            radius: r,
            own: self.outline,
            others: &self.owner.edges,
            clearance: setup.passing(),
            area: stock.intersect(bed),
            keep_outs: &setup.router.keep_outs,
        }
    }
}

/// A road with its tabs and the ways onto it.
struct Entry {
    road: Road,
    tabs: Tabs,
    ways: Vec<Way>,
}
