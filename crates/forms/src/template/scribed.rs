//! The centre line and the springings, scribed in from every edge that they cross.

use super::body::{Body, Lies, ON};
use crate::line::{at_level, at_plumb};
use crate::marks::from_edge;
use cintre_geometry::{Outline, Path, Point, Vec2};
use cintre_work::Mark;

/// The lines of a template with this outer edge.
pub(super) fn own_lines(body: &Body, outline: &Outline) -> Vec<Mark> {
    let edges: Vec<Path> = std::iter::once(outline)
        .chain(&body.openings)
        .map(|edge| edge.opened_at(0, 0.0))
        .collect();
    let middle = body.centre();
    let plumb = edges.iter().flat_map(|edge| at_plumb(edge, middle));
    let mut lines = into_wood(plumb.map(|c| c.point).collect(), Vec2::new(0.0, 1.0), |_| true);
    let centre = [Point::new(middle, body.lines[0].bounds().center().y); 2];
    let levels = body.springings.unwrap_or(centre);
    // What is run all round a line that is closed by its springing line is cut along that, and needs no mark of it.
    if body.springings.is_some() && body.lies == Lies::Round {
        return lines;
    }
    for (i, springing) in levels.into_iter().enumerate() {
        let level = edges.iter().flat_map(|edge| at_level(edge, springing.y));
        let on_its_side = |p: Point| (p.x < middle) == (i == 0);
        lines.extend(into_wood(
            level.map(|c| c.point).collect(),
            Vec2::new(1.0, 0.0),
            on_its_side,
        ));
    }
    lines
}

/// A short line inwards from each place where a straight one that runs `along` crosses the edges, if it is `wanted`.
fn into_wood(mut crossings: Vec<Point>, along: Vec2, wanted: impl Fn(Point) -> bool) -> Vec<Mark> {
    crossings.sort_by(|a, b| a.to_vec2().dot(along).total_cmp(&b.to_vec2().dot(along)));
    // Where a closed edge begins it is crossed twice.
    crossings.dedup_by(|a, b| a.distance(*b) < ON);
    crossings
        .chunks_exact(2)
        .flat_map(|pair| {
            let room = pair[0].distance(pair[1]);
            [(pair[0], along, room), (pair[1], -along, room)]
        })
        .filter(|(edge, _, _)| wanted(*edge))
        .map(|(edge, inwards, room)| from_edge(edge, inwards, room))
        .collect()
}
