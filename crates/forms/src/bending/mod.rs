//! A bending form: what strips of wood are glued over, or in, or between, so that they come out along a line.
//!
//! A stack of strips opens when the clamps come off. Its middle line keeps its length and a share of its curvature, so the
//! form's middle line has the finished piece's curvature over that share, along any curve; its face is the parallel of that, half
//! the stack and the liner off. Past the springings it turns on by what the scaling adds, and then runs straight, for legs and
//! for what is trimmed off. The body is layers of sheet, registered by dowels, with seats for clamps square to the face.

pub use assembly::Bending;
pub use error::BendingError;
pub use input::{
    Body, CameOut, Clamps, Given, Input, MeasuredBack, Reach, Seat, Side, Springback, Strips, Wood,
};
pub use stack::{Grade, Strain, kept_by_layers};

use crate::error::at_least;
use crate::{Assembled, Error, Form};
use body::Maker;
use cintre_geometry::Path;
use cintre_work::Caution;
use clamping::Clamping;
use figures::Shown;
use lines::Lines;

mod assembly;
mod base;
mod body;
mod clamping;
mod division;
mod error;
mod figures;
mod input;
mod lines;
mod list;
mod measured;
mod notes;
mod parts;
mod put_together;
mod stack;
#[cfg(test)]
mod tests;

/// A body may be lower than its strips by what rounding leaves, in layers.
const ROUNDING: f64 = 1e-9;

/// The wood on either side of a dowel in the ligament, mm.
const ROUND_DOWEL: f64 = 10.0;

/// Makes the form that a piece is bent on.
pub fn bending_form(input: &Input) -> Result<Form, Error> {
    check(input)?;
    let kept = kept(input)?;
    let lines = Lines::new(input, kept)?;
    let strains = stack::strains(input, lines.tightest).map_err(tried)?;
    let layers = layers(input)?;
    let height = input.thickness * crate::centering::as_length(layers);
    throat(input, height)?;
    let clamping = Clamping::new(input, &lines)?;
    let sides: &[Side] = match input.side {
        Side::Pair => &[Side::Male, Side::Female],
        Side::Male => &[Side::Male],
        Side::Female => &[Side::Female],
    };
    let bodies = sides
        .iter()
        .map(|&side| Maker::new(input, &lines, &clamping, layers, side)?.body())
        .collect::<Result<Vec<_>, Error>>()?;
    let plates = if input.body.base {
        base::base(input, &bodies, &outermost(input, &lines)?)?
    } else {
        Vec::new()
    };
    let (parts, unnamed) = parts::parts(input, &lines, &bodies, &plates, layers)?;
    let shown = Shown {
        input,
        lines: &lines,
        strains: &strains,
        clamping: &clamping,
        bodies: &bodies,
        layers,
        height,
    };
    let mut notes = notes::notes(&shown)?;
    notes.extend(unnamed);
    Ok(Form {
        kind: "bending-form",
        arch: input.arch.clone(),
        parts,
        list: list::list(input, &lines, &clamping, &bodies, height),
        figures: shown.figures()?,
        cautions: cautions(input),
        notes,
        left: Vec::new(),
        assembly: Some(Assembled::Bending(Box::new(put_together::put_together(&shown)?))),
    })
}

fn cautions(input: &Input) -> Vec<Caution> {
    let mut cautions = vec![Caution::Bending, Caution::Saws];
    if matches!(input.strips.wood, Wood::Steamed | Wood::Strapped) {
        cautions.push(Caution::Steam);
    }
    cautions
}

/// The share of its bend that the piece keeps: by its layers or by the shop, or by what a test piece came out as.
fn kept(input: &Input) -> Result<f64, Error> {
    let first = stack::kept(input);
    match &input.measured_back {
        Some(measured) => measured::kept(input, measured, first.ok()),
        None => first.map_err(tried),
    }
}

/// The outermost line of what lies on the form, for the base to hold.
fn outermost(input: &Input, lines: &Lines) -> Result<Path, Error> {
    let caul = if input.side == Side::Male { input.caul } else { 0.0 };
    let off = lines.off - input.liner + caul;
    lines.line(off).or_else(|_| lines.face(input.side))
}

/// As many layers as hold the strips all over, or as are asked for.
fn layers(input: &Input) -> Result<usize, Error> {
    let width = input.strips.sawn_width();
    let needed = whole((width / input.thickness - ROUNDING).ceil()).max(1);
    match input.body.layers {
        Some(given) if given < needed => Err(tried(BendingError::Low {
            given,
            thickness: input.thickness,
            height: input.thickness * crate::centering::as_length(given),
            width,
            needed,
        })),
        given => Ok(given.unwrap_or(needed)),
    }
}

/// Clamps go on from above: their throat reaches the middle of the form's height.
fn throat(input: &Input, height: f64) -> Result<(), Error> {
    match input.clamps.own {
        Some(own) if own.throat < height / 2.0 => Err(tried(BendingError::Throat {
            throat: own.throat,
            height,
        })),
        _ => Ok(()),
    }
}

fn check(input: &Input) -> Result<(), Error> {
    for &thickness in &input.strips.thicknesses {
        at_least("lamination", thickness, f64::MIN_POSITIVE)?;
    }
    at_least("lamination", input.strips.stack(), f64::MIN_POSITIVE)?;
    at_least("stock", input.thickness, f64::MIN_POSITIVE)?;
    at_least("width", input.strips.width, f64::MIN_POSITIVE)?;
    for (field, length) in [
        ("clean-up", input.strips.clean_up),
        ("legs", input.legs),
        ("over-length", input.over_length),
        ("liner", input.liner),
        ("caul", input.caul),
        ("groove", input.body.groove),
    ] {
        at_least(field, length, 0.0)?;
    }
    if let Some(spacing) = input.clamps.spacing {
        at_least("clamp-spacing", spacing, f64::MIN_POSITIVE)?;
    }
    if let Seat::Holes(hole) = input.clamps.seat {
        at_least("clamp-hole", hole, f64::MIN_POSITIVE)?;
    }
    at_least("dowel", input.body.dowel, f64::MIN_POSITIVE)?;
    at_least(
        "ligament",
        input.clamps.ligament,
        input.body.dowel + 2.0 * ROUND_DOWEL,
    )
}

/// A trouble of this form as one of all forms.
const fn tried(error: BendingError) -> Error {
    Error::Bending(error)
}

/// A whole number of things from a figure that is one, or nearly.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "positive counts far below 2^32"
)]
const fn whole(figure: f64) -> usize {
    figure as usize
}
