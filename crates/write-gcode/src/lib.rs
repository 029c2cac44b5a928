//! RS-274/NGC: finished programs in, bytes out.
//!
//! Only what a simple controller takes: G0 to G4 with the modes set in the head, absolute distances, arcs by their centre
//! (I and J from the point as it was printed before), one bit to a program. Lines are short, and comments stand alone.

use arc::Arcs;
use cintre_geometry::Point;
use cintre_work::{BitChange, Move, Program, Router, To, Unit, ZeroHeight};
use cintre_write::{NotFinite, trimmed};
use grid::Grid;
use run::Run;

pub use beam::write_beam;
pub use pen::write_pen;

mod arc;
mod beam;
mod grid;
mod pen;
mod run;

/// Heights closer than this are one, mm: far below what any machine resolves.
const SAME_HEIGHT: f64 = 1e-6;

/// Lines are numbered in these steps, so that a line can be put between two.
const NUMBERED_BY: u32 = 10;

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
    /// The file would be longer in a line than its controller reads.
    #[error("the line {line:?} is longer than the {longest} characters that the controller reads")]
    LongLine {
        /// The line.
        line: String,
        /// The most characters.
        longest: usize,
    },
    /// A bit that the machine is to fetch has no number.
    #[error("{0} has no number by which M6 could fetch it")]
    NoNumber(String),
    /// A power or speed at which no beam cuts.
    #[error("a beam of {power} per cent at {feed} mm/min")]
    Beam {
        /// Per cent of the full.
        power: f64,
        /// Speed, mm/min.
        feed: f64,
    },
    /// A line of the shop's own that no controller can read.
    #[error("the line {0:?} is not one line of printable ASCII")]
    Line(String),
}

/// The programs of one file for a router: one bit's, or several bits' with a change before each but the first.
///
/// `thickness` is the stock's, mm: it lifts the heights where the router's zero is the stock's back. `head` holds the
/// sentences for whoever runs it, cautions first; each becomes comments at the top.
pub fn write(
    programs: &[Program],
    router: &Router,
    thickness: f64,
    head: &[String],
) -> Result<Vec<u8>, Error> {
    for program in programs {
        check(program, router)?;
    }
    check_lines(router.opening_lines.iter().chain(&router.closing_lines))?;
    let lift = match router.zero.height {
        ZeroHeight::StockFace => 0.0,
        ZeroHeight::StockBack => thickness,
    };
    let grid = Grid::new(router.units, router.decimals);
    let arcs = Arcs {
        longest: router.arcs.then_some(router.longest_radius),
        most: router.longest_arc,
    };
    let mut run = Run::new(grid, router.zero.at, lift, arcs);
    run.comments(
        titles(programs, router).iter().chain(head),
        router.layout.longest_line,
    );
    run.modes();
    router
        .opening_lines
        .iter()
        .for_each(|line| run.line(line.clone()));
    run.height(router.safe_height)?;
    for (number, program) in programs.iter().enumerate() {
        bit_in(&mut run, program, router, number)?;
        for step in &program.moves {
            run.take(step)?;
        }
        run.height(router.safe_height)?;
        if router.extraction.is_some() {
            run.line("M9".to_owned());
        }
        run.line("M5".to_owned());
    }
    if let Some(park) = router.park {
        run.take(&Move {
            end: park,
            z: router.safe_height,
            to: To::Rapid,
        })?;
    }
    router
        .closing_lines
        .iter()
        .for_each(|line| run.line(line.clone()));
    run.line("M30".to_owned());
    finished(run, router)
}

/// The bit put in, where the file says so, and the spindle brought up to its speed.
fn bit_in(run: &mut Run, program: &Program, router: &Router, number: usize) -> Result<(), Error> {
    match router.bit_change {
        BitChange::M6 => {
            let tool = program
                .number
                .ok_or_else(|| Error::NoNumber(program.bit.clone()))?;
            run.line(format!("T{tool} M6"));
            over_the_work(run, router)?;
        }
        BitChange::Pause if number > 0 => {
            let put = [
                format!("isolate the machine, put in {}", bit_words(program)),
                "set Z 0 again for its length, then go on".to_owned(),
            ];
            run.comments(put.iter(), router.layout.longest_line);
            run.line("M0".to_owned());
            over_the_work(run, router)?;
        }
        BitChange::Pause | BitChange::File => {}
    }
    run.line(format!("M3 S{}", trimmed(program.speed, 0)?));
    if let Some(word) = &router.extraction {
        run.line(word.clone());
    }
    if router.spindle_delay > 0.0 {
        run.line(format!("G4 P{}", trimmed(router.spindle_delay, 2)?));
    }
    Ok(())
}

/// Up to the safe height again after a change, wherever the bit has been moved to.
fn over_the_work(run: &mut Run, router: &Router) -> Result<(), NotFinite> {
    run.forget();
    run.height(router.safe_height)
}

/// The file's bytes, its lines numbered and between percent signs where the router wants that.
fn finished(run: Run, router: &Router) -> Result<Vec<u8>, Error> {
    let mut number = 0;
    let mut lines: Vec<String> = run
        .finish()
        .into_iter()
        .map(|line| {
            if !router.layout.numbered || line.starts_with('(') {
                return line;
            }
            number += NUMBERED_BY;
            format!("N{number} {line}")
        })
        .collect();
    if let Some(line) = lines.iter().find(|line| line.len() > router.layout.longest_line) {
        return Err(Error::LongLine {
            line: line.clone(),
            longest: router.layout.longest_line,
        });
    }
    if router.layout.percent {
        lines.insert(0, "%".to_owned());
        lines.push("%".to_owned());
    }
    Ok((lines.join("\n") + "\n").into_bytes())
}

/// A bit as whoever puts it in knows it.
fn bit_words(program: &Program) -> String {
    let number = program
        .number
        .map_or_else(String::new, |n| format!(", number {n}"));
    let size = trimmed(program.diameter, 3).map_or_else(|_| String::new(), |d| format!(", {d} mm"));
    format!("{}{size}{number}", program.bit)
}

/// What the file is, before what the caller says of it.
fn titles(programs: &[Program], router: &Router) -> Vec<String> {
    let unit = unit_name(router.units);
    let zero = match router.zero.height {
        ZeroHeight::StockFace => "on the face of the stock",
        ZeroHeight::StockBack => "on the underside of the stock",
    };
    let sheet = programs.first().map(|program| format!("sheet {}", program.sheet));
    let bits = programs
        .iter()
        .map(|program| format!("bit {}", bit_words(program)));
    sheet
        .into_iter()
        .chain(bits)
        .chain([format!("lengths in {unit}, Z 0 {zero}")])
        .collect()
}

const fn unit_name(unit: Unit) -> &'static str {
    match unit {
        Unit::Millimetre => "millimetres",
        Unit::Inch => "inches",
    }
}

/// Refuses lines of a shop's own that no controller can read.
fn check_lines<'a>(mut lines: impl Iterator<Item = &'a String>) -> Result<(), Error> {
    let unreadable = |line: &&String| !line.bytes().all(|b| (b' '..=b'~').contains(&b));
    lines
        .find(unreadable)
        .map_or(Ok(()), |line| Err(Error::Line(line.clone())))
}

/// Refuses decimals that lose the shape, or that no controller reads.
fn check_decimals(unit: Unit, decimals: usize) -> Result<(), Error> {
    let allowed = match unit {
        Unit::Millimetre => 3..=4,
        Unit::Inch => 4..=5,
    };
    if allowed.contains(&decimals) {
        Ok(())
    } else {
        Err(Error::Decimals { decimals, unit })
    }
}

/// Refuses what must not reach a machine, before a line is written.
fn check(program: &Program, router: &Router) -> Result<(), Error> {
    let safe = router.safe_height;
    check_decimals(router.units, router.decimals)?;
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
