//! Trefoil: three lobes of one radius over plumb jambs, with a cusp where the upper one crosses each of the lower.

use super::halves::{both_halves, crown_arc};
use super::{Arch, ArchError, Bound};
use crate::{Piece, Point, Soffit, Vec2};

const SHAPE: &str = "trefoil";

/// What fixes a trefoil arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Trefoil {
    /// The width at the springing.
    pub span: f64,
    /// The height of the crown above it.
    pub rise: f64,
    /// The radius of all three lobes.
    pub lobe_radius: f64,
    /// The height of the lower lobes' centres above the springing, perhaps 0.
    pub lobe_height: f64,
}

impl Trefoil {
    /// Works out the arch.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let half = self.span / 2.0;
        let (radius, height) = (self.lobe_radius, self.lobe_height);
        // The crown's height above the lower centres.
        let above = self.rise - height;
        let out_of_range = |size, bound, because| ArchError::OutOfRange {
            shape: SHAPE,
            size,
            bound,
            because,
            instead: None,
        };
        if above <= half / 3.0 || above >= 3.0 * half {
            let bound = Bound::Between(height + half / 3.0, height + 3.0 * half);
            return Err(out_of_range(
                "rise",
                bound,
                "with lobes of one radius they cross only between",
            ));
        }
        let (least, most) = (least_radius(half, above), half.min(above));
        if !(radius > least && radius < most) {
            let because = "smaller lobes do not cross, and larger ones are no lobes";
            return Err(out_of_range("lobe-radius", Bound::Between(least, most), because));
        }
        let (lower, upper) = (
            Point::new(half - radius, height),
            Point::new(0.0, self.rise - radius),
        );
        let cusp = cusp(lower, upper, radius);
        let jamb = Point::new(half, height);
        let mut right = vec![Piece::arc_between(lower, cusp, jamb, false)];
        if height > 0.0 {
            right.push(Piece::line(jamb, Point::new(half, 0.0)));
        }
        let soffit = both_halves(Some(crown_arc(upper, cusp)), &right);
        Ok(Arch::new(SHAPE, self.span, self.rise, Soffit::Path(soffit)))
    }
}

/// The radius at which the upper lobe touches the lower ones: (a - ρ)² + (k - ρ)² = (2ρ)², of half span a and crown k above
/// the lower centres.
fn least_radius(half: f64, above: f64) -> f64 {
    let (sum, squares) = (half + above, half * half + above * above);
    squares / (sum + (sum * sum + 2.0 * squares).sqrt())
}

/// Where the right lobe crosses the upper one on the outside of both.
fn cusp(lower: Point, upper: Point, radius: f64) -> Point {
    let apart = upper - lower;
    let half = apart.hypot() / 2.0;
    let outward = Vec2::new(apart.y, -apart.x) / (2.0 * half);
    lower.midpoint(upper) + outward * ((radius - half) * (radius + half)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn trefoil(rise: f64, lobe_radius: f64, lobe_height: f64) -> Result<Arch, ArchError> {
        Trefoil {
            span: 900.0,
            rise,
            lobe_radius,
            lobe_height,
        }
        .arch()
    }

    #[test]
    fn lobes_of_one_radius_between_plumb_jambs() {
        let arch = trefoil(800.0, 280.0, 150.0).unwrap();
        let Soffit::Path(path) = &arch.soffit else {
            panic!("arcs and lines")
        };
        assert_eq!(path.pieces().len(), 5);
        assert!(
            arch.figures()
                .centres
                .iter()
                .all(|c| (c.radius - 280.0).abs() < 1e-9)
        );
        let bounds = path.bounds();
        assert!((bounds.y1 - 800.0).abs() < 1e-9 && (bounds.x1 - 450.0).abs() < 1e-9);
        // No point lies inside any lobe.
        for centre in arch.figures().centres.iter().map(|c| c.at) {
            assert!(path.nearest(centre).distance > 280.0 - 1e-9);
        }
        assert_eq!(trefoil(800.0, 280.0, 0.0).unwrap().figures().centres.len(), 3);
    }

    #[test]
    fn lobes_that_do_not_cross_are_refused_with_the_limit() {
        let Err(ArchError::OutOfRange {
            size: "lobe-radius",
            bound: Bound::Between(least, most),
            ..
        }) = trefoil(800.0, 100.0, 150.0)
        else {
            panic!("they stand apart")
        };
        assert!(trefoil(800.0, least - 1e-6, 150.0).is_err() && trefoil(800.0, most, 150.0).is_err());
        for radius in [least + 1e-6, most - 1e-6] {
            assert!(trefoil(800.0, radius, 150.0).is_ok());
        }
        assert_eq!(trefoil(150.0, 200.0, 150.0).unwrap_err().size(), Some("rise"));
        assert_eq!(trefoil(1600.0, 200.0, 150.0).unwrap_err().size(), Some("rise"));
    }
}
