//! A road that leaves an allowance on the edge, and the lap at full depth that takes it off.

use super::{Entry, Profile};
use crate::Error;
use crate::contour::{Way, places};
use crate::cutting::{Span, free_of_tabs};
use crate::lap::LastLap;
use crate::relief::relieved;
use crate::road::Road;
use crate::tabs;
use cintre_geometry::{Outline, parallel};
use cintre_work::TabRule;

/// Where the bit may go in along a rough road: so many places are enough to choose the order by.
const MOST_WAYS: usize = 8;

/// A road that leaves an allowance, and what finishes it.
pub(super) struct Rough<'a> {
    pub(super) road: Road,
    pub(super) spans: Vec<Span>,
    pub(super) ways: Vec<Way>,
    pub(super) last: LastLap<'a>,
}

impl<'a> Profile<'_, 'a> {
    /// What the passes leave for the last lap, a light cut for the bit; 0 for no such lap.
    pub(super) fn allowance(&self) -> Result<f64, Error> {
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

    /// The one road that leaves an allowance all round; none where it does not go round as the finished one does.
    pub(super) fn allowing(&self, plain: &Outline, allowance: f64) -> Option<Road> {
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
    pub(super) fn last_lap(&self, entry: &Entry, rule: Option<&TabRule>, road: Road) -> Option<Rough<'a>> {
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
