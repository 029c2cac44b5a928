//! The best place at every stop for an order as it stands.

use super::{GAIN, Search};
use cintre_geometry::Point;

impl Search<'_> {
    /// Chooses the best place at every stop for the order as it is; whether one changed to some gain.
    pub(super) fn choose_places(&mut self) -> bool {
        let n = self.stops.len();
        let was = self.length();
        let mut costs: Vec<f64> = vec![0.0];
        let mut came: Vec<Vec<usize>> = Vec::with_capacity(n);
        let mut from: &[Point] = std::slice::from_ref(&self.home);
        for &stop in &self.order[1..=n] {
            let places = &self.stops[stop];
            let best = |p: &Point| {
                let ways = from.iter().zip(&costs).map(|(q, cost)| cost + q.distance(*p));
                ways.enumerate()
                    .min_by(|a, b| a.1.total_cmp(&b.1))
                    .unwrap_or((0, 0.0))
            };
            let (back, next): (Vec<usize>, Vec<f64>) = places.iter().map(best).unzip();
            came.push(back);
            (costs, from) = (next, places);
        }
        let last = |(k, cost): (usize, &f64)| {
            (
                k,
                cost + if self.back {
                    from[k].distance(self.home)
                } else {
                    0.0
                },
            )
        };
        let ends = costs.iter().enumerate().map(last);
        let Some((mut k, length)) = ends.min_by(|a, b| a.1.total_cmp(&b.1)) else {
            return false;
        };
        if length > was - GAIN {
            return false;
        }
        for (i, back) in came.iter().enumerate().rev() {
            let stop = self.order[i + 1];
            if self.place[stop] != k {
                self.place[stop] = k;
                self.push(stop);
            }
            k = back[k];
        }
        true
    }
}
