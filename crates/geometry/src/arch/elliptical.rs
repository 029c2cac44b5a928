//! Elliptical: the upper half of a true ellipse.

use super::{Arch, ArchError};
use crate::{HalfEllipse, Soffit};
use std::sync::Arc;

/// What fixes an elliptical arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Elliptical {
    /// The width at the springing.
    pub span: f64,
    /// The height of the crown above it.
    pub rise: f64,
}

impl Elliptical {
    /// Works out the arch.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let Self { span, rise } = self;
        let curve = HalfEllipse {
            half_span: span / 2.0,
            rise,
        };
        Ok(Arch::new(
            "elliptical",
            span,
            rise,
            Soffit::Curve(Arc::new(curve)),
        ))
    }
}
