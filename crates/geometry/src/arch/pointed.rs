//! Pointed: two arcs centred on the springing line, meeting in an apex on the centre line.

use super::{Arch, ArchError, Bound};
use crate::{Path, Piece, Point, Soffit};

/// What fixes a pointed arch: two of the three. mm.
#[derive(Clone, Copy, Debug, Default)]
pub struct Pointed {
    /// The width at the springing.
    pub span: Option<f64>,
    /// The height of the apex above it, over half the span.
    pub rise: Option<f64>,
    /// The radius of both arcs, over half the span.
    pub radius: Option<f64>,
}

impl Pointed {
    /// Works out the arch. R = (a² + r²) / 2a, of half span a and rise r.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let shape = "pointed";
        let (half, rise) = match (self.span, self.rise, self.radius) {
            (Some(span), Some(rise), None) => (span / 2.0, rise),
            (Some(span), None, Some(radius)) => {
                let half = span / 2.0;
                if radius <= half {
                    let because = "with centres on the springing line it is over half the span";
                    return Err(out_of_range("radius", Bound::Over(half), because));
                }
                (half, (half * (2.0 * radius - half)).sqrt())
            }
            (None, Some(rise), Some(radius)) => {
                if rise >= radius {
                    // From r = √(a (2R - a)): the rise comes to R only as the half span does.
                    return Err(ArchError::OutOfRange {
                        shape,
                        size: "radius",
                        bound: Bound::Over(rise),
                        because: "with a rise of the radius or more the span is not fixed by the two",
                        instead: None,
                    });
                }
                // R - √(R² - r²), the smaller root, without loss of digits.
                (
                    rise * rise / (radius + ((radius - rise) * (radius + rise)).sqrt()),
                    rise,
                )
            }
            _ => {
                return Err(ArchError::NotFixed {
                    shape,
                    fixed_by: "two of `span`, `rise` and `radius`",
                });
            }
        };
        if rise <= half {
            return Err(ArchError::OutOfRange {
                shape,
                size: "rise",
                bound: Bound::Over(half),
                because: "with centres on the springing line it rises over half the span; lower ones have four centres",
                instead: Some("four-centred"),
            });
        }
        Ok(Arch::new(
            shape,
            2.0 * half,
            rise,
            Soffit::Path(two_arcs(half, rise)),
        ))
    }
}

/// What fixes an equilateral arch, mm: a pointed one whose radius is its span.
#[derive(Clone, Copy, Debug)]
pub struct Equilateral {
    /// The width at the springing.
    pub span: f64,
}

impl Equilateral {
    /// Works out the arch.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let rise = self.span * 0.75f64.sqrt();
        let soffit = Soffit::Path(two_arcs(self.span / 2.0, rise));
        Ok(Arch::new("equilateral", self.span, rise, soffit))
    }
}

fn out_of_range(size: &'static str, bound: Bound, because: &'static str) -> ArchError {
    ArchError::OutOfRange {
        shape: "pointed",
        size,
        bound,
        because,
        instead: None,
    }
}

fn two_arcs(half: f64, rise: f64) -> Path {
    let radius = (half * half + rise * rise) / (2.0 * half);
    let (left, apex, right) = (
        Point::new(-half, 0.0),
        Point::new(0.0, rise),
        Point::new(half, 0.0),
    );
    Path::from_pieces(&[
        Piece::arc_between(Point::new(radius - half, 0.0), left, apex, false),
        Piece::arc_between(Point::new(half - radius, 0.0), apex, right, false),
    ])
}
