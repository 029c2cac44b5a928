//! Why an arch cannot be.

use std::fmt::{self, Display, Formatter};
use thiserror::Error;

/// Why an arch cannot be. Lengths in mm.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum ArchError {
    /// Too few sizes, or too many, to fix the shape.
    #[error("a {shape} arch is fixed by {fixed_by}")]
    NotFixed {
        /// The shape.
        shape: &'static str,
        /// What fixes it, in words: `two of span, rise, radius`.
        fixed_by: &'static str,
    },
    /// A size that no arch of this shape can have beside the others given.
    #[error("no {shape} arch has this {size}: {because}")]
    OutOfRange {
        /// The shape.
        shape: &'static str,
        /// Which size, as job files spell it.
        size: &'static str,
        /// What it may be.
        bound: Bound,
        /// Why, in a few words.
        because: &'static str,
        /// The shape that has it, if there is one.
        instead: Option<&'static str>,
    },
}

impl ArchError {
    /// The size that is at fault, where it is one.
    pub const fn size(&self) -> Option<&'static str> {
        match self {
            Self::NotFixed { .. } => None,
            Self::OutOfRange { size, .. } => Some(size),
        }
    }
}

/// What a size may be, mm, or radians for an angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bound {
    /// This or more.
    AtLeast(f64),
    /// More than this.
    Over(f64),
    /// This or less.
    AtMost(f64),
    /// Less than this.
    Under(f64),
    /// More than the first and less than the second.
    Between(f64, f64),
    /// An angle of more than the first and less than the second, radians.
    BetweenAngles(f64, f64),
}

impl Display for Bound {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::AtLeast(mm) => write!(f, "{mm:.3} mm or more"),
            Self::Over(mm) => write!(f, "more than {mm:.3} mm"),
            Self::AtMost(mm) => write!(f, "{mm:.3} mm or less"),
            Self::Under(mm) => write!(f, "less than {mm:.3} mm"),
            Self::Between(from, to) => write!(f, "more than {from:.3} mm and less than {to:.3} mm"),
            Self::BetweenAngles(from, to) => {
                let (from, to) = (from.to_degrees(), to.to_degrees());
                write!(f, "more than {from:.3} deg and less than {to:.3} deg")
            }
        }
    }
}
