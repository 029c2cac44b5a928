//! Parabolic: a parabola with a plumb axis.

use super::{Arch, ArchError};
use crate::{Parabola, Soffit};
use std::sync::Arc;

/// What fixes a parabolic arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Parabolic {
    /// The width at the springing.
    pub span: f64,
    /// The height of the crown above it.
    pub rise: f64,
}

impl Parabolic {
    /// Works out the arch.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let Self { span, rise } = self;
        let curve = Parabola {
            half_span: span / 2.0,
            rise,
        };
        Ok(Arch::new("parabolic", span, rise, Soffit::Curve(Arc::new(curve))))
    }
}
