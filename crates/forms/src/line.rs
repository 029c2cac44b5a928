//! Where an open line crosses another, how far along it a point lies, how far it stands over.

use crate::Error;
use cintre_geometry::{Affine, Nearest, Path, Piece, Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI};

/// Points nearer than this are one, mm: crossings are computed to 1e-9 or better, and no drawn line has a shorter piece.
const SAME: f64 = 1e-6;

/// A point on a line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Crossing {
    /// Which piece it lies on, counted from 0.
    pub(crate) piece: usize,
    /// How far along that piece, 0 to 1.
    pub(crate) fraction: f64,
    /// Where it is.
    pub(crate) point: Point,
}

impl From<Nearest> for Crossing {
    fn from(near: Nearest) -> Self {
        Self {
            piece: near.piece,
            fraction: near.fraction,
            point: near.point,
        }
    }
}

/// A line that comes back to within this of its start is closed, mm.
const HOME: f64 = 1e-9;

/// Whether a line comes back to where it begins.
pub(crate) fn is_closed(line: &Path) -> bool {
    line.start().distance(line.end()) < HOME
}

/// A soffit between plumb jambs, `down` mm of each below its springing.
pub(crate) fn on_jambs(soffit: &Path, down: f64) -> Path {
    let down = Vec2::new(0.0, -down);
    let up_the_jamb = Path::polyline(&[soffit.start() + down, soffit.start()]);
    let down_the_other = Path::polyline(&[soffit.end(), soffit.end() + down]);
    up_the_jamb.then(soffit).then(&down_the_other)
}

/// Where `path` crosses or touches the level `y`, in the order of travel.
pub(crate) fn at_level(path: &Path, y: f64) -> Vec<Crossing> {
    let mut found: Vec<Crossing> = Vec::new();
    for (number, piece) in path.pieces().enumerate() {
        let mut here: Vec<Crossing> = candidates(&piece, y)
            .into_iter()
            .filter_map(|p| {
                let near = piece.nearest(p);
                (near.distance < SAME).then_some(Crossing {
                    piece: number,
                    fraction: near.fraction,
                    point: p,
                })
            })
            .collect();
        here.sort_by(|a, b| a.fraction.total_cmp(&b.fraction));
        for crossing in here {
            // A crossing at a joint belongs to both its pieces.
            if found
                .last()
                .is_none_or(|last| last.point.distance(crossing.point) >= SAME)
            {
                found.push(crossing);
            }
        }
    }
    found
}

/// Where `path` crosses or touches the plumb line at `x`, in the order of travel.
pub(crate) fn at_plumb(path: &Path, x: f64) -> Vec<Crossing> {
    let swap = Affine::new([0.0, 1.0, 1.0, 0.0, 0.0, 0.0]);
    let mut crossings = at_level(&path.transformed(swap), x);
    for crossing in &mut crossings {
        crossing.point = swap * crossing.point;
    }
    crossings
}

/// The heights at which `path` stands over `x`, in the order of travel.
pub(crate) fn heights_at(path: &Path, x: f64) -> Vec<f64> {
    at_plumb(path, x).iter().map(|c| c.point.y).collect()
}

/// How far along `path` a point of it lies, mm.
pub(crate) fn length_to(path: &Path, at: &Crossing) -> f64 {
    let before: f64 = path.pieces().take(at.piece).map(|piece| piece.length()).sum();
    let piece = path.pieces().nth(at.piece);
    before + piece.map_or(0.0, |piece| piece.length() * at.fraction)
}

/// The points of what `piece` lies on that have the height `y`.
fn candidates(piece: &Piece, y: f64) -> Vec<Point> {
    let Some(circle) = piece.circle() else {
        let rise = piece.end.y - piece.start.y;
        let fraction = (y - piece.start.y) / rise;
        return if fraction.is_finite() {
            vec![Point::new(piece.start.lerp(piece.end, fraction).x, y)]
        } else {
            Vec::new()
        };
    };
    let up = y - circle.centre.y;
    let square = (circle.radius - up) * (circle.radius + up);
    if square < 0.0 {
        return Vec::new();
    }
    let half = square.sqrt();
    vec![
        Point::new(circle.centre.x - half, y),
        Point::new(circle.centre.x + half, y),
    ]
}

/// The point `length` mm along `path`.
pub(crate) fn point_along(path: &Path, length: f64) -> Point {
    let mut left = length;
    for piece in path.pieces() {
        let whole = piece.length();
        if left <= whole {
            return piece.point_at(left / whole);
        }
        left -= whole;
    }
    path.end()
}

/// The direction square to the left of travel at a fraction of `piece`.
pub(crate) fn left_of(piece: &Piece, fraction: f64) -> Vec2 {
    let t = piece.tangent_at(fraction);
    Vec2::new(-t.y, t.x)
}

/// Refuses a soffit that does not run from the left to the right.
pub(crate) fn refuse_backwards(soffit: &Path) -> Result<(), Error> {
    let (from, to) = (soffit.start().x, soffit.end().x);
    // Written so that what is not a number is refused as well.
    if to - from > SAME {
        Ok(())
    } else {
        Err(Error::Soffit { from, to })
    }
}

/// How far back to the left the line runs at most, having been farther right: what stands over cannot be lowered.
pub(crate) fn overhang(soffit: &Path) -> f64 {
    let (mut farthest, mut most) = (f64::NEG_INFINITY, 0.0f64);
    for piece in soffit.pieces() {
        for fraction in turning_points(&piece) {
            let x = piece.point_at(fraction).x;
            farthest = farthest.max(x);
            most = most.max(farthest - x);
        }
    }
    most
}

/// The fractions of a piece at which it may turn back: its ends, and where it runs plumb.
fn turning_points(piece: &Piece) -> Vec<f64> {
    let mut all = vec![0.0, 1.0];
    if !piece.is_line() {
        let first = piece.tangent_at(0.0).atan2();
        // An arc turns by less than a whole turn from a direction within a half turn of the x axis.
        let plumb = (-3..=3).map(|half| FRAC_PI_2 + PI * f64::from(half));
        all.extend(
            plumb
                .map(|angle| (angle - first) / piece.sweep())
                .filter(|f| (0.0..1.0).contains(f)),
        );
    }
    all.sort_by(f64::total_cmp);
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shapes;

    #[test]
    fn a_horseshoe_stands_over_its_jambs() {
        // Span 900, rise 620: 23.31 beyond each jamb.
        assert!((overhang(&shapes::segmental(900.0, 620.0)) - 23.305).abs() < 0.005);
        assert!(overhang(&shapes::segmental(900.0, 300.0)) < 1e-9);
        assert!(overhang(&shapes::segmental(900.0, 450.0)) < 1e-9);
    }

    #[test]
    fn levels_and_heights_are_found_in_order() {
        let half = shapes::segmental(1000.0, 500.0);
        let level = at_level(&half, 300.0);
        assert_eq!(level.len(), 2);
        assert!((level[0].point.x + 400.0).abs() < 1e-9 && (level[1].point.x - 400.0).abs() < 1e-9);
        let heights = heights_at(&half, 300.0);
        assert!(heights.len() == 1 && (heights[0] - 400.0).abs() < 1e-9);
        assert!(at_level(&half, 600.0).is_empty());
        // The apex of a pointed arch is one place, though two arcs end there.
        assert_eq!(heights_at(&shapes::pointed(900.0, 900.0), 0.0).len(), 1);
    }

    #[test]
    fn a_point_is_found_along_the_line() {
        let half = shapes::segmental(1000.0, 500.0);
        assert!(point_along(&half, half.length() / 2.0).distance(Point::new(0.0, 500.0)) < 1e-9);
        assert!(point_along(&half, half.length()).distance(Point::new(500.0, 0.0)) < 1e-9);
    }
}
