//! What a centering is made from.

use cintre_geometry::Path;

/// What a centering is made from. Lengths in mm, angles in radians.
#[derive(Clone, Debug)]
pub struct Input {
    /// The arch's name.
    pub arch: String,
    /// Its soffit, from the left springing to the right one; a closed one runs over the top and back underneath.
    pub soffit: Path,
    /// What the soffit's arcs are out by from the curve they were fitted to; 0 where it is arcs already.
    pub fit_error: f64,
    /// The ring that is turned on it, where the arch has one.
    pub ring: Option<Ring>,
    /// The depth of the soffit from face to face of the wall.
    pub wall: f64,
    /// What the centering stays clear of.
    pub clear: Clear,
    /// The boards on the ribs.
    pub lagging: Lagging,
    /// How the ribs are built up; none to choose by size.
    pub build: Option<Build>,
    /// The depth of the level bottom below the rib line's lower foot; none to choose by the build-up.
    pub tie: Option<f64>,
    /// The wood left over a web opening, or the depth of a built-up rib's band, square to the rib's line; none for a rib
    /// without an opening, and for a band whose depth is chosen by the span.
    pub rib_depth: Option<f64>,
    /// The diameter of the bolt holes; none for a rib without.
    pub bolt: Option<f64>,
    /// The least lap of one layer's joints over the other's; none for the usual.
    pub lap: Option<f64>,
    /// How many ribs; none to choose by the wall.
    pub ribs: Option<usize>,
    /// Whether the centre comes apart along its middle.
    pub split: bool,
    /// Whether ribs have holes to lift them by; none to choose by size.
    pub lifting_holes: Option<bool>,
    /// Width and depth of notches in the ribs' level bottom, for timbers that run under all ribs; none for none.
    pub notch: Option<(f64, f64)>,
    /// Width and thickness of the spacers between ribs.
    pub spacer: (f64, f64),
    /// The wedges that it is eased by.
    pub wedges: Wedges,
    /// What is needed to tell weights.
    pub load: Load,
    /// The stock's name.
    pub stock: String,
    /// The stock's real thickness.
    pub thickness: f64,
    /// What one sheet of the stock has room for; none where it is not known.
    pub sheet: Option<Usable>,
    /// The least radius of a web opening's corners: that of the bit which cuts it.
    pub least_corner: f64,
}

/// The ring of an arch.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// How deep it is over the soffit, mm.
    pub depth: f64,
    /// Its back, run as the soffit is.
    pub back: Path,
    /// The middle lines of its joints, from soffit to back.
    pub joints: Vec<Path>,
}

/// What a centering stays clear of, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clear {
    /// Each jamb, from the ribs' sides.
    pub jambs: f64,
    /// Each face of the wall, from the outer ribs and the lagging's ends.
    pub faces: f64,
}

/// The boards that lie on the ribs, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lagging {
    /// How thick; 0 for none.
    pub thickness: f64,
    /// The thickness of a skin over them; 0 for none.
    pub skin: f64,
    /// How wide a batten is.
    pub width: f64,
    /// The widest gap between two; 0 for close boards.
    pub gap: f64,
}

impl Lagging {
    /// How far the rib's line lies inside the soffit.
    pub const fn depth(&self) -> f64 {
        self.thickness + self.skin
    }
}

/// How ribs are built up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Build {
    /// Layers side by side that fill the wall, with nothing between them.
    TurningPiece,
    /// Each rib one plate.
    Single,
    /// Each rib two layers of pieces, the joints of one covered by the other.
    TwoLayers,
    /// Each rib one layer of pieces, with a plate on both faces of every joint.
    Gusseted,
}

impl Build {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::TurningPiece => "turning piece",
            Self::Single => "single plate",
            Self::TwoLayers => "two layers, joints staggered",
            Self::Gusseted => "one layer, joints gusseted",
        }
    }
}

/// Pairs of folding wedges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wedges {
    /// Their slope, as the tangent of its angle: 1/8.
    pub slope: f64,
    /// How far one is driven back over the other to ease the centre, mm; none for what the drop needs.
    pub drive: Option<f64>,
    /// The lip at the springing that the centre must drop past, mm.
    pub lip: f64,
    /// How far clear it must come besides, mm.
    pub clearance: f64,
}

/// What weights are told from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// The masonry's weight, kN/m³.
    pub density: f64,
    /// The modulus of elasticity of the lagging along its length, N/mm², for the sum of how far it bends.
    pub stiffness: f64,
    /// A ring heavier than this calls for the caution of large centres, kN; none where nothing was stated.
    pub heaviest: Option<f64>,
}

/// The room on one sheet inside its trim, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Usable {
    /// Along the grain, or the sheet's first size where it has none.
    pub along: f64,
    /// Across it.
    pub across: f64,
    /// Whether parts may be turned by a quarter.
    pub either_way: bool,
}

impl Usable {
    /// Whether a part `length` along the grain and `width` across it goes on the sheet.
    pub fn takes(&self, length: f64, width: f64) -> bool {
        let goes = |l: f64, w: f64| l <= self.along && w <= self.across;
        goes(length, width) || self.either_way && goes(width, length)
    }
}
