//! Semicircular: a half circle on the springing.

use super::segmental::arc_over;
use super::{Arch, ArchError};
use crate::Soffit;

/// What fixes a semicircular arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Semicircular {
    /// The width at the springing.
    pub span: f64,
}

impl Semicircular {
    /// Works out the arch.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let half = self.span / 2.0;
        let soffit = Soffit::Path(arc_over(half, 0.0, half));
        Ok(Arch::new("semicircular", self.span, half, soffit))
    }
}
