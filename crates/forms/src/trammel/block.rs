//! The pivot block: it holds the pin, as high as the work.

use super::Input;
use super::arm::{pin, plate};
use crate::{Error, Form, marks, writing};
use cintre_geometry::{Outline, Point, Rect};
use cintre_work::{Bore, Depth};

/// The side of the block, mm.
const SIDE: f64 = 120.0;

/// From its middle to its screws, both ways, mm.
const SCREWS: f64 = 45.0;

/// Less packing than this is none, mm.
const THIN: f64 = 0.2;

/// Adds the block, in as many layers as the work is thick.
pub(super) fn add(input: &Input, form: &mut Form) -> Result<(), Error> {
    let half = SIDE / 2.0;
    let outline = Outline::rectangle(Rect::new(-half, -half, half, half));
    let mut part = plate(input, format!("{} pivot block", input.arch), outline);
    part.bores.push(pin(input, Point::ZERO));
    for (x, y) in [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)] {
        part.bores.push(Bore {
            centre: Point::new(x * SCREWS, y * SCREWS),
            diameter: input.screw,
            depth: Depth::Through,
        });
    }
    part.marks = marks::cross(&part.outline, Point::ZERO);
    let work = input.work.unwrap_or(input.thickness);
    let layers = (work / input.thickness).floor().max(1.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "far fewer layers than that"
    )]
    let count = layers.min(100.0) as usize;
    part.count = count;
    let packing = work - layers * input.thickness;
    form.notes.push(match packing {
        p if p > THIN => format!(
            "the pivot block stands as high as the work: {count} of it and {p:.2} mm of packing under the screws"
        ),
        p if p < -THIN => format!("the work is thinner than the block: pack it up by {:.2} mm", -p),
        _ => format!("the pivot block stands as high as the work: {count} of it"),
    });
    let texts = [part.name.clone(), format!("pin {} mm", input.pin)];
    writing::write(&mut part, &texts)?;
    form.parts.push(part);
    Ok(())
}
