//! One piece of a head, and the straight board that it comes out of.

use super::band::{Band, Cut, left};
use cintre_geometry::{Affine, Outline, Path, Piece, Point, Rect, Vec2};

/// Edges shorter than this leave no piece, mm.
const NOTHING: f64 = 1e-3;

/// Ends that face each other within this share have no direction between them: the piece turns half round.
const OPPOSED: f64 = 1e-6;

/// One piece of a head, in the arch's frame.
#[derive(Clone, Debug)]
pub(super) struct Segment {
    pub(super) lower: Path,
    pub(super) upper: Path,
    pub(super) from: Cut,
    pub(super) to: Cut,
    /// The direction of the board's grain, radians: it halves the turn between the piece's ends, so that both mitres are alike.
    pub(super) along: f64,
}

/// A straight piece of board, mitred at both ends, that a segment is got out of. mm, radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Blank {
    /// The width of board that it takes.
    pub(super) width: f64,
    /// The length that it takes where its ends are square.
    pub(super) length: f64,
    /// Its longer edge where its ends are mitred.
    pub(super) long_edge: f64,
    /// And its shorter one.
    pub(super) short_edge: f64,
    /// How far each end leans from square, the left one first.
    pub(super) mitres: [f64; 2],
}

impl Segment {
    /// The piece between two lines across a band; none where nothing is left between them.
    pub(super) fn new(band: &Band, from: &Cut, to: &Cut) -> Option<Self> {
        if to.lower - from.lower < NOTHING || to.upper - from.upper < NOTHING {
            return None;
        }
        let lower = Band::part(&band.lower, band.closed, from.lower, to.lower);
        let upper = Band::part(&band.upper, band.closed, from.upper, to.upper);
        let along = direction(&lower).atan2();
        Some(Self {
            lower,
            upper,
            from: from.clone(),
            to: to.clone(),
            along,
        })
    }

    /// Its edge, counter-clockwise.
    pub(super) fn outline(&self) -> Outline {
        let round = self
            .lower
            .then(&self.to.line)
            .then(&self.upper.reversed())
            .then(&self.from.line.reversed());
        Outline::closing(&round)
    }

    /// Its ends at which another piece meets it.
    pub(super) fn joints(&self) -> Vec<Path> {
        let ends = [&self.from, &self.to].into_iter();
        ends.filter(|cut| cut.joined)
            .map(|cut| cut.line.clone())
            .collect()
    }

    /// From the arch's frame to the board's: the grain along x, the box that it fills beginning at 0, 0.
    pub(super) fn to_board(&self) -> Affine {
        let turn = Affine::rotate(-self.along);
        let bounds = self.outline().transformed(turn).bounds();
        Affine::translate((-bounds.x0, -bounds.y0)) * turn
    }

    /// The box that it fills, its grain along x.
    pub(super) fn bounds(&self) -> Rect {
        self.outline().transformed(Affine::rotate(-self.along)).bounds()
    }

    /// How far the grain runs across its edge at worst, radians.
    pub(super) fn cross_grain(&self) -> f64 {
        let grain = Vec2::from_angle(self.along);
        let ends = self
            .lower
            .pieces()
            .flat_map(|p| [p.tangent_at(0.0), p.tangent_at(1.0)]);
        ends.map(|t| grain.cross(t).atan2(grain.dot(t)).abs())
            .fold(0.0, f64::max)
    }

    pub(super) fn blank(&self) -> Blank {
        let to_board = self.to_board();
        let bounds = self.bounds();
        let ends = [&self.from, &self.to].map(|cut| {
            let line = cut.line.transformed(to_board);
            Piece::line(line.start(), line.end())
        });
        let lean = |end: &Piece| (end.end - end.start).x.atan2((end.end - end.start).y);
        let edge = |y: f64| at_height(&ends[1], y).x - at_height(&ends[0], y).x;
        let (low, high) = (edge(0.0), edge(bounds.height()));
        Blank {
            width: bounds.height(),
            length: bounds.width(),
            long_edge: low.max(high),
            short_edge: low.min(high),
            mitres: [-lean(&ends[0]), lean(&ends[1])],
        }
    }

    /// The middle of the band at a share of the piece's length, and the direction of travel there.
    pub(super) fn middle(&self, share: f64) -> (Point, Vec2) {
        let (under, along) = self.lower.station(share * self.lower.length());
        let over = self.upper.station(share * self.upper.length()).0;
        (under.midpoint(over), along)
    }
}

/// The direction half way between those of an edge's ends; of one that turns half round, from end to end.
fn direction(edge: &Path) -> Vec2 {
    let mut pieces = edge.pieces();
    let first = pieces.next().map_or(Vec2::ZERO, |p| p.tangent_at(0.0));
    let last = edge.pieces().next_back().map_or(first, |p| p.tangent_at(1.0));
    let sum = first + last;
    // A piece that turns more than half round would be halved from behind.
    let chord = edge.end() - edge.start();
    if sum.hypot() < OPPOSED || sum.dot(chord) < 0.0 {
        chord
    } else {
        sum
    }
}

/// Where the line through a piece's ends has a height; of one that lies level, its start.
fn at_height(end: &Piece, y: f64) -> Point {
    let rise = end.end.y - end.start.y;
    if rise == 0.0 {
        return end.start;
    }
    end.start.lerp(end.end, (y - end.start.y) / rise)
}

/// The direction out of a piece at one of its ends, square to the line across.
pub(super) fn out_of(cut: &Cut, at_start: bool) -> Vec2 {
    let across = (cut.line.end() - cut.line.start()).normalize();
    if at_start { left(across) } else { -left(across) }
}
