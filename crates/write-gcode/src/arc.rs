//! An arc as blocks: G2 or G3 where the printed figures bear it, chords elsewhere.

use crate::grid::Grid;
use cintre_geometry::{Piece, Point, Vec2};

/// What an arc may differ from its chord, mm: under this a line is the better block, since a controller can take an arc
/// that is nearly straight, or nearly nothing, for a full turn. It is also how far chords may stand off an arc.
pub(crate) const CHORD_ERROR: f64 = 0.002;
/// A chord under this is cut straight, mm.
const SHORT: f64 = 0.01;
/// How far the radii at both ends of a printed arc may differ, mm: half of what RS274NGC allows (0.002 mm).
const RADIUS_ERROR: f64 = 0.001;
/// How many steps around the true centre are tried each way.
const NEAR: i8 = 2;
/// How often an arc is halved to find printable centres before it goes out as chords.
const HALVINGS: u8 = 6;

/// Which arcs a machine takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Arcs {
    /// The longest radius that may go out as an arc, mm; none where no arc may.
    pub(crate) longest: Option<f64>,
    /// The most that one arc may turn, radians.
    pub(crate) most: f64,
}

/// One block's way to its end: straight, or about a centre given from the printed start in units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Block {
    /// The true end, mm.
    pub(crate) end: Point,
    /// How much of the whole arc is done at its end, 0 to 1.
    pub(crate) done: f64,
    /// I and J, in units, and whether it runs counter-clockwise; none for a straight block.
    pub(crate) about: Option<(Vec2, bool)>,
}

/// The blocks of an arc in mm, as far as a machine takes arcs.
pub(crate) fn blocks(arc: Piece, grid: &Grid, arcs: Arcs) -> Vec<Block> {
    let mut out = Vec::new();
    let radius = arc.circle().map_or(0.0, |c| c.radius);
    if arcs.longest.is_none_or(|longest| radius > longest) {
        chords(arc, (0.0, 1.0), &mut out);
        return out;
    }
    let parts: Vec<Piece> = arc.split_below_half_turn().collect();
    let each = parts.first().map_or(0.0, |part| part.sweep().abs());
    // A hair over a whole number of the longest arcs is rounding, not turn.
    let pieces = (each / arcs.most - 1e-9).ceil().max(1.0);
    #[expect(clippy::cast_precision_loss, reason = "at most three parts")]
    let share = 1.0 / (parts.len() as f64 * pieces);
    let mut from = 0.0;
    for part in parts {
        let mut i = 0.0;
        while i < pieces {
            let piece = if pieces > 1.0 {
                part.part(i / pieces, (i + 1.0) / pieces)
            } else {
                part
            };
            halve(piece, (from, from + share), grid, HALVINGS, &mut out);
            from += share;
            i += 1.0;
        }
    }
    out
}

/// One arc below half a turn, that does `span` of the whole.
fn halve(arc: Piece, span: (f64, f64), grid: &Grid, halvings: u8, out: &mut Vec<Block>) {
    let chord = arc.start.distance(arc.end);
    if chord < SHORT || chord * arc.bulge.abs() / 2.0 < CHORD_ERROR {
        out.push(Block {
            end: arc.end,
            done: span.1,
            about: None,
        });
    } else if let Some(centre) = centre(arc, grid) {
        out.push(Block {
            end: arc.end,
            done: span.1,
            about: Some((centre, arc.bulge > 0.0)),
        });
    } else if halvings > 0 {
        let middle = f64::midpoint(span.0, span.1);
        halve(arc.part(0.0, 0.5), (span.0, middle), grid, halvings - 1, out);
        halve(arc.part(0.5, 1.0), (middle, span.1), grid, halvings - 1, out);
    } else {
        chords(arc, span, out);
    }
}

/// The printable centre nearest to the true one about which both printed ends lie on one circle; I and J in units.
///
/// The true one is on the bisector of the printed chord, at the arc's own sweep.
fn centre(arc: Piece, grid: &Grid) -> Option<Vec2> {
    let (start, end) = (grid.point(arc.start), grid.point(arc.end));
    let chord = end - start;
    let ideal = Piece {
        start,
        end,
        bulge: arc.bulge,
    }
    .circle()?
    .centre
        - start;
    // A shift of the centre moves the middle of the arc, seen from its ends, by 1 - cos(sweep / 2) of itself.
    let b = arc.bulge * arc.bulge;
    let share = 2.0 * b / (1.0 + b);
    let steps = || (-NEAR..=NEAR).map(f64::from);
    steps()
        .flat_map(|i| steps().map(move |j| Vec2::new(i, j) * grid.step))
        .map(|shift| grid.offset(ideal + shift))
        .filter(|c| (c.hypot() - (*c - chord).hypot()).abs() <= RADIUS_ERROR * grid.per_mm)
        .filter(|c| (*c - ideal).hypot() * share <= CHORD_ERROR * grid.per_mm)
        // Below half a turn the centre is on the side to which the arc turns.
        .filter(|c| chord.cross(*c) * arc.bulge > 0.0)
        .min_by(|a, b| (*a - ideal).hypot().total_cmp(&(*b - ideal).hypot()))
}

/// Straight blocks that stand off the arc by no more than the chord error: half a chord's angle is acos(1 - e / R).
fn chords(arc: Piece, span: (f64, f64), out: &mut Vec<Block>) {
    let radius = arc.circle().map_or(f64::INFINITY, |c| c.radius);
    let half = 2.0 * (CHORD_ERROR / (2.0 * radius)).sqrt().min(0.5).asin();
    let n = if half > 0.0 {
        (arc.sweep().abs() / (2.0 * half)).ceil().max(1.0)
    } else {
        1.0
    };
    let mut i = 1.0;
    while i <= n {
        let end = if i < n { arc.point_at(i / n) } else { arc.end };
        out.push(Block {
            end,
            done: span.0 + (span.1 - span.0) * i / n,
            about: None,
        });
        i += 1.0;
    }
}
