//! Lines cut off at the edges of a page.

use cintre_geometry::{Path, Piece, Point, Rect, Vec2};

/// A stretch shorter than this is no line, mm.
const NOTHING: f64 = 1e-9;
/// A cut nearer to an end of its piece than this share of it falls together with the end.
const SAME: f64 = 1e-12;

/// The parts of a path that lie inside a window, its edges included, in order. Lines and arcs are parted exactly where they
/// cross an edge: an arc stays one about the same centre.
pub(crate) fn clipped(path: &Path, window: Rect) -> Vec<Path> {
    let mut runs: Vec<Vec<Piece>> = Vec::new();
    let mut running = false;
    for piece in path.pieces() {
        let cuts = cuts(&piece, window);
        for pair in cuts.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            if !holds(window, piece.point_at(f64::midpoint(from, to))) {
                running = false;
                continue;
            }
            let part = if from <= 0.0 && to >= 1.0 {
                piece
            } else {
                piece.part(from, to)
            };
            if part.length() < NOTHING {
                continue;
            }
            match runs.last_mut().filter(|_| running) {
                Some(run) => run.push(part),
                None => runs.push(vec![part]),
            }
            running = true;
        }
    }
    runs.iter().map(|run| Path::from_pieces(run)).collect()
}

/// Whether any of a path lies inside a window.
pub(crate) fn meets(path: &Path, window: Rect) -> bool {
    path.bounds().overlaps(window) && !clipped(path, window).is_empty()
}

/// The fractions at which a piece crosses the lines of the window's edges, with 0 and 1, in order.
fn cuts(piece: &Piece, window: Rect) -> Vec<f64> {
    let mut cuts = vec![0.0, 1.0];
    let Rect { x0, y0, x1, y1 } = window;
    for edge in [
        (Point::new(x0, y0), Vec2::new(1.0, 0.0)),
        (Point::new(x1, y1), Vec2::new(1.0, 0.0)),
        (Point::new(x0, y0), Vec2::new(0.0, 1.0)),
        (Point::new(x1, y1), Vec2::new(0.0, 1.0)),
    ] {
        cuts.extend(
            crossings(piece, edge.0, edge.1)
                .into_iter()
                .filter(|f| *f > SAME && *f < 1.0 - SAME),
        );
    }
    cuts.sort_by(f64::total_cmp);
    cuts
}

/// The fractions at which a piece crosses a line through a point along a direction of length 1.
fn crossings(piece: &Piece, through: Point, along: Vec2) -> Vec<f64> {
    let off = |p: Point| along.cross(p - through);
    let Some(circle) = piece.circle() else {
        let (a, b) = (off(piece.start), off(piece.end));
        return if (a - b).abs() > 0.0 {
            vec![a / (a - b)]
        } else {
            Vec::new()
        };
    };
    let (height, radius) = (off(circle.centre), circle.radius);
    if height.abs() >= radius {
        return Vec::new();
    }
    // The normal to the line, turned to the points where the circle crosses it.
    let half = (-height / radius).acos();
    let normal = Vec2::new(-along.y, along.x).atan2();
    let start = (piece.start - circle.centre).atan2();
    let sweep = piece.sweep();
    [normal + half, normal - half]
        .into_iter()
        .flat_map(|angle| {
            let turn = (angle - start) * sweep.signum();
            let turn = turn.rem_euclid(std::f64::consts::TAU);
            [turn / sweep.abs()]
        })
        .collect()
}

fn holds(window: Rect, p: Point) -> bool {
    p.x >= window.x0 && p.x <= window.x1 && p.y >= window.y0 && p.y <= window.y1
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::f64::consts::PI;

    const WINDOW: Rect = Rect::new(0.0, 0.0, 100.0, 60.0);

    fn near(found: Point, x: f64, y: f64) {
        assert!(
            found.distance(Point::new(x, y)) < 1e-9,
            "{found:?} is not {x}, {y}"
        );
    }

    #[test]
    fn a_line_is_cut_where_it_leaves() {
        let line = Path::polyline(&[Point::new(-50.0, 30.0), Point::new(150.0, 30.0)]);
        let found = clipped(&line, WINDOW);
        assert_eq!(found.len(), 1);
        near(found[0].start(), 0.0, 30.0);
        near(found[0].end(), 100.0, 30.0);
    }

    #[test]
    fn an_arc_that_looks_in_twice_keeps_its_circle() {
        // A half circle of 80 about the middle of the foot: it stands over the window but for its two feet.
        let arc = Piece::arc(Point::new(50.0, 0.0), Point::new(130.0, 0.0), PI);
        let window = Rect::new(-40.0, 0.0, 140.0, 60.0);
        let found = clipped(&Path::from_pieces(&[arc]), window);
        assert_eq!(found.len(), 2);
        let x = (80.0_f64 * 80.0 - 60.0 * 60.0).sqrt();
        near(found[0].end(), 50.0 + x, 60.0);
        near(found[1].start(), 50.0 - x, 60.0);
        for path in &found {
            let circle = path.pieces().next().unwrap().circle().unwrap();
            near(circle.centre, 50.0, 0.0);
            assert!((circle.radius - 80.0).abs() < 1e-9);
        }
    }

    #[test]
    fn what_runs_along_an_edge_is_kept_and_what_lies_outside_is_not() {
        let edge = Path::polyline(&[Point::new(0.0, 0.0), Point::new(100.0, 0.0)]);
        assert!(meets(&edge, WINDOW));
        let outside = Path::polyline(&[Point::new(101.0, -5.0), Point::new(140.0, 70.0)]);
        assert!(!meets(&outside, WINDOW));
    }

    #[test]
    fn a_corner_inside_stays_in_one_chain() {
        let line = Path::polyline(&[
            Point::new(-9.0, 20.0),
            Point::new(50.0, 20.0),
            Point::new(50.0, 90.0),
        ]);
        let found = clipped(&line, WINDOW);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].vertices().len(), 3);
    }

    proptest! {
        #[test]
        fn windows_side_by_side_hold_the_whole_line(
            x in -80.0..180.0f64, y in -80.0..140.0f64, to_x in -80.0..180.0f64, to_y in -80.0..140.0f64, bulge in -3.0..3.0f64,
        ) {
            let piece = Piece { start: Point::new(x, y), end: Point::new(to_x, to_y), bulge };
            prop_assume!(piece.start.distance(piece.end) > 1e-3);
            let path = Path::from_pieces(&[piece]);
            let (left, right) = (Rect::new(-900.0, -900.0, 40.0, 900.0), Rect::new(40.0, -900.0, 900.0, 900.0));
            let all: f64 = [left, right].iter().flat_map(|w| clipped(&path, *w)).map(|p| p.length()).sum();
            prop_assume!(path.bounds().union(left.union(right)) == left.union(right));
            prop_assert!((all - path.length()).abs() < 1e-6, "{} of {}", all, path.length());
            for part in clipped(&path, WINDOW) {
                for p in part.pieces().flat_map(|p| [p.point_at(0.0), p.point_at(0.37), p.point_at(1.0)]) {
                    prop_assert!(path.nearest(p).distance < 1e-7);
                    prop_assert!(WINDOW.inflate(1e-7, 1e-7).contains(p));
                }
            }
        }
    }
}
