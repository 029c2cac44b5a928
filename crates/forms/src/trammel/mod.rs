//! A router trammel: an arm with a pivot for every radius of a job, for either side of the cut.
//!
//! From pivot to bit's centre it is R + b / 2 where the wood towards the pivot is kept, R - b / 2 where that away from it is. Holes
//! that would run into one another are stepped sideways, each still at its distance. A radius beyond the arm takes a bar with a
//! plate at each end; one beyond a bar is set out by ordinates.

pub use error::TrammelError;
pub use input::{Base, Input, Struck};

use crate::error::at_least;
use crate::{Error, Figure, Form};
use cintre_work::Caution;
use stations::{Kept, Station, stations};

mod arm;
mod bar;
mod block;
mod centres;
mod error;
mod hull;
mod input;
mod mount;
mod stations;
#[cfg(test)]
mod tests;

/// Makes a router trammel.
pub fn trammel(input: &Input) -> Result<Form, Error> {
    check(input)?;
    let all = stations(input)?;
    let on_arm: Vec<Station> = all
        .iter()
        .filter(|s| s.distance <= input.longest_arm)
        .cloned()
        .collect();
    let on_bar: Vec<Station> = all
        .iter()
        .filter(|s| s.distance > input.longest_arm)
        .cloned()
        .collect();
    let mut form = Form {
        kind: "trammel",
        arch: input.arch.clone(),
        parts: Vec::new(),
        list: Vec::new(),
        left: Vec::new(),
        figures: figures(input, &all),
        cautions: vec![Caution::HandRouter],
        notes: all.iter().map(|station| station.note(input.bit)).collect(),
        assembly: None,
    };
    if !on_arm.is_empty() {
        form.parts.push(arm::arm(input, &on_arm)?);
        form.notes.push(mount::note(input));
    }
    if !on_bar.is_empty() {
        bar::add(input, &on_bar, &mut form)?;
    }
    block::add(input, &mut form)?;
    centres::add(input, &mut form)?;
    form.notes.extend(bench(&all));
    Ok(form)
}

fn check(input: &Input) -> Result<(), Error> {
    at_least("stock", input.thickness, f64::MIN_POSITIVE)?;
    at_least("bit", input.bit, f64::MIN_POSITIVE)?;
    at_least("pin", input.pin, 1.0)?;
    at_least("longest-arm", input.longest_arm, 0.0)?;
    for arc in &input.arcs {
        at_least("radii", arc.radius, f64::MIN_POSITIVE)?;
    }
    input
        .work
        .map_or(Ok(()), |work| at_least("work", work, f64::MIN_POSITIVE))
}

fn figures(input: &Input, all: &[Station]) -> Vec<Figure> {
    vec![
        Figure::length("bit", input.bit),
        Figure::length("pivot pin", input.pin),
        Figure::lengths("edges struck", all.iter().map(|station| station.radius).collect()),
        Figure::lengths(
            "pivot to bit centre",
            all.iter().map(|station| station.distance).collect(),
        ),
    ]
}

/// What the person at the bench must know.
fn bench(all: &[Station]) -> Vec<String> {
    let mut notes = vec![
        "fix the pivot block to the bench and the work beside it, so that neither moves when they part".to_owned(),
        "swing anticlockwise where the wood towards the pivot is kept, clockwise where that away from it is: against the turning of the bit"
            .to_owned(),
        "try it on a scrap, and measure from the pivot to the cut edge before the work is cut".to_owned(),
    ];
    let mut radii: Vec<f64> = all
        .iter()
        .filter(|s| s.kept == Kept::Inside)
        .map(|s| s.radius)
        .collect();
    radii.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    if radii.len() > 1 {
        notes.push(
            "of a ring cut the outer edge first, while what the pivot stands on is still one piece with it"
                .to_owned(),
        );
    }
    notes
}
