//! The best ellipse with level axes through measured points: least squares of the distances square to it.

use super::circle::best_circle;
use super::error::{FitError, LONGEST_RADIUS, checked};
use super::least_squares::{Residuals, Row, Scaled, least_squares, solved};
use crate::{Point, Vec2};
use nalgebra::{DMatrix, DVector, SVector, Vector3, Vector4};
use std::f64::consts::FRAC_PI_2;

/// Where the level axis of an ellipse lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LevelAxis {
    /// At this height, mm: half an ellipse stands on its springing.
    At(f64),
    /// Wherever the points put it: the curve may be a part of an ellipse, and not leave its jambs plumb.
    Free,
}

/// The ellipse with level axes that comes nearest to measured points. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct EllipseFit {
    /// Its centre.
    pub centre: Point,
    /// Half of its width.
    pub half_width: f64,
    /// Half of its height.
    pub half_height: f64,
    /// How far the points stand off it.
    pub residuals: Residuals,
}

/// The ellipse with the least sum of squared distances, of four points or more, or five where its axis is free.
pub fn best_ellipse(points: &[Point], axis: LevelAxis) -> Result<EllipseFit, FitError> {
    let least = match axis {
        LevelAxis::At(_) => 4,
        LevelAxis::Free => 5,
    };
    checked(points, "an ellipse", least)?;
    let frame = Scaled::of(points);
    let scaled: Vec<Vec2> = points.iter().map(|&p| frame.inside(p)).collect();
    let found = match axis {
        LevelAxis::At(y) => {
            let axis = (y - frame.middle.y) / frame.size;
            let start = start(points, &scaled, frame, Some(axis))?;
            let at: Vector3<f64> = start.fixed_rows::<3>(0).into_owned();
            least_squares(at, |at| rows(&scaled, axis, at)).map(|at| at.push(axis))
        }
        LevelAxis::Free => {
            let start = start(points, &scaled, frame, None)?;
            least_squares(start, |at| rows(&scaled, at[3], at))
        }
    };
    let found = found.ok_or(FitError::NoEllipse)?;
    let (half_width, half_height) = (found[1] * frame.size, found[2] * frame.size);
    if half_width.max(half_height) > LONGEST_RADIUS {
        return Err(FitError::NoEllipse);
    }
    let off = |p: &Vec2| distance(*p, Vec2::new(found[0], found[3]), found[1], found[2]).0 * frame.size;
    Ok(EllipseFit {
        centre: frame.outside(Vec2::new(found[0], found[3])),
        half_width,
        half_height,
        residuals: Residuals::new(scaled.iter().map(off).collect()),
    })
}

/// A start (centre x, half width, half height, centre y): the least squares of x² + C y² + D x + E y + F, which is linear; the
/// best circle where that makes no ellipse.
fn start(
    points: &[Point],
    scaled: &[Vec2],
    frame: Scaled,
    axis: Option<f64>,
) -> Result<Vector4<f64>, FitError> {
    let level = axis.unwrap_or(0.0);
    let columns = if axis.is_some() { 3 } else { 4 };
    let system = DMatrix::from_fn(scaled.len(), columns, |row, column| {
        let (x, y) = (scaled[row].x, scaled[row].y - level);
        match column {
            0 => y * y,
            1 => x,
            2 => 1.0,
            _ => y,
        }
    });
    let right = DVector::from_iterator(scaled.len(), scaled.iter().map(|p| -p.x * p.x));
    let algebraic = solved(system, &right).and_then(|k| {
        let e = if axis.is_some() { 0.0 } else { k[3] };
        let width = k[1] * k[1] / 4.0 + e * e / (4.0 * k[0]) - k[2];
        let (x, y) = (-k[1] / 2.0, level - e / (2.0 * k[0]));
        (k[0] > 0.0 && width > 0.0).then(|| Vector4::new(x, width.sqrt(), (width / k[0]).sqrt(), y))
    });
    if let Some(start) = algebraic {
        return Ok(start);
    }
    let circle = best_circle(points)?.circle;
    let (centre, radius) = (frame.inside(circle.centre), circle.radius / frame.size);
    Ok(Vector4::new(centre.x, radius, radius, axis.unwrap_or(centre.y)))
}

/// Parameters in the order centre x, half width, half height, and centre y where there are four.
fn rows<const N: usize>(points: &[Vec2], axis: f64, at: &SVector<f64, N>) -> Option<Vec<Row<N>>> {
    let (x, a, b) = (at[0], at[1], at[2]);
    if !(a > 0.0 && b > 0.0) {
        return None;
    }
    let row = |p: &Vec2| {
        let (distance, out, foot) = distance(*p, Vec2::new(x, axis), a, b);
        // The foot slides along the line to first order, so only its move across the line counts.
        let slopes = [-out.x, -out.x * foot.x, -out.y * foot.y, -out.y];
        (distance, SVector::from_fn(|i, _| slopes[i]))
    };
    Some(points.iter().map(row).collect())
}

/// The distance of a point from an ellipse, positive outside, the direction square to it there, and the cosine and sine of its
/// foot's parameter.
fn distance(p: Vec2, centre: Vec2, a: f64, b: f64) -> (f64, Vec2, Vec2) {
    /// Halvings of a quarter turn down to the last bit.
    const HALVINGS: usize = 60;
    let (u, v) = ((p.x - centre.x).abs(), (p.y - centre.y).abs());
    // The one foot in the point's own quarter, where the line to the point is square to the ellipse.
    let (mut low, mut high) = (0.0, FRAC_PI_2);
    for _ in 0..HALVINGS {
        let t = f64::midpoint(low, high);
        let (sin, cos) = t.sin_cos();
        if (a * a - b * b) * cos * sin - u * a * sin + v * b * cos > 0.0 {
            low = t;
        } else {
            high = t;
        }
    }
    let (sin, cos) = f64::midpoint(low, high).sin_cos();
    let foot = Vec2::new(cos.copysign(p.x - centre.x), sin.copysign(p.y - centre.y));
    let out = Vec2::new(foot.x * b, foot.y * a).normalize();
    let off = p - centre - Vec2::new(a * foot.x, b * foot.y);
    (off.dot(out), out, foot)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measured::tests::{WEAVING, close, points};
    use proptest::prelude::*;

    #[test]
    fn a_part_of_an_ellipse_is_found_without_its_springing() {
        // Crown 735 over the axis; at a height of 244 the half width is 820.
        let half = 820.0 / (1.0f64 - (244.0f64 / 735.0).powi(2)).sqrt();
        let at = |t: f64| Point::new(half * t.cos(), 735.0 * t.sin() - 244.0);
        let from = (244.0f64 / 735.0).asin();
        let taken: Vec<Point> = (0..9)
            .map(|i| {
                at(std::f64::consts::PI - from - (std::f64::consts::PI - 2.0 * from) * f64::from(i) / 8.0)
            })
            .collect();
        let fit = best_ellipse(&taken, LevelAxis::Free).unwrap();
        close(fit.half_width, 869.30, 0.005);
        close(fit.half_height, 735.0, 1e-6);
        close(fit.centre.y, -244.0, 1e-6);
    }

    #[test]
    fn half_an_ellipse_is_no_likeness_of_a_segment() {
        let fit = best_ellipse(&points(&WEAVING), LevelAxis::At(0.0)).unwrap();
        assert!(fit.residuals.worst > 20.0, "{fit:?}");
    }

    #[test]
    fn too_few_points_are_told() {
        let three = points(&[(-500.0, 0.0), (0.0, 200.0), (500.0, 0.0)]);
        let error = best_ellipse(&three, LevelAxis::At(0.0)).unwrap_err();
        assert!(matches!(error, FitError::TooFew { least: 4, .. }), "{error}");
        let four = points(&[(-500.0, 0.0), (-200.0, 190.0), (100.0, 200.0), (500.0, 0.0)]);
        let error = best_ellipse(&four, LevelAxis::Free).unwrap_err();
        assert!(matches!(error, FitError::TooFew { least: 5, .. }), "{error}");
    }

    #[test]
    fn points_in_line_make_no_ellipse() {
        let line = points(&[
            (-500.0, 0.0),
            (-200.0, 0.0),
            (100.0, 0.0),
            (300.0, 0.0),
            (500.0, 0.0),
        ]);
        assert!(best_ellipse(&line, LevelAxis::Free).is_err());
    }

    proptest! {
        #[test]
        fn a_planted_half_ellipse_is_found_again(
            (x, a, b) in (-500.0..500.0f64, 300.0f64..2000.0, 0.3f64..1.5),
            noise in prop::collection::vec(-2.0f64..2.0, 9..20),
            free in any::<bool>(),
        ) {
            let b = a * b;
            let planted = |share: f64| -> Vec<Point> {
                let last = f64::from(u32::try_from(noise.len() - 1).unwrap());
                let at = |(i, off): (usize, &f64)| {
                    let t = std::f64::consts::PI * (1.0 - f64::from(u32::try_from(i).unwrap()) / last);
                    Point::new(x + (a + share * off) * t.cos(), (b + share * off) * t.sin())
                };
                noise.iter().enumerate().map(at).collect()
            };
            let axis = if free { LevelAxis::Free } else { LevelAxis::At(0.0) };
            let clean = best_ellipse(&planted(0.0), axis).unwrap();
            prop_assert!((clean.half_width - a).abs() < 1e-6 * a, "{clean:?} {a} {b}");
            prop_assert!((clean.half_height - b).abs() < 1e-6 * b, "{clean:?} {a} {b}");
            prop_assert!(clean.residuals.worst < 1e-6);
            let noisy = best_ellipse(&planted(1.0), axis).unwrap();
            // The noise is no more than 2 mm square to the planted ellipse.
            prop_assert!(noisy.residuals.rms <= 2.0 + 1e-9, "{noisy:?}");
        }
    }
}
