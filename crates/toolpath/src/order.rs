//! In which order cuts are made, and where each is gone into.
//!
//! Contours that may be gone into at several places make a travelling salesman's problem with a choice at every stop. The
//! order is found by two exchanges (a stretch run backwards, and a short stretch moved elsewhere) from a nearest-first
//! start, then by small shuffles that are kept where they shorten the way; the places to go in are chosen exactly for an
//! order, stop by stop. A few stops are ordered exactly. What must come before something else stays before it throughout.

use crate::contour::Contour;
use crate::cuts::OneCut;
use cintre_geometry::{Path, Point};
use search::Search;

mod exact;
mod search;

/// Shuffles tried for each stop: beyond this a sheet's way hardly shortens.
const SHUFFLES: usize = 100;

/// Something to be cut: as it stands, or by a way that is still to be chosen.
#[derive(Debug)]
pub(crate) enum Work<'c, 'a> {
    Fixed(OneCut),
    Round(&'c Contour<'a>),
}

impl Work<'_, '_> {
    fn starts(&self) -> Vec<Point> {
        match self {
            Self::Fixed(cut) => vec![cut.start],
            Self::Round(contour) => contour.starts(),
        }
    }

    /// Whether `other` lies within what this cut frees.
    fn encloses(&self, other: &Self) -> bool {
        let Self::Round(outer) = self else { return false };
        match other {
            Self::Fixed(cut) => outer.edge.contains(cut.start),
            Self::Round(inner) => {
                let p = inner.edge.vertices()[0].point;
                outer.edge.area().abs() > inner.edge.area().abs()
                    && outer.edge.bounds().contains(p)
                    && outer.edge.contains(p)
            }
        }
    }

    fn cut(self, way: usize) -> OneCut {
        match self {
            Self::Fixed(cut) => cut,
            Self::Round(contour) => contour.cut(way),
        }
    }
}

/// The cuts of one stage from where the bit stands, in an order of short travel: what lies inside of something before it.
pub(crate) fn arranged(stage: Vec<Work<'_, '_>>, from: Point) -> Vec<OneCut> {
    let stops: Vec<Vec<Point>> = stage.iter().map(Work::starts).collect();
    let mut before = Vec::new();
    for (i, outer) in stage.iter().enumerate() {
        let inside = stage
            .iter()
            .enumerate()
            .filter(|(j, inner)| *j != i && outer.encloses(inner));
        before.extend(inside.map(|(j, _)| (j, i)));
    }
    let shuffles = SHUFFLES * stops.len();
    let mut stage: Vec<Option<Work<'_, '_>>> = stage.into_iter().map(Some).collect();
    tour(&stops, &before, (from, false), shuffles)
        .into_iter()
        .filter_map(|(stop, way)| Some(stage[stop].take()?.cut(way)))
        .collect()
}

/// A short way from `home` through every stop, each at one of its places: (stop, place) in order. Of each pair in `before`
/// the first comes before the second. With `back` the way home again counts as well.
///
/// `shuffles` is how long it looks: the same input gives the same way. Every stop must have a place, and `before` no circle.
pub fn tour(
    stops: &[Vec<Point>],
    before: &[(usize, usize)],
    (home, back): (Point, bool),
    shuffles: usize,
) -> Vec<(usize, usize)> {
    if stops.len() <= exact::MOST {
        return exact::shortest(stops, before, (home, back));
    }
    let mut search = Search::new(stops, before, home, back);
    search.improve(shuffles);
    search.found()
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

#[cfg(test)]
mod tests;
