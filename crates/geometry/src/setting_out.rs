//! Figures by which an arch is set out by hand, most of all where a centre is out of reach.

pub use ellipse::{EllipseByHand, Grown};
pub use ways::{Fails, LONGEST_ARM, Verdict, Way, ways};

mod ellipse;
mod ways;

use crate::arch::Arch;
use crate::{Path, Point, Vec2};

/// A longer arm than this is not swung true by hand, mm: it bends, and its pivot seldom finds a floor.
pub const LONGEST_TRAMMEL: f64 = 3000.0;

/// Springings are level within this, mm.
const LEVEL: f64 = 1e-6;

/// One arc on level springings, at most half a circle. mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SingleArc {
    /// Half the span.
    pub half_span: f64,
    /// The height of the crown above the springing.
    pub rise: f64,
}

impl SingleArc {
    /// The arc that a soffit is, if it is one: a single piece, upwards, on level springings.
    pub fn of(soffit: &Path) -> Option<Self> {
        let mut pieces = soffit.pieces();
        let (arc, None) = (pieces.next()?, pieces.next()) else {
            return None;
        };
        let chord = arc.end - arc.start;
        let upright = arc.bulge < 0.0 && arc.bulge >= -1.0 && !arc.is_line();
        (upright && chord.y.abs() < LEVEL && chord.x > 0.0).then(|| Self {
            half_span: chord.x / 2.0,
            rise: -arc.bulge * chord.x / 2.0,
        })
    }

    /// Its radius, mm. R = (a² + r²) / 2r, of half span a and rise r.
    pub fn radius(self) -> f64 {
        Vec2::new(self.half_span, self.rise).hypot2() / (2.0 * self.rise)
    }

    /// Half the angle that it turns through, radians: 2 atan(r / a), also the slope of the soffit at the springing.
    pub fn half_angle(self) -> f64 {
        2.0 * (self.rise / self.half_span).atan()
    }

    /// The angle of a skewback square to the soffit with the horizontal, radians; 0 under a half circle.
    pub fn skewback(self) -> f64 {
        std::f64::consts::FRAC_PI_2 - self.half_angle()
    }

    /// The angle between the arms of a frame that, slid along pins at both springings, draws the arc with its corner, radians:
    /// 2 atan(a / r). Exact, by the inscribed angle; each arm is as long as the span at least, and on pins set otherwise the
    /// same frame draws another radius.
    pub fn frame_angle(self) -> f64 {
        2.0 * (self.half_span / self.rise).atan()
    }

    /// How far the middle of each half of the arc stands off the straight line from springing to crown, mm: R (1 - cos(θ/2)).
    /// A little more than a quarter of the rise.
    pub fn half_arc_rise(self) -> f64 {
        // 1 - cos x = 2 sin² (x/2), which keeps its digits on a flat arch.
        2.0 * self.radius() * (self.half_angle() / 4.0).sin().powi(2)
    }

    /// How much longer the radius comes out for each mm more of rise: dR/dr = 1/2 - a² / 2r². Mostly below 0, and large on a
    /// flat arch, though the curve itself hardly moves: see [`Self::quarter_sensitivity`].
    pub fn radius_sensitivity(self) -> f64 {
        0.5 - (self.half_span / self.rise).powi(2) / 2.0
    }

    /// How much lower than the arc a thin strip stands at a quarter of the span that is bent round pins at both springings and the
    /// crown, mm: it takes the line of a bent beam, y = r (3 x/S - 4 (x/S)³), 11/16 of the rise there. None where the rise is
    /// over a sixth of the span, since the beam's line is that of a small bend.
    pub fn strip_falls_short(self) -> Option<f64> {
        /// Of the rise, at a quarter of the span.
        const BEAM: f64 = 11.0 / 16.0;
        /// Over this share of half the span the bend is not small.
        const SMALL: f64 = 1.0 / 3.0;
        let radius = self.radius();
        let up = (radius * radius - self.half_span.powi(2) / 4.0).sqrt();
        // R - √(R² - a²/4) = (a²/4) / (R + √(R² - a²/4)), which keeps its digits on a flat arch.
        let quarter = self.rise - self.half_span.powi(2) / 4.0 / (radius + up);
        (self.rise <= SMALL * self.half_span).then_some(quarter - BEAM * self.rise)
    }

    /// How much higher the soffit stands at a quarter of the span for each mm more of rise.
    pub fn quarter_sensitivity(self) -> f64 {
        let radius = self.radius();
        let up = (radius * radius - self.half_span.powi(2) / 4.0).sqrt();
        // y = √(R² - a²/4) - R + r, differentiated by r.
        self.radius_sensitivity() * (radius / up - 1.0) + 1.0
    }
}

/// More heights than this on one side of the middle set nothing out better.
pub const MOST_ORDINATES: u32 = 500;

/// The heights of the soffit over the springing line, every `step` mm from the middle of the span to both sides, from the
/// left; none where there would be more than [`MOST_ORDINATES`] to a side.
pub fn ordinates(arch: &Arch, step: f64) -> Option<Vec<Point>> {
    let reach = (arch.span / 2.0 + LEVEL) / step;
    if !(reach >= 0.0 && reach <= f64::from(MOST_ORDINATES)) {
        return None;
    }
    #[expect(clippy::cast_possible_truncation, reason = "not over MOST_ORDINATES")]
    let steps = reach as i32;
    let at = |i: i32| {
        let x = f64::from(i) * step;
        arch.soffit.height_at(x).map(|y| Point::new(x, y))
    };
    Some((-steps..=steps).filter_map(at).collect())
}

/// Whether an arm of this radius, mm, can be swung true by hand.
pub fn trammel_is_practical(radius: f64) -> bool {
    radius <= LONGEST_TRAMMEL
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Soffit;
    use crate::arch::{Arch, ArchError, Segmental, Semicircular, Stilted};

    fn segment(span: f64, rise: f64) -> Arch {
        let sizes = Segmental {
            span: Some(span),
            rise: Some(rise),
            radius: None,
        };
        sizes.arch().unwrap()
    }

    fn arc(span: f64, rise: f64) -> SingleArc {
        single(&segment(span, rise)).unwrap()
    }

    fn single(arch: &Arch) -> Option<SingleArc> {
        match &arch.soffit {
            Soffit::Path(path) => SingleArc::of(path),
            Soffit::Curve(_) => None,
        }
    }

    fn near(found: f64, wanted: f64, within: f64) {
        assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
    }

    #[test]
    fn radius_from_width_and_height() {
        let arc = arc(1180.0, 165.0);
        near(arc.radius(), 1137.35, 5e-3);
        near(arc.half_angle().to_degrees(), 31.25, 5e-3);
        near(arc.radius() - arc.rise, 972.35, 5e-3);
    }

    #[test]
    fn a_radius_too_long_to_swing() {
        let arc = arc(3600.0, 240.0);
        near(arc.radius(), 6870.0, 1e-9);
        near(arc.half_arc_rise(), 60.26, 5e-3);
        assert!(!trammel_is_practical(arc.radius()) && trammel_is_practical(3000.0));
        let soffit = segment(3600.0, 240.0).soffit;
        for (x, y) in [
            (0.0, 240.0),
            (300.0, 233.4),
            (600.0, 213.7),
            (900.0, 180.8),
            (1200.0, 134.4),
            (1500.0, 74.2),
            (1800.0, 0.0),
        ] {
            near(soffit.height_at(x).unwrap(), y, 0.05);
        }
    }

    #[test]
    fn ordinates_at_a_step_reach_the_springings() {
        let arch = segment(3600.0, 240.0);
        let heights = ordinates(&arch, 300.0).unwrap();
        assert_eq!(heights.len(), 13);
        near(heights[0].x, -1800.0, 1e-9);
        near(heights[0].y, 0.0, 1e-6);
        near(heights[8].y, 213.7, 0.05);
        assert_eq!(ordinates(&arch, 700.0).unwrap().len(), 5);
        assert_eq!(ordinates(&arch, 4000.0).unwrap().len(), 1);
        assert_eq!(ordinates(&arch, 0.5), None);
    }

    #[test]
    fn the_radius_jumps_and_the_curve_does_not() {
        near(arc(1450.0, 92.0).radius(), 2902.7, 0.05);
        near(arc(1450.0, 95.0).radius(), 2813.9, 0.05);
        near(arc(1450.0, 98.0).radius(), 2730.8, 0.05);
        let quarter = |rise| segment(1450.0, rise).soffit.height_at(362.5).unwrap();
        near(quarter(98.0) - quarter(95.0), 2.28, 5e-3);
        let (low, high) = (arc(1450.0, 94.999), arc(1450.0, 95.001));
        let middle = arc(1450.0, 95.0);
        near(
            middle.radius_sensitivity(),
            (high.radius() - low.radius()) / 0.002,
            1e-4,
        );
        near(
            middle.quarter_sensitivity(),
            (quarter(95.001) - quarter(94.999)) / 0.002,
            1e-6,
        );
    }

    #[test]
    fn the_angle_of_a_frame_on_two_pins() {
        near(arc(2150.0, 180.0).frame_angle().to_degrees(), 160.989, 5e-4);
        near(arc(2150.0, 180.0).radius(), 3300.07, 5e-3);
        // The same frame, so the same rise to span, on pins half as far apart.
        near(arc(1075.0, 90.0).radius(), 1650.03, 6e-3);
        near(arc(1800.0, 9.0).frame_angle().to_degrees(), 178.854, 5e-4);
        near(arc(1800.0, 9.0).radius(), 45004.5, 1e-6);
        near(
            arc(1220.0, 260.0).skewback().to_degrees(),
            43.829_732_654_383_5,
            1e-9,
        );
    }

    #[test]
    fn a_strip_bent_round_three_pins_is_no_arc() {
        let flat = arc(1800.0, 120.0);
        near(flat.strip_falls_short().unwrap(), 7.90, 5e-3);
        let quarter = segment(1800.0, 120.0).soffit.height_at(450.0).unwrap();
        near(quarter, 90.40, 5e-3);
        near(quarter - flat.strip_falls_short().unwrap(), 82.50, 1e-9);
        assert_eq!(arc(1200.0, 400.0).strip_falls_short(), None);
    }

    #[test]
    fn every_point_of_the_arc_sees_the_pins_at_the_frames_angle() {
        let arch = segment(2150.0, 180.0);
        let arc = single(&arch).unwrap();
        for x in [-1000.0, -400.0, 0.0, 3.0, 777.0] {
            let p = Point::new(x, arch.soffit.height_at(x).unwrap());
            let (to_left, to_right) = (arch.soffit.start() - p, arch.soffit.end() - p);
            let angle = to_left.cross(to_right).atan2(to_left.dot(to_right)).abs();
            near(angle, arc.frame_angle(), 1e-12);
        }
    }

    #[test]
    fn other_shapes_are_no_single_arc() -> Result<(), ArchError> {
        assert_eq!(
            single(
                &Stilted {
                    span: 900.0,
                    stilt: 75.0,
                    arc_rise: None
                }
                .arch()?
            ),
            None
        );
        near(
            single(&Semicircular { span: 900.0 }.arch()?).unwrap().skewback(),
            0.0,
            1e-12,
        );
        Ok(())
    }
}
