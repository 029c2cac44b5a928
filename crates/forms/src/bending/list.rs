//! What is bent on a form and what bends it: strips, cauls, liners, dowels, clamps.

use super::body::Body;
use super::clamping::Clamping;
use super::lines::Lines;
use super::{Input, Side, whole};
use crate::centering::as_length;
use crate::form::Item;

/// A caul is bent round in plies of this thickness at most, mm.
const PLY: f64 = 6.0;

/// The list.
pub(super) fn list(
    input: &Input,
    lines: &Lines,
    clamping: &Clamping,
    bodies: &[Body],
    height: f64,
) -> Vec<Item> {
    let strips = &input.strips;
    let wide = strips.sawn_width();
    let mut items: Vec<Item> = strip_middles(input)
        .zip(&strips.thicknesses)
        .enumerate()
        .map(|(i, (offset, &thickness))| {
            let name = format!("lamination {}, counted from the inside", i + 1);
            Item::of(&name, 1, lines.whole_length_at(offset), Some((wide, thickness)))
        })
        .collect();
    if input.caul > 0.0 && input.side != Side::Pair {
        let plies = whole((input.caul / PLY).ceil());
        let off = strips.stack() / 2.0 + input.caul / 2.0;
        let outwards = if input.side == Side::Male { 1.0 } else { -1.0 };
        let section = (wide, input.caul / as_length(plies));
        let length = lines.whole_length_at(outwards * off);
        items.push(Item::of(
            "caul strip, one on another",
            plies,
            length,
            Some(section),
        ));
    }
    if input.liner > 0.0 {
        for body in bodies {
            let section = Some((wide, input.liner));
            items.push(Item::of("liner on the face", 1, body.face.length(), section));
        }
    }
    let base = if input.body.base { input.thickness } else { 0.0 };
    let dowels: usize = bodies.iter().map(|body| body.dowels.len()).sum();
    let dowel = input.body.dowel;
    items.push(Item::of(
        "dowel through all layers",
        dowels,
        height + base,
        Some((dowel, dowel)),
    ));
    items.push(Item::of(
        "clamp, opening at least",
        clamping.clamps.len(),
        clamping.opening,
        None,
    ));
    items
}

/// The offset of the middle of each strip from that of all, from the inside out.
pub(super) fn strip_middles(input: &Input) -> impl Iterator<Item = f64> + '_ {
    let mut inner = -input.strips.stack() / 2.0;
    input.strips.thicknesses.iter().map(move |t| {
        inner += t;
        inner - t / 2.0
    })
}
