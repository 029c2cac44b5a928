//! Lines bent more, or less, than they are: the line that a form needs so that what springs back comes out right.
//!
//! A strip keeps its length along the middle of its thickness, and of its bend there it keeps a share: curvature kept =
//! curvature on the form × share. So every bit of the middle line keeps its length, and its curvature on the form is that of
//! the finished piece divided by the share. An arc stays an arc; half an ellipse does not stay half an ellipse.

pub use curve::BentCurve;

use crate::{Curve, LineError, Path, Piece, Point, Soffit, Vec2, parallel_line};
use std::sync::Arc;

mod curve;
#[cfg(test)]
mod tests;

/// Pieces whose directions differ by less than this run on smoothly, radians: 0.1°, which no eye finds on a form.
const SMOOTH: f64 = 1.75e-3;

/// How a line is bent. Lengths in mm, to the left of the line's travel: outwards for a soffit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bend {
    /// From the line that is given to the middle line, which keeps its length.
    pub middle: f64,
    /// The share of its bend that the piece keeps: the middle line's curvature is divided by it.
    pub kept: f64,
    /// From the middle line to the line that is wanted.
    pub wanted: f64,
}

/// A line bent.
#[derive(Clone, Debug)]
pub struct Bent {
    /// The line wanted.
    pub line: Soffit,
    /// The length of the middle line, mm.
    pub length: f64,
    /// The angle that it turns through, radians, negative where it turns to the right as a soffit does.
    pub turn: f64,
    /// The greatest curvature of the bent middle line to the right and to the left, 1/mm, none less than 0.
    pub tightest: [f64; 2],
}

/// Why a line cannot be bent so.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum BendError {
    /// It has a corner.
    #[error("the line has a corner of {:.2} degrees at ({:.2}, {:.2})", turn.to_degrees(), at.x, at.y)]
    Corner {
        /// Where.
        at: Point,
        /// By how much it turns there, radians.
        turn: f64,
    },
    /// It comes back to where it begins.
    #[error("the line comes back to where it begins")]
    Closed,
    /// The middle line, or the line wanted, lies beyond the centre of a bend.
    #[error("a line {off:.3} mm off lies beyond the centre of a bend of {radius:.3} mm")]
    Folded {
        /// How far off, mm.
        off: f64,
        /// The least radius on that side, mm.
        radius: f64,
    },
}

/// Bends a line. Its crown, or its middle where it has none, stays where and as it is.
pub fn bent(line: &Soffit, bend: &Bend) -> Result<Bent, BendError> {
    if line.start().distance(line.end()) < SAME {
        return Err(BendError::Closed);
    }
    match line {
        Soffit::Path(path) => bent_path(path, bend),
        Soffit::Curve(curve) => bent_curve(curve, bend),
    }
}

/// Ends nearer than this meet, mm.
const SAME: f64 = 1e-6;

fn bent_curve(source: &Arc<dyn Curve>, bend: &Bend) -> Result<Bent, BendError> {
    let curvatures: Vec<f64> = source.stretches().iter().map(|&t| source.curvature(t)).collect();
    let tightest = moved(&curvatures, bend)?;
    let curve = BentCurve::new(Arc::clone(source), *bend);
    Ok(Bent {
        length: curve.middle_length(),
        turn: curve.turn(),
        tightest,
        line: Soffit::Curve(Arc::new(curve)),
    })
}

fn bent_path(path: &Path, bend: &Bend) -> Result<Bent, BendError> {
    let pieces: Vec<Piece> = path.pieces().collect();
    for pair in pieces.windows(2) {
        let (before, after) = (pair[0].tangent_at(1.0), pair[1].tangent_at(0.0));
        let turn = before.cross(after).atan2(before.dot(after));
        if turn.abs() > SMOOTH {
            let at = pair[1].start;
            return Err(BendError::Corner { at, turn });
        }
    }
    let curvatures: Vec<f64> = pieces.iter().map(|p| p.curvature()).collect();
    let tightest = moved(&curvatures, bend)?;
    let folded = |LineError::TooFar { given, limit }| BendError::Folded {
        off: given,
        radius: limit,
    };
    let middle = parallel_line(path, -bend.middle).map_err(folded)?;
    let on_form = rebent(&middle, bend.kept);
    let (from, to) = (frame(&middle, crown(&middle)), frame(&on_form, crown(&middle)));
    let placed = on_form.transformed(
        crate::Affine::translate(from.0.to_vec2())
            * crate::Affine::rotate(from.1 - to.1)
            * crate::Affine::translate(-to.0.to_vec2()),
    );
    let wanted = parallel_line(&placed, -bend.wanted).map_err(folded)?;
    Ok(Bent {
        length: middle.length(),
        turn: placed.pieces().map(|p| p.sweep()).sum(),
        tightest,
        line: Soffit::Path(wanted),
    })
}

/// The greatest curvatures of the bent middle line, from those of the line that is given; an error where a line off it folds.
fn moved(given: &[f64], bend: &Bend) -> Result<[f64; 2], BendError> {
    let mut tightest = [0.0f64; 2];
    for &curvature in given {
        let unfolded = |curvature: f64, off: f64| {
            if 1.0 - off * curvature > 0.0 {
                return Ok(());
            }
            let (off, radius) = (off.abs(), curvature.abs().recip());
            Err(BendError::Folded { off, radius })
        };
        unfolded(curvature, bend.middle)?;
        let on_form = curvature / (1.0 - bend.middle * curvature) / bend.kept;
        unfolded(on_form, bend.wanted)?;
        let side = usize::from(on_form > 0.0);
        tightest[side] = tightest[side].max(on_form.abs());
    }
    Ok(tightest)
}

/// Every piece with its length, its curvature divided by `kept`, from the same start in the same direction.
fn rebent(path: &Path, kept: f64) -> Path {
    let mut direction = path
        .pieces()
        .next()
        .map_or(Vec2::new(1.0, 0.0), |p| p.tangent_at(0.0));
    let mut at = path.start();
    let mut before: Option<Piece> = None;
    let mut pieces = Vec::new();
    for piece in path.pieces() {
        if let Some(last) = before {
            // What is left of a corner stays.
            let (a, b) = (last.tangent_at(1.0), piece.tangent_at(0.0));
            direction = turned(direction, a.cross(b).atan2(a.dot(b)));
        }
        let next = match piece.circle() {
            None => Piece::line(at, at + direction * piece.length()),
            Some(circle) => {
                let left = Vec2::new(-direction.y, direction.x) * piece.bulge.signum();
                let sweep = piece.sweep() / kept;
                Piece::arc(at + left * (circle.radius * kept), at, sweep)
            }
        };
        direction = next.tangent_at(1.0);
        at = next.end;
        before = Some(piece);
        pieces.push(next);
    }
    Path::from_pieces(&pieces)
}

fn turned(v: Vec2, angle: f64) -> Vec2 {
    let (sin, cos) = angle.sin_cos();
    Vec2::new(v.x * cos - v.y * sin, v.x * sin + v.y * cos)
}

/// The piece and the fraction of it at which a line stands highest; none where that is an end.
pub fn highest(path: &Path) -> Option<(usize, f64)> {
    let top = path.bounds().y1;
    let ends = path.start().y.max(path.end().y);
    let over = top - ends > SAME;
    let mut pieces = path.pieces().enumerate().filter(|_| over);
    pieces.find_map(|(number, piece)| {
        let circle = piece.circle()?;
        let near = piece.nearest(circle.centre + Vec2::new(0.0, circle.radius));
        ((near.point.y - top).abs() < SAME).then_some((number, near.fraction))
    })
}

/// Where a line stands highest, or half way along it where it only rises or falls.
fn crown(path: &Path) -> (usize, f64) {
    highest(path).unwrap_or_else(|| {
        let mut left = path.length() / 2.0;
        for (number, piece) in path.pieces().enumerate() {
            let length = piece.length();
            if left <= length {
                return (number, left / length);
            }
            left -= length;
        }
        (0, 0.0)
    })
}

/// The point at a fraction of a piece, and the direction of travel there, radians.
fn frame(path: &Path, (number, fraction): (usize, f64)) -> (Point, f64) {
    path.pieces().nth(number).map_or((path.start(), 0.0), |piece| {
        (piece.point_at(fraction), piece.tangent_at(fraction).atan2())
    })
}
