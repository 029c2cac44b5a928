//! Parallels of an open line: rings, lagging lines, casings, leaf gaps.

use crate::intersect::Support;
use crate::piece::wrapped;
use crate::{Path, Piece, Point, Vec2, Vertex};
use thiserror::Error;

/// Two pieces whose directions differ by less than this are taken to run smoothly into one another, radians. A joint of
/// fitted or stored arcs is good to 1e-12; a corner that anybody draws turns by far more.
const SMOOTH: f64 = 1e-7;

/// How far a parallel may come nearer to its line than asked before it counts as running into itself, mm.
const NEARER: f64 = 1e-6;

/// Of two meetings this nearly as near to a corner, mm, the one behind is taken.
const NUDGE: f64 = 1e-6;

/// Why a line has no such parallel.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum LineError {
    /// The parallel folds over itself.
    #[error(
        "a parallel {given:.3} mm off folds over itself: {limit:.3} mm is the most that this line allows"
    )]
    TooFar {
        /// The distance asked for, mm.
        given: f64,
        /// The largest distance on that side that works, mm.
        limit: f64,
    },
}

/// The parallel of an open line, `to_right` mm to the right of its travel (negative: to the left).
///
/// Arcs stay concentric arcs, and a corner stays a corner: there the neighbours are run on, or cut short, to where they
/// meet. So the back of a pointed ring comes to a point, higher above the soffit's than the ring is deep. Where they never meet, as over
/// the cusp of an ogee, they run on straight by the distance at most and are cut square to the corner's middle.
pub fn parallel_line(path: &Path, to_right: f64) -> Result<Path, LineError> {
    attempt(path, to_right).ok_or_else(|| {
        let (mut works, mut fails) = (0.0, to_right);
        // Enough halvings to bring any distance met in building below a micrometre.
        for _ in 0..40 {
            let middle = f64::midpoint(works, fails);
            if attempt(path, middle).is_some() {
                works = middle;
            } else {
                fails = middle;
            }
        }
        LineError::TooFar {
            given: to_right.abs(),
            limit: works.abs(),
        }
    })
}

fn attempt(path: &Path, to_right: f64) -> Option<Path> {
    let pieces: Vec<Piece> = path.pieces().collect();
    let moved = pieces
        .iter()
        .map(|p| moved(p, to_right))
        .collect::<Option<Vec<_>>>()?;
    let corners = moved
        .windows(2)
        .zip(pieces.windows(2))
        .map(|(pair, corner)| joint(pair, corner, to_right))
        .collect::<Option<Vec<_>>>()?;
    let mut vertices = Vec::with_capacity(pieces.len() + 1);
    let mut start = moved.first()?.start;
    for (i, piece) in moved.iter().enumerate() {
        let end = corners.get(i).map_or(piece.end, Joint::before);
        vertices.push(Vertex {
            point: start,
            bulge: bulge_between(piece, start, end)?,
        });
        if let Some(corner) = corners.get(i) {
            vertices.extend(corner.between());
            start = corner.after();
        }
    }
    vertices.push(Vertex {
        point: moved.last()?.end,
        bulge: 0.0,
    });
    let line = Path::new(vertices);
    stands_off(&line, path, to_right.abs()).then_some(line)
}

/// The piece moved sideways, none where an arc would shrink to nothing.
fn moved(piece: &Piece, to_right: f64) -> Option<Piece> {
    if let Some(circle) = piece.circle()
        && circle.radius + piece.bulge.signum() * to_right <= 0.0
    {
        return None;
    }
    let right = |fraction| {
        let t = piece.tangent_at(fraction);
        Vec2::new(t.y, -t.x) * to_right
    };
    Some(Piece {
        start: piece.start + right(0.0),
        end: piece.end + right(1.0),
        bulge: piece.bulge,
    })
}

/// How two moved pieces join.
enum Joint {
    /// Both end here.
    At(Point),
    /// They end apart and run on straight to these points, one after the other.
    Over([Point; 2], Vec<Point>),
}

impl Joint {
    /// Where the piece before it ends.
    fn before(&self) -> Point {
        match self {
            Self::At(p) | Self::Over([p, _], _) => *p,
        }
    }

    /// Where the piece after it begins.
    fn after(&self) -> Point {
        match self {
            Self::At(p) | Self::Over([_, p], _) => *p,
        }
    }

    /// The straight way from one to the other.
    fn between(&self) -> Vec<Vertex> {
        let Self::Over([from, _], over) = self else {
            return Vec::new();
        };
        let corners = std::iter::once(from).chain(over);
        corners.map(|&point| Vertex { point, bulge: 0.0 }).collect()
    }
}

/// Where two moved pieces join: at the end of both if they run smoothly on, else where what they lie on meets nearest, else over
/// the corner of the two that they were moved from.
fn joint(moved: &[Piece], corner: &[Piece], to_right: f64) -> Option<Joint> {
    let ([before, after], [from, to]) = (moved, corner) else {
        return None;
    };
    let turn = wrapped(after.tangent_at(0.0).atan2() - before.tangent_at(1.0).atan2());
    if turn.abs() < SMOOTH {
        return Some(Joint::At(before.end.midpoint(after.start)));
    }
    let meetings = Support::of(before).meet(Support::of(after));
    // At a cusp both meetings are as near: the one behind is where the neighbours are cut short.
    let place = from.end - before.tangent_at(1.0) * NUDGE;
    let nearest = meetings
        .into_iter()
        .min_by(|a, b| a.distance_squared(place).total_cmp(&b.distance_squared(place)));
    match nearest {
        Some(point) => Some(Joint::At(point)),
        None if outside(from, to, to_right) => Some(over(before, after, turn, to_right.abs())),
        None => None,
    }
}

/// Whether a corner turns away from the side that is looked at. A cusp turns half round, which no angle tells: what runs up to it and
/// what runs away from it does.
fn outside(from: &Piece, to: &Piece, to_right: f64) -> bool {
    /// How far from the corner both are looked at, as a share of each.
    const NEAR: f64 = 1e-3;
    let across = to.point_at(NEAR) - from.point_at(1.0 - NEAR);
    from.tangent_at(1.0).cross(across) * to_right > 0.0
}

/// Both run on straight: to where they meet, but no farther than the distance, and there they are cut square to the corner's middle.
fn over(before: &Piece, after: &Piece, turn: f64, distance: f64) -> Joint {
    let (on, back) = (before.tangent_at(1.0), after.tangent_at(0.0));
    let mitre = distance * (turn.abs() / 2.0).tan();
    let points = if mitre <= distance {
        vec![before.end + on * mitre]
    } else {
        vec![before.end + on * distance, after.start - back * distance]
    };
    Joint::Over([before.end, after.start], points)
}

/// The bulge of a moved piece between its new ends; none where the ends have changed places.
fn bulge_between(piece: &Piece, start: Point, end: Point) -> Option<f64> {
    let Some(circle) = piece.circle() else {
        return ((end - start).dot(piece.end - piece.start) > 0.0).then_some(0.0);
    };
    let turned = |from: Point, to: Point| {
        let (u, v) = (from - circle.centre, to - circle.centre);
        u.cross(v).atan2(u.dot(v))
    };
    let sweep = piece.sweep() + turned(piece.end, end) - turned(piece.start, start);
    (sweep * piece.sweep() > 0.0 && sweep.abs() < std::f64::consts::TAU).then(|| (sweep / 4.0).tan())
}

/// Whether no point of `line` comes nearer to `path` than `distance`.
fn stands_off(line: &Path, path: &Path, distance: f64) -> bool {
    const SAMPLES: u32 = 8;
    line.pieces().all(|piece| {
        (0..=SAMPLES).all(|i| {
            let p = piece.point_at(f64::from(i) / f64::from(SAMPLES));
            path.nearest(p).distance >= distance - NEARER
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two quarter circles of 300 that turn upwards to a cusp at the crown.
    fn ogee() -> Path {
        let (left, cusp, right) = (
            Point::new(-300.0, 0.0),
            Point::new(0.0, 300.0),
            Point::new(300.0, 0.0),
        );
        Path::from_pieces(&[
            Piece::arc_between(Point::new(-300.0, 300.0), left, cusp, true),
            Piece::arc_between(Point::new(300.0, 300.0), cusp, right, true),
        ])
    }

    fn pointed(span: f64, radius: f64) -> Path {
        let a = span / 2.0;
        let rise = (a * (2.0 * radius - a)).sqrt();
        let (left, apex, right) = (Point::new(-a, 0.0), Point::new(0.0, rise), Point::new(a, 0.0));
        Path::from_pieces(&[
            Piece::arc_between(Point::new(radius - a, 0.0), left, apex, false),
            Piece::arc_between(Point::new(a - radius, 0.0), apex, right, false),
        ])
    }

    #[test]
    fn the_outer_apex_stands_higher_than_the_ring_is_deep() {
        let soffit = pointed(900.0, 900.0);
        let back = parallel_line(&soffit, -95.0).unwrap();
        let apex = back.vertices()[1].point;
        assert!(apex.x.abs() < 1e-9);
        let expected = (995.0f64.powi(2) - 450.0f64.powi(2)).sqrt();
        assert!((apex.y - expected).abs() < 1e-9 && apex.y - soffit.vertices()[1].point.y > 95.0);
    }

    #[test]
    fn the_inner_parallel_is_cut_short_at_the_apex() {
        let lagging = parallel_line(&pointed(900.0, 900.0), 24.0).unwrap();
        let expected = (876.0f64.powi(2) - 450.0f64.powi(2)).sqrt();
        assert!((lagging.vertices()[1].point.y - expected).abs() < 1e-9);
    }

    #[test]
    fn the_inner_parallel_of_a_cusp_stays_below_it() {
        let ogee = ogee();
        for inwards in [1.0, 24.0, 100.0] {
            let line = parallel_line(&ogee, inwards).unwrap();
            let below = ((300.0 + inwards).powi(2) - 300.0f64.powi(2)).sqrt();
            assert!((line.vertices()[1].point.y - (300.0 - below)).abs() < 1e-9);
        }
    }

    #[test]
    fn over_a_cusp_the_outer_parallel_runs_on_by_its_distance_and_is_cut_level() {
        let ogee = ogee();
        let back = parallel_line(&ogee, -40.0).unwrap();
        let points: Vec<Point> = back.vertices().iter().map(|v| v.point).collect();
        let expected = [
            (-300.0, 40.0),
            (-40.0, 300.0),
            (-40.0, 340.0),
            (40.0, 340.0),
            (40.0, 300.0),
            (300.0, 40.0),
        ];
        assert_eq!(points.len(), expected.len());
        for (found, wanted) in points.iter().zip(expected) {
            assert!(found.distance(Point::from(wanted)) < 1e-9, "{points:?}");
        }
        // Its arcs turn the other way and have lost the distance; past their radius there is none.
        let radii: Vec<f64> = back
            .pieces()
            .filter_map(|arc| arc.circle())
            .map(|c| c.radius)
            .collect();
        assert!(
            radii.iter().all(|radius| (radius - 260.0).abs() < 1e-9),
            "{radii:?}"
        );
        let LineError::TooFar { limit, .. } = parallel_line(&ogee, -301.0).unwrap_err();
        assert!((limit - 300.0).abs() < 1e-6, "{limit}");
    }

    #[test]
    fn past_the_radius_the_largest_that_works_is_named() {
        let half = Path::from_pieces(&[Piece::arc(
            Point::ZERO,
            Point::new(-300.0, 0.0),
            -std::f64::consts::PI,
        )]);
        let LineError::TooFar { given, limit } = parallel_line(&half, 310.0).unwrap_err();
        assert!((given - 310.0).abs() < 1e-9 && (limit - 300.0).abs() < 1e-6);
    }
}
