use super::stand::angle;
use super::*;
use crate::{HalfEllipse, Point};

const LUNETTE: HalfEllipse = HalfEllipse {
    half_span: 700.0,
    rise: 400.0,
};

/// The greatest distance between arcs and curve, both ways, by close sampling.
fn sampled(curve: &dyn Curve, path: &Path) -> (f64, f64) {
    let (from, to) = curve.domain();
    let points: Vec<Point> = (0..=40_000)
        .map(|i| curve.point(from + (to - from) * f64::from(i) / 4e4))
        .collect();
    let curve_to_arcs = points
        .iter()
        .step_by(10)
        .map(|&p| path.nearest(p).distance)
        .fold(0.0, f64::max);
    let dense = Path::polyline(&points);
    let arcs_to_curve = path
        .pieces()
        .flat_map(|piece| (0..=10).map(move |i| piece.point_at(f64::from(i) / 10.0)))
        .map(|p| dense.nearest(p).distance)
        .fold(0.0, f64::max);
    (curve_to_arcs, arcs_to_curve)
}

#[test]
fn the_stated_error_bounds_what_is_measured_both_ways() {
    for tolerance in [0.1, 0.02] {
        let fit = fit(&LUNETTE, tolerance);
        let (there, back) = sampled(&LUNETTE, &fit.path);
        assert!(fit.worst_error <= tolerance, "{} > {tolerance}", fit.worst_error);
        assert!(
            there <= fit.worst_error && back <= fit.worst_error + 1e-5,
            "{there} {back} {}",
            fit.worst_error
        );
        assert!(
            there > 0.8 * fit.worst_error,
            "a bound close to the truth: {there} of {}",
            fit.worst_error
        );
    }
}

#[test]
fn a_half_ellipse_takes_few_arcs_tangent_and_symmetric() {
    let fit = fit(&LUNETTE, 0.02);
    let pieces: Vec<Piece> = fit.path.pieces().collect();
    assert!(pieces.len() <= 27, "{} arcs", pieces.len());
    for pair in pieces.windows(2) {
        let turn = angle(pair[0].tangent_at(1.0), pair[1].tangent_at(0.0));
        assert!(turn.abs() < 1e-9, "a kink of {turn}");
    }
    for (left, right) in fit.path.vertices().iter().zip(fit.path.vertices().iter().rev()) {
        assert!((left.point.x + right.point.x).abs() < 1e-9 && (left.point.y - right.point.y).abs() < 1e-9);
    }
    assert!(
        (pieces[0].tangent_at(0.0).y - 1.0).abs() < 1e-12,
        "it leaves the springing plumb"
    );
}

#[test]
fn a_circle_given_as_a_curve_comes_back_a_circle() {
    let fit = fit(
        &HalfEllipse {
            half_span: 500.0,
            rise: 500.0,
        },
        0.02,
    );
    assert!(fit.path.pieces().len() <= 4 && fit.worst_error < 1e-9);
}
