//! Lines for a beam or a pen: what is cut with half the beam's width allowed for, and what is marked.

use crate::held::{Held, held};
use crate::{Edge, Error};
use cintre_geometry::{Outline, Piece, Point, parallel};
use cintre_work::{
    BeamPower, BeamTabs, Depth, Drawing, Figure, Laser, Layer, MarkKind, Part, Placed, Shape, Sheet, Tab,
};

use order::in_order;

mod order;

/// What a beam does to a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beamed<'a> {
    /// The machine's name, for what it refuses.
    pub machine: &'a str,
    /// What it reaches in x and y from the sheet's near left corner, mm.
    pub bed: (f64, f64),
    /// The whole width of its cut, mm.
    pub kerf: f64,
    /// The thinnest bridge between two cuts that holds, mm.
    pub least_bridge: f64,
    /// Tabs that hold small parts; none where parts lie loose once they are cut.
    pub tabs: Option<BeamTabs>,
}

/// The lines that a beam or a pen follows over a sheet, and the tabs that they leave.
#[derive(Clone, Debug, PartialEq)]
pub struct Lines {
    /// The lines.
    pub drawing: Drawing,
    /// What holds small parts, as high as the sheet is thick.
    pub tabs: Vec<Tab>,
}

/// The kerf of a laser in a material, mm, and how it cuts and marks it.
pub fn beam_of(laser: &Laser, material: &str) -> Result<(f64, BeamPower), Error> {
    let missing = |field, known: Vec<String>| Error::NoBeam {
        machine: laser.name.clone(),
        field,
        material: material.to_owned(),
        known,
    };
    let kerf = laser.kerf.get(material);
    let kerf = kerf.ok_or_else(|| missing("kerf", laser.kerf.keys().cloned().collect()))?;
    let power = laser.power.get(material);
    let power = power.ok_or_else(|| missing("power", laser.power.keys().cloned().collect()))?;
    Ok((*kerf, *power))
}

/// The lines along which the middle of a beam of the given kerf cuts a sheet: outlines grown by half of it, openings and
/// bores shrunk, marks as they are. In the order in which they are cut: marks, bores, openings, outlines, each time the
/// nearest next. The outlines of small parts are broken where tabs hold them.
///
/// Refused: what a beam cannot do (recesses, blind bores), openings that the kerf swallows, bridges too thin to hold, parts too
/// small for two tabs, and cuts off the bed.
pub fn beamed(sheet: &Sheet, beam: &Beamed<'_>) -> Result<Lines, Error> {
    crate::bounds::on_stock(sheet)?;
    let mut drawing = crate::drawing(sheet);
    drawing.shapes = Vec::new();
    let mut tabs = Vec::new();
    for placed in &sheet.parts {
        flat(placed)?;
        bridges(placed, beam)?;
        drawing.shapes.extend(marks(&placed.part));
        for shape in cuts(placed, beam.kerf)? {
            match hold(sheet, placed, &shape, beam)? {
                None => drawing.shapes.push(shape),
                Some(held) => {
                    tabs.extend(held.tabs);
                    drawing.shapes.extend(held.lines.into_iter().map(|line| Shape {
                        layer: shape.layer,
                        figure: Figure::Open(line),
                    }));
                }
            }
        }
    }
    drawing.notes[0] = beside(beam.kerf);
    if !tabs.is_empty() {
        drawing.notes.push(format!(
            "Small parts are held by {} tabs, where the line is broken: cut them by hand and dress them off.",
            tabs.len()
        ));
    }
    on_bed(&drawing, beam)?;
    drawing.shapes = in_order(drawing.shapes);
    Ok(Lines { drawing, tabs })
}

/// The tabs on an outline of a small part.
fn hold(sheet: &Sheet, placed: &Placed, shape: &Shape, beam: &Beamed<'_>) -> Result<Option<Held>, Error> {
    let (Layer::Outline, Figure::Closed(line)) = (shape.layer, &shape.figure) else {
        return Ok(None);
    };
    let own = line.bounds();
    let reach = beam.tabs.map_or(0.0, |rule| rule.width) + 2.0 * beam.kerf;
    let others = sheet.parts.iter().filter(|other| other.name != placed.name);
    let others = others.map(|other| &other.part.outline);
    let near: Vec<&Outline> = others
        .filter(|outline| outline.bounds().inflate(reach, reach).overlaps(own))
        .collect();
    held(placed, line, (beam, sheet.stock.thickness), &near)
}

/// A drawing for someone else to cut whose lines are moved into the waste by half of the width of the cut that they said.
/// Recesses and blind bores keep their own lines.
pub fn allowed(sheet: &Sheet, beam: &Beamed<'_>) -> Result<Drawing, Error> {
    let mut drawing = crate::drawing(sheet);
    let kept = |shape: &Shape| {
        matches!(
            shape.layer,
            Layer::Stock | Layer::Text | Layer::Mark | Layer::Recess
        )
    };
    drawing.shapes.retain(kept);
    for placed in &sheet.parts {
        drawing.shapes.extend(cuts(placed, beam.kerf)?);
    }
    drawing.shapes.sort_by_key(|shape| shape.layer);
    drawing.notes[0] = beside(beam.kerf);
    Ok(drawing)
}

fn beside(kerf: f64) -> String {
    format!("Lines stand half of the cut's width of {kerf:.3} mm beside the parts' edges, in the waste.")
}

/// The lines that a pen draws on a sheet, on the parts' own edges, in the order in which they are drawn.
pub fn penned(sheet: &Sheet, machine: &str, bed: (f64, f64)) -> Result<Lines, Error> {
    crate::bounds::on_stock(sheet)?;
    let mut drawing = crate::drawing(sheet);
    drawing.shapes.retain(|shape| shape.layer != Layer::Stock);
    "The pen's line lies with its middle on the parts' edges.".clone_into(&mut drawing.notes[0]);
    drawing.notes.truncate(1);
    let beam = Beamed {
        machine,
        bed,
        kerf: 0.0,
        least_bridge: 0.0,
        tabs: None,
    };
    on_bed(&drawing, &beam)?;
    drawing.shapes = in_order(drawing.shapes);
    Ok(Lines {
        drawing,
        tabs: Vec::new(),
    })
}

fn flat(placed: &Placed) -> Result<(), Error> {
    let part = &placed.part;
    let blind = part.bores.iter().any(|bore| bore.depth != Depth::Through);
    let deep = |kind: &MarkKind| matches!(kind, MarkKind::Groove { .. } | MarkKind::Chamfer { .. });
    let carved = part.marks.iter().any(|mark| deep(&mark.kind));
    if !part.recesses.is_empty() || blind || carved {
        return Err(Error::NotThrough {
            part: placed.name.clone(),
        });
    }
    Ok(())
}

fn marks(part: &Part) -> impl Iterator<Item = Shape> + '_ {
    crate::drawing::marks(part)
}

fn cuts(placed: &Placed, kerf: f64) -> Result<Vec<Shape>, Error> {
    let half = kerf / 2.0;
    let mut shapes = Vec::new();
    for (k, bore) in placed.part.bores.iter().enumerate() {
        let radius = bore.diameter / 2.0 - half;
        if radius <= half {
            return Err(swallowed(placed, Edge::Bore(k), kerf, bore.diameter));
        }
        shapes.push(Shape {
            layer: Layer::Bore,
            figure: Figure::Circle {
                centre: bore.centre,
                radius,
            },
        });
    }
    let openings = placed.part.openings.iter().map(|o| o.oriented(false)).enumerate();
    let openings = openings.map(|(k, o)| (Layer::Opening, Edge::Opening(k), o));
    let outline = (Layer::Outline, Edge::Outline, placed.part.outline.oriented(true));
    for (layer, edge, outline) in openings.chain([outline]) {
        let beside = parallel(&outline, half).map_err(|source| Error::Parallel {
            part: placed.name.clone(),
            edge,
            source,
        })?;
        if beside.len() != 1 {
            let bounds = outline.bounds();
            return Err(swallowed(placed, edge, kerf, bounds.width().min(bounds.height())));
        }
        shapes.extend(beside.into_iter().map(|found| Shape {
            layer,
            figure: Figure::Closed(found),
        }));
    }
    Ok(shapes)
}

fn swallowed(placed: &Placed, edge: Edge, kerf: f64, width: f64) -> Error {
    Error::Swallowed {
        part: placed.name.clone(),
        edge,
        kerf,
        width,
    }
}

/// Refuses wood between two of a part's own edges that is too thin to hold.
fn bridges(placed: &Placed, beam: &Beamed<'_>) -> Result<(), Error> {
    let edges = edges(&placed.part);
    for (i, (edge, a)) in edges.iter().enumerate() {
        for (other, b) in &edges[i + 1..] {
            let (width, at) = between(a, b, beam.least_bridge);
            if width < beam.least_bridge {
                return Err(Error::ThinBridge {
                    part: placed.name.clone(),
                    edges: (*edge, *other),
                    width,
                    least: beam.least_bridge,
                    at,
                });
            }
        }
    }
    Ok(())
}

fn edges(part: &Part) -> Vec<(Edge, Vec<Piece>)> {
    let outline = std::iter::once((Edge::Outline, part.outline.pieces().collect()));
    let openings = part.openings.iter().enumerate();
    let openings = openings.map(|(k, o)| (Edge::Opening(k), o.pieces().collect()));
    let bores = part.bores.iter().enumerate().map(|(k, bore)| {
        let circle = Outline::circle(bore.centre, bore.diameter / 2.0);
        (Edge::Bore(k), circle.pieces().collect())
    });
    outline.chain(openings).chain(bores).collect()
}

/// The least distance between two edges, looked for where it may be under `least`.
fn between(a: &[Piece], b: &[Piece], least: f64) -> (f64, Point) {
    let mut best = (f64::INFINITY, Point::ZERO);
    for p in a {
        let near = p.bounds().inflate(least, least);
        for q in b.iter().filter(|q| near.overlaps(q.bounds())) {
            let found = p.distance_to(q);
            if found.0 < best.0 {
                best = found;
            }
        }
    }
    best
}

fn on_bed(drawing: &Drawing, beam: &Beamed<'_>) -> Result<(), Error> {
    let (length, width) = beam.bed;
    for shape in &drawing.shapes {
        let bounds = match &shape.figure {
            Figure::Closed(outline) => outline.bounds(),
            Figure::Open(path) => path.bounds(),
            Figure::Circle { centre, radius } => Outline::circle(*centre, *radius).bounds(),
        };
        let over = [-bounds.x0, -bounds.y0, bounds.x1 - length, bounds.y1 - width];
        let by = over.into_iter().fold(0.0, f64::max);
        if by > 0.0 {
            return Err(Error::BeamOffBed {
                machine: beam.machine.to_owned(),
                by,
                bed: beam.bed,
            });
        }
    }
    Ok(())
}
