//! What a bending form is made from.

use crate::centering::Usable;
use cintre_geometry::Soffit;

/// What a bending form is made from. Lengths in mm.
#[derive(Clone, Debug)]
pub struct Input {
    /// The arch's name.
    pub arch: String,
    /// The line that the finished piece must have, exact.
    pub line: Soffit,
    /// What lines of it may stand off an exact curve.
    pub tolerance: f64,
    /// Which line of the piece that is.
    pub given: Given,
    /// The straight leg that runs on from each end of it.
    pub legs: f64,
    /// What the strips run on past the legs at each end, to be trimmed off.
    pub over_length: f64,
    /// The strips.
    pub strips: Strips,
    /// What is kept of the bend.
    pub springback: Springback,
    /// What a test piece of an earlier form came out as.
    pub measured_back: Option<MeasuredBack>,
    /// Which side of the strips the form lies on.
    pub side: Side,
    /// The liner on each face that presses; 0 for none.
    pub liner: f64,
    /// The caul on the strips' other face; 0 for none.
    pub caul: f64,
    /// How it is clamped.
    pub clamps: Clamps,
    /// What the form is built of.
    pub body: Body,
    /// The stock's name.
    pub stock: String,
    /// The stock's real thickness.
    pub thickness: f64,
    /// What one sheet of the stock has room for; none where it is not known.
    pub sheet: Option<Usable>,
}

/// A line of a laminated piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Given {
    /// The inner face, which a jamb shows.
    Inside,
    /// The middle of its thickness.
    Middle,
    /// The outer face.
    Outside,
}

/// The strips that are bent, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Strips {
    /// The thickness of each, from the inside.
    pub thicknesses: Vec<f64>,
    /// The finished width of the piece.
    pub width: f64,
    /// What the strips are wider, to be planed off.
    pub clean_up: f64,
    /// What they are and how they are bent.
    pub wood: Wood,
}

impl Strips {
    /// The thickness of all of them together.
    pub fn stack(&self) -> f64 {
        self.thicknesses.iter().sum()
    }

    /// How wide a strip is before it is planed.
    pub const fn sawn_width(&self) -> f64 {
        self.width + self.clean_up
    }
}

/// What is bent, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wood {
    /// Wood bent dry and cold.
    Dry,
    /// Wood bent out of the steam.
    Steamed,
    /// Wood bent out of the steam in a strap with end stops.
    Strapped,
    /// Plywood whose outer grain runs along the curve.
    PlyAlong,
    /// Plywood whose outer grain runs across the curve.
    PlyAcross,
}

/// What is kept of the bend once the clamps are off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Springback {
    /// What follows from the layers: 1 - Σt³ / (Σt)³.
    Layers,
    /// This share, as the shop has measured it.
    Measured(f64),
    /// All of it.
    None,
}

/// What came out of an earlier form, measured along the line that the arch gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredBack {
    /// What was measured.
    pub came_out: CameOut,
    /// The radius of the same line while the piece lay on its form; none where that was the form that the job gives without this.
    pub form: Option<f64>,
}

/// What was measured of a test piece, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CameOut {
    /// The radius of a line of one radius.
    Radius(f64),
    /// The width across its springings.
    Width(f64),
}

/// Which side of the strips the form lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Inside: the strips are drawn down over it.
    Male,
    /// Outside: the strips are pressed into it.
    Female,
    /// Both: the strips are pressed between.
    Pair,
}

/// How a form is clamped, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clamps {
    /// What they take hold of.
    pub seat: Seat,
    /// The farthest from one to the next along the outermost line; none for what caul and strips ask for.
    pub spacing: Option<f64>,
    /// The wood between the face and what they take hold of.
    pub ligament: f64,
    /// What the shop's clamps can do; none where it is not known.
    pub own: Option<Reach>,
}

/// What a form's clamps take hold of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seat {
    /// Holes of this diameter.
    Holes(f64),
    /// Flats on the back, square to each clamp.
    Flats,
}

/// What a clamp can do, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// How far it opens.
    pub opening: f64,
    /// From its bar to the middle of its jaws.
    pub throat: f64,
}

/// What a form is built of, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body {
    /// How many layers of the stock; none for as many as the strips are wide.
    pub layers: Option<usize>,
    /// How many segments the female of a pair is in; none for as many as keep the pressure square.
    pub segments: Option<usize>,
    /// The holes for the dowels that register the layers.
    pub dowel: f64,
    /// Whether it stands on a base board.
    pub base: bool,
    /// How deep a groove runs in the base along the strips' edge for what is squeezed out; 0 for none.
    pub groove: f64,
}
