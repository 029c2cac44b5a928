//! Why a template cannot be made.

use cintre_geometry::ParallelError;

/// Why a template cannot be made of what was given. Lengths in mm.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TemplateError {
    /// The bush leaves the bit no room to turn in.
    #[error("a bush of {given} mm is too narrow for a bit of {bit} mm: {least} mm is the least")]
    Bush {
        /// The bush.
        given: f64,
        /// The bit.
        bit: f64,
        /// The narrowest that clears it.
        least: f64,
    },
    /// The shop has no such bush.
    #[error("the shop has no bush of {given} mm: it has {has}")]
    NotInShop {
        /// The bush.
        given: f64,
        /// Those that it has.
        has: String,
    },
    /// None of the shop's bushes clears the bit.
    #[error("a bit of {bit} mm takes a bush of {least} mm or more: the shop has {has}")]
    NoBush {
        /// The bit.
        bit: f64,
        /// The narrowest that clears it.
        least: f64,
        /// Those that the shop has.
        has: String,
    },
    /// No two bushes fit a recess and its insert.
    #[error(
        "a recess and its insert from one template take bushes two bits apart: with a bit of {bit} mm {wanted}; the shop has {has}; {fit}"
    )]
    Pair {
        /// The bit.
        bit: f64,
        /// Which two would do.
        wanted: String,
        /// Those that the shop has.
        has: String,
        /// Which of them do, with this or another of its bits.
        fit: String,
    },
    /// The bit does not go round the inside of a bend.
    #[error(
        "the work bends inwards with a radius of {radius:.3} mm, and a bit of {bit} mm does not follow it, whatever bush or bearing: {limit:.3} mm is the widest bit that does"
    )]
    Inside {
        /// The radius of the work.
        radius: f64,
        /// The bit.
        bit: f64,
        /// The widest bit that goes round.
        limit: f64,
    },
    /// The template has no radius left where the work bends outwards.
    #[error(
        "the template stands {setback:.3} mm inside the work, and the work bends outwards with a radius of {radius:.3} mm: with a bit of {bit} mm a bush or bearing of less than {limit:.3} mm would do"
    )]
    Outside {
        /// How far inside the work it stands.
        setback: f64,
        /// The radius of the work.
        radius: f64,
        /// The bit.
        bit: f64,
        /// The bush or bearing that is too wide by a hair.
        limit: f64,
    },
    /// A panel folds over itself.
    #[error("a panel {given:.3} mm past the opening folds over itself: {limit:.3} mm is the most")]
    Panel {
        /// How far past it.
        given: f64,
        /// The most that works.
        limit: f64,
    },
    /// Nothing is left of the template between its edges.
    #[error(
        "the template stands {setback:.3} mm inside the work from each edge, and nothing of it is left: the work is {width:.1} mm wide, and with a bit of {bit} mm a bush of less than {limit:.1} mm leaves {least} mm of it"
    )]
    Narrow {
        /// How far inside the work it stands.
        setback: f64,
        /// How wide the work is.
        width: f64,
        /// The bit.
        bit: f64,
        /// The bush that would do.
        limit: f64,
        /// The narrowest template.
        least: f64,
    },
    /// More is left in a corner than the chisel should take.
    #[error(
        "a bit of {bit} mm leaves {depth:.2} mm of wood in the corner at ({x:.1}, {y:.1}), and `chisel` allows {allowed} mm: {}", widest(*.limit)
    )]
    Corner {
        /// The bit.
        bit: f64,
        /// What it leaves.
        depth: f64,
        /// Where, in the arch's frame.
        x: f64,
        /// And at what height.
        y: f64,
        /// What is allowed.
        allowed: f64,
        /// The widest bit that leaves no more; none where none does.
        limit: Option<f64>,
    },
    /// The edge has no parallel there.
    #[error(transparent)]
    Parallel(#[from] ParallelError),
}

impl TemplateError {
    /// The field of the job file that it speaks of.
    pub const fn field(&self) -> &'static str {
        match self {
            Self::Bush { .. } | Self::NotInShop { .. } | Self::NoBush { .. } => "bush",
            Self::Narrow { .. } | Self::Outside { .. } => "bush",
            Self::Pair { .. } => "pair",
            Self::Inside { .. } | Self::Corner { .. } => "bit",
            Self::Panel { .. } => "groove",
            Self::Parallel(_) => "edge",
        }
    }
}

fn widest(limit: Option<f64>) -> String {
    limit.map_or_else(
        || "no bit leaves so little".to_owned(),
        |bit| format!("{bit:.2} mm is the widest bit that leaves no more"),
    )
}
