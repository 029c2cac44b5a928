//! Stiff shapes: what a string round two discs holds, and round several.

use cintre_geometry::{Outline, Path, Piece, Point, Vec2, parallel};
use std::f64::consts::PI;

/// The edge round a disc at the origin and one farther along x, counter-clockwise: two arcs and their common tangents.
///
/// None where one disc holds the other.
pub(super) fn round_two(radius: f64, far: f64, end: f64) -> Option<Outline> {
    // The tangents lean by asin((r1 - r2) / d).
    let lean = (radius - end) / far;
    if !(lean.abs() < 1.0 && far > 0.0) {
        return None;
    }
    let lean = lean.asin();
    let way = Vec2::new(lean.sin(), lean.cos());
    let (origin, tip) = (Point::ZERO, Point::new(far, 0.0));
    let (up, down) = (way, Vec2::new(way.x, -way.y));
    let pieces = [
        Piece::arc(tip, tip + down * end, PI - 2.0 * lean),
        Piece::line(tip + up * end, origin + up * radius),
        Piece::arc(origin, origin + up * radius, PI + 2.0 * lean),
        Piece::line(origin + down * radius, tip + down * end),
    ];
    Some(Outline::closing(&Path::from_pieces(&pieces)))
}

/// The edge `off` mm outside the string round some points, counter-clockwise; none where no such edge is found.
pub(super) fn round_all(points: &[Point], off: f64) -> Option<Outline> {
    let corners = string(points);
    if let [a, b] = corners[..] {
        return round_two(off, a.distance(b), off).map(|flat| {
            let turn = cintre_geometry::Affine::translate(a.to_vec2())
                * cintre_geometry::Affine::rotate((b - a).atan2());
            flat.transformed(turn)
        });
    }
    if corners.len() < 3 {
        return None;
    }
    parallel(&Outline::polygon(&corners), off).ok()?.pop()
}

/// The corners of the string round some points, counter-clockwise.
fn string(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    sorted.dedup_by(|a, b| a.distance(*b) < 1e-6);
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut kept: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = kept[..]
                && (b - a).cross(p - b) <= 1e-9 * (b - a).hypot() * (p - b).hypot()
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
