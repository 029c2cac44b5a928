//! Casings: flat heads that stand back from the edge of an arch by a reveal, all struck from the arch's own centre.
//!
//! A casing's legs are plumb and stand as far outside the jambs as its head stands outside the soffit.

use crate::setting_out::SingleArc;

/// A casing round a single arc. mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Casing {
    /// The edge that it stands back from.
    pub arc: SingleArc,
    /// How far it stands back.
    pub reveal: f64,
    /// Its width.
    pub width: f64,
}

impl Casing {
    /// The radius of its inner edge, from the arch's centre.
    pub fn inner_radius(self) -> f64 {
        self.arc.radius() + self.reveal
    }

    /// The radius of its outer edge, from the same centre.
    pub fn outer_radius(self) -> f64 {
        self.inner_radius() + self.width
    }

    /// How high above the arch's springing the head's inner edge meets the leg's.
    pub fn inner_corner(self) -> f64 {
        self.corner(self.reveal)
    }

    /// How high above the arch's springing the head's outer edge meets the leg's.
    pub fn outer_corner(self) -> f64 {
        self.corner(self.reveal + self.width)
    }

    /// Where a line `out` from the soffit meets one as far out from the jamb: y = √((R + o)² - (a + o)²) - (R - r).
    fn corner(self, out: f64) -> f64 {
        let SingleArc { half_span, rise } = self.arc;
        let radius = self.arc.radius();
        // The difference of the squares as a product, which keeps its digits on a flat arch.
        ((radius - half_span) * (radius + half_span + 2.0 * out)).sqrt() - (radius - rise)
    }

    /// The mitre by the directions of head and leg at the springing, from the horizontal, radians: (90° - θ) / 2.
    pub fn tangent_mitre(self) -> f64 {
        self.arc.skewback() / 2.0
    }

    /// The straight mitre from inner to outer corner, from the horizontal, radians: the one whose ends fit both edges.
    pub fn straight_mitre(self) -> f64 {
        (self.outer_corner() - self.inner_corner()).atan2(self.width)
    }

    /// How far the true mitre, which is curved, stands above the straight one half way across, mm.
    pub fn mitre_bow(self) -> f64 {
        let middle = self.corner(self.reveal + self.width / 2.0);
        middle - f64::midpoint(self.inner_corner(), self.outer_corner())
    }

    /// The radius that comes out if the outer edge is worked anew from outside width and height: always wrong but on a half
    /// circle, and on a flat arch less than the inner radius. For a warning.
    pub fn radius_worked_anew(self) -> f64 {
        let out = self.reveal + self.width;
        SingleArc {
            half_span: self.arc.half_span + out,
            rise: self.arc.rise + out,
        }
        .radius()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn casing(reveal: f64) -> Casing {
        let arc = SingleArc {
            half_span: 457.5,
            rise: 152.0,
        };
        Casing {
            arc,
            reveal,
            width: 89.0,
        }
    }

    fn near(found: f64, wanted: f64, within: f64) {
        assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
    }

    #[test]
    fn a_radius_worked_anew_is_wrong() {
        let casing = casing(0.0);
        near(casing.inner_radius(), 764.51, 5e-3);
        near(casing.outer_radius(), 853.51, 5e-3);
        near(casing.radius_worked_anew(), 740.13, 5e-3);
        assert!(casing.radius_worked_anew() < casing.inner_radius());
        // How wide a casing with that edge would be, along the radius at some angles from the crown.
        let (inner, wrong) = (casing.inner_radius(), casing.radius_worked_anew());
        let up = inner + casing.width - wrong;
        for (degrees, width) in [(0.0_f64, 89.0), (10.0, 87.0), (20.0, 81.1), (30.0, 71.6)] {
            let (sin, cos) = degrees.to_radians().sin_cos();
            near(
                up * cos + (wrong * wrong - (up * sin).powi(2)).sqrt() - inner,
                width,
                0.05,
            );
        }
    }

    #[test]
    fn a_reveal_lengthens_the_legs() {
        near(casing(6.0).inner_corner(), 3.00, 5e-3);
        near(casing(6.0).outer_corner(), 45.90, 5e-3);
        near(casing(0.0).inner_corner(), 0.0, 1e-9);
    }

    #[test]
    fn the_mitre_of_an_eyebrow_head_to_its_leg() {
        let casing = casing(0.0);
        near(casing.tangent_mitre().to_degrees(), 26.62, 5e-3);
        near(casing.straight_mitre().to_degrees(), 25.84, 5e-3);
        near(casing.outer_corner(), 43.09, 5e-3);
        near(casing.mitre_bow(), 0.37, 5e-3);
    }

    #[test]
    fn a_half_circle_meets_its_legs_square() {
        let arc = SingleArc {
            half_span: 450.0,
            rise: 450.0,
        };
        let casing = Casing {
            arc,
            reveal: 6.0,
            width: 95.0,
        };
        near(casing.outer_corner(), 0.0, 1e-9);
        near(casing.straight_mitre(), 0.0, 1e-12);
        near(casing.radius_worked_anew(), casing.outer_radius(), 1e-9);
    }
}
