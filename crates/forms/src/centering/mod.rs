//! A centering: the ribs on which an arch is turned, two or more alike, set up side by side and lagged over.
//!
//! The rib's line is the soffit's parallel inwards by the lagging and the skin on it, never an arc struck anew from a
//! smaller rise: where the soffit leaves the springing at a slope, its foot lies below the springing line. From the feet the
//! sides go plumb down to a level bottom. Geometry only: nothing here speaks of strength.

pub use bolts::edge_distance;
pub use figures::proud;
pub use spacing::{DEEP_WALL, RIB_CENTRES};

use crate::error::at_least;
use crate::line::{overhang, refuse_backwards};
use crate::{Error, Form};
use cintre_geometry::{Path, Point};
use cintre_work::{Bore, Caution, Depth, Grain, Part};
use rib::Rib;
use spacing::Spacing;

mod bolts;
mod figures;
mod marks;
mod opening;
mod rib;
mod spacing;
#[cfg(test)]
mod tests;

/// The tie of a centering whose job says nothing of it, mm: room for a row of bolts of [`BOLT`] and a line of lettering.
pub const TIE: f64 = 100.0;

/// The bolt holes of a centering whose job says nothing of them, mm: 10 mm bolts, with room to be put together.
pub const BOLT: f64 = 11.0;

/// The shallowest tie there is, bolts or none, mm: less is a splinter.
const LEAST_TIE: f64 = 20.0;

/// A form that stands over its opening by less than this besides its fit is only rounded so, mm.
const STANDS_OVER: f64 = 1e-6;

/// What a centering is made from. Lengths in mm.
#[derive(Clone, Debug)]
pub struct Input {
    /// The arch's name.
    pub arch: String,
    /// Its soffit, from the left springing to the right one.
    pub soffit: Path,
    /// What the soffit's arcs are out by from the curve they were fitted to; 0 where it is arcs already.
    pub fit_error: f64,
    /// The depth of the soffit from face to face of the wall.
    pub wall: f64,
    /// The thickness of the lagging; 0 for none.
    pub lagging: f64,
    /// The thickness of a skin over the lagging; 0 for none.
    pub skin: f64,
    /// The depth of the level bottom below the rib line's lower foot.
    pub tie: f64,
    /// The wood left over a web opening, square to the rib's line; none for a rib without an opening.
    pub rib_depth: Option<f64>,
    /// The diameter of the bolt holes; none for a rib without.
    pub bolt: Option<f64>,
    /// How many ribs; none to choose by the wall.
    pub ribs: Option<usize>,
    /// The stock's name.
    pub stock: String,
    /// The stock's real thickness.
    pub thickness: f64,
    /// The least radius of a web opening's corners: that of the bit which cuts it.
    pub least_corner: f64,
}

/// Makes the centering of an arch.
pub fn centering(input: &Input) -> Result<Form, Error> {
    check(input)?;
    let spacing = Spacing::new(input)?;
    let rib = Rib::new(input)?;
    let opening = input
        .rib_depth
        .map(|depth| opening::opening(&rib, input, depth))
        .transpose()?;
    let holes = input.bolt.map_or(Ok(Vec::new()), |bolt| {
        bolts::bolts(&rib, input, bolt, opening.as_ref())
    })?;
    let mut part = Part {
        name: format!("{} rib", input.arch),
        outline: rib.outline.clone(),
        openings: opening.into_iter().collect(),
        bores: holes
            .iter()
            .map(|&(centre, diameter)| bore(centre, diameter))
            .collect(),
        recesses: Vec::new(),
        marks: marks::lines(&rib, &input.soffit),
        stock: input.stock.clone(),
        thickness: input.thickness,
        grain: Grain::Along(0.0),
        count: spacing.ribs,
        fit_error: input.fit_error,
    };
    let mut notes = spacing.notes();
    match marks::name(&rib, &part)? {
        Some(letters) => part.marks.extend(letters),
        None => notes.push(crate::marks::NO_ROOM.to_owned()),
    }
    Ok(Form {
        kind: "centering",
        arch: input.arch.clone(),
        figures: figures::figures(&rib, input, &spacing, &part),
        parts: vec![part],
        cautions: vec![Caution::Centering],
        notes,
    })
}

fn bore(centre: Point, diameter: f64) -> Bore {
    Bore {
        centre,
        diameter,
        depth: Depth::Through,
    }
}

fn check(input: &Input) -> Result<(), Error> {
    refuse_backwards(&input.soffit)?;
    at_least("arch", input.fit_error, 0.0)?;
    at_least("stock", input.thickness, f64::MIN_POSITIVE)?;
    at_least("wall", input.wall, f64::MIN_POSITIVE)?;
    at_least("lagging", input.lagging, 0.0)?;
    at_least("skin", input.skin, 0.0)?;
    at_least("tie", input.tie, LEAST_TIE)?;
    at_least("machine", input.least_corner, 0.0)?;
    if let Some(bolt) = input.bolt {
        at_least("bolt", bolt, f64::MIN_POSITIVE)?;
        let limit = 2.0 * edge_distance(bolt);
        if input.tie < limit {
            return Err(Error::Tie {
                given: input.tie,
                bolt,
                limit,
            });
        }
    }
    let bounds = input.soffit.bounds();
    let limit = bounds.height() - input.skin;
    if input.lagging >= limit {
        return Err(Error::Crown {
            given: input.lagging,
            skin: input.skin,
            limit,
        });
    }
    let beyond = overhang(&input.soffit);
    if beyond > input.fit_error + STANDS_OVER {
        return Err(Error::Trapped { beyond });
    }
    Ok(())
}
