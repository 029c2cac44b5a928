//! The outlines of a model's plates: ribs, spacers, base, packing, and where sheets cross in them.

use super::fit::SLIP;
use super::kit::Kit;
use crate::centering::sides;
use cintre_geometry::{Outline, Point, Rect, Vertex};

/// The base reaches so many bridges beyond what stands on it.
const MARGIN: f64 = 1.5;

/// How far the packing reaches past the base, mm: enough for two fingers.
const GRIP: f64 = 6.0;

/// A rib in the arch's frame, with a slot up from its bottom for each spacer.
pub(crate) fn rib(kit: &Kit<'_>) -> Outline {
    let edge = sides(&kit.back, kit.bottom).reversed();
    let mut vertices = edge.vertices().to_vec();
    let (half, top) = (kit.fit.slot / 2.0, kit.bottom + kit.fit.slot_depth(kit.spacer));
    // The edge ends at the left foot: home along the bottom, in and out of each slot.
    for &x in &kit.spacers {
        vertices.extend(
            [
                (x - half, kit.bottom),
                (x - half, top),
                (x + half, top),
                (x + half, kit.bottom),
            ]
            .map(corner),
        );
    }
    Outline::new(vertices)
}

/// A spacer, its length across the wall along x, with a slot down from its top for each rib.
pub(crate) fn spacer(kit: &Kit<'_>) -> Outline {
    let (half, height) = (kit.fit.slot / 2.0, kit.spacer);
    let floor = height - kit.fit.slot_depth(height);
    let mut corners = vec![(0.0, 0.0), (kit.depth, 0.0), (kit.depth, height)];
    for &middle in kit.ribs.iter().rev() {
        corners.extend([
            (middle + half, height),
            (middle + half, floor),
            (middle - half, floor),
            (middle - half, height),
        ]);
    }
    corners.push((0.0, height));
    polygon(&corners)
}

/// The base, the arch along x and the wall's depth along y from its near face, with a mortise for each springer.
pub(crate) fn base(kit: &Kit<'_>) -> (Outline, Vec<Outline>) {
    let margin = MARGIN * kit.fit.bridge;
    let stands = kit.springers.iter().map(|springer| springer.stands);
    let (from, to) = stands.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), (c, d)| {
        (a.min(c), b.max(d))
    });
    let edge = Rect::new(from - margin, -margin, to + margin, kit.depth + margin);
    let wide = kit.fit.mortise(kit.slices);
    let stack = super::as_length(kit.slices) * kit.input.thickness;
    let mortises = kit.springers.iter().map(|springer| {
        let (a, b) = springer.foot;
        let hole = Rect::new(
            a - SLIP / 2.0,
            (stack - wide) / 2.0,
            b + SLIP / 2.0,
            (stack + wide) / 2.0,
        );
        Outline::rectangle(hole).oriented(false)
    });
    (Outline::rectangle(edge), mortises.collect())
}

/// A strip that lies between base and ribs and is drawn out to lower them: its length across the wall along x, past the base at both
/// ends to be taken hold of.
pub(crate) fn packing(kit: &Kit<'_>) -> Outline {
    let width = ((kit.back.end().x - kit.back.start().x) / 8.0).max(kit.fit.bridge);
    Outline::rectangle(Rect::new(
        0.0,
        0.0,
        kit.depth + 2.0 * (MARGIN * kit.fit.bridge + GRIP),
        width,
    ))
}

pub(crate) fn polygon(corners: &[(f64, f64)]) -> Outline {
    let corners: Vec<Point> = corners.iter().map(|&corner| corner.into()).collect();
    Outline::polygon(&corners)
}

fn corner(at: (f64, f64)) -> Vertex {
    Vertex {
        point: at.into(),
        bulge: 0.0,
    }
}
