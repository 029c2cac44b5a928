//! A model put together, for a picture: its elevation, and beside it a section across the wall at the crown.

use super::as_length;
use super::kit::Kit;
use super::wood;
use crate::centering::Standing;
use crate::line::heights_at;
use cintre_geometry::{Affine, Outline, Point, Rect};
use cintre_work::{Grain, Part};

/// The clear space between elevation and section, of the elevation's width.
const APART: f64 = 0.12;

/// Where everything stands. What lies in front comes later.
pub(crate) fn standing(kit: &Kit<'_>) -> Standing {
    let mut parts = elevation(kit);
    let right = parts
        .iter()
        .map(|part| part.outline.bounds().x1)
        .fold(f64::MIN, f64::max);
    let from = right + (right - kit.soffit.start().x) * APART;
    parts.extend(section(kit, from));
    let (left, right) = (kit.soffit.start(), kit.soffit.end());
    let crown = kit
        .soffit
        .pieces()
        .flat_map(|piece| [piece.start, piece.point_at(0.5)]);
    let crown = crown.fold(left, |best, p| if p.y > best.y { p } else { best });
    Standing {
        parts,
        springings: (left, right),
        crown: Point::new(crown.x, kit.soffit.bounds().y1),
    }
}

fn elevation(kit: &Kit<'_>) -> Vec<Part> {
    let t = kit.input.thickness;
    let small = Affine::scale(1.0 / kit.scale);
    let mut parts = Vec::new();
    if let Some(ring) = &kit.input.ring {
        let base = wood::base(kit).0.bounds();
        parts.push(boxed("base", (base.x0, base.x1), (kit.base() - t, kit.base())));
        let wide = wood::packing(kit).bounds().height();
        let (left, right) = (kit.back.start().x, kit.back.end().x);
        for from in [left, right - wide] {
            parts.push(boxed("packing", (from, from + wide), (kit.base(), kit.bottom)));
        }
        parts.extend(kit.springers.iter().map(|s| shown("springer", s.outline.clone())));
        parts.extend(
            ring.units
                .iter()
                .map(|unit| shown("voussoir", unit.transformed(small))),
        );
    }
    let ends = kit.boards.ends(&kit.back, t);
    parts.extend(ends.into_iter().map(|end| shown("strip", end.oriented(true))));
    let spacers = kit.spacers.iter().map(|x| {
        let across = (x - t / 2.0, x + t / 2.0);
        boxed("spacer", across, (kit.bottom, kit.bottom + kit.spacer))
    });
    parts.extend(spacers);
    parts.push(shown("rib", wood::rib(kit)));
    parts
}

/// Across the wall at the crown, the near face on the left.
fn section(kit: &Kit<'_>, from: f64) -> Vec<Part> {
    let t = kit.input.thickness;
    let whole = (from, from + kit.depth);
    let middle = f64::midpoint(kit.back.start().x, kit.back.end().x);
    let crown = heights_at(&kit.back, middle)
        .into_iter()
        .reduce(f64::max)
        .unwrap_or(0.0);
    let mut parts = Vec::new();
    if let Some(ring) = &kit.input.ring {
        let base = wood::base(kit).0.bounds();
        let packing = wood::packing(kit).bounds().width();
        let past = (packing - kit.depth) / 2.0;
        parts.push(boxed(
            "base",
            (from + base.y0, from + base.y1),
            (kit.base() - t, kit.base()),
        ));
        parts.push(boxed(
            "packing",
            (from - past, whole.1 + past),
            (kit.base(), kit.bottom),
        ));
        let back = heights_at(&ring.back, middle * kit.scale)
            .into_iter()
            .reduce(f64::max);
        let over = back.map_or(crown + t, |back| back / kit.scale);
        let slices = (0..kit.slices).map(|i| from + as_length(i) * t);
        parts.extend(slices.map(|x| boxed("slice", (x, x + t), (crown + t, over))));
    }
    parts.push(boxed("strip", whole, (crown, crown + t)));
    let ribs = kit.ribs.iter().map(|z| (from + z - t / 2.0, from + z + t / 2.0));
    parts.extend(ribs.map(|across| boxed("rib", across, (kit.bottom, crown))));
    let place = Affine::translate((from, kit.bottom));
    parts.push(shown("spacer", wood::spacer(kit).transformed(place)));
    parts
}

fn boxed(name: &str, (x0, x1): (f64, f64), (y0, y1): (f64, f64)) -> Part {
    shown(name, Outline::rectangle(Rect::new(x0, y0, x1, y1)))
}

fn shown(name: &str, outline: Outline) -> Part {
    Part {
        name: name.to_owned(),
        outline,
        openings: Vec::new(),
        bores: Vec::new(),
        recesses: Vec::new(),
        marks: Vec::new(),
        clean: Vec::new(),
        stock: String::new(),
        thickness: 0.0,
        grain: Grain::Free,
        count: 1,
        fit_error: 0.0,
    }
}
