//! What one cut is made with.

use crate::choose::{Chosen, Tool};
use crate::tabs;
use cintre_geometry::{Point, Rect};
use cintre_work::{Router, Stock, TabRule};

/// What one cut is made with.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Setup<'a> {
    pub(crate) stock: &'a Stock,
    pub(crate) router: &'a Router,
    pub(crate) chosen: &'a Chosen<'a>,
    /// The bit at work.
    pub(crate) tool: Tool<'a>,
}

impl<'a> Setup<'a> {
    /// The same with another bit.
    pub(crate) const fn with(self, tool: Tool<'a>) -> Self {
        Self { tool, ..self }
    }

    /// How deep a through cut goes below the face, mm.
    pub(crate) fn needed(&self) -> f64 {
        self.stock.thickness + self.router.through
    }

    /// How deep openings and outlines are cut below the face, mm: through, or to the web.
    pub(crate) fn profile_depth(&self) -> f64 {
        if self.router.leave_web > 0.0 {
            self.stock.thickness - self.router.leave_web
        } else {
            self.needed()
        }
    }

    /// The rule for tabs; none where the shop wants none, or a web holds everything.
    pub(crate) fn tabs(&self) -> Option<TabRule> {
        self.router.tabs.filter(|_| self.router.leave_web <= 0.0)
    }

    /// How far the middle of a bit on its way in or out stays from the edges of other parts, mm.
    pub(crate) fn passing(&self) -> f64 {
        let diameter = self.tool.bit.diameter;
        self.tabs()
            .map_or(diameter, |rule| tabs::passing(&rule, diameter))
    }

    /// How far a tab stands from the outlines of other parts, mm.
    pub(crate) fn clearance(&self) -> f64 {
        let diameter = self.tool.bit.diameter;
        self.tabs()
            .map_or(diameter, |rule| tabs::clearance(&rule, diameter))
    }

    /// Whether a bit with its centre there leaves wood between its cut and the edge of the stock, for a tab to hold on to.
    pub(crate) fn leaves_wood_beyond(&self, p: Point) -> bool {
        let from_edge = self.tool.radius() + tabs::STRIP;
        let (length, width) = self.stock.size;
        let inside = Rect::new(0.0, 0.0, length, width).inset(-from_edge).contains(p);
        let outline = self.stock.outline.as_ref();
        inside && outline.is_none_or(|edge| edge.nearest(p).distance >= from_edge)
    }
}
