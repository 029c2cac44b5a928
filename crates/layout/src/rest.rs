//! What stays whole of a sheet when its parts are out.

use cintre_geometry::{Outline, Point, Rect, Vec2};
use cintre_work::Sheet;

/// An offcut thinner than this serves nothing, mm.
const THINNEST: f64 = 50.0;

/// What stays whole of a sheet: of a rectangle all but the corner that the parts lie in, of another what lies beyond a
/// straight cut past them.
pub(crate) fn rest(sheet: &Sheet, spacing: f64) -> Option<Outline> {
    let boxes = sheet.parts.iter().map(|p| p.part.outline.bounds());
    let used = boxes.reduce(|a, b| a.union(b))?.inflate(spacing, spacing);
    let stock = &sheet.stock;
    let whole = Rect::new(0.0, 0.0, stock.size.0, stock.size.1);
    let Some(edge) = &stock.outline else {
        return beside(whole, used);
    };
    let straight: Vec<Point> = edge.oriented(true).vertices().iter().map(|v| v.point).collect();
    if edge.pieces().any(|p| p.circle().is_some()) {
        return None;
    }
    let cuts = [
        (Point::new(used.x1, 0.0), Vec2::new(1.0, 0.0)),
        (Point::new(0.0, used.y1), Vec2::new(0.0, 1.0)),
        (Point::new(used.x0, 0.0), Vec2::new(-1.0, 0.0)),
        (Point::new(0.0, used.y0), Vec2::new(0.0, -1.0)),
    ];
    cuts.into_iter()
        .flat_map(|(at, towards)| beyond(&straight, at, towards))
        .map(|corners| Outline::polygon(&corners))
        .filter(|o| o.bounds().width().min(o.bounds().height()) >= THINNEST)
        .max_by(|a, b| a.area().total_cmp(&b.area()))
}

/// A rectangle without its lower left corner up to the far corner of `used`: an L, or the stouter of its arms where the other
/// is too thin.
fn beside(whole: Rect, used: Rect) -> Option<Outline> {
    // In whole millimetres, as it is measured and marked.
    let (x, y) = (used.x1.ceil(), used.y1.ceil());
    let right = Rect { x0: x, ..whole };
    let above = Rect { y0: y, ..whole };
    let stout = |r: &Rect| r.x1 - r.x0 >= THINNEST && r.y1 - r.y0 >= THINNEST;
    match (stout(&right), stout(&above)) {
        (true, true) => {
            let Rect { x0, y0, x1, y1 } = whole;
            let corners = [(x, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y), (x, y)];
            Some(Outline::polygon(&corners.map(Point::from)))
        }
        (true, false) => Some(Outline::rectangle(right)),
        (false, true) => Some(Outline::rectangle(above)),
        (false, false) => None,
    }
}

/// The parts of a straight-sided outline that lie beyond the line square to `towards` through `at`. It enters and leaves them
/// along the line, in turn.
fn beyond(corners: &[Point], at: Point, towards: Vec2) -> Vec<Vec<Point>> {
    let height = |p: Point| (p - at).dot(towards);
    let along = |p: Point| (p - at).cross(towards);
    let next = |i: usize| (i + 1) % corners.len();
    let Some(first) = (0..corners.len()).find(|&i| height(corners[i]) <= 0.0) else {
        return vec![corners.to_vec()];
    };
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for i in (0..corners.len()).map(|k| (first + k) % corners.len()) {
        let (a, b) = (corners[i], corners[next(i)]);
        let (from, to) = (height(a), height(b));
        if (from > 0.0) != (to > 0.0) {
            let crossing = a.lerp(b, from / (from - to));
            if to > 0.0 {
                runs.push(vec![crossing]);
            } else if let Some(run) = runs.last_mut() {
                run.push(crossing);
            }
        }
        if to > 0.0
            && let Some(run) = runs.last_mut()
        {
            run.push(b);
        }
    }
    joined(runs, along)
}

/// Runs that begin and end on a line, joined along it to closed ones: of the places where they meet it, in their order along
/// it, the first two belong together, and the next two.
fn joined(runs: Vec<Vec<Point>>, along: impl Fn(Point) -> f64) -> Vec<Vec<Point>> {
    let mut ends: Vec<(f64, usize, bool)> = Vec::new();
    for (number, run) in runs.iter().enumerate() {
        ends.push((along(run[0]), number, true));
        ends.push((along(run[run.len() - 1]), number, false));
    }
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    let partner = |number: usize, begins: bool| {
        let at = ends.iter().position(|e| e.1 == number && e.2 == begins)?;
        ends.get(at ^ 1).copied()
    };
    let mut left: Vec<bool> = vec![true; runs.len()];
    let mut closed = Vec::new();
    for start in 0..runs.len() {
        let (mut corners, mut number) = (Vec::new(), start);
        while left[number] {
            left[number] = false;
            corners.extend_from_slice(&runs[number]);
            // From the end of a run along the line to where the next one begins.
            match partner(number, false) {
                Some((_, next, true)) => number = next,
                _ => break,
            }
        }
        if corners.len() > 2 {
            closed.push(corners);
        }
    }
    closed
}

#[cfg(test)]
mod tests {
    use super::*;

    fn corners(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|&p| p.into()).collect()
    }

    #[test]
    fn what_lies_beyond_a_cut_through_a_comb_is_each_of_its_teeth() {
        let comb = corners(&[
            (0.0, 0.0),
            (500.0, 0.0),
            (500.0, 300.0),
            (400.0, 300.0),
            (400.0, 100.0),
            (200.0, 100.0),
            (200.0, 250.0),
            (0.0, 250.0),
        ]);
        let cut = |x, y, towards: (f64, f64)| {
            let mut areas: Vec<f64> = beyond(&comb, Point::new(x, y), Vec2::from(towards))
                .iter()
                .map(|c| Outline::polygon(c).area())
                .collect();
            areas.sort_by(f64::total_cmp);
            areas
        };
        assert_eq!(cut(0.0, 150.0, (0.0, 1.0)), [15_000.0, 20_000.0]);
        assert_eq!(
            cut(0.0, 50.0, (0.0, 1.0)),
            [500.0 * 50.0 + 200.0 * 150.0 + 100.0 * 200.0]
        );
        assert_eq!(cut(450.0, 0.0, (1.0, 0.0)), [50.0 * 300.0]);
        assert_eq!(cut(100.0, 0.0, (-1.0, 0.0)), [100.0 * 250.0]);
        assert_eq!(cut(0.0, 400.0, (0.0, 1.0)), [0.0; 0]);
        let whole = Outline::polygon(&comb).area();
        assert_eq!(cut(-10.0, 0.0, (1.0, 0.0)), [whole]);
    }

    #[test]
    fn what_is_beside_the_parts_is_an_l_or_the_stouter_arm() {
        let whole = Rect::new(0.0, 0.0, 1000.0, 600.0);
        let of = |x1, y1| beside(whole, Rect::new(8.0, 8.0, x1, y1)).map(|o| (o.vertices().len(), o.area()));
        assert_eq!(of(400.0, 200.0), Some((6, 600_000.0 - 80_000.0)));
        assert_eq!(of(980.0, 200.0), Some((4, 400_000.0)));
        assert_eq!(of(400.0, 580.0), Some((4, 360_000.0)));
        assert_eq!(of(980.0, 580.0), None);
    }
}
