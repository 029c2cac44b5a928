//! The form bent back by the law, worked here anew from points alone.

use super::*;
use cintre_geometry::{HalfEllipse, Path, Point, Vec2};

/// Lets a stack go: from points along the form's face, the line `to_line` from the middle of the strips, of what comes off.
/// The crown of the middle line stays. Everything is summed from short chords, as one would do with a ruler.
fn let_go(face: &[Point], to_middle: f64, kept: f64, to_line: f64, crown: Point) -> Vec<Point> {
    let directions: Vec<f64> = face.windows(2).map(|p| (p[1] - p[0]).atan2()).collect();
    let turn = |a: f64, b: f64| {
        (b - a + std::f64::consts::PI).rem_euclid(std::f64::consts::TAU) - std::f64::consts::PI
    };
    let top = (0..face.len())
        .max_by(|&a, &b| face[a].y.total_cmp(&face[b].y))
        .unwrap();
    let mut line = Vec::new();
    for (step, range) in [
        (1.0, (top..face.len() - 1).collect::<Vec<_>>()),
        (-1.0, (0..top).rev().collect()),
    ] {
        let (mut at, mut direction, mut before) = (crown, 0.0, None);
        for i in range {
            let length = face[i].distance(face[i + 1]);
            let from = before.unwrap_or(0.0);
            let turned = turn(from, directions[i]);
            // Half of the turn lies before the chord's middle line, and half behind it.
            let middle = length - to_middle * turned * step;
            direction += turned * kept;
            before = Some(directions[i]);
            at += Vec2::from_angle(direction) * (middle * step);
            line.push(at + Vec2::from_angle(direction + std::f64::consts::FRAC_PI_2) * to_line);
        }
    }
    line
}

fn dense(path: &Path, steps: u32) -> Vec<Point> {
    let length = path.length();
    (0..=steps)
        .map(|i| path.station(length * f64::from(i) / f64::from(steps)).0)
        .collect()
}

/// How far points stand off a half ellipse at most, between its springings.
fn off_ellipse(points: &[Point], ellipse: &Path) -> f64 {
    let above = points.iter().filter(|p| p.y > 5.0);
    above.map(|p| ellipse.nearest(*p).distance).fold(0.0, f64::max)
}

#[test]
fn the_form_bent_back_by_the_law_gives_the_finished_line() {
    let mut ellipse = input(half_ellipse());
    ellipse.strips.thicknesses = vec![3.0; 8];
    // The arcs that are cut, and not only the curve that they stand for.
    ellipse.tolerance = 0.002;
    let kept = kept_by_layers(&ellipse.strips.thicknesses);
    let lines = Lines::new(&ellipse, kept).unwrap();
    let face = lines.face(Side::Male).unwrap();
    let finished = cintre_geometry::fit(
        &HalfEllipse {
            half_span: 700.0,
            rise: 400.0,
        },
        1e-4,
    )
    .path;
    let came_off = let_go(&dense(&face, 40_000), 12.0, kept, -12.0, Point::new(0.0, 412.0));
    let off = off_ellipse(&came_off, &finished);
    assert!(off < 0.01, "{off}");
    // Without the correction it opens by far more.
    let mut plain = ellipse.clone();
    plain.springback = Springback::None;
    let wrong = Lines::new(&plain, 1.0).unwrap().face(Side::Male).unwrap();
    let opened = let_go(&dense(&wrong, 40_000), 12.0, kept, -12.0, Point::new(0.0, 412.0));
    assert!(off_ellipse(&opened, &finished) > 1.0);
}

#[test]
fn a_half_round_comes_off_with_plumb_legs() {
    let mut jamb = input(half_round(1200.0));
    (jamb.legs, jamb.over_length) = (300.0, 50.0);
    let lines = Lines::new(&jamb, kept_by_layers(&jamb.strips.thicknesses)).unwrap();
    let face = lines.face(Side::Male).unwrap();
    // On the form the legs lean in past plumb; let go, they hang.
    let lean = (face.end() - face.station(face.length() - 100.0).0).normalize();
    assert!(lean.x < -0.04);
    let came_off = let_go(
        &dense(&face, 40_000),
        12.0,
        lines.kept,
        -12.0,
        Point::new(0.0, 612.0),
    );
    for p in came_off.iter().filter(|p| p.y < -5.0) {
        near(p.x.abs(), 600.0, 0.05);
    }
    let low = came_off.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    near(low, -350.0, 0.1);
}

#[test]
fn an_elliptical_piece_by_its_points() {
    let ellipse = input(half_ellipse());
    let on_form = lines::bend(&ellipse, 1.0 - 1.0 / 36.0, -12.0).unwrap();
    let Soffit::Curve(curve) = on_form.line else {
        panic!("an exact curve")
    };
    let springing = curve.point(curve.domain().1);
    near(springing.x, 690.372_756_130_943, 1e-6);
    near(springing.y, -7.475_260_329_564_01, 1e-6);
    let third = curve.point(2.0 * std::f64::consts::PI / 3.0);
    near(third.x, 349.572_648_492_17, 1e-6);
    near(third.y, 344.922_593_098_169, 1e-6);
}
