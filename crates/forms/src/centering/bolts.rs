//! Bolt holes, which hold the ribs and their spacers together.
//!
//! One row runs along the middle of the tie, another along the back. Both are even about the rib's middle. No hole comes
//! nearer to an edge than [`edge_distance`], nor to another than twice that.

use super::Input;
use super::rib::Rib;
use crate::Error;
use crate::line::point_along;
use cintre_geometry::{LineError, Outline, Path, Point, parallel_line};

/// The least distance from any edge to a hole's centre, in diameters.
const EDGE_DIAMETERS: f64 = 3.0;

/// And in mm.
const EDGE: f64 = 30.0;

/// The farthest from one hole of a row to the next, mm.
const PITCH: f64 = 300.0;

/// The back's row is tried at so many places on either side of its middle to find how far it may reach.
const TRIALS: u32 = 500;

/// What rounding may take off a distance, mm.
const ROUNDING: f64 = 1e-6;

/// How far a bolt hole's centre stays from every edge, mm: three diameters, and 30 mm at least.
pub fn edge_distance(diameter: f64) -> f64 {
    (EDGE_DIAMETERS * diameter).max(EDGE)
}

/// The holes' centres with their diameter: the tie's row from the left, then the back's.
pub(crate) fn bolts(
    rib: &Rib,
    input: &Input,
    bolt: f64,
    opening: Option<&Outline>,
) -> Result<Vec<(Point, f64)>, Error> {
    let tie = tie_row(rib, bolt)?;
    let in_from_back = match (opening, input.rib_depth) {
        (Some(_), Some(depth)) => depth / 2.0,
        _ => edge_distance(bolt),
    };
    let back = match parallel_line(&rib.back, in_from_back) {
        Ok(line) => back_row(&line, |p| {
            let edges = std::iter::once(&rib.outline).chain(opening);
            let to_edge = edges.map(|e| e.nearest(p).distance).fold(f64::INFINITY, f64::min);
            let to_tie = tie.iter().map(|t| t.distance(p)).fold(f64::INFINITY, f64::min);
            rib.outline.contains(p)
                && p.y > rib.tie_top
                && to_edge >= edge_distance(bolt) - ROUNDING
                && to_tie >= 2.0 * edge_distance(bolt)
        }),
        // The rib is nowhere wide enough for a second row: the tie's holds it.
        Err(LineError::TooFar { .. }) => Vec::new(),
    };
    Ok(tie.into_iter().chain(back).map(|p| (p, bolt)).collect())
}

/// Along the middle of the tie, from one side to the other.
fn tie_row(rib: &Rib, bolt: f64) -> Result<Vec<Point>, Error> {
    let edge = edge_distance(bolt);
    let between = rib.width() - 2.0 * edge;
    if between < 2.0 * edge {
        let largest = rib.width() / 4.0 / EDGE_DIAMETERS;
        return Err(Error::Bolt {
            given: bolt,
            width: rib.width(),
            limit: (rib.width() >= 4.0 * EDGE).then_some(largest),
        });
    }
    let y = f64::midpoint(rib.bottom, rib.tie_top);
    let middle = rib.centre();
    Ok(even(between / 2.0, (between / PITCH).ceil())
        .map(|along| Point::new(middle + along, y))
        .collect())
}

/// Along the back, one in the middle and the others even on both sides, as far as `clear` lets them reach.
fn back_row(line: &Path, clear: impl Fn(Point) -> bool) -> Vec<Point> {
    let half = line.length() / 2.0;
    let clear_at = |off: f64| clear(point_along(line, half + off)) && clear(point_along(line, half - off));
    let reach = (0..=TRIALS)
        .map(|i| half * f64::from(i) / f64::from(TRIALS))
        .take_while(|&off| clear_at(off))
        .last();
    let Some(reach) = reach else {
        return Vec::new();
    };
    // Less than half a pitch on either side is not worth a second hole.
    let bays = if reach < PITCH / 2.0 {
        0.0
    } else {
        2.0 * (reach / PITCH).ceil()
    };
    even(reach, bays)
        .map(|off| point_along(line, half + off))
        .collect()
}

/// Distances from the middle, from `-reach` to `reach` in so many equal bays; the middle alone in none.
fn even(reach: f64, bays: f64) -> impl Iterator<Item = f64> {
    let step = if bays > 0.0 { 2.0 * reach / bays } else { 0.0 };
    std::iter::successors(Some(0.0), |n| Some(n + 1.0))
        .take_while(move |&n| n <= bays)
        // Counted from the middle, so that left and right are the same to the last digit.
        .map(move |n| (n - bays / 2.0) * step)
}
