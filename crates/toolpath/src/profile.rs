//! An edge that is cut all round: its road, its tabs, the way in, the lap that finishes it.

use crate::contour::{Contour, Way, places, ways};
use crate::cuts::{Owner, Setup, parallels};
use crate::lap::LastLap;
use crate::lead::{Lead, Room};
use crate::passes::{Passes, ramp_length};
use crate::plan::APPROACH;
use crate::relief::relieved;
use crate::road::Road;
use crate::run::{Cutting, Span, free_of_tabs};
use crate::tabs::{self, Tabs};
use crate::{Edge, Error, Note};
use cintre_geometry::{Outline, Point, Rect, parallel};
use cintre_work::{Cut, Tab, TabRule};

/// Where the bit may go in along a rough road: so many places are enough to choose the order by.
const MOST_WAYS: usize = 8;

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

    /// What the passes leave for the last lap, a light cut for the bit; 0 for no such lap.
    fn allowance(&self) -> Result<f64, Error> {
        let (finish, most) = (self.setup.router.finish, self.radius() / 2.0);
        if finish > most {
            return Err(Error::Finish {
                bit: self.setup.tool.bit.name.clone(),
                finish,
                most,
            });
        }
        Ok(finish)
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

    /// The rule for tabs on this edge; none where the shop wants none, or where nothing but chips comes out of an opening.
    fn rule(&self) -> Result<Option<TabRule>, Error> {
        let Some(rule) = self.setup.tabs() else {
            return Ok(None);
        };
        let diameter = 2.0 * self.radius();
        // Wood left standing inside an opening when the bit has gone round it.
        let slug = self.edge == Edge::Outline
            || !parallels(self.owner.name, self.edge, self.outline, diameter)?.is_empty();
        let bounds = self.outline.bounds();
        let longest = bounds.width().max(bounds.height());
        if self.edge == Edge::Outline && rule.width >= longest {
            return Err(Error::TabWidth {
                part: self.owner.name.to_owned(),
                width: rule.width,
                longest,
            });
        }
        let thickness = self.setup.stock.thickness;
        if slug && rule.height >= thickness {
            return Err(Error::TabHeight {
                height: rule.height,
                thickness,
            });
        }
        Ok(slug.then_some(rule))
    }

    fn placed(&self, road: &Road, rule: Option<&TabRule>, ramp: f64, off: Option<(Point, f64)>) -> Tabs {
        let Some(rule) = rule else {
            return Tabs::default();
        };
        let diameter = 2.0 * self.radius();
        let clearance = tabs::clearance(rule, diameter);
        let clear = |p: Point| {
            off.is_none_or(|(at, least)| p.distance(at) >= least)
                && (self.edge != Edge::Outline || self.setup.leaves_wood_beyond(p))
                && self
                    .neighbours()
                    .iter()
                    .all(|n| n.nearest(p).distance >= clearance)
        };
        tabs::place(road, (rule, diameter), ramp, &clear)
    }

    fn neighbours(&self) -> &[&Outline] {
        if self.edge == Edge::Outline {
            &self.owner.neighbours
        } else {
            &[]
        }
    }

    fn others_tabs_matter(&self) -> bool {
        !self.neighbours().is_empty()
    }

    fn no_tabs(&self) -> Error {
        // From edge to edge: this cut's own half and the room that the tab's middle needs.
        Error::NoTabs {
            part: self.owner.name.to_owned(),
            needed: self.setup.clearance() + self.radius(),
        }
    }

    fn of_tabs(&self, entry: &Entry, rule: Option<&TabRule>) -> Vec<Note> {
        let (part, edge) = (self.owner.name.to_owned(), self.edge);
        let Some(rule) = rule else { return Vec::new() };
        let Tabs {
            spans,
            wanted,
            near_corners,
        } = &entry.tabs;
        let few = (spans.len() < *wanted).then(|| Note::FewTabs {
            part: part.clone(),
            edge,
            wanted: *wanted,
            placed: spans.len(),
            share: tabs::share(rule, 2.0 * self.radius(), *wanted, entry.road.length()),
        });
        let corners = near_corners.then_some(Note::TabsNearCorners { part, edge });
        few.into_iter().chain(corners).collect()
    }

    /// The tabs themselves, on the part's edge.
    fn left_standing(&self, entry: &Entry, rule: Option<&TabRule>) -> Vec<Tab> {
        let Some(rule) = rule else { return Vec::new() };
        let at = |s: &Span| self.outline.nearest(entry.road.point_at(s.middle)).point;
        let tab = |s: &Span| Tab {
            part: self.owner.name.to_owned(),
            at: at(s),
            width: rule.width,
            height: rule.height,
            flank: tabs::flank(rule),
        };
        entry.tabs.spans.iter().map(tab).collect()
    }

    /// The one road that leaves an allowance all round; none where it does not go round as the finished one does.
    fn allowing(&self, plain: &Outline, allowance: f64) -> Option<Road> {
        let beside = parallel(plain, allowance).ok()?;
        if beside.len() != 1 {
            return None;
        }
        let bit = (self.radius() + allowance, self.radius());
        let edges = std::slice::from_ref(self.outline);
        let made = relieved(edges, beside, bit, self.setup.router.relief, &self.owner.own);
        Some(Road::of(self.run(made.roads.first()?).pieces()))
    }

    /// The rough road under its tabs, and the lap that finishes the edge; none where no stretch is long enough between tabs.
    fn last_lap(&self, entry: &Entry, rule: Option<&TabRule>, road: Road) -> Option<Rough<'a>> {
        let reach = rule.map_or(0.0, |r| r.width + 2.0 * self.radius());
        let beside = |s: &Span| {
            let middle = road.along_of(entry.road.point_at(s.middle));
            tabs::span(&road, middle, reach)
        };
        let mut spans = entry.tabs.spans.iter().map(beside).collect::<Option<Vec<_>>>()?;
        spans.sort_by(|a, b| a.from.total_cmp(&b.from));
        let last = LastLap {
            road: entry.road.clone(),
            cutting: self.cutting(entry.tabs.spans.clone()),
            allowance: self.setup.router.finish,
            left: self.waste_left(),
            radius: self.radius(),
        };
        let cutting = self.cutting(spans.clone());
        free_of_tabs(&road, &cutting, 0.0, last.needs())?;
        let free =
            |&along: &f64| free_of_tabs(&road, &cutting, along, self.radius()).is_some_and(|at| at <= along);
        let mut ways: Vec<Way> = places(&road, self.radius())
            .into_iter()
            .filter(free)
            .map(|along| Way { along, lead: None })
            .take(MOST_WAYS)
            .collect();
        if ways.is_empty() {
            let along = free_of_tabs(&road, &cutting, 0.0, self.radius())?;
            ways.push(Way { along, lead: None });
        }
        Some(Rough {
            road,
            spans,
            ways,
            last,
        })
    }
}

/// A road with its tabs and the ways onto it.
struct Entry {
    road: Road,
    tabs: Tabs,
    ways: Vec<Way>,
}

/// A road that leaves an allowance, and what finishes it.
struct Rough<'a> {
    road: Road,
    spans: Vec<Span>,
    ways: Vec<Way>,
    last: LastLap<'a>,
}
