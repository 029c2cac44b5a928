//! Five-centred: haunch, middle and crown arcs, smooth throughout, their radii growing towards the crown.

use super::halves::{both_halves, crown_arc};
use super::{Arch, ArchError, Bound};
use crate::{Path, Piece, Point, Soffit, Vec2};
use nalgebra::{Matrix2, Vector2};
use std::f64::consts::FRAC_PI_2;

const SHAPE: &str = "five-centred";

/// What fixes a five-centred arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct FiveCentred {
    /// The width at the springing.
    pub span: f64,
    /// The height of the crown above it, less than half the span.
    pub rise: f64,
    /// What fixes it besides.
    pub by: FiveCentredBy,
}

/// What fixes a five-centred arch besides span and rise, which leave three numbers open.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum FiveCentredBy {
    /// Haunch and crown radius are those of the ellipse there, the middle radius their geometric mean.
    #[default]
    MeanRadius,
    /// The haunch arcs and how far the middle arcs turn.
    Haunch {
        /// The radius of the haunch arcs, mm.
        radius: f64,
        /// How far each of them turns, radians.
        turn: f64,
        /// How far each of the middle arcs turns, radians; both turns together less than a right angle.
        middle_turn: f64,
    },
}

/// The three radii, and the centres of the right half.
struct Setting {
    radii: [f64; 3],
    centres: [Point; 3],
}

impl FiveCentred {
    /// Works out the arch.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let Self { span, rise, by } = self;
        let half = span / 2.0;
        if rise >= half {
            let because = "its arcs flatten towards the crown only under half the span";
            return Err(out_of_range(
                "rise",
                Bound::Under(half),
                because,
                Some("elliptical"),
            ));
        }
        let (setting, note) = match by {
            FiveCentredBy::MeanRadius => (
                mean_radius(half, rise),
                Some(
                    "span and rise leave a five-centred arch open: taken are the radii that the ellipse has at springing and \
                     crown, and between them their geometric mean",
                ),
            ),
            FiveCentredBy::Haunch {
                radius,
                turn,
                middle_turn,
            } => (by_haunch(half, rise, radius, [turn, middle_turn])?, None),
        };
        let soffit = Soffit::Path(five_arcs(half, &setting));
        let mut arch = Arch::new(SHAPE, span, rise, soffit);
        arch.notes.extend(note.map(str::to_owned));
        Ok(arch)
    }
}

/// Radii r²/a, √(ar), a²/r; the middle centre lies as far from the other two as the radii differ.
fn mean_radius(half: f64, rise: f64) -> Setting {
    let radii = [rise * rise / half, (half * rise).sqrt(), half * half / rise];
    let (springing, crown) = (Point::new(half - radii[0], 0.0), Point::new(0.0, rise - radii[2]));
    let (near, far) = (radii[1] - radii[0], radii[2] - radii[1]);
    // Where two circles meet: along the line of their centres, and square to it.
    let line = crown - springing;
    let apart = line.hypot();
    let along = f64::midpoint(apart, (near - far) * (near + far) / apart);
    let aside = ((near - along) * (near + along)).max(0.0).sqrt();
    let unit = line / apart;
    // Of the two meetings the one towards the springing side below: from the other the arcs would turn back.
    let middle = springing + unit * along + Vec2::new(unit.y, -unit.x) * aside;
    Setting {
        radii,
        centres: [springing, middle, crown],
    }
}

/// By how much the radii grow, from a smooth chain that comes to half the span and to the rise: two linear equations.
///
/// With joins at angles A and B from the plumb line, radii h, h + p and h + p + q: a = h + p sin A + q sin B and
/// r = h + p (1 - cos A) + q (1 - cos B).
fn by_haunch(half: f64, rise: f64, haunch: f64, turns: [f64; 2]) -> Result<Setting, ArchError> {
    let joins = join_angles(turns)?;
    // (1 - cos A) / sin A: how much rise each mm of half span brings where the radius grows at that join alone.
    let [lower, upper] = joins.map(|angle| (angle / 2.0).tan());
    let least_rise = half * upper;
    if rise <= least_rise {
        let because = "with these turns the radii cannot grow towards the crown";
        return Err(out_of_range("rise", Bound::Over(least_rise), because, None));
    }
    let least = (half - (half - rise) / (1.0 - lower)).max(0.0);
    let most = half - (half - rise) / (1.0 - upper);
    if haunch <= least || haunch >= most {
        let because = "with these turns the radii grow from springing to crown only so";
        return Err(out_of_range(
            "haunch-radius",
            Bound::Between(least, most),
            because,
            None,
        ));
    }
    let [a, b] = joins;
    let versed = |angle: f64| 2.0 * (angle / 2.0).sin().powi(2);
    let sums = Matrix2::new(a.sin(), b.sin(), versed(a), versed(b));
    let growth = sums.lu().solve(&Vector2::new(half - haunch, rise - haunch));
    let Some(growth) = growth else {
        let bound = Bound::BetweenAngles(0.0, FRAC_PI_2 - turns[0]);
        return Err(out_of_range("middle-turn", bound, "the middle arcs turn", None));
    };
    let outward = |angle: f64| Vec2::new(angle.sin(), angle.cos());
    let springing = Point::new(half - haunch, 0.0);
    let middle = springing - outward(a) * growth.x;
    let crown = Point::new(0.0, middle.y - b.cos() * growth.y);
    let radii = [haunch, haunch + growth.x, haunch + growth.x + growth.y];
    Ok(Setting {
        radii,
        centres: [springing, middle, crown],
    })
}

/// The angles of the joins from the plumb line, the lower one first.
fn join_angles([haunch, middle]: [f64; 2]) -> Result<[f64; 2], ArchError> {
    let because = "haunch and middle arc together turn less than a right angle";
    if !(haunch > 0.0 && haunch < FRAC_PI_2) {
        let bound = Bound::BetweenAngles(0.0, FRAC_PI_2);
        return Err(out_of_range("haunch-turn", bound, because, None));
    }
    let left = FRAC_PI_2 - haunch;
    if !(middle > 0.0 && middle < left) {
        return Err(out_of_range(
            "middle-turn",
            Bound::BetweenAngles(0.0, left),
            because,
            None,
        ));
    }
    Ok([left, left - middle])
}

fn five_arcs(half: f64, setting: &Setting) -> Path {
    let Setting { radii, centres } = setting;
    let joint = |from: Point, to: Point, radius: f64| to + (to - from).normalize() * radius;
    let lower = joint(centres[1], centres[0], radii[0]);
    let upper = joint(centres[2], centres[1], radii[1]);
    let middle = Piece::arc_between(centres[1], upper, lower, false);
    let haunch = Piece::arc_between(centres[0], lower, Point::new(half, 0.0), false);
    both_halves(Some(crown_arc(centres[2], upper)), &[middle, haunch])
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

    fn given(rise: f64, radius: f64, turn: f64, middle: f64) -> Result<Arch, ArchError> {
        FiveCentred {
            span: 3000.0,
            rise,
            by: FiveCentredBy::Haunch {
                radius,
                turn: turn.to_radians(),
                middle_turn: middle.to_radians(),
            },
        }
        .arch()
    }

    #[test]
    fn the_limits_named_are_the_limits() {
        let Err(ArchError::OutOfRange {
            size: "haunch-radius",
            bound: Bound::Between(least, most),
            ..
        }) = given(900.0, 800.0, 35.0, 25.0)
        else {
            panic!("a haunch radius as long as that leaves no room for longer ones")
        };
        for inside in [least + 0.01, most - 0.01] {
            let arch = given(900.0, inside, 35.0, 25.0).unwrap();
            let radii: Vec<f64> = arch.figures().centres.iter().map(|c| c.radius).collect();
            assert!(radii[0] < radii[1] && radii[1] < radii[2], "{radii:?}");
        }
        assert!(
            given(900.0, least - 0.01, 35.0, 25.0).is_err() && given(900.0, most + 0.01, 35.0, 25.0).is_err()
        );
    }

    #[test]
    fn turns_that_leave_the_crown_nothing_are_refused() {
        assert_eq!(
            given(900.0, 420.0, 95.0, 25.0).unwrap_err().size(),
            Some("haunch-turn")
        );
        assert_eq!(
            given(900.0, 420.0, 0.0, 25.0).unwrap_err().size(),
            Some("haunch-turn")
        );
        assert_eq!(
            given(900.0, 420.0, 65.0, 25.0).unwrap_err().size(),
            Some("middle-turn")
        );
        assert_eq!(given(300.0, 100.0, 35.0, 25.0).unwrap_err().size(), Some("rise"));
        assert_eq!(given(1500.0, 420.0, 35.0, 25.0).unwrap_err().size(), Some("rise"));
    }
}
