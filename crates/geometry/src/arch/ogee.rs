//! Ogee: lower arcs that turn inwards, and counter arcs that turn up to a cusp, where they stand plumb.

use super::halves::both_halves;
use super::{Arch, ArchError, Bound};
use crate::{Piece, Point, Soffit};

const SHAPE: &str = "ogee";

/// What fixes an ogee arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Ogee {
    /// The width at the springing.
    pub span: f64,
    /// The height of the cusp above it.
    pub rise: f64,
    /// The radius of the lower arcs.
    pub lower_radius: f64,
}

impl Ogee {
    /// Works out the arch. Of half span a, rise r and lower radius l the upper one is (a² + r² - 2al) / 2a, its centres level
    /// with the cusp.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let Self {
            span,
            rise,
            lower_radius: lower,
        } = self;
        let half = span / 2.0;
        if rise < half {
            return Err(ArchError::OutOfRange {
                shape: SHAPE,
                size: "rise",
                bound: Bound::AtLeast(half),
                because: "under half its span the lower arcs come over their tops and fall before they turn up",
                instead: Some("four-centred"),
            });
        }
        let most = f64::midpoint(half, rise * rise / half);
        if !(lower > 0.0 && lower < most) {
            return Err(ArchError::OutOfRange {
                shape: SHAPE,
                size: "lower-radius",
                bound: Bound::Between(0.0, most),
                because: "longer ones leave the upper arcs no radius, and the arcs cannot meet",
                instead: Some("pointed"),
            });
        }
        let upper = most - lower;
        let below = Point::new(half - lower, 0.0);
        let above = Point::new(upper, rise);
        let join = below + (above - below) * (lower / (lower + upper));
        let right = [
            Piece::arc_between(above, Point::new(0.0, rise), join, true),
            Piece::arc_between(below, join, Point::new(half, 0.0), false),
        ];
        Ok(Arch::new(SHAPE, span, rise, Soffit::Path(both_halves(None, &right))).noting(
            "the upper arcs are centred level with the apex, where they stand plumb: a ring of the same depth throughout \
             cannot close over such a cusp",
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arcs_that_cannot_meet_are_refused() {
        let ogee = |lower_radius| {
            Ogee {
                span: 1200.0,
                rise: 700.0,
                lower_radius,
            }
            .arch()
        };
        let most = (600.0f64.powi(2) + 700.0f64.powi(2)) / 1200.0;
        assert!(ogee(most - 0.01).is_ok());
        assert!(matches!(
            ogee(most + 0.01),
            Err(ArchError::OutOfRange { size: "lower-radius", bound: Bound::Between(_, limit), .. }) if (limit - most).abs() < 1e-9
        ));
    }

    #[test]
    fn the_cusp_is_plumb_on_both_sides() {
        let arch = Ogee {
            span: 1200.0,
            rise: 1150.0,
            lower_radius: 420.0,
        };
        let Soffit::Path(path) = arch.arch().unwrap().soffit else {
            panic!("arcs")
        };
        let pieces: Vec<Piece> = path.pieces().collect();
        assert!((pieces[1].tangent_at(1.0).y - 1.0).abs() < 1e-12);
        assert!((pieces[2].tangent_at(0.0).y + 1.0).abs() < 1e-12);
    }
}
