//! In which order cuts of one kind are made.

use crate::cuts::OneCut;
use cintre_geometry::{Path, Point};

/// The cuts one after another, each time the one whose start is nearest to where the bit stands.
pub(crate) fn nearest_first(mut cuts: Vec<OneCut>, from: Point) -> Vec<OneCut> {
    let mut here = from;
    let mut ordered = Vec::with_capacity(cuts.len());
    while let Some(next) = (0..cuts.len()).min_by(|&a, &b| {
        here.distance_squared(cuts[a].start)
            .total_cmp(&here.distance_squared(cuts[b].start))
    }) {
        let cut = cuts.remove(next);
        here = end(&cut);
        ordered.push(cut);
    }
    ordered
}

/// Which of some lines has an end nearest to `here`, and whether that is its last point.
pub(crate) fn nearest_end(lines: &[Path], here: Point) -> Option<(usize, bool)> {
    (0..lines.len())
        .flat_map(|i| [(i, false, lines[i].start()), (i, true, lines[i].end())])
        .min_by(|a, b| here.distance_squared(a.2).total_cmp(&here.distance_squared(b.2)))
        .map(|(i, reversed, _)| (i, reversed))
}

/// Where a cut ends.
pub(crate) fn end(cut: &OneCut) -> Point {
    cut.moves.last().map_or(cut.start, |m| m.end)
}
