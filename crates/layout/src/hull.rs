//! The convex outline round points.

use cintre_geometry::Point;

/// The corners, counter-clockwise, of the least convex outline round some points, by Andrew's monotone chain.
pub(crate) fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..]
                && (b - a).cross(p - b) <= 0.0
            {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut corners = half(&mut points.iter().copied());
    corners.extend(half(&mut points.iter().rev().copied()));
    corners
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_least_convex_outline_leaves_out_what_lies_within() {
        let points = [
            (0.0, 0.0),
            (4.0, 0.0),
            (2.0, 1.0),
            (4.0, 3.0),
            (2.0, 0.0),
            (0.0, 3.0),
            (1.0, 2.0),
        ];
        let corners = hull(points.iter().map(|&p| Point::from(p)).collect());
        let wanted = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)];
        assert_eq!(corners, wanted.map(Point::from));
    }
}
