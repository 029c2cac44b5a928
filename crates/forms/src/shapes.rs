//! Soffits for the tests.

use cintre_geometry::{Path, Piece, Point};

/// One arc over `span`, from springings at y 0; a horseshoe where the rise is over half the span.
pub(crate) fn segmental(span: f64, rise: f64) -> Path {
    let a = span / 2.0;
    let sweep = 4.0 * (rise / a).atan();
    let radius = (a * a + rise * rise) / (2.0 * rise);
    Path::from_pieces(&[Piece::arc(
        Point::new(0.0, rise - radius),
        Point::new(-a, 0.0),
        -sweep,
    )])
}

/// A half circle on plumb lines.
pub(crate) fn stilted(span: f64, stilt: f64) -> Path {
    let a = span / 2.0;
    let (left, right) = (Point::new(-a, stilt), Point::new(a, stilt));
    Path::from_pieces(&[
        Piece::line(Point::new(-a, 0.0), left),
        Piece::arc_between(Point::new(0.0, stilt), left, right, false),
        Piece::line(right, Point::new(a, 0.0)),
    ])
}

/// Two arcs struck from the springing line.
pub(crate) fn pointed(span: f64, radius: f64) -> Path {
    let a = span / 2.0;
    let apex = Point::new(0.0, (a * (2.0 * radius - a)).sqrt());
    let (left, right) = (Point::new(-a, 0.0), Point::new(a, 0.0));
    Path::from_pieces(&[
        Piece::arc_between(Point::new(radius - a, 0.0), left, apex, false),
        Piece::arc_between(Point::new(a - radius, 0.0), apex, right, false),
    ])
}

/// Three arcs, of the least ratio of crown to springing radius.
pub(crate) fn three_centred(span: f64, rise: f64) -> Path {
    let a = span / 2.0;
    let c = a.hypot(rise);
    let (r1, r2) = (c * (c - a + rise) / (2.0 * a), c * (c + a - rise) / (2.0 * rise));
    let (springing, crown) = (Point::new(a - r1, 0.0), Point::new(0.0, rise - r2));
    let join = springing + (springing - crown).normalize() * r1;
    let other = Point::new(-join.x, join.y);
    Path::from_pieces(&[
        Piece::arc_between(Point::new(r1 - a, 0.0), Point::new(-a, 0.0), other, false),
        Piece::arc_between(crown, other, join, false),
        Piece::arc_between(springing, join, Point::new(a, 0.0), false),
    ])
}

/// Two quarter circles from springings at different heights, the low one on the left.
pub(crate) fn rampant(span: f64, difference: f64) -> Path {
    let (low, high) = (Point::new(-span / 2.0, 0.0), Point::new(span / 2.0, difference));
    let r1 = f64::midpoint(span, difference);
    let crown = Point::new(low.x + r1, r1);
    Path::from_pieces(&[
        Piece::arc_between(Point::new(low.x + r1, 0.0), low, crown, false),
        Piece::arc_between(Point::new(crown.x, difference), crown, high, false),
    ])
}

/// Reverse curves to a cusp at the crown.
pub(crate) fn ogee(span: f64, rise: f64) -> Path {
    let a = span / 2.0;
    let r2 = (rise * rise - a * a) / (2.0 * a);
    let lower = Point::new(0.0, 0.0);
    let upper = Point::new(r2, rise);
    let join = lower + (upper - lower) * (a / (a + r2));
    let other = Point::new(-join.x, join.y);
    let apex = Point::new(0.0, rise);
    Path::from_pieces(&[
        Piece::arc_between(lower, Point::new(-a, 0.0), other, false),
        Piece::arc_between(Point::new(-r2, rise), other, apex, true),
        Piece::arc_between(upper, apex, join, true),
        Piece::arc_between(lower, join, Point::new(a, 0.0), false),
    ])
}
