//! Ten curves to lay tangent arcs along, and the least number of arcs that any smooth chain of them needs.

use cintre_geometry::measured::curve_through;
use cintre_geometry::{Chain, Curve, Ellipse, HalfEllipse, Parabola, Point};

/// The curves, by name.
pub(crate) fn ten() -> Vec<(&'static str, Box<dyn Curve>)> {
    let half = |half_span, rise| Box::new(HalfEllipse { half_span, rise });
    let woven: Vec<Point> = [
        0.0, 121.0, 202.0, 252.0, 283.0, 291.0, 284.0, 260.0, 206.0, 118.0, 0.0,
    ]
    .into_iter()
    .zip(-5i32..)
    .map(|(y, i)| Point::new(150.0 * f64::from(i), y))
    .collect();
    vec![
        ("half ellipse 1400 x 400", half(700.0, 400.0)),
        ("half ellipse 1400 x 200", half(700.0, 200.0)),
        ("half ellipse 900 x 600", half(450.0, 600.0)),
        ("half ellipse 6000 x 1500", half(3000.0, 1500.0)),
        (
            "ellipse 900 x 600",
            Box::new(Ellipse {
                half_width: 450.0,
                half_height: 300.0,
            }),
        ),
        (
            "parabola 1400 x 400",
            Box::new(Parabola {
                half_span: 700.0,
                rise: 400.0,
            }),
        ),
        (
            "parabola 1600 x 700",
            Box::new(Parabola {
                half_span: 800.0,
                rise: 700.0,
            }),
        ),
        ("catenary 1600 x 900", Box::new(Chain::over(800.0, 900.0))),
        ("catenary 3000 x 500", Box::new(Chain::over(1500.0, 500.0))),
        (
            "through a woven opening",
            Box::new(curve_through(&woven).expect("points in order")),
        ),
    ]
}

/// 0.2002 I / e^(1/3), of tolerance e and the integral I of |dκ/ds|^(1/3) along the curve: no chain of arcs that runs smoothly has
/// fewer when there are many. Summed over short steps as |Δκ|^(1/3) Δs^(2/3).
pub(crate) fn least_arcs(curve: &dyn Curve, tolerance: f64) -> f64 {
    const STEPS: u32 = 4000;
    let whole: f64 = curve
        .stretches()
        .windows(2)
        .map(|ends| {
            let at = |i: u32| ends[0] + (ends[1] - ends[0]) * f64::from(i) / f64::from(STEPS);
            (0..STEPS)
                .map(|i| {
                    let (from, to) = (at(i), at(i + 1));
                    let bend = (curve.curvature(to) - curve.curvature(from)).abs();
                    bend.cbrt() * curve.point(from).distance(curve.point(to)).powf(2.0 / 3.0)
                })
                .sum::<f64>()
        })
        .sum();
    0.2002 * whole / tolerance.cbrt()
}
