//! What holds a part while a bit goes round an edge: which tabs, and where they stand.

use super::{Entry, Profile};
use crate::cutting::Span;
use crate::demand::parallels;
use crate::road::Road;
use crate::tabs::{self, Tabs};
use crate::{Edge, Error, Note};
use cintre_geometry::{Outline, Point};
use cintre_work::{Tab, TabRule};

/// Fewer tabs than this let a part swing out of the sheet.
const LEAST: usize = 2;

/// The step in which the width that a tab may have is told, mm.
const STEP: f64 = 0.1;

impl Profile<'_, '_> {
    /// The rule for tabs on this edge; none where the shop wants none, or where nothing but chips comes out of an opening.
    pub(super) fn rule(&self) -> Result<Option<TabRule>, Error> {
        let Some(rule) = self.setup.tabs() else {
            return Ok(None);
        };
        let diameter = 2.0 * self.radius();
        // Wood left standing inside an opening when the bit has gone round it.
        let slug = self.edge == Edge::Outline
            || !parallels(self.owner.name, self.edge, self.outline, diameter)?.is_empty();
        if self.edge == Edge::Outline && !self.is_wider_than(rule.width)? {
            return Err(Error::TabWidth {
                part: self.owner.name.to_owned(),
                width: rule.width,
                most: self.widest_tab(rule.width)?,
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

    /// Whether a disc of that diameter lies in the part.
    fn is_wider_than(&self, width: f64) -> Result<bool, Error> {
        Ok(!parallels(self.owner.name, self.edge, self.outline, -width / 2.0)?.is_empty())
    }

    /// The widest tab that is not wider than the part, below one that is, mm.
    fn widest_tab(&self, too_wide: f64) -> Result<f64, Error> {
        let (mut low, mut high) = (0.0, too_wide);
        while high - low > STEP / 10.0 {
            let middle = f64::midpoint(low, high);
            if self.is_wider_than(middle)? {
                low = middle;
            } else {
                high = middle;
            }
        }
        Ok((low / STEP).floor() * STEP)
    }

    pub(super) fn placed(
        &self,
        road: &Road,
        rule: Option<&TabRule>,
        ramp: f64,
        off: Option<(Point, f64)>,
    ) -> Tabs {
        let Some(rule) = rule else {
            return Tabs::default();
        };
        let diameter = 2.0 * self.radius();
        let clearance = tabs::clearance(rule, diameter);
        let holds = |p: Point| {
            off.is_none_or(|(at, least)| p.distance(at) >= least)
                && (self.edge != Edge::Outline || self.setup.leaves_wood_beyond(p))
                && self
                    .neighbours()
                    .iter()
                    .all(|n| n.nearest(p).distance >= clearance)
        };
        let clean = |p: Point| tabs::keeps_off(self.owner.clean, p, (rule, diameter));
        let off_clean = tabs::place(road, (rule, diameter), ramp, &|p| holds(p) && clean(p));
        if self.owner.clean.is_empty() || off_clean.spans.len() >= LEAST {
            return off_clean;
        }
        let anywhere = tabs::place(road, (rule, diameter), ramp, &holds);
        Tabs {
            on_clean: !anywhere.spans.iter().all(|s| clean(road.point_at(s.middle))),
            ..anywhere
        }
    }

    fn neighbours(&self) -> &[&Outline] {
        if self.edge == Edge::Outline {
            &self.owner.neighbours
        } else {
            &[]
        }
    }

    pub(super) fn others_tabs_matter(&self) -> bool {
        !self.neighbours().is_empty()
    }

    pub(super) fn no_tabs(&self) -> Error {
        // From edge to edge: this cut's own half and the room that the tab's middle needs.
        Error::NoTabs {
            part: self.owner.name.to_owned(),
            needed: self.setup.clearance() + self.radius(),
        }
    }

    pub(super) fn of_tabs(&self, entry: &Entry, rule: Option<&TabRule>) -> Vec<Note> {
        let (part, edge) = (self.owner.name.to_owned(), self.edge);
        let Some(rule) = rule else { return Vec::new() };
        let Tabs {
            spans,
            wanted,
            near_corners,
            on_clean,
        } = &entry.tabs;
        let few = (spans.len() < *wanted).then(|| Note::FewTabs {
            part: part.clone(),
            edge,
            wanted: *wanted,
            placed: spans.len(),
            share: tabs::share(rule, 2.0 * self.radius(), *wanted, entry.road.length()),
        });
        let corners = near_corners.then(|| Note::TabsNearCorners {
            part: part.clone(),
            edge,
        });
        let clean = on_clean.then_some(Note::TabsOnClean { part, edge });
        few.into_iter().chain(corners).chain(clean).collect()
    }

    /// The tabs themselves, on the part's edge.
    pub(super) fn left_standing(&self, entry: &Entry, rule: Option<&TabRule>) -> Vec<Tab> {
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
}
