//! Best circles against values worked independently, that of the flat arch with 50-digit arithmetic: its centre is so loosely held
//! that a search which ends early is seen.

use cintre_geometry::Point;
use cintre_geometry::measured::best_circle;
use serde_json::Value;

const REFERENCE: &str = include_str!("reference/best_circles.json");

/// Agreement asked for, mm.
const AGREEMENT: f64 = 1e-5;

#[test]
fn best_circles_agree_with_the_reference() {
    let reference: Vec<Value> = serde_json::from_str(REFERENCE).expect("the reference is JSON");
    assert_eq!(reference.len(), 2);
    for case in &reference {
        let number = |value: &Value| value.as_f64().expect("a number");
        let points: Vec<Point> = case["points"]
            .as_array()
            .expect("points")
            .iter()
            .map(|p| Point::new(number(&p[0]), number(&p[1])))
            .collect();
        let fit = best_circle(&points).expect("a circle");
        for (got, want) in [
            (fit.circle.centre.x, &case["centre"][0]),
            (fit.circle.centre.y, &case["centre"][1]),
            (fit.circle.radius, &case["radius"]),
            (fit.residuals.worst, &case["worst_residual"]),
            (fit.residuals.rms, &case["rms"]),
        ] {
            let want = number(want);
            assert!((got - want).abs() < AGREEMENT, "{got} is not {want}: {fit:?}");
        }
    }
}
