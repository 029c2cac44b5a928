//! Voussoirs: a ring divided into units, with joints that stand square to the soffit, each towards the centre of the arc
//! that it sits on; where two arcs join, along the normal that they share.
//!
//! The units are equal along the soffit. Both skewbacks are bedded, so n units have n + 1 joints: L = n w + (n + 1) j, of
//! soffit length L, width w and joint j, all measured along the soffit. A unit stands on the crown, so their number is odd;
//! but over a pointed crown stands a plumb joint, and each half is counted alone. Stilts are walling and are left out.

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
    /// Whether the crown is a point with a joint over it, and no key.
    pub pointed: bool,
    /// The width of each along the soffit; that of the key where they differ, as they do in a camber arch.
    pub width: f64,
    /// The joint at the soffit.
    pub joint: f64,
    /// The joint at the back.
    pub joint_at_back: f64,
    /// Each voussoir, from the left.
    pub units: Vec<Voussoir>,
    /// The middle line of each joint, from soffit to back, from the left; the first and last stand on the skewbacks.
    pub joints: Vec<Path>,
    /// How they are stepped out, where the soffit is of one radius.
    pub steps: Option<Steps>,
    /// Other numbers of uncut units beside the one taken, and their joints; none for cut ones.
    pub tallies: Vec<Tally>,
    /// The least radius of soffit round which such uncut units keep such joints.
    pub least_radius: Option<f64>,
}

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
        Division::Cut { count, joint } => cut::cut(&bed, count, joint),
        Division::Uncut { width, least, most } => uncut::uncut(&bed, width, least, most),
    }
}

/// Odd, or over a point even.
const fn suits(count: u32, pointed: bool) -> bool {
    count.is_multiple_of(2) == pointed
}

fn steps(bed: &Bed, count: u32, pitch: f64) -> Option<Steps> {
    let halves = if bed.pointed { 2 } else { 1 };
    let mut arcs = bed.soffit.pieces();
    let (first, rest) = (arcs.next()?, arcs.count());
    let radius = first.circle()?.radius;
    (rest + 1 == halves).then(|| {
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
    let ends = spans.iter().copied().chain([(bed.length, bed.length)]);
    for (number, (from, to)) in (0_u32..).zip(ends) {
        let middle = f64::midpoint(before, from);
        let over_point = bed.pointed && 2 * number as usize == spans.len();
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
