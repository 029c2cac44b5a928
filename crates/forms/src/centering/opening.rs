//! The opening in a rib's web, which spares weight: under the back's parallel, over the tie, its corners rounded.
//!
//! Rounded as a bit would do it: the opening is drawn in by the corner's radius, and what is left is drawn out again by
//! the same, each corner then being an arc about a corner of the smaller shape.

use super::Input;
use super::bolts::edge_distance;
use super::rib::Rib;
use super::stiffening::KING_POST;
use crate::Error;
use crate::line::{Crossing, at_level, at_plumb, left_of};
use cintre_geometry::{Outline, Path, Piece, Point, Vec2, Vertex, parallel_line};
use std::f64::consts::PI;

/// Corners are never sharper than this, whatever the bit, mm: a crack starts from a sharp one.
const CORNER: f64 = 10.0;

/// The least width of the opening's straight lower edge, mm.
const LEAST_WIDTH: f64 = 20.0;

/// A king post left standing in a plate is as wide as the rib is deep, within these, mm.
const POST: (f64, f64) = (80.0, 150.0);

/// Two pieces whose directions differ by less than this run smoothly into one another, radians.
const SMOOTH: f64 = 1e-6;

/// The openings under `depth` mm of wood, clockwise: one, or two with a king post between them where one would be wide.
pub(crate) fn openings(rib: &Rib, input: &Input, depth: f64) -> Result<Vec<Outline>, Error> {
    let limit = input.bolt.map_or(CORNER, |bolt| 2.0 * edge_distance(bolt));
    if let Some(bolt) = input.bolt
        && depth < limit
    {
        return Err(Error::RibDepth {
            given: depth,
            bolt,
            limit,
        });
    }
    crate::error::at_least("rib-depth", depth, limit)?;
    let corner = input.least_corner.max(CORNER);
    attempt(rib, depth, corner).ok_or_else(|| Error::Opening {
        given: depth,
        corner,
        limit: deepest(rib, limit, depth, corner),
    })
}

/// The deepest rib that leaves an opening, between one that may and one that does not.
fn deepest(rib: &Rib, least: f64, given: f64, corner: f64) -> Option<f64> {
    attempt(rib, least, corner)?;
    let (mut works, mut fails) = (least, given);
    // Enough halvings to bring any depth below a micrometre.
    for _ in 0..40 {
        let middle = f64::midpoint(works, fails);
        if attempt(rib, middle, corner).is_some() {
            works = middle;
        } else {
            fails = middle;
        }
    }
    Some(works)
}

fn attempt(rib: &Rib, depth: f64, corner: f64) -> Option<Vec<Outline>> {
    let inwards = depth + corner;
    // Far enough down that the sides' own parallels do not end above the level that cuts them.
    let edge = rib.back_and_sides(rib.tie_top - 2.0 * inwards);
    let line = parallel_line(&edge, inwards).ok()?;
    let [from, to] = at_level(&line, rib.tie_top + corner)[..] else {
        return None;
    };
    let width = to.point.x - from.point.x;
    (width >= LEAST_WIDTH).then_some(())?;
    if width + 2.0 * corner <= KING_POST {
        return Some(vec![rounded(&stretch(&line, from, to), corner)?]);
    }
    // Half the post, and the corner by which the opening beside it is drawn out again.
    let beside = depth.clamp(POST.0, POST.1) / 2.0 + corner;
    let down = |at: Crossing| Piece::line(at.point, Point::new(at.point.x, from.point.y));
    let (left, right) = (
        highest(&line, rib.centre() - beside)?,
        highest(&line, rib.centre() + beside)?,
    );
    let mut before = stretch(&line, from, left);
    before.push(down(left));
    let mut after = vec![down(right).reversed()];
    after.extend(stretch(&line, right, to));
    Some(vec![rounded(&before, corner)?, rounded(&after, corner)?])
}

fn highest(line: &Path, x: f64) -> Option<Crossing> {
    let crossings = at_plumb(line, x).into_iter();
    crossings.max_by(|a, b| a.point.y.total_cmp(&b.point.y))
}

/// The part of `line` between two crossings.
fn stretch(line: &Path, from: Crossing, to: Crossing) -> Vec<Piece> {
    line.pieces()
        .enumerate()
        .filter(|&(i, _)| (from.piece..=to.piece).contains(&i))
        .map(|(i, piece)| {
            let start = if i == from.piece { from.fraction } else { 0.0 };
            let end = if i == to.piece { to.fraction } else { 1.0 };
            piece.part(start, end)
        })
        .filter(|piece| piece.start.distance(piece.end) > SMOOTH)
        .collect()
}

/// The shape under `line` and over the level of its ends, drawn out by `corner`; none where it has a re-entrant corner.
fn rounded(line: &[Piece], corner: f64) -> Option<Outline> {
    let (first, last) = (line.first()?, line.last()?);
    let down = Vec2::new(0.0, -corner);
    let mut pieces = Vec::new();
    pieces.extend(round(first.start, down, left_of(first, 0.0) * corner));
    for (i, piece) in line.iter().enumerate() {
        if i > 0 {
            let before = left_of(&line[i - 1], 1.0);
            let after = left_of(piece, 0.0);
            let turn = before.cross(after).atan2(before.dot(after));
            // A cusp's half turn may come out with either sign.
            if turn > SMOOTH && turn < PI - SMOOTH {
                return None;
            }
            if turn.abs() > SMOOTH {
                pieces.extend(round(piece.start, before * corner, after * corner));
            }
        }
        pieces.push(Piece {
            start: piece.start + left_of(piece, 0.0) * corner,
            end: piece.end + left_of(piece, 1.0) * corner,
            bulge: piece.bulge,
        });
    }
    pieces.extend(round(last.end, left_of(last, 1.0) * corner, down));
    let vertices = pieces.iter().map(|p| Vertex {
        point: p.start,
        bulge: p.bulge,
    });
    let end = pieces.last().map(|p| Vertex {
        point: p.end,
        bulge: 0.0,
    });
    Some(Outline::new(vertices.chain(end).collect()))
}

/// The clockwise arc about `centre` from one arm to another, none where they are the same.
fn round(centre: Point, from: Vec2, to: Vec2) -> Option<Piece> {
    let (start, end) = (centre + from, centre + to);
    (start.distance(end) > SMOOTH).then(|| Piece::arc_between(centre, start, end, false))
}
