//! A part as it stands between two floors: its outline without its holes and without every hollow that goes deeper.

use crate::lines::Lines;
use crate::wood::Hollow;
use cintre_geometry::{Outline, Piece, Point, Rect, Vec2};

/// How far beside an edge it is asked on which side the wood is, mm: below every size that is cut.
const BESIDE: f64 = 1e-4;
/// How far off one another two edges may run that meet, mm.
const MEETING: f64 = 1e-6;

/// The wood of a part below one floor and above the next.
#[derive(Debug)]
pub(crate) struct Level {
    /// The depth below which it stands: 0 for the face, then the floors of the part's hollows.
    pub(crate) over: f64,
    outline: Outline,
    holes: Vec<Outline>,
    open: Vec<Hollow>,
    bounds: Rect,
    /// Every edge of it, the wood on its left.
    pub(crate) edge: Lines,
}

impl Level {
    pub(crate) fn new(over: f64, outline: Outline, holes: Vec<Outline>, open: Vec<Hollow>) -> Self {
        let mut level = Self {
            over,
            bounds: outline.bounds(),
            outline,
            holes,
            open,
            edge: Lines::new([]),
        };
        level.edge = Lines::new(level.boundary());
        level
    }

    pub(crate) fn contains(&self, p: Point) -> bool {
        self.bounds.contains(p)
            && self.outline.contains(p)
            && !self.holes.iter().any(|h| h.contains(p))
            && !self.open.iter().any(|h| h.contains(p))
    }

    /// What of its outlines borders wood on one side only. Hollows may touch, cross and run along other edges.
    fn boundary(&self) -> Vec<Piece> {
        let whole = std::iter::once(&self.outline)
            .chain(&self.holes)
            .flat_map(Outline::pieces);
        if self.open.is_empty() {
            return whole.collect();
        }
        let all: Vec<Piece> = whole.chain(self.open.iter().flat_map(Hollow::walls)).collect();
        let boxes: Vec<Rect> = all.iter().map(|p| p.bounds().inflate(MEETING, MEETING)).collect();
        let mut found = Vec::new();
        for (i, piece) in all.iter().enumerate() {
            let others = (0..all.len()).filter(|&k| k != i && boxes[k].overlaps(boxes[i]));
            for stretch in split(piece, others.map(|k| &all[k])) {
                found.extend(self.bordering(&stretch));
            }
        }
        found
    }

    /// The stretch with the wood on its left, none where the same is on both sides.
    fn bordering(&self, stretch: &Piece) -> Option<Piece> {
        let (middle, along) = (stretch.point_at(0.5), stretch.tangent_at(0.5));
        let left = Vec2::new(-along.y, along.x) * BESIDE;
        match (self.contains(middle + left), self.contains(middle - left)) {
            (true, false) => Some(*stretch),
            (false, true) => Some(stretch.reversed()),
            _ => None,
        }
    }
}

/// A piece taken apart where others meet it.
fn split<'a>(piece: &Piece, others: impl Iterator<Item = &'a Piece>) -> Vec<Piece> {
    let mut cuts = vec![0.0, 1.0];
    for other in others {
        let ends = [other.start, other.end];
        let meetings = piece.meetings(other, MEETING);
        let places = meetings.into_iter().chain(ends).map(|p| piece.nearest(p));
        cuts.extend(places.filter(|n| n.distance <= MEETING).map(|n| n.fraction));
    }
    cuts.sort_by(f64::total_cmp);
    let length = piece.length();
    cuts.dedup_by(|b, a| (*b - *a) * length < MEETING);
    if let [from, to] = cuts[..]
        && from <= 0.0
        && to >= 1.0
    {
        return vec![*piece];
    }
    cuts.windows(2).map(|w| piece.part(w[0], w[1])).collect()
}
