//! Bolt holes, which hold the ribs and their spacers together.
//!
//! One row runs along the middle of the tie, another along the back. Both are even about the rib's middle. No hole comes
//! nearer to an edge than [`edge_distance`], nor to another than twice that.

use super::Input;
use super::member::Member;
use super::rib::Rib;
use crate::Error;
use crate::line::point_along;
use cintre_geometry::{LineError, Outline, Path, Point, parallel_line};

/// The least distance from any edge to a hole's centre, in diameters.
const EDGE_DIAMETERS: f64 = 3.0;

/// And in mm.
const EDGE: f64 = 30.0;

/// The farthest from one hole of a row to the next, mm.
pub(crate) const PITCH: f64 = 300.0;

/// The back's row is tried at so many places on either side of its middle to find how far it may reach.
const TRIALS: u32 = 500;

/// What rounding may take off a distance, mm.
const ROUNDING: f64 = 1e-6;

/// How far a bolt hole's centre stays from every edge, mm: three diameters, and 30 mm at least.
pub fn edge_distance(diameter: f64) -> f64 {
    (EDGE_DIAMETERS * diameter).max(EDGE)
}

/// The holes' centres: the tie's row from the left, then the back's. None stands over a notch.
pub(crate) fn bolts(
    rib: &Rib,
    input: &Input,
    bolt: f64,
    member: &Member,
    notches: &[f64],
) -> Result<Vec<Point>, Error> {
    let mut tie = tie_row(rib, bolt)?;
    if !notches.is_empty() {
        tie.retain(|&p| member.off_edges(p) >= edge_distance(bolt) - ROUNDING);
    }
    let in_from_back = match (&member.openings[..], input.rib_depth) {
        ([_, ..], Some(depth)) => depth / 2.0,
        _ => edge_distance(bolt),
    };
    let back = match parallel_line(&rib.back, in_from_back) {
        Ok(line) => back_row(&line, |p| {
            let to_tie = tie.iter().map(|t| t.distance(p)).fold(f64::INFINITY, f64::min);
            rib.outline.contains(p)
                && p.y > rib.tie_top
                && member.off_edges(p) >= edge_distance(bolt) - ROUNDING
                && to_tie >= 2.0 * edge_distance(bolt)
        }),
        // The rib is nowhere wide enough for a second row: the tie's holds it.
        Err(LineError::TooFar { .. }) => Vec::new(),
    };
    Ok(tie.into_iter().chain(back).collect())
}

/// The radius of a lifting hole, mm: room for a gloved hand or a strap.
pub(crate) const LIFTING: f64 = 20.0;

/// The wood left round a lifting hole, mm.
pub(crate) const ROUND_LIFTING: f64 = 25.0;

/// Cuts a hole on each side of a plate near the quarters of its back; whether both have room.
pub(crate) fn lifting_holes(rib: &Rib, member: &mut Member, bolt: f64) -> bool {
    let Ok(line) = parallel_line(&rib.back, LIFTING + ROUND_LIFTING + 1.0) else {
        return false;
    };
    let clear = |p: Point| {
        let mut holes = member.bores.iter();
        member.holds(p)
            && member.off_edges(p) >= LIFTING + ROUND_LIFTING
            && holes.all(|b| b.centre.distance(p) >= LIFTING + edge_distance(bolt))
    };
    let Some(pair) = lifting_places(&line).find(|pair| pair.iter().all(|&p| clear(p))) else {
        return false;
    };
    let holes = pair.map(|p| Outline::circle(p, LIFTING).reversed());
    member.openings.extend(holes);
    true
}

/// Pairs of places along a line, from its quarters towards its middle and then its ends, alike on both sides.
pub(crate) fn lifting_places(line: &Path) -> impl Iterator<Item = [Point; 2]> {
    let inwards = (0..40).map(|i| 0.25 + 0.005 * f64::from(i));
    let outwards = (0..30).map(|i| 0.25 - 0.005 * f64::from(i));
    let length = line.length();
    inwards
        .chain(outwards)
        .map(move |share| [share, 1.0 - share].map(|share| point_along(line, length * share)))
}

/// Along the middle of the tie, from one side to the other.
fn tie_row(rib: &Rib, bolt: f64) -> Result<Vec<Point>, Error> {
    let edge = edge_distance(bolt);
    let width = rib.width_at(rib.tie_top);
    let between = width - 2.0 * edge;
    if between < 2.0 * edge {
        let largest = width / 4.0 / EDGE_DIAMETERS;
        return Err(Error::Bolt {
            given: bolt,
            width,
            limit: (width >= 4.0 * EDGE).then_some(largest),
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
