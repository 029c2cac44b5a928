//! Four-centred: haunch arcs centred on the springing line, and flatter arcs that meet in an apex.

use super::halves::both_halves;
use super::{Arch, ArchError, Bound};
use crate::{Path, Piece, Point, Soffit, Vec2};
use std::f64::consts::FRAC_PI_2;

const SHAPE: &str = "four-centred";

/// What fixes a four-centred arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct FourCentred {
    /// The width at the springing.
    pub span: f64,
    /// The height of the apex above it.
    pub rise: f64,
    /// What fixes it besides.
    pub by: FourCentredBy,
}

/// What fixes a four-centred arch besides span and rise, which leave two numbers open.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum FourCentredBy {
    /// The haunch radius is two thirds of the rise, and the soffit at the apex aims at two thirds of the rise over the springings.
    #[default]
    TwoThirds,
    /// The haunch arcs.
    Haunch {
        /// Their radius, mm.
        radius: f64,
        /// How far each turns, radians, less than a right angle.
        turn: f64,
    },
}

/// The right half: the radius of the haunch, the centre of the flatter arc, and where the two join.
struct Setting {
    haunch: f64,
    centre: Point,
    join: Point,
}

impl FourCentred {
    /// Works out the arch.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let Self { span, rise, by } = self;
        let half = span / 2.0;
        let (setting, note) = match by {
            FourCentredBy::TwoThirds => (
                two_thirds(half, rise)?,
                Some(
                    "span and rise leave a four-centred arch open: taken is a haunch radius of two thirds of the rise, and a \
                     soffit that at the apex aims at two thirds of the rise over the springings",
                ),
            ),
            FourCentredBy::Haunch { radius, turn } => (by_haunch(half, rise, radius, turn)?, None),
        };
        let soffit = Soffit::Path(four_arcs(half, rise, &setting));
        let mut arch = Arch::new(SHAPE, span, rise, soffit);
        arch.notes.extend(note.map(str::to_owned));
        Ok(arch)
    }
}

/// Of haunch centre C, apex P and its inward normal n, the flatter radius is (|P - C|² - h²) / 2(-n·(P - C) - h).
fn two_thirds(half: f64, rise: f64) -> Result<Setting, ArchError> {
    const SHARE: f64 = 2.0 / 3.0;
    let haunch = SHARE * rise;
    if haunch >= half {
        let because = "two thirds of it, the haunch radius, is less than half the span";
        return Err(out_of_range(
            "rise",
            Bound::Under(half / SHARE),
            because,
            Some("pointed"),
        ));
    }
    let from_haunch = Vec2::new(haunch - half, rise);
    let normal = Vec2::new((SHARE - 1.0) * rise, -half).normalize();
    // |P - C|² - h², the squares of h cancelled; it is more than 0 for any rise.
    let square = half * half - 2.0 * half * haunch + rise * rise;
    let radius = square / (2.0 * (-normal.dot(from_haunch) - haunch));
    let centre = Point::new(0.0, rise) + normal * radius;
    let springing = Point::new(half - haunch, 0.0);
    Ok(Setting {
        haunch,
        centre,
        join: springing + (springing - centre).normalize() * haunch,
    })
}

/// From the join J, where the haunch has turned by b and u points outwards, to the apex P: R = |P - J|² / -2 u·(P - J).
///
/// The apex is pointed above the crown of the three-centred arch of the same haunch, and the flatter arcs turn the right
/// way below where the tangents at the joins meet.
fn by_haunch(half: f64, rise: f64, haunch: f64, turn: f64) -> Result<Setting, ArchError> {
    if !(haunch > 0.0 && haunch < half) {
        let because = "the haunch arcs are smaller than half the span";
        return Err(out_of_range(
            "haunch-radius",
            Bound::Between(0.0, half),
            because,
            None,
        ));
    }
    if !(turn > 0.0 && turn < FRAC_PI_2) {
        let because = "the haunch arcs turn less than a right angle";
        return Err(out_of_range(
            "haunch-turn",
            Bound::BetweenAngles(0.0, FRAC_PI_2),
            because,
            None,
        ));
    }
    let outward = Vec2::from_angle(turn);
    let (smooth, straight) = rises(half, haunch, outward);
    if rise <= smooth {
        let because = "with this haunch the apex is pointed only over it";
        let bound = Bound::Between(smooth, straight);
        return Err(out_of_range("rise", bound, because, Some("three-centred")));
    }
    if rise >= straight {
        let because = "with this haunch the upper arcs would bend the other way";
        let bound = Bound::Between(smooth, straight);
        return Err(out_of_range("rise", bound, because, Some("pointed")));
    }
    let springing = Point::new(half - haunch, 0.0);
    let join = springing + outward * haunch;
    let to_apex = Point::new(0.0, rise) - join;
    let radius = to_apex.hypot2() / (-2.0 * outward.dot(to_apex));
    Ok(Setting {
        haunch,
        centre: join - outward * radius,
        join,
    })
}

/// The rise at which the crown is smooth, and that at which the upper arcs are straight.
fn rises(half: f64, haunch: f64, outward: Vec2) -> (f64, f64) {
    let (cos, sin) = (outward.x, outward.y);
    let smooth = haunch + (half - haunch) * (1.0 - sin) / cos;
    let straight = (half * cos + haunch * (1.0 - cos)) / sin;
    (smooth, straight)
}

fn four_arcs(half: f64, rise: f64, setting: &Setting) -> Path {
    let springing = Point::new(half - setting.haunch, 0.0);
    let upper = Piece::arc_between(setting.centre, Point::new(0.0, rise), setting.join, false);
    let haunch = Piece::arc_between(springing, setting.join, Point::new(half, 0.0), false);
    both_halves(None, &[upper, haunch])
}

fn out_of_range(
    size: &'static str,
    bound: Bound,
    because: &'static str,
    instead: Option<&'static str>,
) -> ArchError {
    ArchError::OutOfRange {
        shape: SHAPE,
        size,
        bound,
        because,
        instead,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tudor_arch_of_span_and_rise() {
        let arch = FourCentred {
            span: 1240.0,
            rise: 390.0,
            by: FourCentredBy::TwoThirds,
        }
        .arch()
        .unwrap();
        let Soffit::Path(path) = &arch.soffit else {
            panic!("arcs")
        };
        let centres = arch.figures().centres;
        assert!((centres[3].radius - 260.0).abs() < 1e-9 && (centres[3].at.x - 360.0).abs() < 1e-9);
        assert!((centres[2].radius - 2238.50).abs() < 0.01);
        assert!(centres[2].at.distance(Point::new(-459.37, -1800.85)) < 0.01);
        assert!(path.vertices()[3].point.distance(Point::new(467.68, 236.66)) < 0.01);
        let apex = path.pieces().nth(2).unwrap().tangent_at(0.0).atan2();
        assert!((apex.to_degrees() + 11.84).abs() < 0.005);
        assert!(arch.notes[0].contains("two thirds of the rise"));
    }

    #[test]
    fn the_rises_named_are_the_limits() {
        let given = |rise: f64| {
            FourCentred {
                span: 1800.0,
                rise,
                by: FourCentredBy::Haunch {
                    radius: 300.0,
                    turn: 55f64.to_radians(),
                },
            }
            .arch()
        };
        let Err(ArchError::OutOfRange {
            bound: Bound::Between(least, most),
            ..
        }) = given(2000.0)
        else {
            panic!("it is too tall")
        };
        let apex = |rise: f64| {
            let Soffit::Path(path) = given(rise).unwrap().soffit else {
                panic!("arcs")
            };
            path.pieces().nth(2).unwrap()
        };
        assert!(given(least - 1e-6).is_err() && given(most + 1e-6).is_err());
        assert!(
            apex(least + 1e-6).tangent_at(0.0).y.abs() < 1e-4,
            "all but smooth"
        );
        assert!(apex(most - 1e-6).sweep().abs() < 1e-6, "all but straight");
    }
}
