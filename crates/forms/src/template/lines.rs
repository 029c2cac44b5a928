//! The lines of the work that a template is run along, and how they run on past its ends.

use super::{Edge, Input, TemplateError};
use crate::Error;
use crate::line::{is_closed, on_jambs, refuse_backwards};
use cintre_geometry::{LineError, Path, Piece, parallel_line};

/// The lines of the work, each run on past the springings; a closed one as it is.
pub(super) struct Lines {
    /// One, or of a ring the inner one and the outer one.
    pub each: Vec<Path>,
    /// Whether they come back to where they begin.
    pub closed: bool,
}

impl Lines {
    /// The lines of an edge, open ones run on by `run_on` mm beyond each end: straight on where the work ends at its springings,
    /// plumb down along the sides of a leaf or a panel.
    pub(super) fn new(input: &Input, run_on: f64) -> Result<Self, Error> {
        let straight = |line: &Path| -> Result<Path, Error> {
            if is_closed(line) {
                return Ok(line.clone());
            }
            refuse_backwards(line)?;
            Ok(on_straight(line, run_on))
        };
        let each = match &input.edge {
            Edge::Soffit(line) | Edge::Back(line) => vec![straight(line)?],
            Edge::Ring { inner, outer, .. } => vec![straight(inner)?, straight(outer)?],
            Edge::Leaf { soffit, gap } => vec![sided(soffit, *gap, run_on, input.least_radius)?],
            Edge::Panel { soffit, past } => vec![sided(soffit, -past, run_on, f64::INFINITY)?],
        };
        Ok(Self {
            closed: is_closed(&each[0]),
            each,
        })
    }

    /// How far inside the soffit a line of the edge lies.
    pub(super) const fn inwards(edge: &Edge) -> f64 {
        match edge {
            Edge::Leaf { gap, .. } => *gap,
            Edge::Panel { past, .. } => -*past,
            Edge::Soffit(_) | Edge::Back(_) | Edge::Ring { .. } => 0.0,
        }
    }
}

/// The line with a straight piece at each end.
fn on_straight(line: &Path, length: f64) -> Path {
    let pieces: Vec<Piece> = line.pieces().collect();
    let (first, last) = (
        pieces[0].tangent_at(0.0),
        pieces[pieces.len() - 1].tangent_at(1.0),
    );
    let before = Path::polyline(&[line.start() - first * length, line.start()]);
    let after = Path::polyline(&[line.end(), line.end() + last * length]);
    before.then(line).then(&after)
}

/// The parallel of soffit and jambs, `inwards` mm into the opening.
fn sided(soffit: &Path, inwards: f64, run_on: f64, least_radius: f64) -> Result<Path, Error> {
    if inwards >= least_radius {
        let (given, limit) = (inwards, least_radius);
        return Err(Error::Gap { given, limit });
    }
    let line = if is_closed(soffit) {
        soffit.clone()
    } else {
        refuse_backwards(soffit)?;
        // A leaf's springing may drop by about its gap.
        on_jambs(soffit, run_on + 2.0 * inwards.abs())
    };
    let refusal = |LineError::TooFar { given, limit }: LineError| {
        if inwards > 0.0 {
            Error::Gap { given, limit }
        } else {
            TemplateError::Panel { given, limit }.into()
        }
    };
    parallel_line(&line, inwards).map_err(refusal)
}
