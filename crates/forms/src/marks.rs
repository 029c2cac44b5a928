//! The lines scribed on a form.

use crate::line::heights_at;
use cintre_geometry::{Path, Point, Vec2};
use cintre_work::{Mark, MarkKind};

/// A mark begins this far inside an edge, mm, so that no scribing bit breaks it out.
const INSET: f64 = 2.0;

/// And ends this far inside it, mm: nearer than any bolt hole comes.
const REACH: f64 = 20.0;

/// A short working line from a point of an edge inwards, at most over half of the `room` mm of wood there.
pub(crate) fn from_edge(edge: Point, inwards: Vec2, room: f64) -> Mark {
    let reach = REACH.min(room / 2.0);
    let ends = [edge + inwards * INSET.min(reach / 4.0), edge + inwards * reach];
    Mark {
        path: Path::polyline(&ends),
        kind: MarkKind::Line,
    }
}

/// The centre line, marked at the lower and at the upper edge of what stands between `under` and `over`, at `x`.
pub(crate) fn centre_line(x: f64, under: f64, over: &Path) -> Vec<Mark> {
    let Some(top) = heights_at(over, x).into_iter().max_by(f64::total_cmp) else {
        return Vec::new();
    };
    vec![
        from_edge(Point::new(x, under), Vec2::new(0.0, 1.0), top - under),
        from_edge(Point::new(x, top), Vec2::new(0.0, -1.0), top - under),
    ]
}
