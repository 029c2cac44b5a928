//! The lines of a form: its face, and every parallel of it, piece for piece.

use super::{BendingError, Given, Input, Side, tried};
use crate::Error;
use cintre_geometry::bend::{Bend, BendError, Bent, bent, highest};
use cintre_geometry::{LineError, Path, Piece, Point, Soffit, Vec2, parallel_line};

/// A place on a line and at once on all its parallels: a piece, and the fraction of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place {
    piece: usize,
    fraction: f64,
}

/// The form's lines. Offsets are mm to the left of travel, outwards, from the middle of the strips.
#[derive(Clone, Debug)]
pub(super) struct Lines {
    /// The face that is cut exact; that of the male of a pair.
    face: Path,
    /// Where it lies.
    at: f64,
    /// What it is out by from the exact curve.
    pub(super) fit_error: f64,
    /// The share of its bend that the piece keeps.
    pub(super) kept: f64,
    /// The middle line's length between its springings.
    pub(super) length: f64,
    /// What the middle line turns through on the form, to the right, radians.
    pub(super) turn: f64,
    /// Its greatest curvature to the right and to the left, 1/mm.
    pub(super) tightest: [f64; 2],
    /// The faces' offset from the strips: the liner's thickness and half the stack.
    pub(super) off: f64,
    tail: f64,
    legs: f64,
}

impl Lines {
    pub(super) fn new(input: &Input, kept: f64) -> Result<Self, Error> {
        let off = input.strips.stack() / 2.0 + input.liner;
        let at = match input.side {
            Side::Male | Side::Pair => -off,
            Side::Female => off,
        };
        let on_form = bend(input, kept, at)?;
        let fit = on_form.line.fit(input.tolerance);
        let tail = input.legs + input.over_length;
        Ok(Self {
            face: with_tails(&fit.path, tail),
            at,
            fit_error: fit.worst_error,
            kept,
            length: on_form.length,
            turn: -on_form.turn,
            tightest: on_form.tightest,
            off,
            tail,
            legs: input.legs,
        })
    }

    /// The line `offset` from the middle of the strips; an error with the farthest offset where it folds.
    pub(super) fn line(&self, offset: f64) -> Result<Path, f64> {
        let found = parallel_line(&self.face, self.at - offset);
        match found {
            Ok(line) if line.pieces().len() == self.face.pieces().len() => Ok(line),
            // Rounded corners that a tight parallel cannot follow.
            Ok(_) => Err(self.at),
            Err(LineError::TooFar { limit, .. }) => Err(self.at + limit.copysign(offset - self.at)),
        }
    }

    /// The face of the male, or of the female.
    pub(super) fn face(&self, side: Side) -> Result<Path, Error> {
        let offset = if side == Side::Female { self.off } else { -self.off };
        self.line(offset).map_err(|_| tried(self.deep()))
    }

    /// The length of the strips' line at `offset` between its springings.
    pub(super) fn length_at(&self, offset: f64) -> f64 {
        self.length + self.turn * offset
    }

    /// The length of a whole strip, its legs and what is trimmed off at both ends with it.
    pub(super) fn whole_length_at(&self, offset: f64) -> f64 {
        self.length_at(offset) + 2.0 * self.tail
    }

    /// The places of the left and the right springing.
    pub(super) fn springings(&self) -> [Place; 2] {
        self.inside_ends(self.tail)
    }

    /// The places where the finished piece is trimmed, past its legs.
    pub(super) fn trims(&self) -> [Place; 2] {
        self.inside_ends(self.tail - self.legs)
    }

    fn inside_ends(&self, along: f64) -> [Place; 2] {
        [along, self.face.length() - along].map(|length| place(&self.face, length))
    }

    fn deep(&self) -> BendingError {
        let radius = self.tightest[0].max(self.tightest[1]).recip();
        deep(2.0 * self.off, radius)
    }
}

/// The line `wanted` from the middle of the strips, of a piece whose bend on the form is its own over `kept`.
pub(super) fn bend(input: &Input, kept: f64, wanted: f64) -> Result<Bent, Error> {
    let stack = input.strips.stack();
    let middle = middle(input);
    bent(&input.line, &Bend { middle, kept, wanted }).map_err(|error| {
        tried(match error {
            BendError::Folded { radius, .. } => deep(stack, radius),
            other => BendingError::Line(other),
        })
    })
}

/// From the line that is given to the middle of the strips.
pub(super) fn middle(input: &Input) -> f64 {
    let half = input.strips.stack() / 2.0;
    match input.given {
        Given::Inside => half,
        Given::Middle => 0.0,
        Given::Outside => -half,
    }
}

fn deep(stack: f64, radius: f64) -> BendingError {
    BendingError::Deep {
        stack,
        radius,
        limit: 2.0 * radius,
    }
}

/// A line as arcs, with the straight legs that run on from its ends.
pub(super) fn with_tails(line: &Path, tail: f64) -> Path {
    if tail <= 0.0 {
        return line.clone();
    }
    let along = |piece: Option<Piece>, at: f64| piece.map_or(Vec2::ZERO, |p| p.tangent_at(at));
    let (first, last) = (along(line.pieces().next(), 0.0), along(line.pieces().last(), 1.0));
    let leg = |from: Point, to: Point| Path::polyline(&[from, to]);
    leg(line.start() - first * tail, line.start())
        .then(line)
        .then(&leg(line.end(), line.end() + last * tail))
}

/// A soffit as arcs, within `tolerance`.
pub(super) fn drawn(line: &Soffit, tolerance: f64, tail: f64) -> Path {
    with_tails(&line.fit(tolerance).path, tail)
}

/// The place `along` mm from the start of a line.
pub(super) fn place(line: &Path, along: f64) -> Place {
    let mut left = along;
    let mut last = Place {
        piece: 0,
        fraction: 0.0,
    };
    for (piece, it) in line.pieces().enumerate() {
        let length = it.length();
        if left <= length {
            return Place {
                piece,
                fraction: (left / length).max(0.0),
            };
        }
        left -= length;
        last = Place { piece, fraction: 1.0 };
    }
    last
}

/// The place at which a line stands highest; none where that is an end.
pub(super) fn crown(line: &Path) -> Option<Place> {
    highest(line).map(|(piece, fraction)| Place { piece, fraction })
}

/// How far along a line a place of it lies, mm.
pub(super) fn along(line: &Path, at: Place) -> f64 {
    let before: f64 = line.pieces().take(at.piece).map(|p| p.length()).sum();
    before
        + line
            .pieces()
            .nth(at.piece)
            .map_or(0.0, |p| p.length() * at.fraction)
}

/// A place of a line: its point, and the direction square to the left.
pub(super) fn station(line: &Path, at: Place) -> (Point, Vec2) {
    line.pieces()
        .nth(at.piece)
        .map_or((line.start(), Vec2::ZERO), |piece| {
            (
                piece.point_at(at.fraction),
                crate::line::left_of(&piece, at.fraction),
            )
        })
}
