//! The figures of a model.

use super::kit::Kit;
use super::{fit, wood};
use crate::Figure;
use crate::centering::proud;

pub(crate) fn figures(kit: &Kit<'_>) -> Vec<Figure> {
    let input = kit.input;
    let span = kit.soffit.end().x - kit.soffit.start().x;
    let mut figures = vec![
        Figure::length("model span", span),
        Figure::length(
            "model rise",
            kit.soffit.bounds().y1 - kit.soffit.start().y.min(kit.soffit.end().y),
        ),
        Figure::length("wall at this scale", input.wall / kit.scale),
        Figure::length("depth of the model", kit.depth),
        Figure::fine("sheet", input.thickness),
        Figure::fine("kerf", input.beam.kerf),
        Figure::fine("interference", input.interference),
        Figure::fine("slot as it is cut", kit.fit.slot),
        Figure::fine("slot as it is drawn", kit.fit.slot - input.beam.kerf),
        Figure::length("least bridge", kit.fit.bridge),
        Figure::count("ribs", kit.ribs.len()),
        Figure::lengths("rib middles across the wall", kit.ribs.clone()),
        Figure::lengths("rib feet", vec![kit.back.start().x, kit.back.end().x]),
        Figure::length("rib bottom", kit.bottom),
        Figure::count("spacers", kit.spacers.len()),
        Figure::lengths("spacers along the arch", kit.spacers.clone()),
        Figure::length("spacer height", kit.spacer),
        Figure::length("slot depth", kit.fit.slot_depth(kit.spacer)),
        Figure::count("lagging strips", kit.boards.count),
        Figure::length("strip width", kit.boards.width),
        Figure::length("gap between strips", kit.boards.gap),
    ];
    figures.extend(stands_proud(kit));
    if let Some(ring) = &input.ring {
        figures.extend([
            Figure::count("voussoirs", ring.units.len()),
            Figure::count("slices across the wall", kit.slices),
            Figure::length("narrowest voussoir", ring.narrowest / kit.scale),
            Figure::fine("joint", input.joint),
            Figure::length("top of the base", kit.base()),
            Figure::length("packing drops it", input.thickness),
            Figure::fine("mortise across the wall", kit.fit.mortise(kit.slices)),
            Figure::fine("mortise longer than its tenon", fit::SLIP),
        ]);
        let base = wood::base(kit).0.bounds();
        figures.push(Figure::length("base length", base.width()));
        figures.push(Figure::length("base width", base.height()));
    }
    if input.fit_error > 0.0 {
        figures.push(Figure::fine("fit error", input.fit_error / kit.scale));
    }
    figures
}

/// How far the edges of a flat strip stand proud where the ribs turn most tightly.
fn stands_proud(kit: &Kit<'_>) -> Option<Figure> {
    let turning = kit.back.pieces().filter(|piece| piece.bulge < 0.0);
    let radius = turning.filter_map(|piece| piece.circle()).map(|c| c.radius);
    let tightest = radius.reduce(f64::min)?;
    Some(Figure::fine(
        "flat strip stands proud",
        proud(kit.boards.width, tightest),
    ))
}
