//! The centre line and the springings, scribed in from every edge that they cross.

use super::body::{Body, Lies};
use crate::line::{at_level, at_plumb};
use crate::marks::into_wood;
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
