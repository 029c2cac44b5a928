//! The board that a head is glued up on: its lines at full size, its joints, and holes for stops and for pins to wedge against.

use super::band::Band;
use super::pieces::{Pieces, Stands, beside, letter, scribe};
use super::segment::out_of;
use super::{GlueUp, HeadError, Input};
use crate::Error;
use crate::marks;
use cintre_geometry::{Outline, Path, Point, Rect};
use cintre_work::{Bore, Depth, Grain, Mark, Part};

/// The board's edge beyond all that is on it, mm.
const MARGIN: f64 = 40.0;

/// Room for folding wedges between a pin and the work, mm.
const WEDGES: f64 = 25.0;

/// Wood left between two holes, in diameters.
const APART: f64 = 1.0;

/// A joint's line runs on past both edges by this, mm, so that it is seen beside the work.
const PAST: f64 = 15.0;

/// A line that runs past an edge begins off it by this, mm.
const OFF: f64 = 1.0;

/// How far letters keep from lines and holes, mm.
const CLEAR: f64 = 2.0;

/// What is on a glue-up board.
pub(super) struct Board {
    pub(super) part: Part,
    /// Holes for stops and for pins, for the list.
    pub(super) pins: usize,
}

pub(super) fn board(input: &Input, glue_up: &GlueUp, band: &Band, pieces: &Pieces) -> Result<Board, Error> {
    let standing: Vec<&Stands> = pieces.standing.iter().filter(|s| s.layer == 0).collect();
    let holes = holes(band, &standing, glue_up.stop);
    let mut marks = lines(band, &standing);
    marks.extend(springing(input, band));
    let mut room = marks
        .iter()
        .map(|mark| mark.path.bounds())
        .reduce(|a, b| a.union(b))
        .unwrap_or_default();
    for hole in &holes {
        let half = glue_up.stop / 2.0;
        room = room.union(Rect::new(
            hole.x - half,
            hole.y - half,
            hole.x + half,
            hole.y + half,
        ));
    }
    let room = room.inflate(MARGIN, MARGIN);
    if !glue_up.sheet.takes(room.width(), room.height()) {
        return Err(HeadError::GlueUp {
            size: (room.width(), room.height()),
            usable: (glue_up.sheet.along, glue_up.sheet.across),
        }
        .into());
    }
    let name = format!("{} {} glue-up board", input.arch, input.piece.name());
    marks.extend(letters(&standing, &marks, &holes, glue_up.stop)?);
    marks.extend(title(&name, room, &marks, &holes, glue_up.stop)?);
    let bore = |&centre: &Point| Bore {
        centre,
        diameter: glue_up.stop,
        depth: Depth::Through,
    };
    let part = Part {
        name,
        outline: Outline::rectangle(room),
        openings: Vec::new(),
        bores: holes.iter().map(bore).collect(),
        recesses: Vec::new(),
        marks,
        clean: Vec::new(),
        stock: glue_up.stock.clone(),
        thickness: glue_up.thickness,
        grain: Grain::Free,
        count: 1,
        fit_error: input.fit_error,
    };
    Ok(Board {
        part,
        pins: holes.len(),
    })
}

/// Both edges of the head and its ends, and its joints.
fn lines(band: &Band, standing: &[&Stands]) -> Vec<Mark> {
    let mut marks = vec![scribe(band.lower.clone()), scribe(band.upper.clone())];
    if !band.closed {
        marks.extend(band.ends.iter().cloned().map(scribe));
    }
    for stands in standing {
        let cut = &stands.segment.to;
        if cut.joined {
            let (from, to) = (cut.line.start(), cut.line.end());
            let across = (to - from).normalize();
            marks.push(scribe(Path::polyline(&[to + across * OFF, to + across * PAST])));
            marks.push(scribe(Path::polyline(&[
                from - across * OFF,
                from - across * PAST,
            ])));
        }
    }
    marks
}

/// The springing line, below the opening, and the centre line over it.
fn springing(input: &Input, band: &Band) -> Vec<Mark> {
    if band.closed {
        return Vec::new();
    }
    let (left, right) = (input.soffit.start(), input.soffit.end());
    let middle = left.midpoint(right);
    let crown = band.lower.bounds().y1;
    let short = left.lerp(right, 0.4);
    vec![
        scribe(Path::polyline(&[short, right.lerp(left, 0.4)])),
        scribe(Path::polyline(&[
            middle,
            Point::new(middle.x, f64::midpoint(middle.y, crown)),
        ])),
    ]
}

/// Stops along one edge, which the work is pushed against, and pins along the other and at an end, to wedge it from. An open head
/// is pushed outwards and along; one that closes on itself stands round its stops and is drawn together from outside.
fn holes(band: &Band, standing: &[&Stands], diameter: f64) -> Vec<Point> {
    let mut all: Vec<Point> = Vec::new();
    let mut put = |p: Point| {
        if all
            .iter()
            .all(|other| other.distance(p) >= diameter * (1.0 + APART))
        {
            all.push(p);
        }
    };
    let touching = diameter / 2.0;
    let off = touching + WEDGES;
    for stands in standing {
        let segment = &stands.segment;
        let (lower, upper) = (&segment.lower, &segment.upper);
        let station = |edge: &Path, share: f64| edge.station(share * edge.length());
        for share in [0.25, 0.75] {
            put(if band.closed {
                beside(station(lower, share), -touching)
            } else {
                beside(station(upper, share), touching)
            });
        }
        put(if band.closed {
            beside(station(upper, 0.5), off)
        } else {
            beside(station(lower, 0.5), -off)
        });
        for (cut, at_start) in [(&segment.from, true), (&segment.to, false)] {
            if !cut.joined {
                let by = if at_start { touching } else { off };
                let middle = cut.line.start().midpoint(cut.line.end());
                put(middle + out_of(cut, at_start) * by);
            }
        }
    }
    all
}

/// Each segment's letter, where it lies.
fn letters(standing: &[&Stands], lines: &[Mark], holes: &[Point], diameter: f64) -> Result<Vec<Mark>, Error> {
    let clear = |p: Point| is_clear(p, lines, holes, diameter);
    let mut all = Vec::new();
    for stands in standing {
        let middle = stands.segment.middle(0.5).0;
        let found = marks::name(&letter(stands.part), |_, _| vec![middle], clear)?;
        all.extend(found.into_iter().flatten());
    }
    Ok(all)
}

/// The board's own name: low on it, else in its middle.
fn title(name: &str, room: Rect, lines: &[Mark], holes: &[Point], diameter: f64) -> Result<Vec<Mark>, Error> {
    let clear = |p: Point| is_clear(p, lines, holes, diameter);
    let low = Point::new(room.center().x, room.y0 + MARGIN / 2.0);
    let found = marks::name(name, |_, _| vec![low, room.center()], clear)?;
    Ok(found.into_iter().flatten().collect())
}

fn is_clear(p: Point, lines: &[Mark], holes: &[Point], diameter: f64) -> bool {
    lines.iter().all(|line| line.path.nearest(p).distance > CLEAR)
        && holes.iter().all(|hole| hole.distance(p) > diameter / 2.0 + CLEAR)
}

/// What to know of it.
pub(super) fn note(closed: bool) -> &'static str {
    if closed {
        "glue-up board: stops stand inside the ring, which is drawn together from the pins outside by folding wedges; wax or paper under \
         every joint; try it dry first"
    } else {
        "glue-up board: stops stand along the outer edge and at the left end; folding wedges from the other pins push each segment out \
         and all of them along; wax or paper under every joint; try it dry first"
    }
}
