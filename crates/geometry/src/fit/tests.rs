use super::stand::angle;
use super::*;
use crate::measured::curve_through;
use crate::{Chain, Ellipse, HalfEllipse, Parabola, Piece, Point};
use proptest::prelude::*;

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
    assert!(pieces.len() <= 21, "{} arcs", pieces.len());
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

#[test]
fn a_whole_ellipse_mirrors_itself_about_both_axes() {
    let fit = fit(
        &Ellipse {
            half_width: 450.0,
            half_height: 300.0,
        },
        0.02,
    );
    let points: Vec<Point> = fit.path.vertices().iter().map(|v| v.point).collect();
    assert_eq!(points[0], points[points.len() - 1]);
    for p in &points {
        for image in [Point::new(-p.x, p.y), Point::new(p.x, -p.y)] {
            // Over the right end one arc runs on, where the chain has its own end on the left.
            let found = points.iter().any(|q| q.distance(image) < 1e-9);
            assert!(found || image.distance(Point::new(450.0, 0.0)) < 1e-9, "{image}");
        }
    }
}

#[test]
fn a_curve_through_points_on_both_sides_alike_gets_arcs_alike() {
    let taken = [0.0, 210.0, 330.0, 372.0, 330.0, 210.0, 0.0];
    let points: Vec<Point> = taken
        .iter()
        .zip(-3i32..)
        .map(|(&y, i)| Point::new(7.0 + 150.0 * f64::from(i), y))
        .collect();
    let fit = fit(&curve_through(&points).unwrap(), 0.02);
    let vertices = fit.path.vertices();
    assert!(vertices.len().is_multiple_of(2), "one arc over the middle");
    for (left, right) in vertices.iter().zip(vertices.iter().rev()) {
        assert!((left.point.x + right.point.x - 14.0).abs() < 1e-8);
        assert!((left.point.y - right.point.y).abs() < 1e-8);
    }
}

#[test]
fn where_the_tolerance_is_wider_than_the_curve_it_is_kept_all_the_same() {
    for (half_span, rise) in [(0.4, 0.1), (0.01, 0.03), (2.0, 3.0)] {
        let fit = fit(&HalfEllipse { half_span, rise }, 1.0);
        assert!(fit.worst_error <= 1.0 && fit.path.pieces().len() <= 7);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn over_any_arch_the_arcs_are_few_and_run_smoothly_from_end_to_end(
        half_span in 40.0..3000.0f64,
        slope in 0.05..2.5f64,
        tolerance in prop_oneof![Just(1.0), Just(0.1), Just(0.02), Just(0.001)],
        shape in 0u8..3,
    ) {
        let rise = slope * half_span;
        let curve: Box<dyn Curve> = match shape {
            0 => Box::new(HalfEllipse { half_span, rise }),
            1 => Box::new(Parabola { half_span, rise }),
            _ => Box::new(Chain::over(half_span, rise)),
        };
        let fit = fit(curve.as_ref(), tolerance);
        prop_assert!(fit.worst_error <= tolerance);
        let (from, to) = curve.domain();
        let ends = (fit.path.start(), fit.path.end());
        prop_assert_eq!(ends, (curve.point(from), curve.point(to)));
        let pieces: Vec<Piece> = fit.path.pieces().collect();
        let leaving = angle(curve.tangent(from), pieces[0].tangent_at(0.0));
        let arriving = angle(curve.tangent(to), pieces[pieces.len() - 1].tangent_at(1.0));
        prop_assert!(leaving.abs() < 1e-9 && arriving.abs() < 1e-9, "{leaving} {arriving}");
        for pair in pieces.windows(2) {
            let kink = angle(pair[0].tangent_at(1.0), pair[1].tangent_at(0.0));
            prop_assert!(kink.abs() < 1e-9, "a kink of {kink}");
        }
        let steps = 300u32;
        for i in 0..=steps {
            let p = curve.point(from + (to - from) * f64::from(i) / f64::from(steps));
            prop_assert!(fit.path.nearest(p).distance <= fit.worst_error + 1e-9);
        }
    }
}
