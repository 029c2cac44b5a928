//! The sides of a bed and of a stock.

use cintre_geometry::Rect;

/// A place is off the bed or the stock when it is past its edge by more than this, mm.
pub(crate) const PAST_EDGE: f64 = 0.01;

/// How far a box goes past the sides of an area; negative where it stays inside.
pub(crate) fn past(bounds: Rect, area: Rect) -> f64 {
    (area.x0 - bounds.x0)
        .max(area.y0 - bounds.y0)
        .max(bounds.x1 - area.x1)
        .max(bounds.y1 - area.y1)
}
