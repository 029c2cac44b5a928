//! What a test piece tells: the share of its bend that it kept, and so the form that comes out right.

use super::lines::{bend, middle};
use super::{BendingError, CameOut, Input, MeasuredBack, tried};
use crate::Error;
use cintre_geometry::Soffit;

/// No glued stack keeps less of its bend than this, and none closes up to more: such a figure was misread.
pub(super) const KEPT: (f64, f64) = (0.2, 1.25);

/// Halvings that bring a width to the last digit.
const HALVINGS: u32 = 60;

/// The share that the test piece kept, where the form was made for a piece that keeps `first`.
pub(super) fn kept(input: &Input, measured: &MeasuredBack, first: Option<f64>) -> Result<f64, Error> {
    match measured.came_out {
        CameOut::Radius(radius) => by_radius(input, radius, measured.form, first),
        CameOut::Width(width) => by_width(input, width, first.ok_or_else(|| tried(BendingError::OneLayer))?),
    }
}

/// Radii of middle lines: R on the form / R as it came out. So the next form has R wanted × that.
fn by_radius(input: &Input, radius: f64, form: Option<f64>, first: Option<f64>) -> Result<f64, Error> {
    let to_middle = middle(input);
    let form = match (form, first) {
        (Some(form), _) => form + to_middle,
        (None, Some(first)) => first * (one_radius(input)? + to_middle),
        (None, None) => return Err(tried(BendingError::OneLayer)),
    };
    let kept = form / (radius + to_middle);
    if kept.is_finite() && (KEPT.0..=KEPT.1).contains(&kept) {
        return Ok(kept);
    }
    Err(tried(BendingError::CameOut {
        what: "radius",
        given: radius,
        least: form / KEPT.1 - to_middle,
        most: form / KEPT.0 - to_middle,
    }))
}

/// The one radius of the line that is given.
fn one_radius(input: &Input) -> Result<f64, Error> {
    let radii: Vec<f64> = match &input.line {
        Soffit::Path(path) => path
            .pieces()
            .map(|p| p.circle().map_or(f64::INFINITY, |c| c.radius))
            .collect(),
        Soffit::Curve(_) => Vec::new(),
    };
    match radii[..] {
        [one] if one.is_finite() => Ok(one),
        _ => Err(tried(BendingError::NoRadius)),
    }
}

/// The share with which the piece on its form, let go, is so wide across its springings.
fn by_width(input: &Input, width: f64, first: f64) -> Result<f64, Error> {
    let came_out = |kept: f64| {
        let piece = bend(input, first / kept, -middle(input))?.line;
        Ok::<f64, Error>(piece.start().distance(piece.end()))
    };
    // What keeps less opens wider.
    let (least, most) = (came_out(KEPT.1)?, came_out(KEPT.0)?);
    if !(least..=most).contains(&width) {
        return Err(tried(BendingError::CameOut {
            what: "width",
            given: width,
            least,
            most,
        }));
    }
    let (mut low, mut high) = KEPT;
    for _ in 0..HALVINGS {
        let kept = f64::midpoint(low, high);
        if came_out(kept)? > width {
            low = kept;
        } else {
            high = kept;
        }
    }
    Ok(f64::midpoint(low, high))
}
