//! The true parallel of a closed edge: the road of a bit's centre, a ring's other face.
//!
//! Each result of the offset library is taken only after a check of our own, in both directions: no point of the parallel
//! lies nearer or farther than the distance asked for, and no point that belongs to it is missing.

use crate::convert::{from_polyline, to_polyline};
use crate::tidy::{between, sanitised, without_short};
use crate::{Outline, Piece, Point, Vec2};
use cavalier_contours::core::Control;
use cavalier_contours::polyline::{
    PlineIntersect, PlineOffsetOptions, PlineSelfIntersectOptions, PlineSource, Polyline,
};
use std::panic::{AssertUnwindSafe, catch_unwind};

/// A parallel is accepted when it keeps its distance within this, mm: far below what any file writes.
pub const PARALLEL_TOLERANCE: f64 = 2e-6;

/// Points looked at along each piece.
const SAMPLES: u32 = 8;

/// The library's tolerances (equal positions, distance), mm, in the order in which they are tried.
pub(crate) const TOLERANCES: [(f64, f64); 4] = [(1e-5, 1e-4), (1e-7, 1e-6), (1e-6, 1e-5), (1e-8, 1e-7)];

/// Small changes of the distance that step round an exact tangency, mm; all within [`PARALLEL_TOLERANCE`].
pub(crate) const NUDGES: [f64; 5] = [0.0, 2e-7, -2e-7, 1e-6, -1e-6];

/// A parallel nearer than this is the edge itself, mm.
const NOTHING: f64 = 1e-9;

/// A point counts as belonging to the parallel when no part of the edge is nearer than the distance, but for the rounding
/// of the reckoning, mm.
pub(crate) const ROUNDING: f64 = 1e-11;

/// Neighbouring pieces that cross this near to the corner they share, mm, touch there and do not cross: between tangent
/// arcs of nearly one radius the place of contact has no more digits than this.
const CONTACT: f64 = 0.05;

/// Corners of the result are laid on the exact ones within this, mm.
const DRIFT: f64 = 2e-5;

/// Why an edge has no parallel.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ParallelError {
    /// It crosses itself, so that it has no inside.
    #[error("the edge crosses itself at ({:.3}, {:.3})", at.x, at.y)]
    CrossesItself {
        /// Where.
        at: Point,
    },
    /// It is smaller than anything that can be cut.
    #[error("the edge near ({:.3}, {:.3}) encloses nothing", at.x, at.y)]
    Nothing {
        /// Its first point.
        at: Point,
    },
    /// No result kept the distance.
    #[error("no parallel at {distance:.4} mm keeps its distance to the edge near ({:.3}, {:.3})", at.x, at.y)]
    NotFound {
        /// The distance asked for, mm.
        distance: f64,
        /// The first point of the edge.
        at: Point,
    },
}

/// The parallel of a closed edge, `to_right` mm to the right of its travel, to the left where negative, with round joins
/// about its corners.
///
/// An edge of a part runs counter-clockwise and an opening clockwise, so the right side is always away from the wood. Each
/// result runs the same way as the edge. There are none where the space is too narrow, and several where it falls apart.
/// Details of the edge below 1e-4 mm are taken for one point.
pub fn parallel(outline: &Outline, to_right: f64) -> Result<Vec<Outline>, ParallelError> {
    let at = outline.vertices()[0].point;
    let source = sanitised(outline).ok_or(ParallelError::Nothing { at })?;
    let line = to_polyline(&source);
    if let Some(at) = crossing(&line) {
        return Err(ParallelError::CrossesItself { at });
    }
    if to_right.abs() < NOTHING {
        return Ok(vec![outline.clone()]);
    }
    NUDGES
        .iter()
        .flat_map(|nudge| TOLERANCES.iter().map(move |t| (to_right + nudge, *t)))
        .filter_map(|(distance, tolerances)| offset(&line, distance, tolerances))
        .find(|found| keeps_distance(&source, found, to_right))
        .map(|found| finished(&source, found, to_right))
        .ok_or(ParallelError::NotFound {
            distance: to_right,
            at,
        })
}

/// Where the edge crosses or retraces itself.
fn crossing(line: &Polyline<f64>) -> Option<Point> {
    let mut found = None;
    line.visit_self_intersects_opt(
        &mut |crossing: PlineIntersect<f64>| {
            let (first, second, p) = match crossing {
                PlineIntersect::Basic(c) => (c.start_index1, c.start_index2, c.point),
                PlineIntersect::Overlapping(c) => (c.start_index1, c.start_index2, c.point1),
            };
            let p = Point::new(p.x, p.y);
            let shared = match (line.next_wrapping_index(first), line.next_wrapping_index(second)) {
                (next, _) if next == second => Some(line.at(second)),
                (_, next) if next == first => Some(line.at(first)),
                _ => None,
            };
            if shared.is_some_and(|v| Point::new(v.x, v.y).distance(p) < CONTACT) {
                return Control::Continue;
            }
            found = Some(p);
            Control::Break(())
        },
        &PlineSelfIntersectOptions::default(),
    );
    found
}

/// The library's own answer, none where it panicked.
fn offset(line: &Polyline<f64>, to_right: f64, (position, distance): (f64, f64)) -> Option<Vec<Outline>> {
    let options = PlineOffsetOptions {
        pos_equal_eps: position,
        offset_dist_eps: distance,
        ..PlineOffsetOptions::default()
    };
    // The library counts the left side positive. Stray open chains can come at an exact tangency and enclose nothing.
    catch_unwind(AssertUnwindSafe(|| line.parallel_offset_opt(-to_right, &options)))
        .ok()
        .map(|found| found.iter().filter_map(from_polyline).collect())
}

/// The check in both directions.
fn keeps_distance(source: &Outline, found: &[Outline], to_right: f64) -> bool {
    let outside = source.is_counter_clockwise() == (to_right > 0.0);
    let close = to_right.abs() < PARALLEL_TOLERANCE;
    let far = |p: Point| (source.nearest(p).distance - to_right.abs()).abs() <= PARALLEL_TOLERANCE;
    // The middle of a piece tells its side.
    let all_right = found.iter().flat_map(Outline::pieces).all(|piece| {
        fractions().all(|f| far(piece.point_at(f)))
            && (close || source.contains(piece.point_at(0.5)) != outside)
    });
    all_right
        && belonging(source, to_right).all(|p| {
            found
                .iter()
                .any(|loop_| loop_.nearest(p).distance <= PARALLEL_TOLERANCE)
        })
}

pub(crate) fn fractions() -> impl Iterator<Item = f64> + Clone {
    (0..=SAMPLES).map(|k| f64::from(k) / f64::from(SAMPLES))
}

/// Points that belong to the parallel: straight out from the edge, and round its corners, with nothing of the edge nearer, and on
/// the right side of it: straight across a cusp that closes to nothing lies its other flank.
pub(crate) fn belonging(source: &Outline, to_right: f64) -> impl Iterator<Item = Point> + '_ {
    let along = source.pieces().flat_map(move |piece| {
        fractions().map(move |f| piece.point_at(f) + right_of(piece.tangent_at(f)) * to_right)
    });
    let round = corners(source).filter_map(move |(before, after)| {
        let middle = before.tangent_at(1.0) + after.tangent_at(0.0);
        (middle.hypot() > 1e-3).then(|| after.start + right_of(middle / middle.hypot()) * to_right)
    });
    let nearest_allowed = to_right.abs() - ROUNDING;
    let outside = source.is_counter_clockwise() == (to_right > 0.0);
    let close = to_right.abs() < PARALLEL_TOLERANCE;
    along.chain(round).filter(move |&p| {
        source.nearest(p).distance >= nearest_allowed && (close || source.contains(p) != outside)
    })
}

/// Each pair of neighbours.
fn corners(outline: &Outline) -> impl Iterator<Item = (Piece, Piece)> + '_ {
    outline.pieces().zip(outline.pieces().cycle().skip(1))
}

/// The direction to the right of travel.
fn right_of(tangent: Vec2) -> Vec2 {
    Vec2::new(tangent.y, -tangent.x)
}

/// The accepted parallel with its corners laid exactly, arcs about the source's own centres, and no piece too short to cut.
fn finished(source: &Outline, found: Vec<Outline>, to_right: f64) -> Vec<Outline> {
    let exact: Vec<Outline> = found.iter().map(|o| concentric(source, o, to_right)).collect();
    // Where a corner was moved to the wrong one of two, the library's own answer stands.
    let found = if keeps_distance(source, &exact, to_right) {
        exact
    } else {
        found
    };
    found
        .iter()
        .filter_map(|o| without_short(o.pieces().collect()))
        .collect()
}

fn concentric(source: &Outline, found: &Outline, to_right: f64) -> Outline {
    let feet: Vec<Point> = corners(source)
        .flat_map(|(a, b)| {
            [(a.end, a.tangent_at(1.0)), (b.start, b.tangent_at(0.0))]
                .map(|(p, t)| p + right_of(t) * to_right)
        })
        .collect();
    let centres: Vec<Point> = corners(source)
        .flat_map(|(a, b)| [a.circle().map(|c| c.centre), Some(b.start)])
        .flatten()
        .collect();
    let pulled = |p: Point, to: &[Point]| nearest_of(to, p).filter(|q| q.distance(p) < DRIFT).unwrap_or(p);
    let pieces: Vec<Piece> = found
        .pieces()
        .map(|p| {
            let (start, end) = (pulled(p.start, &feet), pulled(p.end, &feet));
            match p.circle() {
                None => Piece::line(start, end),
                Some(c) => match nearest_of(&centres, c.centre).filter(|q| q.distance(c.centre) < DRIFT) {
                    Some(centre) => Piece::arc_between(centre, start, end, p.bulge > 0.0),
                    None => between(&p, start, end),
                },
            }
        })
        .collect();
    let path = pieces.iter().map(|p| crate::Vertex {
        point: p.start,
        bulge: p.bulge,
    });
    Outline::new(path.collect())
}

fn nearest_of(points: &[Point], p: Point) -> Option<Point> {
    points
        .iter()
        .copied()
        .min_by(|a, b| a.distance_squared(p).total_cmp(&b.distance_squared(p)))
}

#[cfg(test)]
mod tests;
