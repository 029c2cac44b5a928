//! Outlines as straight-sided ones that hold them: what the search works with.
//!
//! The wood of an outline lies wholly inside its facets: an arc that bulges out is put between tangents, one that bulges
//! in between chords. Arcs are parted where they stand level or plumb, so that the box round the facets is the outline's.

use crate::Error;
use crate::hull::hull;
use cintre_geometry::{Outline, ParallelError, Piece, Point, Vec2, parallel};
use std::f64::consts::FRAC_PI_2;

/// Corners nearer together than this are one, mm.
const SAME: f64 = 1e-3;

/// A corner that stands off the line past it by less than this is none, mm. Far below [`crate::ALLOWANCE`].
const IN_LINE: f64 = 1e-3;

/// How far facets stand off arcs, as a share of the outline's size, and within which bounds, mm.
const SHARE: f64 = 3e-4;
const FINEST: f64 = 0.02;
const COARSEST: f64 = 0.4;

/// The corners, counter-clockwise, of a straight-sided outline round all that lies within `by` mm of a counter-clockwise
/// one. What such a strip encloses besides counts as inside.
pub(crate) fn around(name: &str, outline: &Outline, by: f64) -> Result<Vec<Point>, Error> {
    match grown(outline, by) {
        Ok(grown) => largest(name, &grown),
        Err(error) => Err(odd(name, error.to_string())),
    }
}

/// The same; where no parallel is found, as beside a cusp that closes to nothing, round the convex outline of it: a piece that
/// is thought larger than it is lies no worse, only less near to others. And whether that was so.
pub(crate) fn around_or_rounded(name: &str, outline: &Outline, by: f64) -> Result<(Vec<Point>, bool), Error> {
    match grown(outline, by) {
        Ok(grown) => Ok((largest(name, &grown)?, false)),
        Err(ParallelError::NotFound { .. }) => {
            let rounded = Outline::polygon(&hull(facets(outline)));
            Ok((around(name, &rounded, by)?, true))
        }
        Err(error) => Err(odd(name, error.to_string())),
    }
}

fn odd(name: &str, why: String) -> Error {
    Error::Outline {
        name: name.to_owned(),
        why,
    }
}

/// The corners round the largest of some outlines.
fn largest(name: &str, outlines: &[Outline]) -> Result<Vec<Point>, Error> {
    let largest = outlines.iter().max_by(|a, b| a.area().total_cmp(&b.area()));
    let corners = largest.map(facets).unwrap_or_default();
    if corners.len() < 3 {
        return Err(odd(name, "it encloses nothing".to_owned()));
    }
    Ok(corners)
}

/// The corners of straight-sided outlines within a counter-clockwise one, nowhere nearer than `by` mm to it: one for each
/// place that is left, the largest first.
pub(crate) fn within(name: &str, outline: &Outline, by: f64) -> Result<Vec<Vec<Point>>, Error> {
    let mut left = parallel(outline, -by).map_err(|e| odd(name, e.to_string()))?;
    left.sort_by(|a, b| b.area().total_cmp(&a.area()));
    // The facets of the edge run the other way round hold what lies outside it.
    let corners = left.iter().map(|o| {
        let mut corners = facets(&o.reversed());
        corners.reverse();
        corners
    });
    Ok(corners.filter(|c| c.len() >= 3).collect())
}

fn facets(outline: &Outline) -> Vec<Point> {
    let bounds = outline.bounds();
    let off = (SHARE * bounds.width().hypot(bounds.height())).clamp(FINEST, COARSEST);
    let corners: Vec<Point> = outline.pieces().flat_map(|p| of_piece(&p, off)).collect();
    cleaned(corners)
}

/// The corners from a piece's start up to, but not, its end.
fn of_piece(piece: &Piece, off: f64) -> Vec<Point> {
    let mut corners = vec![piece.start];
    let Some(circle) = piece.circle() else {
        return corners;
    };
    let outward = piece.bulge > 0.0;
    let stops = stops(piece, circle.centre, circle.radius, outward, off);
    for pair in stops.windows(2) {
        if outward {
            let half = (pair[1] - pair[0]) / 2.0;
            let middle = Vec2::from_angle((pair[0] + pair[1]) / 2.0);
            corners.push(circle.centre + middle * (circle.radius / half.cos()));
        } else {
            corners.push(circle.centre + Vec2::from_angle(pair[1]) * circle.radius);
        }
    }
    if !outward {
        // The end belongs to the next piece.
        corners.pop();
    }
    corners
}

/// The angles at which an arc is parted, its ends with them.
fn stops(piece: &Piece, centre: Point, radius: f64, outward: bool, off: f64) -> Vec<f64> {
    let from = (piece.start - centre).atan2();
    let to = from + piece.sweep();
    let (low, high) = (from.min(to), from.max(to));
    let mut quarters = vec![low];
    let mut quarter = (low / FRAC_PI_2).ceil() * FRAC_PI_2;
    while quarter < high {
        if quarter > low + 1e-9 && quarter < high - 1e-9 {
            quarters.push(quarter);
        }
        quarter += FRAC_PI_2;
    }
    quarters.push(high);
    let widest = if outward {
        2.0 * (radius / (radius + off)).acos()
    } else {
        2.0 * (1.0 - off / radius).max(0.0).acos()
    };
    let mut stops = vec![low];
    for pair in quarters.windows(2) {
        let sweep = pair[1] - pair[0];
        let mut count = 1.0;
        while sweep / count > widest {
            count += 1.0;
        }
        let mut k = 1.0;
        while k <= count {
            stops.push(pair[0] + sweep * k / count);
            k += 1.0;
        }
    }
    if from > to {
        stops.reverse();
    }
    stops
}

/// Without corners that are none.
fn cleaned(mut corners: Vec<Point>) -> Vec<Point> {
    corners.dedup_by(|b, a| a.distance(*b) < SAME);
    while corners.len() > 1 && corners[0].distance(corners[corners.len() - 1]) < SAME {
        corners.pop();
    }
    straightened(corners)
}

/// Without corners that stand in line. All that are left out between two stay within [`IN_LINE`] of the line between them: one
/// after the other, each measured from its neighbours alone, would take away a long curve of short chords.
fn straightened(mut corners: Vec<Point>) -> Vec<Point> {
    // The lowest of the farthest left is a corner for certain.
    let first = (0..corners.len()).min_by(|&i, &j| {
        let (a, b) = (corners[i], corners[j]);
        a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
    });
    corners.rotate_left(first.unwrap_or(0));
    let n = corners.len();
    let mut kept = Vec::with_capacity(n);
    let mut at = 0;
    while at < n {
        kept.push(corners[at]);
        let mut next = at + 1;
        while next < n && in_line(corners[at], &corners[at + 1..=next], corners[(next + 1) % n]) {
            next += 1;
        }
        at = next;
    }
    if kept.len() < 3 { corners } else { kept }
}

fn in_line(before: Point, between: &[Point], after: Point) -> bool {
    let along = after - before;
    between.iter().all(|&here| {
        let beside = along.cross(here - before).abs() / along.hypot().max(SAME);
        beside < IN_LINE && (here - before).dot(along) > 0.0 && (after - here).dot(along) > 0.0
    })
}

/// What lies within a distance of an outline; where its own parallel is not found, of the facets round it.
fn grown(outline: &Outline, by: f64) -> Result<Vec<Outline>, ParallelError> {
    match parallel(outline, by) {
        Err(ParallelError::NotFound { .. }) => parallel(&Outline::polygon(&facets(outline)), by),
        found => found,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::Vertex;
    use proptest::prelude::*;

    fn rib() -> Outline {
        let v = |x: f64, y: f64, bulge| Vertex {
            point: Point::new(x, y),
            bulge,
        };
        // Outer arc bulging out, inner arc bulging in.
        Outline::new(vec![
            v(-700.0, 0.0, 0.0),
            v(-600.0, -80.0, -0.35),
            v(600.0, -80.0, 0.0),
            v(700.0, 0.0, 0.4),
        ])
        .oriented(true)
    }

    #[test]
    fn the_box_round_the_facets_is_that_of_the_grown_outline() {
        for outline in [rib(), Outline::circle(Point::new(3.0, 4.0), 77.0)] {
            let corners = around("rib", &outline, 5.0).unwrap();
            let bounds = Outline::polygon(&corners).bounds();
            let wanted = outline.bounds().inflate(5.0, 5.0);
            assert!((bounds.x0 - wanted.x0).abs() < 0.01 && (bounds.y1 - wanted.y1).abs() < 0.01);
            assert!((bounds.x1 - wanted.x1).abs() < 0.01 && (bounds.y0 - wanted.y0).abs() < 0.01);
        }
    }

    #[test]
    fn a_curve_of_many_short_chords_is_not_straightened_away() {
        let curve = |k: u32| {
            let x = f64::from(k);
            Point::new(x, -x * (400.0 - x) / 40_000.0 * 0.02)
        };
        let mut corners: Vec<Point> = (0..=400).map(curve).collect();
        corners.extend([Point::new(400.0, 300.0), Point::new(0.0, 300.0)]);
        let kept = cleaned(corners);
        assert!(kept.len() < 30, "{}", kept.len());
        let outline = Outline::polygon(&kept);
        for k in 0..=400 {
            assert!(outline.signed_distance(curve(k)) <= IN_LINE);
        }
    }

    #[test]
    fn an_edge_that_crosses_itself_is_told() {
        let eight = Outline::polygon(&[
            (0.0, 0.0).into(),
            (10.0, 10.0).into(),
            (10.0, 0.0).into(),
            (0.0, 12.0).into(),
        ]);
        assert!(matches!(around("eight", &eight, 1.0), Err(Error::Outline { .. })));
    }

    proptest! {
        #[test]
        fn all_wood_lies_inside_its_facets_and_not_far(b1 in -0.8..0.9f64, b2 in -0.3..0.9f64, by in 0.0..12.0f64) {
            let v = |x: f64, y: f64, bulge| Vertex { point: Point::new(x, y), bulge };
            let outline = Outline::new(vec![v(0.0, 0.0, b1), v(400.0, 0.0, b2), v(400.0, 300.0, 0.0), v(0.0, 300.0, 0.0)]);
            prop_assume!(b1 < 0.5 || b2 > -0.2);
            let Ok(corners) = around("part", &outline, by) else { return Ok(()); };
            let facets = Outline::polygon(&corners);
            for piece in outline.pieces() {
                for k in 0..=20 {
                    let p = piece.point_at(f64::from(k) / 20.0);
                    prop_assert!(facets.signed_distance(p) <= -by + 2e-3, "{} in {corners:?}", facets.signed_distance(p));
                }
            }
            let area: f64 = parallel(&outline, by).unwrap().iter().map(Outline::area).fold(0.0, f64::max);
            prop_assert!(facets.area() >= area - 3.0 && facets.area() < area + 0.45 * outline.length() + 100.0);
            for room in within("board", &outline, by).unwrap() {
                for piece in Outline::polygon(&room).pieces() {
                    prop_assert!(outline.signed_distance(piece.point_at(0.3)) <= -by + 2e-3);
                }
            }
        }
    }
}
