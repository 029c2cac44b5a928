//! How long a program runs.

use cintre_geometry::{Piece, Point};
use cintre_work::{Move, Program, To};

/// How fast a machine travels that does not say, mm/min: the common middle of the trade.
const RAPID: f64 = 5000.0;

/// The seconds of a program's moves; starting and stopping is not counted, so a machine takes somewhat longer.
pub(crate) fn seconds(program: &Program, safe_height: f64) -> f64 {
    let first = program.moves.first().map_or(Point::ZERO, |m| m.end);
    program
        .moves
        .iter()
        .scan((first, safe_height), |(at, z), step| {
            let (from, fall) = (*at, step.z - *z);
            (*at, *z) = (step.end, step.z);
            Some(minutes(from, fall, step) * 60.0)
        })
        .sum()
}

fn minutes(from: Point, fall: f64, step: &Move) -> f64 {
    let (bulge, feed) = match step.to {
        To::Rapid => (0.0, RAPID),
        To::Straight { feed } => (0.0, feed),
        To::Arc { bulge, feed } => (bulge, feed),
    };
    let flat = Piece {
        start: from,
        end: step.end,
        bulge,
    }
    .length();
    flat.hypot(fall) / feed
}
