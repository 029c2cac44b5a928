//! The plate of centres: all of an arch's striking points in one piece, on its springing line and its centre line.

use super::Input;
use super::arm::{pin, plate};
use super::hull::round_all;
use crate::{Error, Figure, Form, marks, writing};
use cintre_geometry::{Outline, Point};

/// The wood about a pin, mm.
const EDGE: f64 = 30.0;

/// Centres nearer than this are one, mm.
const SAME: f64 = 1e-6;

/// Points looked at along each piece of a line, for whether the bit comes near the plate.
const ALONG: u32 = 32;

/// Adds the plate, where the arch has several centres.
pub(super) fn add(input: &Input, form: &mut Form) -> Result<(), Error> {
    let mut centres: Vec<(Point, f64)> = Vec::new();
    for arc in &input.arcs {
        if let Some(at) = arc.centre
            && centres.iter().all(|(other, _)| other.distance(at) > SAME)
        {
            centres.push((at, arc.radius));
        }
    }
    if centres.len() < 2 || input.lines.is_empty() {
        return Ok(());
    }
    // The springing line and the centre line cross at the origin, and both are on the plate.
    let pads: Vec<(Point, f64)> = centres
        .iter()
        .map(|(at, _)| (*at, EDGE))
        .chain([(Point::ZERO, EDGE)])
        .collect();
    let outline = round_all(&pads);
    let mut part = plate(input, format!("{} centres plate", input.arch), outline);
    part.bores = centres.iter().map(|(at, _)| pin(input, *at)).collect();
    part.marks = marks::cross(&part.outline, Point::ZERO);
    for (i, (at, radius)) in centres.iter().enumerate() {
        writing::beside(
            &mut part,
            &format!("C{} R {radius:.1}", i + 1),
            *at,
            input.pin / 2.0,
        )?;
    }
    let name = part.name.clone();
    writing::write(&mut part, &[name])?;
    form.notes.push(
        "the plate of centres: its level line on the springing line, its plumb one on the centre line; then fix it, and swing each arc from its own \
         hole"
            .to_owned(),
    );
    if let Some(at) = touched(input, &part.outline) {
        form.notes.push(format!(
            "the bit comes onto the plate of centres near ({:.1}, {:.1}): stop short of it, or lay the plate under the work and finish by hand; \
             `centres: false` leaves it out",
            at.x, at.y
        ));
    }
    let coordinates = centres.iter().flat_map(|(at, _)| [at.x, at.y]).collect();
    form.figures
        .push(Figure::lengths("centres, x and y", coordinates));
    form.parts.push(part);
    Ok(())
}

/// Where a bit that follows the lines would touch the plate.
fn touched(input: &Input, plate: &Outline) -> Option<Point> {
    let pieces = input.lines.iter().flat_map(|line| line.pieces());
    let mut points =
        pieces.flat_map(|piece| (0..=ALONG).map(move |k| piece.point_at(f64::from(k) / f64::from(ALONG))));
    points.find(|p| plate.signed_distance(*p) < input.bit)
}
