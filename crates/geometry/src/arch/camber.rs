//! Camber: nearly flat, one shallow arc under a level back, between skewbacks.

use super::segmental::arc_over;
use super::{Arch, ArchError, Bound};
use crate::{Path, Point, Soffit};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_3};

const SHAPE: &str = "camber";

/// The camber that is taken if none is given, as a share of the span: 1/8 in a foot.
const USUAL: f64 = 0.01;

/// By the rule of half an inch a foot of span for every four inches of face, all joints meet this far below the springing, mm.
const RULE_DEPTH: f64 = 1219.2;

/// What fixes a camber arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Camber {
    /// The width at the springing.
    pub span: f64,
    /// The rise of the soffit, a hundredth of the span if left out.
    pub camber: Option<f64>,
    /// The height of the level back above the springing, over the camber.
    pub depth: f64,
    /// How its ends lean.
    pub skewback: Skewback,
}

/// How the ends of a camber arch lean.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Skewback {
    /// At 60° from the horizontal, all joints meeting at the foot of an equilateral triangle hung from the span.
    #[default]
    Sixty,
    /// At this angle from the horizontal, radians, less than a right angle.
    Angle(f64),
    /// Half an inch a foot of span for every four inches of face.
    Rule,
}

/// The level back of a camber arch. Its joints run to one point, which is not the centre of the soffit's arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelBack {
    /// How high it lies above the springing line, mm.
    pub depth: f64,
    /// The angle of the skewbacks from the horizontal, radians.
    pub skewback: f64,
    /// How far below the springing line, on the centre line, all joints meet, mm.
    pub joints_meet: f64,
}

impl LevelBack {
    /// The back over an arch of this span, mm, from skewback to skewback.
    pub fn line(&self, span: f64) -> Path {
        let out = span / 2.0 + self.depth / self.skewback.tan();
        Path::polyline(&[Point::new(-out, self.depth), Point::new(out, self.depth)])
    }
}

impl Camber {
    /// Works out the arch; its rise is the camber.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let half = self.span / 2.0;
        let camber = self.camber.unwrap_or(USUAL * self.span);
        let out_of_range = |size, bound, because, instead| ArchError::OutOfRange {
            shape: SHAPE,
            size,
            bound,
            because,
            instead,
        };
        if camber > half {
            let because = "it is over half the span";
            return Err(out_of_range(
                "camber",
                Bound::AtMost(half),
                because,
                Some("horseshoe"),
            ));
        }
        if self.depth <= camber {
            let because = "its level back lies above the crown of the soffit";
            return Err(out_of_range(
                "depth",
                Bound::Over(camber),
                because,
                Some("segmental"),
            ));
        }
        let skewback = match self.skewback {
            Skewback::Sixty => FRAC_PI_3,
            Skewback::Rule => RULE_DEPTH.atan2(half),
            Skewback::Angle(angle) => angle,
        };
        if !(skewback > 0.0 && skewback < FRAC_PI_2) {
            let because = "its ends lean outwards from the opening";
            let bound = Bound::BetweenAngles(0.0, FRAC_PI_2);
            return Err(out_of_range("skewback", bound, because, None));
        }
        let back = LevelBack {
            depth: self.depth,
            skewback,
            joints_meet: half * skewback.tan(),
        };
        let soffit = Soffit::Path(arc_over(half, 0.0, camber));
        let arch = Arch::new(SHAPE, self.span, camber, soffit).noting(format!(
            "its back is level, {:.2} mm above the springing; the skewbacks stand at {:.2} deg from the horizontal, and all \
             joints run to one point on the centre line, {:.2} mm below the springing",
            back.depth,
            skewback.to_degrees(),
            back.joints_meet,
        ));
        Ok(Arch {
            level_back: Some(back),
            ..arch
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WINDOW: Camber = Camber {
        span: 914.4,
        camber: None,
        depth: 300.0,
        skewback: Skewback::Sixty,
    };

    #[test]
    fn what_is_left_out_is_as_usual() {
        let arch = WINDOW.arch().unwrap();
        let back = arch.level_back.unwrap();
        assert!((arch.rise - 9.144).abs() < 1e-12);
        assert!((back.joints_meet - 457.2 * 3.0f64.sqrt()).abs() < 1e-9);
        assert!(arch.notes[0].contains("60.00 deg"));
    }

    #[test]
    fn by_the_rule_the_joints_meet_four_feet_down_whatever_the_span() {
        for span in [600.0, 914.4, 1500.0] {
            let arch = Camber {
                span,
                skewback: Skewback::Rule,
                ..WINDOW
            };
            let back = arch.arch().unwrap().level_back.unwrap();
            assert!((back.joints_meet - 1219.2).abs() < 1e-9);
            // tan of the lean from the plumb line: an eighth of the span in feet.
            assert!((1.0 / back.skewback.tan() - span / 304.8 / 8.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_back_below_the_crown_and_ends_that_lean_in_are_refused() {
        let thin = Camber { depth: 9.0, ..WINDOW };
        assert_eq!(thin.arch().unwrap_err().size(), Some("depth"));
        for degrees in [0.0f64, -60.0, 90.0, 120.0] {
            let leaning = Camber {
                skewback: Skewback::Angle(degrees.to_radians()),
                ..WINDOW
            };
            assert_eq!(leaning.arch().unwrap_err().size(), Some("skewback"));
        }
        let tall = Camber {
            camber: Some(500.0),
            depth: 900.0,
            ..WINDOW
        };
        assert_eq!(tall.arch().unwrap_err().size(), Some("camber"));
    }
}
