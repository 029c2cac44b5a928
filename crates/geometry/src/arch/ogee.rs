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
            "the upper arcs are centred level with the apex, where they stand plumb: over it both edges of a ring run on plumb \
             by its depth and are cut level, since they never meet; a finial stands there",
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{LineError, parallel_line};

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
    fn a_ring_keeps_its_depth_up_to_the_radius_of_the_upper_arcs() {
        let arch = Ogee {
            span: 1200.0,
            rise: 1150.0,
            lower_radius: 420.0,
        };
        let arch = arch.arch().unwrap();
        let Soffit::Path(soffit) = &arch.soffit else {
            panic!("arcs")
        };
        let upper = arch.figures().centres[1].radius;
        let back = parallel_line(soffit, -110.0).unwrap();
        assert!((back.bounds().y1 - 1260.0).abs() < 1e-9 && (back.bounds().x1 - 710.0).abs() < 1e-9);
        let radii: Vec<f64> = back
            .pieces()
            .filter_map(|arc| arc.circle())
            .map(|c| c.radius)
            .collect();
        for (found, wanted) in radii.iter().zip([530.0, upper - 110.0, upper - 110.0, 530.0]) {
            assert!(
                (found - wanted).abs() < 1e-9,
                "the sign changes at the join: {radii:?}"
            );
        }
        assert!(
            back.pieces()
                .all(|piece| soffit.nearest(piece.point_at(0.5)).distance > 110.0 - 1e-9)
        );
        let LineError::TooFar { limit, .. } = parallel_line(soffit, -upper - 1.0).unwrap_err();
        assert!((limit - upper).abs() < 1e-6, "{limit}");
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
