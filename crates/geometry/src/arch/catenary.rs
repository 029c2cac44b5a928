//! Catenary: a hanging chain turned over.

use super::{Arch, ArchError};
use crate::{Chain, Soffit};
use std::sync::Arc;

/// What fixes a catenary arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Catenary {
    /// The width at the springing.
    pub span: f64,
    /// The height of the crown above it.
    pub rise: f64,
}

impl Catenary {
    /// Works out the arch.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let Self { span, rise } = self;
        let curve = Chain::over(span / 2.0, rise);
        Ok(Arch::new("catenary", span, rise, Soffit::Curve(Arc::new(curve))))
    }
}
