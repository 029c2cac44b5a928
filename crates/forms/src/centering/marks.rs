//! What is scribed on a rib: its centre line and the springing line.

use super::rib::Rib;
use crate::line::at_level;
use crate::marks::{centre_line, from_edge};
use cintre_geometry::{Path, Vec2};
use cintre_work::Mark;

/// The marks of a rib. A springing that lies above the rib's back has none.
pub(crate) fn marks(rib: &Rib, soffit: &Path) -> Vec<Mark> {
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
