//! The figures of a centering.

use super::Input;
use super::rib::Rib;
use super::spacing::Spacing;
use crate::Figure;
use crate::line::at_level;
use cintre_work::Part;

/// The width of the flat batten that the figures speak of, mm.
const BATTEN: f64 = 50.0;

/// Springings nearer in height than this are level, mm.
const LEVEL: f64 = 1e-6;

/// How far the edges of a flat batten `width` wide stand proud of a round rib: w² / 8R. Lengths in mm.
pub fn proud(width: f64, radius: f64) -> f64 {
    width * width / (8.0 * radius)
}

pub(crate) fn figures(rib: &Rib, input: &Input, spacing: &Spacing, part: &Part) -> Vec<Figure> {
    let bounds = rib.outline.bounds();
    let (left, right) = (rib.back.start(), rib.back.end());
    let mut figures = vec![
        Figure::length("wall", input.wall),
        Figure::length("lagging", input.lagging),
        Figure::length("skin", input.skin),
        Figure::radii("rib radii", radii(rib)),
        Figure::lengths("left foot", vec![left.x, left.y]),
        Figure::lengths("right foot", vec![right.x, right.y]),
        Figure::length("rib rise", rib.back.bounds().y1 - input.soffit.start().y),
    ];
    figures
        .extend(half_width(rib, input).map(|half| Figure::length("rib half width at springing line", half)));
    if input.fit_error > 0.0 {
        figures.push(Figure::fine("fit error", input.fit_error));
    }
    figures.extend([
        Figure::length("rib line length", rib.back.length()),
        Figure::length("rib length", bounds.width()),
        Figure::length("rib height", bounds.height()),
        Figure::length("tie", input.tie),
        Figure::count("ribs", spacing.ribs),
        Figure::length("rib centres", spacing.centres),
        Figure::length("clear between ribs", spacing.clear),
        Figure::count("bolts", part.bores.len()),
    ]);
    figures.extend(
        tightest(rib).map(|radius| Figure::fine("flat 50 mm batten stands proud", proud(BATTEN, radius))),
    );
    figures
}

/// The radius of every arc of the rib's line, from left to right.
fn radii(rib: &Rib) -> Vec<f64> {
    rib.back
        .pieces()
        .filter_map(|p| p.circle())
        .map(|c| c.radius)
        .collect()
}

/// The least radius over which a batten is laid: of the arcs that turn over the opening.
fn tightest(rib: &Rib) -> Option<f64> {
    rib.back
        .pieces()
        .filter(|p| p.bulge < 0.0)
        .filter_map(|p| p.circle())
        .map(|c| c.radius)
        .reduce(f64::min)
}

/// Half the rib's width at a level springing line; none where the springings are not level or the rib ends below them.
fn half_width(rib: &Rib, input: &Input) -> Option<f64> {
    let (left, right) = (input.soffit.start(), input.soffit.end());
    if (left.y - right.y).abs() > LEVEL {
        return None;
    }
    let crossings = at_level(&rib.back_and_sides(rib.bottom), left.y);
    Some((crossings.last()?.point.x - crossings.first()?.point.x) / 2.0)
}
