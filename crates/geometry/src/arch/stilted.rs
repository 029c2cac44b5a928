//! Stilted: an arc lifted on plumb legs above the springing.

use super::segmental::arc_over;
use super::{Arch, ArchError, Bound};
use crate::{Path, Point, Soffit};

const SHAPE: &str = "stilted";

/// What fixes a stilted arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Stilted {
    /// The width at the springing.
    pub span: f64,
    /// The height of the plumb legs.
    pub stilt: f64,
    /// The rise of the arc above them, at most half the span, which it is if left out.
    pub arc_rise: Option<f64>,
}

impl Stilted {
    /// Works out the arch; its rise is the whole, stilt and arc.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let half = self.span / 2.0;
        let arc_rise = self.arc_rise.unwrap_or(half);
        if arc_rise > half {
            return Err(ArchError::OutOfRange {
                shape: SHAPE,
                size: "arc-rise",
                bound: Bound::AtMost(half),
                because: "the arc over the stilts rises at most half the span",
                instead: None,
            });
        }
        let leg = |x: f64, from: f64, to: f64| Path::polyline(&[Point::new(x, from), Point::new(x, to)]);
        let soffit = leg(-half, 0.0, self.stilt)
            .then(&arc_over(half, self.stilt, arc_rise))
            .then(&leg(half, self.stilt, 0.0));
        let rise = self.stilt + arc_rise;
        Ok(Arch::new(SHAPE, self.span, rise, Soffit::Path(soffit)))
    }
}
