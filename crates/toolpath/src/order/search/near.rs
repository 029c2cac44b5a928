//! Which stops lie near which.

use cintre_geometry::{Point, Vec2};

/// How many near stops are tried as the next one in each quarter of the compass, and in all.
const QUARTER: usize = 2;
const NEAR: usize = 10;

/// The nearest stops of each, by their nearest places: of each quarter of the compass some, so that a cluster is left again.
pub(super) fn near(stops: &[Vec<Point>]) -> Vec<Vec<usize>> {
    let apart = |a: &[Point], b: &[Point]| {
        let each = a
            .iter()
            .flat_map(|p| b.iter().map(move |q| (p.distance_squared(*q), *q - *p)));
        each.min_by(|x, y| x.0.total_cmp(&y.0))
            .unwrap_or((f64::INFINITY, Vec2::ZERO))
    };
    (0..stops.len())
        .map(|i| {
            let mut others: Vec<(f64, usize, usize)> = (0..stops.len())
                .filter(|&j| j != i)
                .map(|j| {
                    let (far, way) = apart(&stops[i], &stops[j]);
                    (far, j, usize::from(way.x > 0.0) * 2 + usize::from(way.y > 0.0))
                })
                .collect();
            others.sort_by(|a, b| a.0.total_cmp(&b.0));
            let mut taken = [0; 4];
            let (mut near, mut more) = (Vec::new(), Vec::new());
            for &(far, j, quarter) in &others {
                taken[quarter] += 1;
                if taken[quarter] <= QUARTER {
                    &mut near
                } else {
                    &mut more
                }
                .push((far, j));
            }
            near.extend(more.into_iter().take(NEAR.saturating_sub(near.len())));
            near.sort_by(|a, b| a.0.total_cmp(&b.0));
            near.into_iter().map(|(_, j)| j).collect()
        })
        .collect()
}
