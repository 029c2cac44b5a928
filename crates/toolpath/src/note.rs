//! What the joiner ought to know of a plan that can be cut.

use crate::chips::Chips;
use cintre_geometry::Point;

mod words;

/// Which edge of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// Its outer edge.
    Outline,
    /// An opening, counted from 0.
    Opening(usize),
    /// A bore, counted from 0.
    Bore(usize),
    /// A recess, counted from 0.
    Recess(usize),
    /// A mark that is a groove, counted from 0 among all marks.
    Groove(usize),
    /// A mark that is a chamfer, counted from 0 among all marks.
    Chamfer(usize),
}

/// Something to know of a plan, with its figures.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// Inside corners that the bit does not get into.
    Leftover {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
        /// The bit's name.
        bit: String,
        /// How many places.
        places: usize,
        /// The most wood left, mm.
        depth: f64,
        /// Where that is, in the sheet's frame.
        at: Point,
    },
    /// An edge that holds fewer tabs than the shop's rule asks for.
    FewTabs {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
        /// What the rule asks for.
        wanted: usize,
        /// What there is room for.
        placed: usize,
        /// The share of the cut that as many as wanted would take, with the bit beside them.
        share: f64,
    },
    /// An edge beside which there is no room for an arc in the waste.
    NoLead {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
    },
    /// An edge that gets no finishing lap.
    NoLastLap {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
    },
    /// A bit whose teeth take off too little or too much.
    Chips(Chips),
    /// A web holds the parts.
    Web {
        /// Its thickness, mm.
        thickness: f64,
    },
    /// Tabs that had to stand beside corners or on tight curves.
    TabsNearCorners {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
    },
    /// Tabs that had to stand where a bearing or a bush runs, or another part is joined.
    TabsOnClean {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
    },
    /// The router makes no tabs.
    NoTabs,
    /// Marks are not scribed by the router, which has no bit fine enough, or is told to scribe none.
    MarksLeft {
        /// How many lines.
        count: usize,
        /// Whether it is told to.
        told: bool,
    },
    /// A corner that is not relieved, since the bit would break into another edge.
    NoRelief {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
        /// Where, in the sheet's frame.
        at: Point,
    },
    /// A recess too narrow for a finishing lap of its own: every pass runs along its wall.
    NoFinish {
        /// The part.
        part: String,
        /// Which recess or groove.
        edge: Edge,
    },
    /// A drill's point goes through, but not its full diameter.
    DrillPoint {
        /// The drill's name.
        bit: String,
        /// How far its point goes below the underside, mm.
        through: f64,
    },
}
