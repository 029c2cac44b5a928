//! What measured points are refused for.

use crate::Point;
use thiserror::Error;

/// Two points nearer to each other than this are one point taken twice, mm: no tape tells them apart.
pub const SAME_POINT: f64 = 0.01;

/// Arcs of a longer radius are straight for every purpose of building, mm.
pub const LONGEST_RADIUS: f64 = 1e6;

/// Why no line can be laid through measured points. Points are counted from 1, as they were taken; lengths in mm.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum FitError {
    /// Too few of them.
    #[error("{given} points are too few for {what}, which needs {least}")]
    TooFew {
        /// What was to be laid through them.
        what: &'static str,
        /// How many there are.
        given: usize,
        /// How many it needs.
        least: usize,
    },
    /// A coordinate is not a number.
    #[error("point {point} has no place: its coordinates are not finite")]
    NotFinite {
        /// Which.
        point: usize,
    },
    /// One point taken twice.
    #[error("point {second} is point {first} again, at ({:.2}, {:.2})", at.x, at.y)]
    Repeated {
        /// The earlier one.
        first: usize,
        /// The later one.
        second: usize,
        /// Where.
        at: Point,
    },
    /// They stand in one line, or nearly.
    #[error("the points stand in a straight line, or on an arc of more than {LONGEST_RADIUS} mm radius")]
    Straight,
    /// A point is not where the order of the others puts it.
    #[error("point {point} does not follow point {} over the arch from left to right", point - 1)]
    OutOfOrder {
        /// The later of the two.
        point: usize,
    },
    /// The best ellipse runs off to a parabola or a line.
    #[error("no ellipse with level axes comes near these points")]
    NoEllipse,
    /// The search for the least squares found no end.
    #[error("the points are too scattered for a best {what}")]
    Scattered {
        /// What was to be laid through them.
        what: &'static str,
    },
    /// The line through the points does not come down to the springing.
    #[error(
        "the line through the points does not reach the lower springing, {below:.2} mm below the other end"
    )]
    NoSpringing {
        /// How far out of level the ends are.
        below: f64,
    },
}

/// Refuses points that are too few, not finite, or taken twice.
pub(super) fn checked(points: &[Point], what: &'static str, least: usize) -> Result<(), FitError> {
    let given = points.len();
    if given < least {
        return Err(FitError::TooFew { what, given, least });
    }
    if let Some(i) = points.iter().position(|p| !p.is_finite()) {
        return Err(FitError::NotFinite { point: i + 1 });
    }
    for (second, &at) in points.iter().enumerate() {
        if let Some(first) = points[..second].iter().position(|p| p.distance(at) < SAME_POINT) {
            return Err(FitError::Repeated {
                first: first + 1,
                second: second + 1,
                at,
            });
        }
    }
    Ok(())
}

/// Refuses points that do not go round `centre` from left to right over the top.
pub(super) fn clockwise(points: &[Point], centre: Point) -> Result<(), FitError> {
    let back = points
        .windows(2)
        .position(|pair| (pair[0] - centre).cross(pair[1] - centre) >= 0.0);
    back.map_or(Ok(()), |i| Err(FitError::OutOfOrder { point: i + 2 }))
}
