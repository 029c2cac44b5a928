//! The soffit that voussoirs stand on and the back that they reach.

use super::{Crown, VoussoirError};
use crate::intersect::Support;
use crate::piece::wrapped;
use crate::{Path, Piece, Point, Vec2};

/// Two pieces whose directions differ by less than this run smoothly into one another, radians.
const SMOOTH: f64 = 1e-7;

/// A point is on a line, and a corner at the crown, within this, mm.
const ON: f64 = 1e-6;

/// A joint's face or middle: a point of the soffit, and the direction from there to the back, of length 1.
#[derive(Clone, Copy, Debug)]
pub(super) struct Face {
    pub(super) foot: Point,
    pub(super) up: Vec2,
}

/// A soffit without its stilts, and the ring's back. One that closes begins anywhere until it is [opened](Bed::opened).
#[derive(Clone, Debug)]
pub(super) struct Bed {
    pub(super) soffit: Path,
    pub(super) back: Path,
    pub(super) length: f64,
    pub(super) crown: Crown,
}

impl Bed {
    pub(super) fn new(soffit: &Path, back: &Path) -> Result<Self, VoussoirError> {
        let mut pieces: Vec<Piece> = soffit.pieces().collect();
        let closed = soffit.start().distance(soffit.end()) < ON;
        if !closed {
            // Stilts are walling: the voussoirs begin where the arc does.
            while pieces.last().is_some_and(Piece::is_line) {
                pieces.pop();
            }
            let stilts = pieces.iter().take_while(|piece| piece.is_line()).count();
            pieces.drain(..stilts);
        }
        if pieces.is_empty() {
            return Err(VoussoirError::NotOpen);
        }
        let soffit = Path::from_pieces(&pieces);
        let length = soffit.length();
        let mut crown = if closed { Crown::Closed } else { Crown::Key };
        if closed {
            pieces.push(pieces[0]);
        }
        let mut along = 0.0;
        for pair in pieces.windows(2) {
            along += pair[0].length();
            let turn = wrapped(pair[1].tangent_at(0.0).atan2() - pair[0].tangent_at(1.0).atan2());
            if turn.abs() < SMOOTH {
                continue;
            }
            if closed || turn > 0.0 || (along - length / 2.0).abs() > ON {
                return Err(VoussoirError::Corner { at: pair[0].end });
            }
            crown = Crown::Point;
        }
        Ok(Self {
            soffit,
            back: back.clone(),
            length,
            crown,
        })
    }

    /// With a ring that closes begun and ended in the middle of a joint, `half` along the soffit before its top; any other as it is.
    pub(super) fn opened(self, half: f64) -> Option<Self> {
        if self.crown != Crown::Closed {
            return Some(self);
        }
        let bounds = self.soffit.bounds();
        let top = self.soffit.nearest(Point::new(bounds.center().x, bounds.y1));
        let before: f64 = self.soffit.pieces().take(top.piece).map(|p| p.length()).sum();
        let within = top.fraction * self.soffit.pieces().nth(top.piece)?.length();
        let from = (before + within - half).rem_euclid(self.length);
        let from_at_back = self.reach(self.normal(from))?;
        Some(Self {
            soffit: begun_at(&self.soffit, from),
            back: begun_at(&self.back, from_at_back),
            ..self
        })
    }

    /// Whether the crown is a point, half way along.
    pub(super) fn pointed(&self) -> bool {
        self.crown == Crown::Point
    }

    /// Where the faces of a voussoir meet the back, as lengths along it, if they run clear to it.
    pub(super) fn reaches(&self, left: Face, right: Face) -> Option<(f64, f64)> {
        let (mut a, mut b) = (self.reach(left)?, self.reach(right)?);
        if self.crown == Crown::Closed {
            // Where the ring was opened its back has two ends in one place.
            let whole = self.back.length();
            if whole - a < ON {
                a = 0.0;
            }
            if b < ON {
                b = whole;
            }
        }
        (a < b).then_some((a, b))
    }

    /// The normal of the soffit at a length from its start.
    pub(super) fn normal(&self, along: f64) -> Face {
        let (foot, tangent) = self.soffit.station(along);
        Face {
            foot,
            up: Vec2::new(-tangent.y, tangent.x),
        }
    }

    /// The crown of a pointed soffit, and the plumb line over it.
    pub(super) fn apex(&self) -> Face {
        Face {
            foot: self.soffit.station(self.length / 2.0).0,
            up: Vec2::new(0.0, 1.0),
        }
    }

    /// How much of the soffit half a plumb joint over the point takes up on each side, mm.
    pub(super) fn half_apex_joint(&self, joint: f64) -> Option<f64> {
        let apex = self.apex().foot;
        let left = self.soffit.part(0.0, self.length / 2.0);
        let last = left.pieces().next_back()?;
        let plumb = Support::Line(apex - Vec2::new(joint / 2.0, 0.0), Vec2::new(0.0, 1.0));
        let meetings = plumb.meet(Support::of(&last)).into_iter();
        let near = meetings.map(|p| last.nearest(p)).filter(|n| n.distance < ON);
        near.map(|n| (1.0 - n.fraction) * last.length())
            .min_by(f64::total_cmp)
    }

    /// Where a face meets the back, as a length along it.
    pub(super) fn reach(&self, face: Face) -> Option<f64> {
        let mut passed = 0.0;
        let mut nearest: Option<(f64, f64)> = None;
        for piece in self.back.pieces() {
            for p in Support::Line(face.foot, face.up).meet(Support::of(&piece)) {
                let (on, up) = (piece.nearest(p), (p - face.foot).dot(face.up));
                if on.distance < ON && up > ON && nearest.is_none_or(|(least, _)| up < least) {
                    nearest = Some((up, passed + on.fraction * piece.length()));
                }
            }
            passed += piece.length();
        }
        nearest.map(|(_, along)| along)
    }

    /// The line of a face from the soffit to the back.
    pub(super) fn line(&self, face: Face) -> Option<Path> {
        let top = self.back.station(self.reach(face)?).0;
        Some(Path::polyline(&[face.foot, top]))
    }

    /// How long the back is between the normals of the soffit's ends, the wedge over a point left out.
    pub(super) fn back_length(&self) -> Option<f64> {
        if self.crown == Crown::Closed {
            return Some(self.back.length());
        }
        let along = |at: f64| self.reach(self.normal(at));
        if self.pointed() {
            // Just before the point the soffit still has a normal of its own.
            let half = along(self.length / 2.0 - ON / 2.0)? - along(0.0)?;
            return Some(2.0 * half);
        }
        Some(along(self.length)? - along(0.0)?)
    }
}

/// A chain that closes, begun and ended at a length from its start.
fn begun_at(closed: &Path, from: f64) -> Path {
    let whole = closed.length();
    if from < ON || whole - from < ON {
        return closed.clone();
    }
    closed.part(from, whole).then(&closed.part(0.0, from))
}
