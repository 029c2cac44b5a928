//! A router template: what a guide bush or a bearing follows while the bit cuts the work beside it.
//!
//! The template's edge is the true parallel of the work's, half of what bush or bearing are wider than the bit inside it.
//! It runs on straight past the work, so that the bit is guided until it is clear, and has room for the router's base and for clamps.
//! Where the bit cannot follow the work, what it leaves or takes is measured.

pub use error::TemplateError;
pub use guide::{BUSH_CLEARANCE, Guide, GuideKind, Pair, bush, pair};
pub use input::{Cut, Edge, Input, Room, Run};

use crate::error::at_least;
use crate::{Error, Figure, Form, Unit, writing};
use body::Body;
use cintre_geometry::Outline;
use cintre_work::{Caution, Grain, Part};
use corners::Corners;
use fittings::Fittings;
use scribed::own_lines;

mod body;
mod corners;
mod error;
mod fittings;
mod guide;
mod input;
mod lines;
mod scribed;
#[cfg(test)]
mod tests;
mod words;

/// Makes a router template.
pub fn template(input: &Input) -> Result<Form, Error> {
    check(input)?;
    let body = Body::new(input)?;
    let corners = Corners::new(input, &body)?;
    let fittings = Fittings::new(input, &body);
    let name = format!("{} {} template", input.arch, input.edge.name());
    let mut notes = words::notes(input, &body, &corners, !fittings.list.is_empty());
    let figures = figures(input, &body, &corners, &fittings.outline);
    let mut part = Part {
        marks: [fittings.marks, own_lines(&body, &fittings.outline)].concat(),
        clean: body.guided(&fittings.outline, input.guide.setback()).collect(),
        outline: fittings.outline,
        openings: body.openings,
        bores: fittings.bores,
        recesses: Vec::new(),
        stock: input.stock.clone(),
        thickness: input.thickness,
        grain: Grain::Free,
        count: 1,
        fit_error: input.fit_error,
        name,
    };
    let texts = words::lettering(input, &part.name, body.lies);
    let homeless = writing::write(&mut part, &texts)?;
    if !homeless.is_empty() {
        notes.push(format!("write on it by hand: {}", homeless.join("; ")));
    }
    Ok(Form {
        kind: "template",
        arch: input.arch.clone(),
        parts: vec![part],
        list: fittings.list,
        left: corners.parts(input),
        figures,
        cautions: vec![Caution::HandRouter],
        notes,
        assembly: None,
    })
}

fn check(input: &Input) -> Result<(), Error> {
    at_least("arch", input.fit_error, 0.0)?;
    at_least("stock", input.thickness, f64::MIN_POSITIVE)?;
    at_least("bit", input.guide.bit, f64::MIN_POSITIVE)?;
    at_least("margin", input.room.base, 0.0)?;
    at_least("clamps", input.room.clamps, 0.0)?;
    at_least("hanging-hole", input.hanging_hole, 0.0)
}

fn figures(input: &Input, body: &Body, corners: &Corners, outline: &Outline) -> Vec<Figure> {
    let guide = input.guide;
    let mut figures = match input.pair {
        Some(pair) => vec![
            Figure::length("recess bush", pair.recess),
            Figure::length("insert bush", pair.insert),
            Figure::fine("insert clear of recess", pair.clearance),
        ],
        None => vec![Figure::length(guide.name(), guide.diameter)],
    };
    figures.push(Figure::length("bit", guide.bit));
    figures.push(Figure::fine("template edge inside the work's", guide.setback()));
    figures.push(Figure::length(
        "least inside radius followed",
        guide.diameter / 2.0,
    ));
    match input.edge {
        Edge::Ring { depth, .. } => figures.push(Figure::length("ring depth", depth)),
        Edge::Leaf { gap, .. } => figures.push(Figure::length("gap", gap)),
        Edge::Panel { past, .. } => figures.push(Figure::length("panel past the opening", past)),
        Edge::Soffit(_) | Edge::Back(_) => {}
    }
    figures.extend(radii(input, body));
    if !corners.left.is_empty() {
        let depths = corners.left.iter().map(|(corner, _)| corner.depth).collect();
        figures.push(fine("left for the chisel", depths));
    }
    if !corners.rounded.is_empty() {
        let depths = corners.rounded.iter().map(|corner| corner.depth).collect();
        figures.push(fine("lost at its points", depths));
    }
    if input.fit_error > 0.0 {
        figures.push(Figure::fine("fit error", input.fit_error));
    }
    let bounds = outline.bounds();
    figures.push(Figure::length("template length", bounds.width()));
    figures.push(Figure::length("template height", bounds.height()));
    figures
}

fn fine(name: &'static str, values: Vec<f64>) -> Figure {
    Figure {
        name,
        values,
        unit: Unit::Fine,
    }
}

/// The radii of work and template; none of arcs that are laid along another curve.
fn radii(input: &Input, body: &Body) -> Vec<Figure> {
    let arcs: Vec<(f64, f64)> = body
        .pieces()
        .filter_map(|piece| piece.circle().map(|c| (c.radius, piece.bulge.signum())))
        .collect();
    if input.fit_error > 0.0 || arcs.is_empty() {
        return Vec::new();
    }
    let setback = input.guide.setback();
    vec![
        Figure::radii("work radii", arcs.iter().map(|(radius, _)| *radius).collect()),
        Figure::radii(
            "template radii",
            arcs.iter()
                .map(|(radius, side)| radius - side * setback)
                .collect(),
        ),
    ]
}
