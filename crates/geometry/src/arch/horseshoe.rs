//! Horseshoe: one arc, more than a half circle, wider above the springing than at it.

use super::segmental::arc_over;
use super::{Arch, ArchError, Bound};
use crate::Soffit;

const SHAPE: &str = "horseshoe";

/// What fixes a horseshoe arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Horseshoe {
    /// The width at the springing.
    pub span: f64,
    /// The height of the crown above it, over half the span.
    pub rise: f64,
}

impl Horseshoe {
    /// Works out the arch. R = (a² + r²) / 2r, of half span a and rise r; the centre stands r - R above the springing.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let Self { span, rise } = self;
        let half = span / 2.0;
        if rise <= half {
            return Err(ArchError::OutOfRange {
                shape: SHAPE,
                size: "rise",
                bound: Bound::Over(half),
                because: "it is not over half the span",
                instead: Some("segmental"),
            });
        }
        // R - a, without the loss of digits of the difference.
        let beyond = (rise - half).powi(2) / (2.0 * rise);
        let widest = span + 2.0 * beyond;
        let soffit = Soffit::Path(arc_over(half, 0.0, rise));
        Ok(Arch::new(SHAPE, span, rise, soffit).noting(format!(
            "it is widest, {widest:.2} mm, above the springing and stands {beyond:.2} mm beyond each jamb: a centre \
             under it is trapped and must be made in parts"
        )))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn its_trapped_width_is_said() {
        let arch = Horseshoe {
            span: 900.0,
            rise: 620.0,
        }
        .arch()
        .unwrap();
        let centre = arch.figures().centres[0];
        assert!((centre.radius - 473.306).abs() < 1e-3 && (centre.at.y - 146.694).abs() < 1e-3);
        assert!(arch.notes[0].contains("946.61 mm") && arch.notes[0].contains("23.31 mm"));
    }

    #[test]
    fn a_lower_one_is_segmental() {
        let low = Horseshoe {
            span: 900.0,
            rise: 450.0,
        };
        assert!(matches!(
            low.arch(),
            Err(ArchError::OutOfRange {
                bound: Bound::Over(450.0),
                instead: Some("segmental"),
                ..
            })
        ));
    }
}
