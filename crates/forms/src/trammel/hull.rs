//! Stiff shapes with straight edges: what a string round several eight-sided pads holds.

use cintre_geometry::{Outline, Point, Vec2};
use std::f64::consts::FRAC_PI_8;

/// The edge round some pads, each a centre and how far its eight sides stand from it, counter-clockwise; it has no inside corners.
///
/// # Panics
/// With no pad that has a size.
pub(super) fn round_all(pads: &[(Point, f64)]) -> Outline {
    let corners: Vec<Point> = pads
        .iter()
        .flat_map(|&(centre, off)| eight_sided(centre, off))
        .collect();
    Outline::polygon(&string(&corners))
}

/// The corners of an octagon whose sides stand `off` from its centre.
fn eight_sided(centre: Point, off: f64) -> impl Iterator<Item = Point> {
    let corner = off / FRAC_PI_8.cos();
    (0..8).map(move |k| centre + Vec2::from_angle(FRAC_PI_8 * f64::from(2 * k + 1)) * corner)
}

/// The corners of the string round some points, counter-clockwise.
fn string(points: &[Point]) -> Vec<Point> {
    /// Corners that turn by less than this are none, as the sine of the angle.
    const STRAIGHT: f64 = 1e-9;
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut kept: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = kept[..]
                && (b - a).cross(p - b) <= STRAIGHT * (b - a).hypot() * (p - b).hypot()
            {
                kept.pop();
            }
            kept.push(p);
        }
        kept.pop();
        kept
    };
    let lower = half(&mut sorted.iter().copied());
    let upper = half(&mut sorted.iter().rev().copied());
    [lower, upper].concat()
}
