//! Why a form cannot be made.

use crate::bending::BendingError;
use crate::curved_head::HeadError;
use crate::template::TemplateError;
use crate::trammel::TrammelError;
use cintre_lettering::UnknownLetter;

/// Why a form cannot be made of what was given. Lengths in mm.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A size is not a number, or is below the least that it may be.
    #[error("{field} is {given} mm: it must be {least} mm or more")]
    Size {
        /// The field, as the job file spells it.
        field: &'static str,
        /// What was given.
        given: f64,
        /// The least it may be.
        least: f64,
    },
    /// The soffit does not run from the left to the right.
    #[error(
        "the soffit runs from x = {from:.3} to {to:.3} mm: a form is made for an open one, from a left springing to a right one; round and oval openings have figures, pictures and patterns"
    )]
    Soffit {
        /// Where it begins.
        from: f64,
        /// Where it ends.
        to: f64,
    },
    /// The form would stand wider than what is open below it.
    #[error(
        "the soffit stands {beyond:.2} mm beyond the opening below it: a form in one piece could not be lowered, it must be made in parts: `split: true` makes a centering that comes apart by a key in its middle"
    )]
    Trapped {
        /// How far.
        beyond: f64,
    },
    /// Lagging and skin are deeper than the soffit's curve allows.
    #[error(
        "lagging of {given} mm with a skin of {skin} mm folds the rib's line over itself: {limit:.2} mm of lagging is the most for this soffit"
    )]
    Lagging {
        /// The lagging given.
        given: f64,
        /// The skin on it.
        skin: f64,
        /// The thickest lagging that works with that skin.
        limit: f64,
    },
    /// The wall is thinner than two ribs.
    #[error(
        "a wall of {given} mm has no room for two ribs of {thickness} mm and a spacer between: {limit:.1} mm is the least"
    )]
    Wall {
        /// The wall given.
        given: f64,
        /// How thick each rib is.
        thickness: f64,
        /// The thinnest wall that has room.
        limit: f64,
    },
    /// More or fewer ribs than the wall has room for.
    #[error("{given} ribs under a wall of {wall} mm: from 2 to {most} have room")]
    Ribs {
        /// The number given.
        given: usize,
        /// The wall.
        wall: f64,
        /// The most that have room.
        most: usize,
    },
    /// The tie is too shallow for its bolts.
    #[error("a tie of {given} mm is too shallow for bolt holes of {bolt} mm: {limit:.1} mm is the least")]
    Tie {
        /// The tie given.
        given: f64,
        /// The bolts' holes.
        bolt: f64,
        /// The shallowest that works.
        limit: f64,
    },
    /// The rib is too narrow for two bolts in its tie.
    #[error("bolt holes of {given} mm find no room across a rib {width:.1} mm wide: {}", largest(*.limit))]
    Bolt {
        /// The bolts' holes.
        given: f64,
        /// The rib's width at its feet.
        width: f64,
        /// The largest that work; none where none does.
        limit: Option<f64>,
    },
    /// Too little wood is left over a web opening for its bolts.
    #[error(
        "a rib-depth of {given} mm is too shallow for bolt holes of {bolt} mm: {limit:.1} mm is the least"
    )]
    RibDepth {
        /// The rib depth given.
        given: f64,
        /// The bolts' holes.
        bolt: f64,
        /// The shallowest that works.
        limit: f64,
    },
    /// No web opening has room.
    #[error("a web opening with corners of {corner} mm has no room under a rib-depth of {given} mm: {}", deepest(*.limit))]
    Opening {
        /// The rib depth given.
        given: f64,
        /// The least radius of its corners.
        corner: f64,
        /// The deepest rib that leaves room; none where no depth does, and `rib-depth` is to be left out.
        limit: Option<f64>,
    },
    /// The ring is deeper than the soffit's curve allows.
    #[error("a ring of {given} mm folds over itself: {limit:.2} mm is the most for this soffit")]
    Ring {
        /// The depth given.
        given: f64,
        /// The deepest that works.
        limit: f64,
    },
    /// The gap is wider than the opening's curve allows.
    #[error(
        "a gap of {given} mm leaves nothing of the leaf's curve: {limit:.2} mm is the most for this soffit"
    )]
    Gap {
        /// The gap given.
        given: f64,
        /// The widest that works.
        limit: f64,
    },
    /// No number of pieces fits the stock.
    #[error(
        "no division into {most} pieces or fewer fits the stock: it takes a larger sheet, or a rib-depth or a tie that is less deep"
    )]
    Pieces {
        /// The most that were tried.
        most: usize,
    },
    /// The pieces that the stock makes leave too short a lap.
    #[error(
        "a lap of {given} mm cannot be had: {pieces} pieces to a layer are the fewest that fit the stock, and their joints lap by {limit:.1} mm"
    )]
    Lap {
        /// The lap asked for.
        given: f64,
        /// The fewest pieces that fit.
        pieces: usize,
        /// The lap that they have.
        limit: f64,
    },
    /// A joint has no room for the plate over it.
    #[error(
        "the joint at x = {x:.1} mm has no room for a plate that reaches {reach:.1} mm to both sides: `build: two-layers` needs none"
    )]
    Plate {
        /// Where the joint is.
        x: f64,
        /// How far the plate reaches.
        reach: f64,
    },
    /// The wedges do not drop the centre clear.
    #[error(
        "the wedges drop the centre {drop:.1} mm, and it must drop more than a lip of {lip} mm and {clearance} mm clear: with this slope, a drive of more than {limit:.1} mm"
    )]
    Drop {
        /// What they drop it.
        drop: f64,
        /// The lip at the springing.
        lip: f64,
        /// The clearance besides.
        clearance: f64,
        /// The drive that it must be more than.
        limit: f64,
    },
    /// The notches are too deep or too wide for the rib.
    #[error(
        "notches of {width} × {depth} mm find no room in a tie of {tie:.1} mm: {limit:.1} mm is the deepest, between its joints and bolts"
    )]
    Notch {
        /// The width given.
        width: f64,
        /// The depth given.
        depth: f64,
        /// The tie's depth.
        tie: f64,
        /// The deepest that may be.
        limit: f64,
    },
    /// A closed arch is too low for two halves with wedges between.
    #[error(
        "a half {height:.1} mm high has no room over its own {raised:.1} mm of the wedges between the halves: thinner lagging or wedges that are less steep"
    )]
    Halves {
        /// How high the half's back stands.
        height: f64,
        /// What the wedges take of it.
        raised: f64,
    },
    /// A template cannot be made.
    #[error(transparent)]
    Template(#[from] TemplateError),
    /// A bending form cannot be had.
    #[error(transparent)]
    Bending(#[from] BendingError),
    /// A scale at which something of a model is too thin.
    #[error("at 1:{scale} {what} is {width:.2} mm wide, and {least:.2} mm is the least: {}", larger(*.works))]
    Thin {
        /// What is too thin.
        what: &'static str,
        /// What it measures.
        width: f64,
        /// The least that it may.
        least: f64,
        /// The scale.
        scale: f64,
        /// The smallest whole scale that works; none where none does up to full size.
        works: Option<f64>,
    },
    /// An interference that no sheet bears, or that leaves a slot no wider than the beam.
    #[error(
        "an interference of {given} mm in a sheet of {thickness} mm under a beam of {kerf} mm: from {least:.2} mm, which is play, to {most:.2} mm can be cut"
    )]
    Interference {
        /// The interference given.
        given: f64,
        /// The sheet's thickness.
        thickness: f64,
        /// The beam's whole width.
        kerf: f64,
        /// The least.
        least: f64,
        /// The most.
        most: f64,
    },
    /// A curved head cannot be made.
    #[error(transparent)]
    Head(#[from] HeadError),
    /// A trammel cannot be made.
    #[error(transparent)]
    Trammel(#[from] TrammelError),
    /// The name cannot be lettered.
    #[error(transparent)]
    Name(#[from] UnknownLetter),
}

impl Error {
    /// The field of the job file that it speaks of.
    pub const fn field(&self) -> &'static str {
        match self {
            Self::Size { field, .. } => field,
            Self::Head(error) => error.field(),
            Self::Soffit { .. } | Self::Trapped { .. } | Self::Name(_) => "arch",
            Self::Lagging { .. } => "lagging",
            Self::Wall { .. } => "wall",
            Self::Ribs { .. } => "ribs",
            Self::Tie { .. } => "tie",
            Self::Bolt { .. } => "bolt",
            Self::RibDepth { .. } | Self::Opening { .. } => "rib-depth",
            Self::Ring { .. } => "ring",
            Self::Gap { .. } => "gap",
            Self::Pieces { .. } => "stock",
            Self::Plate { .. } => "build",
            Self::Lap { .. } => "lap",
            Self::Drop { .. } => "wedge-drive",
            Self::Notch { .. } => "notch",
            Self::Halves { .. } => "lagging",
            Self::Template(error) => error.field(),
            Self::Bending(error) => error.field(),
            Self::Thin { .. } => "scale",
            Self::Interference { .. } => "interference",
            Self::Trammel(error) => error.field(),
        }
    }
}

/// Refuses what is not a length of at least `least` mm.
pub(crate) fn at_least(field: &'static str, given: f64, least: f64) -> Result<(), Error> {
    if given.is_finite() && given >= least {
        Ok(())
    } else {
        Err(Error::Size { field, given, least })
    }
}

fn largest(limit: Option<f64>) -> String {
    limit.map_or_else(
        || "none does, leave them out".into(),
        |d| format!("{d:.2} mm is the largest"),
    )
}

fn larger(works: Option<f64>) -> String {
    works.map_or_else(
        || "no scale up to full size would do, thinner sheet or a smaller `bridge` might".into(),
        |scale| format!("1:{scale} is the smallest scale that would do"),
    )
}

fn deepest(limit: Option<f64>) -> String {
    limit.map_or_else(
        || "no depth leaves any, leave it out".into(),
        |d| format!("{d:.2} mm is the most"),
    )
}
