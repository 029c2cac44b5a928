//! What a curved head is made from.

use crate::centering::Usable;
use cintre_geometry::Path;

/// What a curved head is made from. Lengths in mm, angles in radians.
#[derive(Clone, Debug)]
pub struct Input {
    /// The arch's name.
    pub arch: String,
    /// Its soffit, from the left springing to the right one; a closed one runs over the top and back underneath.
    pub soffit: Path,
    /// What the soffit's arcs are out by from the curve they were fitted to; 0 where it is arcs already.
    pub fit_error: f64,
    /// Which part of the opening it is.
    pub piece: Piece,
    /// How wide it is, square to the soffit.
    pub width: f64,
    /// How far it stands back from the soffit; 0 where it is flush.
    pub reveal: f64,
    /// What it is cut from.
    pub boards: Boards,
    /// How many thicknesses lie on one another; none for one, or as a jamb head's depth asks.
    pub layers: Option<usize>,
    /// How many segments a layer has; none for the fewest.
    pub segments: Option<usize>,
    /// How far the grain may run across a segment at its ends.
    pub cross_grain: f64,
    /// What holds the ends of segments together; none for the usual.
    pub joint: Option<Joint>,
    /// The least radius of an inside corner: that of the bit which cuts it.
    pub least_corner: f64,
    /// The board that it is glued up on; none for none.
    pub glue_up: Option<GlueUp>,
}

/// Which part of an opening a curved head is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// The ring itself, its ends square to the soffit.
    Head,
    /// What lines the soffit through the wall.
    JambHead {
        /// From face to face of the wall, mm.
        depth: f64,
    },
    /// The casing on a face of the wall; its legs stand as far outside plumb jambs as it stands outside the soffit.
    Casing {
        /// Whether its ends follow the true mitre; else they are straight from corner to corner.
        true_mitre: bool,
        /// How long the legs would be if they ended level with the springing, mm; none where it is not known.
        legs: Option<f64>,
    },
}

/// Straight boards.
#[derive(Clone, Debug, PartialEq)]
pub struct Boards {
    /// The stock's name.
    pub stock: String,
    /// Its real thickness, mm.
    pub thickness: f64,
    /// Length and width as bought, mm.
    pub size: (f64, f64),
    /// What is taken off length and width in all, mm.
    pub clean_up: f64,
    /// How many there are, if that is known.
    pub count: Option<usize>,
}

impl Boards {
    /// What a board's length leaves, mm.
    pub(super) const fn along(&self) -> f64 {
        self.size.0 - self.clean_up
    }

    /// What a board's width leaves, mm.
    pub(super) const fn across(&self) -> f64 {
        self.size.1 - self.clean_up
    }
}

/// What holds the ends of two segments together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// A loose tongue in slots in the middle of the thickness.
    Spline,
    /// Dowels in the middle of the thickness.
    Dowel,
    /// Fingers cut in the ends themselves, seen on the face.
    Finger,
    /// Glue alone.
    Butt,
}

impl Joint {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Spline => "spline",
            Self::Dowel => "dowel",
            Self::Finger => "finger",
            Self::Butt => "butt",
        }
    }
}

/// What a glue-up board is cut from, and its stops.
#[derive(Clone, Debug, PartialEq)]
pub struct GlueUp {
    /// The stock's name.
    pub stock: String,
    /// Its real thickness, mm.
    pub thickness: f64,
    /// What one sheet of it has room for.
    pub sheet: Usable,
    /// The diameter of the holes for stops, mm.
    pub stop: f64,
}
