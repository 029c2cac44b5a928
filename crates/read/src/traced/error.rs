//! Why a drawing is no arch.

use crate::dxf::DxfError;
use crate::svg::SvgError;
use cintre_geometry::Point;

/// Why a drawing is no arch. Lengths in mm, places in the drawing's own coordinates, turned into mm.
#[derive(Debug, thiserror::Error)]
pub enum TracedError {
    /// Its name ends otherwise.
    #[error("{0} ends neither in .dxf nor in .svg")]
    Format(String),
    /// It cannot be read.
    #[error(transparent)]
    Dxf(#[from] DxfError),
    /// It cannot be read.
    #[error(transparent)]
    Svg(#[from] SvgError),
    /// Its unit is neither of those known.
    #[error("{0}")]
    Unit(String),
    /// No unit is stated.
    #[error(
        "the drawing states no unit: its span is {number:.3} mm, or {number:.3} in, which is {inches:.3} mm"
    )]
    NoUnit {
        /// The span as the drawing has it.
        number: f64,
        /// The span if that is inches.
        inches: f64,
    },
    /// No arch has this span.
    #[error(
        "its span is {number:.3} in the drawing: as {unit} that is {span:.3} mm, a doubtful size for an arch, and as {other} {other_span:.3} mm"
    )]
    Doubtful {
        /// The span as it was read.
        span: f64,
        /// The span as the drawing has it.
        number: f64,
        /// The unit in which it was read.
        unit: &'static str,
        /// The other unit.
        other: &'static str,
        /// The span in the other unit.
        other_span: f64,
    },
    /// It holds no line.
    #[error("there is no line in it{}", but(passed_over))]
    Nothing {
        /// What was passed over.
        passed_over: Vec<String>,
    },
    /// Several layers hold lines.
    #[error("its lines are on several layers: {}", list(found))]
    WhichLayer {
        /// The layers.
        found: Vec<String>,
    },
    /// The layer asked for holds no line.
    #[error("no line is on the layer {wanted}; the layers with lines are {}", list(found))]
    NoLayer {
        /// The layer asked for.
        wanted: String,
        /// The layers that hold lines.
        found: Vec<String>,
    },
    /// It holds more than a drawing does.
    #[error("it has {pieces} pieces on the layer, and {most} is the most that is taken")]
    TooMany {
        /// How many there are.
        pieces: usize,
        /// How many are taken.
        most: usize,
    },
    /// More than two ends meet.
    #[error("{ends} ends meet near ({:.3}, {:.3}): the line branches or is drawn twice", at.x, at.y)]
    Branch {
        /// Where.
        at: Point,
        /// How many.
        ends: usize,
    },
    /// The line is in several stretches.
    #[error("the line is in {stretches} stretches; the nearest loose ends are {}{}", list(&gaps.iter().map(|(at, gap)| format!("{gap:.3} mm apart near ({:.3}, {:.3})", at.x, at.y)).collect::<Vec<_>>()), but(passed_over))]
    Gaps {
        /// How many stretches there are.
        stretches: usize,
        /// Each gap: where, and how wide.
        gaps: Vec<(Point, f64)>,
        /// What was passed over and may belong between.
        passed_over: Vec<String>,
    },
    /// There is more than one line.
    #[error("there are {0} lines that do not meet, and an arch is one: put the others on another layer")]
    Several(usize),
    /// The line crosses itself.
    #[error("the line crosses or touches itself at ({:.3}, {:.3})", at.x, at.y)]
    Crossing {
        /// Where.
        at: Point,
    },
    /// The ends of an open line differ in height.
    #[error("its springings are {by:.3} mm out of level over {span:.3} mm")]
    OutOfLevel {
        /// By how much.
        by: f64,
        /// Over which width.
        span: f64,
    },
    /// A closed line has no level bottom.
    #[error("the line is closed, and its lowest part is not one level line, to be the springing line")]
    NoSpringing,
    /// The line dips below its springings.
    #[error("the line reaches {by:.3} mm below its springing line")]
    Below {
        /// By how much.
        by: f64,
    },
}

impl TracedError {
    /// The field of a job that speaks of it: `file`, `layer`, `unit` or `gap`.
    pub const fn field(&self) -> &'static str {
        match self {
            Self::Unit(_) | Self::NoUnit { .. } | Self::Doubtful { .. } => "unit",
            Self::WhichLayer { .. } | Self::NoLayer { .. } | Self::Several(_) => "layer",
            Self::Gaps { .. } | Self::OutOfLevel { .. } | Self::Branch { .. } => "gap",
            _ => "file",
        }
    }
}

fn list(items: &[String]) -> String {
    const SHOWN: usize = 6;
    let more = items.len().saturating_sub(SHOWN);
    let shown = items.iter().take(SHOWN).cloned().collect::<Vec<_>>().join(", ");
    if more > 0 {
        format!("{shown} and {more} more")
    } else {
        shown
    }
}

fn but(passed_over: &[String]) -> String {
    if passed_over.is_empty() {
        String::new()
    } else {
        format!("; passed over: {}", list(passed_over))
    }
}
