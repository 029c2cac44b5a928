//! The best circle through measured points: least squares of the radial distances.
//!
//! The search runs in the form A (x² + y²) + B x + C y + D = 0 with B² + C² - 4 A D = 1 (Pratt), in which the distance d of a
//! point from the line obeys A d² + d = P, P being the left side at the point. It has no trouble with flat arcs: a
//! straight line is A = 0.

use super::error::{FitError, LONGEST_RADIUS, checked};
use super::least_squares::{Residuals, Row, Scaled, least_squares, solved};
use crate::{Circle, Point, Vec2};
use nalgebra::{DMatrix, DVector, Vector3};

/// The circle that comes nearest to measured points.
#[derive(Clone, Debug, PartialEq)]
pub struct CircleFit {
    /// The circle.
    pub circle: Circle,
    /// How far the points stand off it.
    pub residuals: Residuals,
}

/// The largest arc about a centre that clears every point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearing {
    /// Its radius, mm.
    pub radius: f64,
    /// The widest gap left between it and a point, mm: what a scribed filler has to make good.
    pub widest_gap: f64,
}

/// The circle with the least sum of squared radial distances, of three points or more.
pub fn best_circle(points: &[Point]) -> Result<CircleFit, FitError> {
    checked(points, "a circle", 3)?;
    let frame = Scaled::of(points);
    let scaled: Vec<Vec2> = points.iter().map(|&p| frame.inside(p)).collect();
    let start = algebraic(&scaled)?;
    let found = least_squares(start, |at| rows(&scaled, at)).ok_or(FitError::Scattered { what: "circle" })?;
    let circle = circle(&found, frame).ok_or(FitError::Straight)?;
    Ok(CircleFit {
        residuals: Residuals::new(points.iter().map(|&p| off(circle, p)).collect()),
        circle,
    })
}

impl CircleFit {
    /// The largest arc about the same centre that no point stands inside of.
    pub fn clearing(&self) -> Clearing {
        let least = self.residuals.each.iter().copied().fold(f64::INFINITY, f64::min);
        let most = self
            .residuals
            .each
            .iter()
            .copied()
            .fold(f64::NEG_INFINITY, f64::max);
        Clearing {
            radius: self.circle.radius + least,
            widest_gap: most - least,
        }
    }
}

/// What comes of three of the points alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ByThree {
    /// The radius through them, mm.
    pub radius: f64,
    /// How far the other points stand off it at most, mm.
    pub worst: f64,
}

/// The circle through the first, the last and the highest point alone, as it is often taken and often wrong; none where they are in
/// line.
pub fn by_springings_and_crown(points: &[Point]) -> Option<ByThree> {
    let highest = points.iter().copied().max_by(|a, b| a.y.total_cmp(&b.y))?;
    let circle = best_circle(&[*points.first()?, highest, *points.last()?])
        .ok()?
        .circle;
    let worst = points.iter().map(|&p| off(circle, p).abs()).fold(0.0, f64::max);
    Some(ByThree {
        radius: circle.radius,
        worst,
    })
}

/// How the radius of a flat arch answers to its rise, mm for `reading` mm of rise: dR = (1/2 - a² / 2r²) dr, of half span a.
///
/// The radius of a flat arch moves by many times what was misread, though the curve itself hardly moves.
pub fn radius_change(span: f64, rise: f64, reading: f64) -> f64 {
    let slope = span / 2.0 / rise;
    (1.0 - slope * slope) / 2.0 * reading
}

fn off(circle: Circle, p: Point) -> f64 {
    p.distance(circle.centre) - circle.radius
}

/// A start: the least squares of x² + y² - 2 a x - 2 b y - c, which is linear, as A, D and the direction of (B, C).
fn algebraic(points: &[Vec2]) -> Result<Vector3<f64>, FitError> {
    /// Points that stand off their best line by less than this share of their spread are in line, but for rounding.
    const IN_LINE: f64 = 1e-9;
    let two = DMatrix::from_fn(points.len(), 2, |row, column| match column {
        0 => points[row].x,
        _ => points[row].y,
    });
    if two.singular_values().min() < IN_LINE {
        return Err(FitError::Straight);
    }
    let system = DMatrix::from_fn(points.len(), 3, |row, column| match column {
        0 => 2.0 * points[row].x,
        1 => 2.0 * points[row].y,
        _ => 1.0,
    });
    let right = DVector::from_iterator(points.len(), points.iter().map(|p| p.hypot2()));
    let found = solved(system, &right).ok_or(FitError::Straight)?;
    let centre = Vec2::new(found[0], found[1]);
    let radius = (found[2] + centre.hypot2()).max(0.0).sqrt();
    let a = 0.5 / radius;
    // (B, C) = -2 A (centre), and D from B² + C² - 4 A D = 1.
    let d = (centre.hypot2() - radius * radius) * a;
    Ok(Vector3::new(a, d, (-centre).atan2()))
}

fn rows(points: &[Vec2], at: &Vector3<f64>) -> Option<Vec<Row<3>>> {
    let (a, d, (sin, cos)) = (at[0], at[1], at[2].sin_cos());
    let square = 1.0 + 4.0 * a * d;
    if square <= 0.0 {
        return None;
    }
    let e = square.sqrt();
    let row = |p: &Vec2| {
        let (along, across) = (p.x * cos + p.y * sin, p.y * cos - p.x * sin);
        let left = a * p.hypot2() + e * along + d;
        // √(1 + 4 A P) is 0 at the centre itself and never negative but for rounding.
        let q = (1.0 + 4.0 * a * left).max(0.0).sqrt();
        let distance = 2.0 * left / (1.0 + q);
        let q = q.max(f64::EPSILON);
        let by_a = p.hypot2() + 2.0 * d * along / e - distance * distance;
        let by_d = 2.0 * a * along / e + 1.0;
        (distance, Vector3::new(by_a, by_d, e * across) / q)
    };
    Some(points.iter().map(row).collect())
}

fn circle(at: &Vector3<f64>, frame: Scaled) -> Option<Circle> {
    let (a, e) = (at[0], (1.0 + 4.0 * at[0] * at[1]).sqrt());
    let radius = frame.size / (2.0 * a.abs());
    (radius <= LONGEST_RADIUS).then(|| Circle {
        centre: frame.outside(Vec2::from_angle(at[2]) * (-e / (2.0 * a))),
        radius,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measured::tests::{WEAVING, close, points};
    use proptest::prelude::*;

    #[test]
    fn a_weaving_arch_has_its_best_circle_and_a_clearing_one() {
        let fit = best_circle(&points(&WEAVING)).unwrap();
        close(fit.circle.centre.x, 1.15, 0.005);
        close(fit.circle.centre.y, -809.81, 0.005);
        close(fit.circle.radius, 1105.51, 0.005);
        let expected = [-1.0, 2.5, 2.3, -1.8, -2.3, -4.7, -1.6, 5.3, 5.0, -1.2, -2.5];
        for (&got, want) in fit.residuals.each.iter().zip(expected) {
            close(got, want, 0.05);
        }
        let clearing = fit.clearing();
        close(clearing.radius, 1100.81, 0.005);
        close(clearing.widest_gap, 10.0, 0.05);
    }

    #[test]
    fn a_rise_three_out_moves_a_flat_radius_by_eighty_six() {
        close(radius_change(1450.0, 95.0, 3.0), -85.9, 0.05);
        close(radius_change(1000.0, 500.0, 1.0), 0.0, 1e-12);
    }

    #[test]
    fn the_radius_of_a_flat_arch_answers_as_the_rule_says() {
        let radius = |rise: f64| {
            let three = points(&[(-725.0, 0.0), (0.0, rise), (725.0, 0.0)]);
            best_circle(&three).unwrap().circle.radius
        };
        close(radius(92.0), 2902.7, 0.05);
        close(radius(95.0), 2813.9, 0.05);
        close(radius(98.0), 2730.8, 0.05);
    }

    #[test]
    fn what_fixes_no_circle_is_refused_by_its_reason() {
        let refused = |given: &[(f64, f64)]| best_circle(&points(given)).unwrap_err();
        let two = refused(&[(0.0, 0.0), (5.0, 5.0)]);
        assert!(
            matches!(
                two,
                FitError::TooFew {
                    given: 2,
                    least: 3,
                    ..
                }
            ),
            "{two}"
        );
        assert_eq!(
            refused(&[(-500.0, 3.0), (0.0, 3.0), (200.0, 3.0), (500.0, 3.0)]),
            FitError::Straight
        );
        let flat = refused(&[(-500.0, 0.0), (0.0, 0.12), (500.0, 0.0)]);
        assert_eq!(flat, FitError::Straight, "its radius would be over a kilometre");
        let twice = refused(&[(0.0, 0.0), (50.0, 50.0), (0.001, 0.001), (90.0, 0.0)]);
        assert!(
            matches!(
                twice,
                FitError::Repeated {
                    first: 1,
                    second: 3,
                    ..
                }
            ),
            "{twice}"
        );
        let nowhere = refused(&[(0.0, 0.0), (f64::NAN, 50.0), (90.0, 0.0)]);
        assert_eq!(nowhere, FitError::NotFinite { point: 2 });
    }

    #[test]
    fn points_all_round_an_eye_are_no_harder() {
        let eye: Vec<Point> = (0..12)
            .map(|i| Point::new(3000.0, -700.0) + Vec2::from_angle(f64::from(i) * 0.52) * 400.0)
            .collect();
        let fit = best_circle(&eye).unwrap();
        close(fit.circle.radius, 400.0, 1e-9);
        close(fit.circle.centre.x, 3000.0, 1e-9);
    }

    proptest! {
        #[test]
        fn a_planted_circle_is_found_again(
            (x, y) in (-2000.0..2000.0, -2000.0..2000.0),
            (radius, turn) in (200.0f64..20_000.0, 0.2f64..2.8),
            noise in prop::collection::vec(-2.0f64..2.0, 7..20),
        ) {
            let centre = Point::new(x, y);
            let planted = |noise: &[f64]| -> Vec<Point> {
                let last = f64::from(u32::try_from(noise.len() - 1).unwrap());
                let angle = |i| turn / 2.0 - turn * f64::from(u32::try_from(i).unwrap()) / last;
                let at = |(i, off): (usize, &f64)| centre + Vec2::from_angle(1.57 + angle(i)) * (radius + off);
                noise.iter().enumerate().map(at).collect()
            };
            let clean = best_circle(&planted(&vec![0.0; noise.len()])).unwrap();
            prop_assert!((clean.circle.radius - radius).abs() < 1e-8 * radius, "{clean:?}");
            prop_assert!(clean.circle.centre.distance(centre) < 1e-8 * radius);
            let noisy = best_circle(&planted(&noise)).unwrap();
            // No other circle is better: not the planted one, and none of its neighbours.
            let squares = |c: Circle| planted(&noise).iter().map(|&p| off(c, p).powi(2)).sum::<f64>();
            let best = squares(noisy.circle);
            let planted_squares = squares(Circle { centre, radius });
            prop_assert!(best <= planted_squares + 1e-9);
            for step in [Vec2::new(0.01, 0.0), Vec2::new(0.0, 0.01), Vec2::new(-0.01, 0.0), Vec2::new(0.0, -0.01)] {
                for grow in [-0.01, 0.0, 0.01] {
                    let other = Circle { centre: noisy.circle.centre + step, radius: noisy.circle.radius + grow };
                    prop_assert!(best <= squares(other) + 1e-9);
                }
            }
            prop_assert!(noisy.residuals.rms <= 2.0 && noisy.residuals.worst < 8.0);
        }
    }
}
