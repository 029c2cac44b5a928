//! Why a bending form cannot be made.

use cintre_geometry::bend::BendError;

/// Why a bending form cannot be made of what was given. Lengths in mm.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BendingError {
    /// The line is not one that strips are bent along.
    #[error("strips are bent along a smooth line that is open at its ends: {0}")]
    Line(BendError),
    /// The strips are thicker together than the bend has room for.
    #[error(
        "strips {stack:.2} mm thick together have no inside on a bend of {radius:.2} mm along their middle: less than {limit:.2} mm has"
    )]
    Deep {
        /// All strips together.
        stack: f64,
        /// The tightest radius of the middle line on the form.
        radius: f64,
        /// What they must be less than.
        limit: f64,
    },
    /// One layer keeps nothing by the law of layers.
    #[error(
        "one lamination keeps nothing of its bend by 1 - 1/n²: give `springback` the share that your own test piece kept, or take two laminations or more"
    )]
    OneLayer,
    /// A strip breaks.
    #[error(
        "lamination {number}, {thickness:.2} mm thick on {radius:.1} mm: radius {ratio:.1} times its thickness, strain {:.2} per cent, where {wood} takes {least:.0} times or more; {}",
        strain * 100.0, would(*.thinner, .instead)
    )]
    Breaks {
        /// Which, from the inside.
        number: usize,
        /// How thick.
        thickness: f64,
        /// The tightest radius of its inner face on the form.
        radius: f64,
        /// Radius over thickness.
        ratio: f64,
        /// The strain of its outer face, as a share.
        strain: f64,
        /// What is bent.
        wood: &'static str,
        /// The least radius over thickness.
        least: f64,
        /// The thickest that does.
        thinner: f64,
        /// What else does; empty where nothing else does.
        instead: &'static str,
    },
    /// Plywood does not go round.
    #[error(
        "plywood {thickness:.2} mm thick bends to {across:.0} mm with its outer grain across the curve and to {along:.0} mm along it, and lamination {number} must go round {radius:.1} mm: {}",
        thin_ply(*.thinner)
    )]
    Ply {
        /// Which, from the inside.
        number: usize,
        /// How thick.
        thickness: f64,
        /// The tightest radius of its inner face on the form.
        radius: f64,
        /// The least radius with the grain across the curve.
        across: f64,
        /// And along it.
        along: f64,
        /// The thickest that does, with the grain across.
        thinner: f64,
    },
    /// A test piece cannot have come out so.
    #[error(
        "a {what} of {given:.2} mm cannot have sprung back from a form of this line: from {least:.2} to {most:.2} mm can"
    )]
    CameOut {
        /// What was measured: `radius`, `width`.
        what: &'static str,
        /// What was given.
        given: f64,
        /// The least that can be.
        least: f64,
        /// The most that can be.
        most: f64,
    },
    /// A radius of a line that has several.
    #[error("this line has no one radius: give the `width` across its springings as it came out")]
    NoRadius,
    /// The form is lower than the strips are wide.
    #[error(
        "{given} layers of {thickness} mm stand {height:.1} mm high, and the strips are {width:.1} mm wide: {needed} layers hold them all over"
    )]
    Low {
        /// The layers asked for.
        given: usize,
        /// How thick each is.
        thickness: f64,
        /// How high they stand.
        height: f64,
        /// How wide the strips are.
        width: f64,
        /// The fewest layers that are as high.
        needed: usize,
    },
    /// The shop's clamps do not open far enough.
    #[error(
        "clamps that open {opening:.1} mm do not span {needed:.1} mm of ligament, strips and what lies on them: a ligament of {}",
        room(*.limit)
    )]
    Opening {
        /// How far they open.
        opening: f64,
        /// How far they must.
        needed: f64,
        /// The ligament that they span; 0 or less where none will do.
        limit: f64,
    },
    /// The shop's clamps do not reach the middle of the form's height.
    #[error(
        "clamps with a throat of {throat:.1} mm do not reach the middle of a form {height:.1} mm high: {:.1} mm or more does",
        height / 2.0
    )]
    Throat {
        /// The clamps' throat.
        throat: f64,
        /// The form's height.
        height: f64,
    },
    /// The wood behind the face folds over itself.
    #[error(
        "a ligament of {given:.1} mm with what the clamps hold on to behind it reaches {deep:.1} mm in, past the centre of the tightest bend: {}{instead}",
        deepest(*.limit)
    )]
    Ligament {
        /// The ligament given.
        given: f64,
        /// How deep the holes or flats reach.
        deep: f64,
        /// The largest ligament that works; 0 or less where none does.
        limit: f64,
        /// What would need less depth; empty where nothing would.
        instead: &'static str,
    },
    /// Clamp holes run into one another.
    #[error(
        "clamps {given:.1} mm apart leave {left:.1} mm of wood between their holes where the form is tightest: {}, or `seats: flats` has no holes",
        apart(*.least)
    )]
    Crowded {
        /// How far apart they are.
        given: f64,
        /// The wood left.
        left: f64,
        /// A spacing that works; none where none does with these holes.
        least: Option<f64>,
    },
    /// No division of a layer fits the sheet.
    #[error(
        "no division of {what} into {most} pieces or fewer fits the stock with its joints between the clamps: a larger sheet would, or a smaller ligament"
    )]
    Pieces {
        /// What is divided.
        what: &'static str,
        /// The most that were tried.
        most: usize,
    },
    /// The segments asked for cannot be had.
    #[error("{given} segments: from {least} to {most} can be had, with two clamps or more to each")]
    Segments {
        /// The number given.
        given: usize,
        /// The fewest that fit the stock.
        least: usize,
        /// The most that have two clamps each.
        most: usize,
    },
}

impl BendingError {
    /// The field of the job file that it speaks of.
    pub const fn field(&self) -> &'static str {
        match self {
            Self::Line(_) => "arch",
            Self::Deep { .. } | Self::Breaks { .. } | Self::Ply { .. } => "lamination",
            Self::OneLayer => "springback",
            Self::CameOut { .. } | Self::NoRadius => "measured-back",
            Self::Low { .. } => "body-layers",
            Self::Opening { .. } | Self::Ligament { .. } => "ligament",
            Self::Throat { .. } => "width",
            Self::Crowded { .. } => "clamp-spacing",
            Self::Pieces { .. } => "stock",
            Self::Segments { .. } => "segments",
        }
    }
}

fn would(thinner: f64, instead: &str) -> String {
    let thin = format!("{thinner:.2} mm or thinner does");
    if instead.is_empty() {
        thin
    } else {
        format!("{thin}, or {instead}")
    }
}

fn thin_ply(thinner: f64) -> String {
    format!("take thinner plies with the grain across it, {thinner:.2} mm or less, and more of them")
}

fn room(limit: f64) -> String {
    if limit > 0.0 {
        format!("{limit:.1} mm is the most that they do")
    } else {
        "no thickness is spanned: larger clamps, or fewer or thinner strips, are".to_owned()
    }
}

fn deepest(limit: f64) -> String {
    if limit > 0.0 {
        format!("{limit:.1} mm of ligament is the most")
    } else {
        "no ligament is thin enough".to_owned()
    }
}

fn apart(least: Option<f64>) -> String {
    least.map_or_else(
        || "smaller holes have room".to_owned(),
        |least| format!("{least:.1} mm apart has room"),
    )
}
