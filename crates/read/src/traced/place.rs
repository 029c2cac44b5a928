//! The springing line found, and the line moved to where arches stand.

use super::{Line, TracedError};
use cintre_geometry::{Affine, Outline, Path, Piece, Point, Vertex};

/// A soffit where arches stand.
#[derive(Debug)]
pub(super) struct Placed {
    pub(super) soffit: Path,
    /// How far its springings were out of level, mm.
    pub(super) out_of_level: f64,
}

/// A line crosses itself where it comes this near to itself, mm.
const TOUCHING: f64 = 1e-6;
/// Springings as level as this are level, mm.
const LEVEL: f64 = 1e-6;

/// The soffit: an open line as it is, of a closed one all but its level bottom. From left to right, origin in the middle.
pub(super) fn placed(line: &Line, gap: f64) -> Result<Placed, TracedError> {
    let slack = gap.max(LEVEL);
    let path = match line {
        Line::Open(path) => {
            uncrossed(&path.pieces().collect::<Vec<_>>(), false)?;
            path.clone()
        }
        Line::Closed(outline) => {
            uncrossed(&outline.pieces().collect::<Vec<_>>(), true)?;
            over_the_bottom(outline, slack)?
        }
    };
    let path = if path.start().x <= path.end().x {
        path
    } else {
        path.reversed()
    };
    let (left, right) = (path.start(), path.end());
    let (span, by) = (right.x - left.x, (right.y - left.y).abs());
    if span <= slack {
        return Err(TracedError::NoSpringing);
    }
    if by > slack {
        return Err(TracedError::OutOfLevel { by, span });
    }
    let soffit = levelled(&path, left.midpoint(right));
    let below = -soffit.bounds().y0;
    if below > slack {
        return Err(TracedError::Below { by: below });
    }
    Ok(Placed {
        soffit,
        out_of_level: by,
    })
}

/// The path with `middle` at the origin and both ends at its height.
fn levelled(path: &Path, middle: Point) -> Path {
    let moved = path.transformed(Affine::translate(-middle.to_vec2()));
    let mut vertices: Vec<Vertex> = moved.vertices().to_vec();
    if let [first, .., last] = vertices.as_mut_slice() {
        (first.point.y, last.point.y) = (0.0, 0.0);
    }
    Path::new(vertices)
}

/// What is left of a closed line without its bottom, which must be one level stretch.
fn over_the_bottom(outline: &Outline, slack: f64) -> Result<Path, TracedError> {
    let outline = outline.oriented(true);
    let lowest = outline.bounds().y0;
    let pieces: Vec<Piece> = outline.pieces().collect();
    let low = |p: &Piece| p.is_line() && p.start.y - lowest <= slack && p.end.y - lowest <= slack;
    let count = pieces.len();
    let starts: Vec<usize> = (0..count)
        .filter(|&i| !low(&pieces[i]) && low(&pieces[(i + count - 1) % count]))
        .collect();
    let [start] = starts.as_slice() else {
        return Err(TracedError::NoSpringing);
    };
    let over: Vec<Piece> = pieces
        .iter()
        .cycle()
        .skip(*start)
        .take(count)
        .take_while(|p| !low(p))
        .copied()
        .collect();
    Ok(Path::from_pieces(&over).reversed())
}

/// Refuses a line that crosses itself.
fn uncrossed(pieces: &[Piece], closed: bool) -> Result<(), TracedError> {
    let boxes: Vec<_> = pieces
        .iter()
        .map(|p| p.bounds().inflate(TOUCHING, TOUCHING))
        .collect();
    let last = pieces.len() - 1;
    for i in 0..pieces.len() {
        for j in i + 1..pieces.len() {
            if !boxes[i].overlaps(boxes[j]) {
                continue;
            }
            let (a, b) = (&pieces[i], &pieces[j]);
            let mut joints = Vec::new();
            if j == i + 1 {
                joints.push(a.end);
            }
            if closed && i == 0 && j == last {
                joints.push(a.start);
            }
            // Where two pieces touch, rounding spreads their meeting along them by the root of what it is across.
            let apart = TOUCHING.sqrt();
            let elsewhere = |p: &Point| joints.iter().all(|joint| joint.distance(*p) > apart);
            if let Some(at) = a.meetings(b, TOUCHING).into_iter().find(elsewhere) {
                return Err(TracedError::Crossing { at });
            }
        }
    }
    Ok(())
}
