//! RS-274/NGC: finished programs in, bytes out.
//!
//! Only what a simple controller takes: G0 to G4 with the modes set in the head, absolute distances, arcs by their centre
//! (I and J from the point as it was printed before), one bit to a program. Lines are short, and comments stand alone.

use cintre_geometry::Point;
use cintre_work::{Move, Program, Router, To, Unit, ZeroHeight};
use cintre_write::{LINE, NotFinite, comment, trimmed, wrapped};
use grid::Grid;
use run::Run;

mod arc;
mod grid;
mod run;

/// Heights closer than this are one, mm: far below what any machine resolves.
const SAME_HEIGHT: f64 = 1e-6;

/// A slower feed could print as zero, mm/min.
const LEAST_FEED: f64 = 0.5;

/// Why a program cannot be written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Error {
    /// A figure of the program is not a number.
    #[error("a figure of the program: {0}")]
    NotFinite(#[from] NotFinite),
    /// Decimals that lose the shape, or that no controller reads.
    #[error("{decimals} decimals in {unit:?}s; a program has 3 or 4 in millimetres, 4 or 5 in inches")]
    Decimals {
        /// As the router has them.
        decimals: usize,
        /// The unit of its programs.
        unit: Unit,
    },
    /// A speed at which no spindle turns.
    #[error("a spindle speed of {0} turns a minute")]
    Speed(f64),
    /// A feed at which nothing moves.
    #[error("move {index}: a feed of {feed} mm/min")]
    Feed {
        /// Which move, counted from 0.
        index: usize,
        /// Its feed, mm/min.
        feed: f64,
    },
    /// The program does not begin with a rapid at the safe height, or has no move.
    #[error("the program does not begin with a rapid at the safe height of {0} mm")]
    Start(f64),
    /// A rapid across the work at a height where something can stand in its way.
    #[error("move {index}: a rapid across at {height} mm, below the safe height of {safe} mm")]
    LowRapid {
        /// Which move, counted from 0.
        index: usize,
        /// The lower of its heights above the stock's face, mm.
        height: f64,
        /// The router's safe height, mm.
        safe: f64,
    },
    /// A line of the shop's own that no controller can read.
    #[error("the line {0:?} is not one line of printable ASCII")]
    Line(String),
}

/// A program as a router's file.
///
/// `thickness` is the stock's, mm: it lifts the heights where the router's zero is the stock's back. `head` holds the
/// sentences for whoever runs it, cautions first; each becomes comments at the top.
pub fn write(program: &Program, router: &Router, thickness: f64, head: &[String]) -> Result<Vec<u8>, Error> {
    check(program, router)?;
    let lift = match router.zero.height {
        ZeroHeight::StockFace => 0.0,
        ZeroHeight::StockBack => thickness,
    };
    let grid = Grid::new(router.units, router.decimals);
    let mut run = Run::new(grid, router, lift);
    for sentence in titles(program, router).iter().chain(head) {
        for line in wrapped(&comment(sentence).to_uppercase(), LINE - 4) {
            // Some controllers show a comment that begins so, and stop.
            let lead = if line.starts_with("MSG") { "- " } else { "" };
            run.line(format!("({lead}{line})"));
        }
    }
    let unit = match router.units {
        Unit::Millimetre => "G21",
        Unit::Inch => "G20",
    };
    run.line(format!("G17 {unit} G90 G94 G40 G49 G80"));
    router
        .opening_lines
        .iter()
        .for_each(|line| run.line(line.clone()));
    run.height(router.safe_height)?;
    run.line(format!("M3 S{}", trimmed(program.speed, 0)?));
    if router.spindle_delay > 0.0 {
        run.line(format!("G4 P{}", trimmed(router.spindle_delay, 2)?));
    }
    for step in &program.moves {
        run.take(step)?;
    }
    run.height(router.safe_height)?;
    run.line("M5".to_owned());
    router
        .closing_lines
        .iter()
        .for_each(|line| run.line(line.clone()));
    run.line("M30".to_owned());
    Ok(run.finish().into_bytes())
}

/// What the program is, before what the caller says of it.
fn titles(program: &Program, router: &Router) -> Vec<String> {
    let number = program
        .number
        .map_or_else(String::new, |n| format!(", number {n}"));
    let bit = trimmed(program.diameter, 3).map_or_else(|_| String::new(), |d| format!(", {d} mm"));
    let unit = match router.units {
        Unit::Millimetre => "millimetres",
        Unit::Inch => "inches",
    };
    let zero = match router.zero.height {
        ZeroHeight::StockFace => "on the face of the stock",
        ZeroHeight::StockBack => "on the underside of the stock",
    };
    vec![
        format!("sheet {}", program.sheet),
        format!("bit {}{bit}{number}", program.bit),
        format!("lengths in {unit}, Z 0 {zero}"),
    ]
}

/// Refuses what must not reach a machine, before a line is written.
fn check(program: &Program, router: &Router) -> Result<(), Error> {
    let Router {
        units,
        decimals,
        safe_height: safe,
        ..
    } = *router;
    let allowed = match units {
        Unit::Millimetre => 3..=4,
        Unit::Inch => 4..=5,
    };
    if !allowed.contains(&decimals) {
        return Err(Error::Decimals {
            decimals,
            unit: units,
        });
    }
    if let Some(line) = router
        .opening_lines
        .iter()
        .chain(&router.closing_lines)
        .find(|line| !line.bytes().all(|b| (b' '..=b'~').contains(&b)))
    {
        return Err(Error::Line(line.clone()));
    }
    if !(program.speed.is_finite() && program.speed >= 0.5) {
        return Err(Error::Speed(program.speed));
    }
    let starts = |first: &&Move| matches!(first.to, To::Rapid) && first.z >= safe - SAME_HEIGHT;
    if program.moves.first().filter(starts).is_none() {
        return Err(Error::Start(safe));
    }
    let mut from: Option<(Point, f64)> = None;
    for (index, step) in program.moves.iter().enumerate() {
        check_move(index, step, from, safe)?;
        from = Some((step.end, step.z));
    }
    Ok(())
}

fn check_move(index: usize, step: &Move, from: Option<(Point, f64)>, safe: f64) -> Result<(), Error> {
    let bulge = if let To::Arc { bulge, .. } = step.to {
        bulge
    } else {
        0.0
    };
    if let Some(&bad) = [step.end.x, step.end.y, step.z, bulge]
        .iter()
        .find(|v| !v.is_finite())
    {
        return Err(NotFinite(bad).into());
    }
    match (step.to, from) {
        (To::Straight { feed } | To::Arc { feed, .. }, _) if !(feed.is_finite() && feed >= LEAST_FEED) => {
            Err(Error::Feed { index, feed })
        }
        (To::Rapid, Some((at, z))) => {
            let height = z.min(step.z);
            let low = at.distance(step.end) > SAME_HEIGHT && height < safe - SAME_HEIGHT;
            if low {
                Err(Error::LowRapid { index, height, safe })
            } else {
                Ok(())
            }
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests;
