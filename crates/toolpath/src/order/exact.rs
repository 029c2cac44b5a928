//! The shortest way through a few stops, by what is best for each set of them (Held and Karp).

use cintre_geometry::Point;

/// With more stops than this the sets are too many to look at them all.
pub(super) const MOST: usize = 10;

/// The shortest way through at most [`MOST`] stops, as [`super::tour`] has it.
pub(super) fn shortest(
    stops: &[Vec<Point>],
    before: &[(usize, usize)],
    (home, back): (Point, bool),
) -> Vec<(usize, usize)> {
    let whole = (1_usize << stops.len()) - 1;
    // For each set of stops gone through and each last place: the way so far, and the place before the last.
    let ends: Vec<(usize, usize)> = (0..stops.len())
        .flat_map(|s| (0..stops[s].len()).map(move |k| (s, k)))
        .collect();
    let place = |end: usize| stops[ends[end].0][ends[end].1];
    let mut best = vec![vec![(f64::INFINITY, None); ends.len()]; whole + 1];
    for set in 1..=whole {
        for (end, &(s, _)) in ends.iter().enumerate() {
            let rest = set & !(1 << s);
            let ready = before.iter().all(|&(a, b)| b != s || rest & (1 << a) != 0);
            if rest == set || !ready {
                continue;
            }
            best[set][end] = if rest == 0 {
                (home.distance(place(end)), None)
            } else {
                let from = |last: usize| (best[rest][last].0 + place(last).distance(place(end)), Some(last));
                (0..ends.len())
                    .map(from)
                    .min_by(|a, b| a.0.total_cmp(&b.0))
                    .unwrap_or((f64::INFINITY, None))
            };
        }
    }
    let all = |end: &usize| best[whole][*end].0 + if back { place(*end).distance(home) } else { 0.0 };
    let mut last = (0..ends.len()).min_by(|a, b| all(a).total_cmp(&all(b)));
    let (mut set, mut way) = (whole, Vec::with_capacity(stops.len()));
    while let Some(end) = last {
        way.push(ends[end]);
        last = best[set][end].1;
        set &= !(1 << ends[end].0);
    }
    way.reverse();
    way
}
