//! The arches of the trade, a file each.
//!
//! The origin is the middle of the springing line (of the lower springing's level, where they differ; the centre of a
//! closed shape); the soffit runs from the left springing to the right. Every constructor takes the sizes by name and
//! refuses, naming the size, what no such arch can have. Sizes are taken to be more than 0.

pub use camber::{Camber, LevelBack, Skewback};
pub use catenary::Catenary;
pub use elliptical::Elliptical;
pub use error::{ArchError, Bound};
pub use figures::{Centre, Figures};
pub use five_centred::{FiveCentred, FiveCentredBy};
pub use four_centred::{FourCentred, FourCentredBy};
pub use horseshoe::Horseshoe;
pub use likely::of_span_and_rise;
pub use ogee::Ogee;
pub use parabolic::Parabolic;
pub use pointed::{Equilateral, Pointed};
pub use rampant::Rampant;
pub use round::{Oval, Round};
pub use segmental::Segmental;
pub use semicircular::Semicircular;
pub use stilted::Stilted;
pub use three_centred::{ThreeCentred, ThreeCentredBy};
pub use trefoil::Trefoil;

pub(crate) use segmental::arc_over;

mod camber;
mod catenary;
mod elliptical;
mod error;
mod figures;
mod five_centred;
mod four_centred;
mod halves;
mod horseshoe;
mod likely;
mod ogee;
mod parabolic;
mod pointed;
mod rampant;
mod round;
mod segmental;
mod semicircular;
mod stilted;
mod three_centred;
mod trefoil;

use crate::Soffit;

/// An arch whose every size is known.
#[derive(Clone, Debug)]
pub struct Arch {
    /// The trade's name of its shape, as job files spell it.
    pub shape: &'static str,
    /// The width at the springing, mm; the whole width of a closed shape.
    pub span: f64,
    /// The height of the crown above the (lower) springing, mm; above the centre of a closed shape.
    pub rise: f64,
    /// How far the crown stands to the right of the centre line, mm: 0 but for a rampant arch.
    pub crown: f64,
    /// Its under line.
    pub soffit: Soffit,
    /// Whether the soffit comes back to where it begins.
    pub closed: bool,
    /// Whether its soffit's arcs only stand in for a curve that was drawn, so that nobody strikes them from their centres.
    pub drawn_as_curve: bool,
    /// The level back of a camber arch.
    pub level_back: Option<LevelBack>,
    /// What was taken where its sizes leave the shape open, and what its maker must know: sentences.
    pub notes: Vec<String>,
}

impl Arch {
    /// An open arch with its crown over the middle of its span, and nothing to say of it.
    pub const fn new(shape: &'static str, span: f64, rise: f64, soffit: Soffit) -> Self {
        Self {
            shape,
            span,
            rise,
            crown: 0.0,
            soffit,
            closed: false,
            drawn_as_curve: false,
            level_back: None,
            notes: Vec::new(),
        }
    }

    fn noting(mut self, note: impl Into<String>) -> Self {
        self.notes.push(note.into());
        self
    }
}
