//! The arches of the trade, a file each.
//!
//! The origin is the middle of the springing line; the soffit runs from the left springing to the right. Every constructor
//! takes the sizes by name and refuses, naming the size, what no such arch can have.

pub use elliptical::Elliptical;
pub use error::{ArchError, Bound};
pub use figures::{Centre, Figures};
pub use pointed::{Equilateral, Pointed};
pub use segmental::Segmental;
pub use semicircular::Semicircular;
pub use stilted::Stilted;

pub(crate) use segmental::arc_over;

mod elliptical;
mod error;
mod figures;
mod pointed;
mod segmental;
mod semicircular;
mod stilted;

use crate::Soffit;

/// An arch whose every size is known.
#[derive(Clone, Debug)]
pub struct Arch {
    /// The trade's name of its shape, as job files spell it.
    pub shape: &'static str,
    /// The width at the springing, mm.
    pub span: f64,
    /// The height of the crown above the springing, mm.
    pub rise: f64,
    /// Its under line.
    pub soffit: Soffit,
}
