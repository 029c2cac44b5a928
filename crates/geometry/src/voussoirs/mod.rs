//! Voussoirs: a ring divided into units, with joints that stand square to the soffit, each towards the centre of the arc
//! that it sits on; where two arcs join, along the normal that they share.
//!
//! The units are equal along the soffit. Both skewbacks are bedded, so n units have n + 1 joints: L = n w + (n + 1) j, of
//! soffit length L, width w and joint j, all measured along the soffit. A unit stands on the crown, so their number is odd;
//! but over a pointed crown stands a plumb joint, and each half is counted alone. Stilts are walling and are left out. A
//! ring that closes has as many joints as units, any number of them, one on the crown.

pub use camber::camber_voussoirs;
pub use error::VoussoirError;
pub use uncut::Tally;

mod bed;
mod camber;
mod cut;
mod error;
mod uncut;

use crate::{Outline, Path, Piece};
use bed::Bed;

/// How a ring is divided. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Division {
    /// Units cut to a taper between joints that are even from soffit to back.
    Cut {
        /// How many.
        count: u32,
        /// How thick the joints are.
        joint: f64,
    },
    /// Whole units with even faces between joints that taper.
    Uncut {
        /// How wide a unit is along the ring.
        width: f64,
        /// The thinnest joint, at the soffit.
        least: f64,
        /// The thickest joint, at the back.
        most: f64,
    },
}

/// A ring divided. Lengths in mm, angles in radians.
#[derive(Clone, Debug, PartialEq)]
pub struct Voussoirs {
    /// How many.
    pub count: u32,
    /// What stands on the crown.
    pub crown: Crown,
    /// The width of each along the soffit; that of the key where they differ, as they do in a camber arch.
    pub width: f64,
    /// The joint at the soffit.
    pub joint: f64,
    /// The joint at the back.
    pub joint_at_back: f64,
    /// Each voussoir, from the left; round a ring that closes from the one on the crown, clockwise.
    pub units: Vec<Voussoir>,
    /// The middle line of each joint, from soffit to back, from the left; the first and last stand on the skewbacks. In a
    /// ring that closes, the one before each voussoir.
    pub joints: Vec<Path>,
    /// How they are stepped out, where the soffit is of one radius.
    pub steps: Option<Steps>,
    /// Other numbers of uncut units beside the one taken, and their joints; none for cut ones.
    pub tallies: Vec<Tally>,
    /// The least radius of soffit round which such uncut units keep such joints.
    pub least_radius: Option<f64>,
}

/// What stands on the crown of a ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crown {
    /// A voussoir, the key.
    Key,
    /// A point, with a plumb joint over it and no key.
    Point,
    /// A voussoir, as everywhere round a ring that closes.
    Closed,
}

impl Crown {
    /// Whether so many voussoirs can stand about it.
    const fn suits(self, count: u32) -> bool {
        match self {
            Self::Key => !count.is_multiple_of(2),
            Self::Point => count.is_multiple_of(2),
            Self::Closed => count >= FEWEST_CLOSED,
        }
    }

    /// How many joints so many voussoirs have.
    const fn joints(self, count: u32) -> u32 {
        match self {
            Self::Key | Self::Point => count + 1,
            Self::Closed => count,
        }
    }

    /// How much of the first joint lies before the first voussoir: a ring that closes is opened in the middle of one.
    const fn first_joint(self, joint: f64) -> f64 {
        match self {
            Self::Key | Self::Point => joint,
            Self::Closed => joint / 2.0,
        }
    }
}

/// Two stones cannot close a ring: their joints would be one line across it.
const FEWEST_CLOSED: u32 = 3;

/// One voussoir.
#[derive(Clone, Debug, PartialEq)]
pub struct Voussoir {
    /// Its outline, counter-clockwise from its left corner on the soffit.
    pub outline: Outline,
    /// Its width along the soffit.
    pub width: f64,
    /// Its width along the back.
    pub width_at_back: f64,
}

/// How voussoirs are stepped out round a soffit of one radius.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// The angle of each, if the whole turn is shared among them evenly, radians.
    pub share: f64,
    /// The chord of that angle at the soffit.
    pub share_chord: f64,
    /// The straight distance on the soffit from a voussoir's edge to the same edge of the next, joint and all.
    pub chord: f64,
}

/// Divides the ring between a soffit of arcs and its back, both from left to right.
pub fn voussoirs(soffit: &Path, back: &Path, division: Division) -> Result<Voussoirs, VoussoirError> {
    let bed = Bed::new(soffit, back)?;
    match division {
        Division::Cut { count, joint } => cut::cut(bed, count, joint),
        Division::Uncut { width, least, most } => uncut::uncut(bed, width, least, most),
    }
}

/// Centres of one arc in several pieces lie no farther apart by rounding, mm.
const ONE_CENTRE: f64 = 1e-6;

fn steps(bed: &Bed, count: u32, pitch: f64) -> Option<Steps> {
    let mut arcs = bed.soffit.pieces();
    let first = arcs.next()?.circle()?;
    let radius = first.radius;
    let one_radius = if bed.pointed() {
        arcs.count() == 1
    } else {
        arcs.all(|arc| {
            arc.circle()
                .is_some_and(|c| c.centre.distance(first.centre) < ONE_CENTRE)
        })
    };
    one_radius.then(|| {
        let share = bed.length / radius / f64::from(count);
        Steps {
            share,
            share_chord: 2.0 * radius * (share / 2.0).sin(),
            chord: 2.0 * radius * (pitch / radius / 2.0).sin(),
        }
    })
}

/// The middle lines of the joints of voussoirs between these lengths of the soffit.
fn joints(bed: &Bed, spans: &[(f64, f64)]) -> Result<Vec<Path>, VoussoirError> {
    let mut lines = Vec::with_capacity(spans.len() + 1);
    let mut before = 0.0;
    if bed.crown == Crown::Closed {
        // The first joint lies half at either end.
        before = spans.last().map_or(0.0, |(_, to)| to - bed.length);
    }
    let last = (bed.crown != Crown::Closed).then_some((bed.length, bed.length));
    let ends = spans.iter().copied().chain(last);
    for (number, (from, to)) in (0_u32..).zip(ends) {
        let middle = f64::midpoint(before, from);
        let over_point = bed.pointed() && 2 * number as usize == spans.len();
        let face = if over_point {
            bed.apex()
        } else {
            bed.normal(middle)
        };
        lines.push(bed.line(face).ok_or(VoussoirError::Back {
            number: number.max(1),
        })?);
        before = to;
    }
    Ok(lines)
}

/// A closed outline along a soffit, up a face, home along the back, and down to the start.
fn outline(soffit: &Path, back: &Path) -> Outline {
    let up = Path::from_pieces(&[Piece::line(soffit.end(), back.end())]);
    Outline::closing(&soffit.then(&up).then(&back.reversed()))
}

#[cfg(test)]
mod tests;
