//! Why a ring cannot be divided so.

use super::Tally;
use crate::Point;
use thiserror::Error;

/// Why a ring cannot be divided so. Lengths in mm.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum VoussoirError {
    /// An even number over a crown that has no point.
    #[error("{count} voussoirs, an even number, leave a joint at the crown where the key belongs")]
    Even {
        /// How many were asked for.
        count: u32,
    },
    /// An odd number over a point.
    #[error(
        "a pointed arch has no key but a joint on its centre line, so each half has its own: {count} is odd"
    )]
    OddAtPoint {
        /// How many were asked for.
        count: u32,
    },
    /// A ring that closes wants three at least.
    #[error("{count} voussoirs cannot close a ring")]
    TooFew {
        /// How many were asked for.
        count: u32,
    },
    /// None at all.
    #[error("a ring of no voussoirs")]
    None,
    /// A joint thinner than nothing.
    #[error("a joint of {joint} mm is less than nothing")]
    Joint {
        /// The joint asked for.
        joint: f64,
    },
    /// A unit of no width, or joints whose most is under their least.
    #[error("a unit {width} mm wide with joints from {least} mm to {most} mm cannot be")]
    Size {
        /// The width of a unit.
        width: f64,
        /// The thinnest joint.
        least: f64,
        /// The thickest joint.
        most: f64,
    },
    /// Nothing is left of the voussoirs between their joints.
    #[error("{count} voussoirs with joints of {joint:.2} mm leave under a millimetre for each at the soffit")]
    TooMany {
        /// How many were asked for.
        count: u32,
        /// The joint asked for.
        joint: f64,
        /// The most that leave a millimetre; 0 if not even one does.
        most: u32,
    },
    /// No number of uncut units keeps its joints within bounds.
    #[error(
        "no number of uncut units {width:.2} mm wide keeps its joints from {least:.2} mm to {most:.2} mm"
    )]
    NoneFits {
        /// The width of a unit.
        width: f64,
        /// The thinnest joint allowed.
        least: f64,
        /// The thickest joint allowed.
        most: f64,
        /// The numbers that come nearest, with their joints.
        nearest: Vec<Tally>,
        /// The least radius of soffit round which such units keep such joints, none where any radius is too small.
        least_radius: Option<f64>,
    },
    /// The soffit has a corner that is not its crown.
    #[error("the soffit has a corner at ({:.1}, {:.1}), where no joint can stand square to it", at.x, at.y)]
    Corner {
        /// Where.
        at: Point,
    },
    /// The soffit has no arc.
    #[error("there is no arc in the soffit for voussoirs to stand on")]
    NotOpen,
    /// A joint does not reach the back, or meets its neighbour before.
    #[error("the joints of voussoir {number} from the left do not run clear to the back of the ring")]
    Back {
        /// Which voussoir, counted from 1 at the left.
        number: u32,
    },
}
