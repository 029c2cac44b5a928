//! What is scribed on a rib: its centre line, the springing line and its name.

use super::rib::Rib;
use crate::Error;
use crate::line::at_level;
use crate::marks::{self, centre_line, from_edge};
use cintre_geometry::{Path, Point, Vec2};
use cintre_work::{Mark, Part};

/// How far letters keep from an edge or a hole, mm.
const CLEAR: f64 = 3.0;

/// The marks of a rib. A springing that lies above the rib's back has none.
pub(crate) fn lines(rib: &Rib, soffit: &Path) -> Vec<Mark> {
    let mut marks = centre_line(rib.centre(), rib.bottom, &rib.back);
    let edge = rib.back_and_sides(rib.bottom);
    let at_springing = |y: f64| at_level(&edge, y);
    let (left, right) = (at_springing(soffit.start().y), at_springing(soffit.end().y));
    if let (Some(from), Some(to)) = (left.first(), right.last()) {
        let room = to.point.x - from.point.x;
        marks.push(from_edge(from.point, Vec2::new(1.0, 0.0), room));
        marks.push(from_edge(to.point, Vec2::new(-1.0, 0.0), room));
    }
    marks
}

/// The rib's name, on its tie between the first two bolts; none where it has no room.
pub(crate) fn name(rib: &Rib, part: &Part) -> Result<Option<Vec<Mark>>, Error> {
    let middle = match part.bores[..] {
        [first, second, ..] => first.centre.midpoint(second.centre),
        // Left of the centre line.
        _ => Point::new(
            rib.back.start().x + rib.width() / 4.0,
            f64::midpoint(rib.bottom, rib.tie_top),
        ),
    };
    let clear = |p: Point| {
        part.outline.signed_distance(p) < -CLEAR
            && part.openings.iter().all(|o| o.signed_distance(p) > CLEAR)
            && part
                .bores
                .iter()
                .all(|b| b.centre.distance(p) > b.diameter / 2.0 + CLEAR)
    };
    marks::name(&part.name, |_| Some(middle), clear)
}
