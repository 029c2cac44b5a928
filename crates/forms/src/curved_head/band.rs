//! The band that a head is: its two edges, its ends, and the lines across it where pieces meet.

use super::casing;
use super::{Input, Piece};
use crate::Error;
use crate::line::length_to;
use cintre_geometry::{LineError, Path, Piece as Arc, Point, Vec2, parallel_line};

/// Ends nearer than this meet, mm.
pub(super) const MEET: f64 = 1e-9;

/// A point of one edge that should lie on the other does within this, mm.
const ON: f64 = 1e-6;

/// A soffit that turns by more than this at once has a corner there, radians: less is a joint of fitted or traced arcs.
const CORNER: f64 = 1e-3;

/// Two normals that nearly cancel stand at a cusp, where both edges run out the same way.
const CUSP: f64 = 1e-6;

/// The head as one closed band or open strip, its lower edge run from the left to the right.
#[derive(Clone, Debug)]
pub(super) struct Band {
    pub(super) lower: Path,
    pub(super) upper: Path,
    pub(super) width: f64,
    pub(super) closed: bool,
    /// The lines across its ends, from the lower edge to the upper; those of a closed band are one.
    pub(super) ends: [Path; 2],
    /// The lengths along the lower edge, from its start, at which it has corners.
    pub(super) corners: Vec<f64>,
}

/// A line across a band where a piece ends.
#[derive(Clone, Debug)]
pub(super) struct Cut {
    /// How far along the lower edge, mm; in a closed band on its second round past its length.
    pub(super) lower: f64,
    /// And along the upper.
    pub(super) upper: f64,
    /// The line, from the lower edge to the upper.
    pub(super) line: Path,
    /// Whether another piece meets this one there.
    pub(super) joined: bool,
}

impl Band {
    pub(super) fn new(input: &Input) -> Result<Self, Error> {
        let soffit = &input.soffit;
        let closed = soffit.start().distance(soffit.end()) < MEET;
        if let (Piece::Casing { true_mitre, .. }, false) = (input.piece, closed) {
            return casing::band(input, true_mitre);
        }
        let lower = outwards(soffit, input.reveal)?;
        let upper = outwards(&lower, input.width)?;
        let across = |from, to| Path::polyline(&[from, to]);
        let ends = [
            across(lower.start(), upper.start()),
            across(lower.end(), upper.end()),
        ];
        Ok(Self::between(lower, upper, input.width, ends))
    }

    pub(super) fn between(lower: Path, upper: Path, width: f64, ends: [Path; 2]) -> Self {
        Self {
            closed: lower.start().distance(lower.end()) < MEET,
            corners: corners(&lower),
            lower,
            upper,
            width,
            ends,
        }
    }

    /// Whether it is alike left and right.
    pub(super) fn is_mirrored(&self) -> bool {
        /// It is where its mirror image lies this near to it, mm.
        const ALIKE: f64 = 1e-3;
        let middle = self.lower.bounds().center().x;
        let mirrored = |p: Point| Point::new(2.0 * middle - p.x, p.y);
        let alike = |edge: &Path| {
            let vertices = edge.vertices().iter();
            vertices
                .map(|v| edge.nearest(mirrored(v.point)).distance)
                .all(|off| off < ALIKE)
        };
        alike(&self.lower) && alike(&self.upper)
    }

    /// From corner to corner, or from end to end.
    pub(super) fn runs(&self) -> Vec<(f64, f64)> {
        let mut stops = vec![0.0];
        stops.extend(&self.corners);
        stops.push(self.lower.length());
        stops.windows(2).map(|pair| (pair[0], pair[1])).collect()
    }

    /// The line across at a length along the lower edge: an end, a corner's bisector, else square to the edge. None where the upper
    /// edge is cut short of it, beside a corner.
    pub(super) fn cut(&self, at: f64) -> Option<Cut> {
        let whole = self.lower.length();
        if !self.closed && at < ON {
            return Some(self.end(0, 0.0, 0.0));
        }
        if !self.closed && at > whole - ON {
            return Some(self.end(1, whole, self.upper.length()));
        }
        let (rounds, along) = if at > whole - ON {
            (1.0, (at - whole).max(0.0))
        } else {
            (0.0, at)
        };
        let from = self.lower.station(along).0;
        let upper = if along < ON {
            0.0
        } else {
            self.across(along, from)?
        };
        let to = self.upper.station(upper).0;
        Some(Cut {
            lower: at,
            upper: upper + rounds * self.upper.length(),
            line: Path::polyline(&[from, to]),
            joined: true,
        })
    }

    fn end(&self, which: usize, lower: f64, upper: f64) -> Cut {
        Cut {
            lower,
            upper,
            line: self.ends[which].clone(),
            joined: false,
        }
    }

    /// How far along the upper edge the line across from a point of the lower one meets it.
    fn across(&self, along: f64, from: Point) -> Option<f64> {
        let corner = self.corners.iter().any(|corner| (corner - along).abs() < ON);
        if !corner {
            let tangent = self.lower.station(along).1;
            let near = self.upper.nearest(from + left(tangent) * self.width);
            return (near.distance < ON).then(|| length_to(&self.upper, &near.into()));
        }
        let ray = from + self.bisector(along) * (self.upper.length() + self.width);
        let ray = Arc::line(from, ray);
        let meetings = self.upper.pieces().flat_map(|piece| piece.meetings(&ray, ON));
        let first = meetings.min_by(|a, b| a.distance(from).total_cmp(&b.distance(from)))?;
        Some(length_to(&self.upper, &self.upper.nearest(first).into()))
    }

    /// The direction outwards that halves a corner; over a cusp that in which both its edges run out.
    fn bisector(&self, along: f64) -> Vec2 {
        /// How far before and behind the corner the edge is looked at, mm.
        const BESIDE: f64 = 1e-4;
        let before = self.lower.station(along - BESIDE).1;
        let behind = self.lower.station(along + BESIDE).1;
        let sum = left(before) + left(behind);
        if sum.hypot() < CUSP.max(10.0 * BESIDE) {
            before.normalize()
        } else {
            sum.normalize()
        }
    }

    /// An edge between two lengths along it, which may lie on a closed band's second round.
    pub(super) fn part(edge: &Path, closed: bool, from: f64, to: f64) -> Path {
        if closed && to > edge.length() + MEET {
            edge.then(edge).part(from, to)
        } else {
            edge.part(from, to)
        }
    }
}

/// The parallel of an edge on the side away from the opening.
pub(super) fn outwards(edge: &Path, by: f64) -> Result<Path, Error> {
    if by <= 0.0 {
        return Ok(edge.clone());
    }
    parallel_line(edge, -by).map_err(|LineError::TooFar { given, limit }| Error::Ring { given, limit })
}

pub(super) fn left(direction: Vec2) -> Vec2 {
    Vec2::new(-direction.y, direction.x)
}

fn corners(edge: &Path) -> Vec<f64> {
    let pieces: Vec<Arc> = edge.pieces().collect();
    let mut along = 0.0;
    let mut found = Vec::new();
    for pair in pieces.windows(2) {
        along += pair[0].length();
        let (before, behind) = (pair[0].tangent_at(1.0), pair[1].tangent_at(0.0));
        if before.cross(behind).atan2(before.dot(behind)).abs() > CORNER {
            found.push(along);
        }
    }
    found
}
