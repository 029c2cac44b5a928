//! Segmental: one arc, less than or just a half circle, centred on or below the springing.

use super::{Arch, ArchError, Bound};
use crate::{Path, Point, Soffit, Vertex};

const SHAPE: &str = "segmental";

/// What fixes a segmental arch: two of the three. mm.
#[derive(Clone, Copy, Debug, Default)]
pub struct Segmental {
    /// The width at the springing.
    pub span: Option<f64>,
    /// The height of the crown above it, at most half the span.
    pub rise: Option<f64>,
    /// The radius of the soffit.
    pub radius: Option<f64>,
}

impl Segmental {
    /// Works out the arch. R = (a² + r²) / 2r, of half span a and rise r.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let (half, rise) = match (self.span, self.rise, self.radius) {
            (Some(span), Some(rise), None) => (span / 2.0, rise),
            (Some(span), None, Some(radius)) => {
                let half = span / 2.0;
                if radius < half {
                    return Err(out_of_range(
                        "radius",
                        Bound::AtLeast(half),
                        "it is less than half the span",
                    ));
                }
                // R - √(R² - a²), without the loss of digits that the difference brings to a flat arch.
                (
                    half,
                    half * half / (radius + ((radius - half) * (radius + half)).sqrt()),
                )
            }
            (None, Some(rise), Some(radius)) => {
                if rise > radius {
                    return Err(out_of_range(
                        "rise",
                        Bound::AtMost(radius),
                        "it is more than the radius",
                    ));
                }
                ((rise * (2.0 * radius - rise)).sqrt(), rise)
            }
            _ => {
                return Err(ArchError::NotFixed {
                    shape: SHAPE,
                    fixed_by: "two of `span`, `rise` and `radius`",
                });
            }
        };
        if rise > half {
            return Err(ArchError::OutOfRange {
                shape: SHAPE,
                size: "rise",
                bound: Bound::AtMost(half),
                because: "it is over half the span",
                instead: Some("horseshoe"),
            });
        }
        Ok(Arch {
            shape: SHAPE,
            span: 2.0 * half,
            rise,
            soffit: Soffit::Path(arc_over(half, 0.0, rise)),
        })
    }
}

fn out_of_range(size: &'static str, bound: Bound, because: &'static str) -> ArchError {
    ArchError::OutOfRange {
        shape: SHAPE,
        size,
        bound,
        because,
        instead: None,
    }
}

/// One arc over `half` to each side of the centre line, rising `rise` above the level `springing`.
///
/// The half angle is 2 atan(rise / half), so the bulge is minus rise / half, exactly.
pub(crate) fn arc_over(half: f64, springing: f64, rise: f64) -> Path {
    let vertex = |x, bulge| Vertex {
        point: Point::new(x, springing),
        bulge,
    };
    Path::new(vec![vertex(-half, -rise / half), vertex(half, 0.0)])
}
