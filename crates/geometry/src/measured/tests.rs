//! Whole measured arches, and what the tests of this module share.

use super::*;
use crate::arch::Segmental;

/// An arch over a walled-up door, out of true by some millimetres.
pub(super) const WEAVING: [(f64, f64); 11] = [
    (-750.0, 0.0),
    (-600.0, 121.0),
    (-450.0, 202.0),
    (-300.0, 252.0),
    (-150.0, 283.0),
    (0.0, 291.0),
    (150.0, 284.0),
    (300.0, 260.0),
    (450.0, 206.0),
    (600.0, 118.0),
    (750.0, 0.0),
];

pub(super) fn points(given: &[(f64, f64)]) -> Vec<Point> {
    given.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

#[track_caller]
pub(super) fn close(got: f64, want: f64, within: f64) {
    assert!(
        (got - want).abs() <= within,
        "{got} is not {want} within {within}"
    );
}

fn measured(given: &[(f64, f64)], laid: As) -> Result<Survey, FitError> {
    let points = points(given);
    Measured { points, laid }.survey()
}

#[test]
fn a_circle_is_cut_at_the_lower_springing() {
    let survey = measured(&WEAVING, As::Circle).unwrap();
    close(survey.origin.x, 1.15, 0.005);
    close(survey.origin.y, 0.0, 0.0);
    close(survey.arch.rise, 1105.51 - 809.81, 0.01);
    let centres = survey.arch.figures().centres;
    close(centres[0].radius, 1105.51, 0.005);
    close(centres[0].at.y, -809.81, 0.005);
    assert_eq!(survey.advice.making, Making::TrueLineInMasonry);
    let quarter = survey.advice.quarter.unwrap();
    assert!(
        quarter.shapes.contains(&"segmental") && !quarter.shapes.contains(&"elliptical"),
        "{quarter:?}"
    );
}

#[test]
fn springings_and_crown_alone_are_a_worse_circle_and_an_ellipse_is_none() {
    let circle = best_circle(&points(&WEAVING)).unwrap();
    let by_three = by_springings_and_crown(&points(&WEAVING)).unwrap();
    close(by_three.radius, 1111.99, 0.005);
    close(by_three.worst, 9.9, 0.05);
    assert!(by_three.worst > 1.8 * circle.residuals.worst);
    // Half an ellipse of this span and rise misses the points by far.
    let off = WEAVING.map(|(x, y)| (291.0 * (1.0f64 - (x / 750.0).powi(2)).max(0.0).sqrt() - y).abs());
    close(off.iter().fold(0.0, |a: f64, b| a.max(*b)), 57.0, 0.7);
}

#[test]
fn an_opening_measured_anywhere_is_the_same_arch() {
    let moved: Vec<_> = WEAVING.iter().map(|(x, y)| (x + 12_345.6, y - 876.5)).collect();
    for laid in [As::Circle, As::Ellipse, As::Curve] {
        let (here, there) = (measured(&WEAVING, laid).unwrap(), measured(&moved, laid).unwrap());
        close(here.arch.span, there.arch.span, 1e-6);
        close(here.arch.rise, there.arch.rise, 1e-6);
        close(there.origin.x - here.origin.x, 12_345.6, 1e-6);
        close(there.origin.y - here.origin.y, -876.5, 1e-9);
    }
}

#[test]
fn a_curve_keeps_to_every_point() {
    let survey = measured(&WEAVING, As::Curve).unwrap();
    close(survey.arch.span, 1500.0, 1e-9);
    let height = |x: f64| survey.arch.soffit.height_at(x).unwrap();
    for &(x, y) in &WEAVING[1..10] {
        close(height(x), y, 1e-9);
    }
    assert_eq!(
        survey.advice.making,
        Making::TrueLineInMasonry,
        "its best circle is 5.3 off"
    );
}

#[test]
fn a_true_segment_comes_back_as_it_was() {
    let arch = Segmental {
        span: Some(1220.0),
        rise: Some(260.0),
        radius: None,
    }
    .arch()
    .unwrap();
    let taken: Vec<_> = (0..9)
        .map(|i| 152.5 * f64::from(i) - 610.0)
        .map(|x| (x, arch.soffit.height_at(x).unwrap()))
        .collect();
    let survey = measured(&taken, As::Circle).unwrap();
    close(survey.arch.span, 1220.0, 1e-8);
    close(survey.arch.rise, 260.0, 1e-8);
    assert_eq!(survey.advice.making, Making::TrueLine);
}

#[test]
fn half_an_ellipse_stands_on_its_springing_and_a_part_of_one_does_not() {
    let half: Vec<_> = [-700.0, -650.0, -500.0, -250.0, 0.0, 250.0, 500.0, 650.0, 700.0f64]
        .iter()
        .map(|x| (*x, 400.0 * (1.0 - (x / 700.0).powi(2)).sqrt()))
        .collect();
    let survey = measured(&half, As::Ellipse).unwrap();
    close(survey.arch.span, 1400.0, 1e-6);
    close(survey.arch.rise, 400.0, 1e-6);
    close(survey.arch.figures().springing_lean, 0.0, 1e-6);
    let part: Vec<_> = half.iter().filter(|p| p.1 > 100.0).copied().collect();
    let survey = measured(&part, As::Ellipse).unwrap();
    let Line::Ellipse(fit) = &survey.line else {
        panic!("an ellipse")
    };
    close(fit.half_width, 700.0, 1e-4);
    close(survey.arch.span, 1300.0, 1e-4);
    assert!(
        survey.arch.figures().springing_lean > 0.1,
        "it does not leave its jambs plumb"
    );
}

#[test]
fn a_horseshoe_can_be_measured_too() {
    let at = |degrees: f64| Point::new(0.0, 150.0) + crate::Vec2::from_angle(degrees.to_radians()) * 470.0;
    let taken = (0..9).map(|i| at(198.0 - 27.0 * f64::from(i))).collect();
    let survey = Measured {
        points: taken,
        laid: As::Circle,
    }
    .survey()
    .unwrap();
    close(survey.arch.rise, 470.0 + 470.0 * 18.0f64.to_radians().sin(), 1e-6);
    close(survey.arch.soffit.length(), 470.0 * 216.0f64.to_radians(), 1e-6);
}

#[test]
fn points_that_hang_or_run_backwards_are_refused() {
    let hanging: Vec<_> = WEAVING.iter().map(|(x, y)| (*x, -y)).collect();
    let backwards: Vec<_> = WEAVING.iter().rev().copied().collect();
    for laid in [As::Circle, As::Ellipse] {
        for given in [&hanging, &backwards] {
            let error = measured(given, laid).unwrap_err();
            assert_eq!(error, FitError::OutOfOrder { point: 2 });
        }
    }
    let mut crossed = WEAVING.to_vec();
    crossed.swap(4, 5);
    for laid in [As::Circle, As::Ellipse, As::Curve] {
        assert_eq!(
            measured(&crossed, laid).unwrap_err(),
            FitError::OutOfOrder { point: 6 }
        );
    }
}
