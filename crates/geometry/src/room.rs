//! The parallels of a space with islands in it: the road of a bit's centre in a recess.

use crate::convert::{from_polyline, to_polyline};
use crate::parallel::{NUDGES, ROUNDING, TOLERANCES, belonging, fractions};
use crate::tidy::{sanitised, without_short};
use crate::{Outline, PARALLEL_TOLERANCE, ParallelError, Point, parallel};
use cavalier_contours::shape_algorithms::{Shape, ShapeOffsetOptions};
use std::panic::{AssertUnwindSafe, catch_unwind};

/// The parallels `off` mm inside a space: `wall` round it, clockwise, and `islands` in it, counter-clockwise, so that the wood is
/// on the left of each.
///
/// Results run the same way: clockwise about each room, counter-clockwise about what stands in it. There are none where the
/// space is too narrow. As [`parallel`] they are taken only after a check of the distance in both directions.
pub fn parallel_in_room(
    wall: &Outline,
    islands: &[Outline],
    off: f64,
) -> Result<Vec<Outline>, ParallelError> {
    if islands.is_empty() {
        return parallel(wall, off);
    }
    let edges: Vec<Outline> = std::iter::once(wall)
        .chain(islands)
        .map(|edge| {
            let at = edge.vertices()[0].point;
            // Each edge alone must be sound before they are taken together.
            parallel(edge, off)?;
            sanitised(edge).ok_or(ParallelError::Nothing { at })
        })
        .collect::<Result<_, _>>()?;
    let at = wall.vertices()[0].point;
    NUDGES
        .iter()
        .flat_map(|nudge| TOLERANCES.iter().map(move |t| (off + nudge, *t)))
        .filter_map(|(distance, tolerances)| attempt(&edges, distance, tolerances))
        .find(|found| keeps_distance(&edges, found, off))
        .ok_or(ParallelError::NotFound { distance: off, at })
}

/// The library's own answer, none where it panicked. It takes the space, and not the wood, to lie on the left.
fn attempt(edges: &[Outline], off: f64, (position, distance): (f64, f64)) -> Option<Vec<Outline>> {
    let options = ShapeOffsetOptions {
        pos_equal_eps: position,
        offset_dist_eps: distance,
        slice_join_eps: distance,
    };
    catch_unwind(AssertUnwindSafe(|| {
        let space = Shape::from_plines(edges.iter().map(|e| to_polyline(&e.reversed())));
        let inside = space.parallel_offset(off, &options);
        inside
            .ccw_plines
            .iter()
            .chain(&inside.cw_plines)
            .filter_map(|line| from_polyline(&line.polyline))
            .filter_map(|edge| without_short(edge.reversed().pieces().collect()))
            .collect()
    }))
    .ok()
}

fn nearest(edges: &[Outline], p: Point) -> f64 {
    edges
        .iter()
        .map(|e| e.nearest(p).distance)
        .fold(f64::INFINITY, f64::min)
}

/// The check in both directions.
fn keeps_distance(edges: &[Outline], found: &[Outline], off: f64) -> bool {
    let right = found.iter().flat_map(Outline::pieces).all(|piece| {
        fractions().all(|f| {
            let p = piece.point_at(f);
            (nearest(edges, p) - off).abs() <= PARALLEL_TOLERANCE && in_space(edges, p)
        })
    });
    right
        && edges
            .iter()
            .flat_map(|edge| belonging(edge, off))
            .filter(|p| in_space(edges, *p) && nearest(edges, *p) >= off - ROUNDING)
            .all(|p| nearest(found, p) <= PARALLEL_TOLERANCE)
}

/// Whether a point lies within the wall and on none of the islands.
fn in_space(edges: &[Outline], p: Point) -> bool {
    edges[0].contains(p) && !edges[1..].iter().any(|island| island.contains(p))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Rect;
    use proptest::prelude::*;

    fn wall() -> Outline {
        Outline::rectangle(Rect::new(0.0, 0.0, 200.0, 120.0)).reversed()
    }

    #[test]
    fn an_island_is_gone_round_and_joins_its_wall_where_the_gap_is_narrow() {
        let island = Outline::circle(Point::new(60.0, 60.0), 20.0);
        let found = parallel_in_room(&wall(), std::slice::from_ref(&island), 6.0).unwrap();
        assert_eq!(found.len(), 2);
        let areas: f64 = found.iter().map(Outline::area).sum();
        assert!((areas + 188.0 * 108.0 - std::f64::consts::PI * 26.0 * 26.0).abs() < 1e-6);
        // Nearer to the wall than the bit is wide, the road about the island and that along the wall are one.
        let near = Outline::circle(Point::new(60.0, 30.0), 20.0);
        let found = parallel_in_room(&wall(), &[near], 6.0).unwrap();
        assert_eq!(found.len(), 1);
        assert!(parallel_in_room(&wall(), &[island], 70.0).unwrap().is_empty());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        #[test]
        fn every_room_with_two_islands_keeps_its_distance(
            x in 30.0..170.0f64, y in 25.0..95.0f64, r in 2.0..20.0f64, a in 3.0..30.0f64, off in 0.5..30.0f64,
        ) {
            let round = Outline::circle(Point::new(x, y), r);
            let square = Outline::rectangle(Rect::new(90.0, 10.0, 90.0 + a, 10.0 + a));
            prop_assume!(square.nearest(Point::new(x, y)).distance > r + 0.1 && !square.contains(Point::new(x, y)));
            prop_assert!(parallel_in_room(&wall(), &[round, square], off).is_ok());
        }
    }
}
