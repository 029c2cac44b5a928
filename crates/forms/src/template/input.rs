//! What a template is made from.

use super::{Guide, Pair};
use cintre_geometry::Path;

/// What a template is made from. Lengths in mm, in the arch's frame.
#[derive(Clone, Debug)]
pub struct Input {
    /// The arch's name.
    pub arch: String,
    /// The edge of the work.
    pub edge: Edge,
    /// Which side of the template is run along; a ring has both.
    pub run: Run,
    /// What follows it; of a pair the recess's bush.
    pub guide: Guide,
    /// The two bushes, where it serves a recess and its insert.
    pub pair: Option<Pair>,
    /// The diameters of the shop's other bits.
    pub other_bits: Vec<f64>,
    /// The least radius with which the exact line turns round the opening; arcs fitted to it may have a longer one.
    pub least_radius: f64,
    /// What the line's arcs are out by from the curve they were fitted to; 0 where it is arcs already.
    pub fit_error: f64,
    /// The wood beside the guided edge.
    pub room: Room,
    /// The deepest that the bit may leave wood in a corner.
    pub chisel: f64,
    /// Whether stops are fixed under it.
    pub stops: bool,
    /// The diameter of the hole to hang it by; 0 for none.
    pub hanging_hole: f64,
    /// What the machine that cuts it can do.
    pub cut: Cut,
    /// The stock's name.
    pub stock: String,
    /// The stock's real thickness.
    pub thickness: f64,
}

/// The wood beside a guided edge, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// What the router's base rests on.
    pub base: f64,
    /// What clamps hold beyond that.
    pub clamps: f64,
}

/// What the machine that cuts a template can do, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// The least radius of an inside corner.
    pub corner: f64,
    /// The diameter of the holes for screws.
    pub screw: f64,
}

/// The edge of the work that a template is for. Lines run from the left springing over the top to the right one, closed ones from
/// their left end over the top and back underneath.
#[derive(Clone, Debug, PartialEq)]
pub enum Edge {
    /// The soffit.
    Soffit(Path),
    /// The back of the ring.
    Back(Path),
    /// The ring between two lines.
    Ring {
        /// Its lower edge.
        inner: Path,
        /// Its back.
        outer: Path,
        /// How deep it is.
        depth: f64,
    },
    /// A leaf that stands clear of soffit and jambs.
    Leaf {
        /// The soffit.
        soffit: Path,
        /// How far.
        gap: f64,
    },
    /// A panel that reaches past soffit and jambs into a groove.
    Panel {
        /// The soffit.
        soffit: Path,
        /// How far.
        past: f64,
    },
}

/// Which side of a template bush or bearing run on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// Round its outside: the work lies inside its line.
    Outside,
    /// Round an opening in it: the work lies outside its line.
    Inside,
}

impl Edge {
    pub(super) const fn name(&self) -> &'static str {
        match self {
            Self::Soffit(_) => "soffit",
            Self::Back(_) => "back",
            Self::Ring { .. } => "ring",
            Self::Leaf { .. } => "leaf",
            Self::Panel { .. } => "panel",
        }
    }

    /// How deep a ring is.
    pub(super) const fn ring(&self) -> Option<f64> {
        match self {
            Self::Ring { depth, .. } => Some(*depth),
            _ => None,
        }
    }
}
