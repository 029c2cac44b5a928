//! A pattern: the arch's own shape in sheet, to mark from, to trim to or to hold up against the work.

use crate::error::at_least;
use crate::line::{heights_at, is_closed, on_jambs, refuse_backwards};
use crate::marks::{self, NO_ROOM, centre_line};
use crate::{Error, Figure, Form};
use cintre_geometry::{LineError, Outline, Path, Point, parallel_line};
use cintre_work::{Grain, Mark, MarkKind, Part};

/// How far letters keep from an edge, mm.
const CLEAR: f64 = 3.0;

/// And from the centre line, mm.
const BESIDE: f64 = 8.0;

/// What a pattern is made from. Lengths in mm.
#[derive(Clone, Debug)]
pub struct Input {
    /// The arch's name.
    pub arch: String,
    /// Its soffit, from the left springing to the right one; of a closed one from its left end over the top and back underneath.
    pub soffit: Path,
    /// The least radius with which the exact soffit turns round the opening; arcs fitted to it may have a longer one.
    pub least_radius: f64,
    /// What the soffit's arcs are out by from the curve they were fitted to; 0 where it is arcs already.
    pub fit_error: f64,
    /// Which piece of the arch it is.
    pub piece: Piece,
    /// How wide the arris of every edge is taken off; none where edges stay square.
    pub chamfer: Option<f64>,
    /// The stock's name.
    pub stock: String,
    /// The stock's real thickness.
    pub thickness: f64,
}

/// Which piece of an arch a pattern is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// The ring, between the soffit and its true parallel outwards.
    Ring {
        /// How deep it is, square to the soffit.
        depth: f64,
    },
    /// What lies inside: under the soffit, closed by a straight line from springing to springing.
    Inside {
        /// What a leaf stands clear of the soffit and of plumb jambs under its ends; none where it fills the opening.
        gap: Option<f64>,
    },
}

/// Makes a pattern.
///
/// A ring's ends are straight and square to the soffit; the back of a pointed one comes to a point. That of a closed soffit goes all
/// round, with the soffit for its opening. The grain runs along x, so that no end is all short grain at the crown.
pub fn pattern(input: &Input) -> Result<Form, Error> {
    if !is_closed(&input.soffit) {
        refuse_backwards(&input.soffit)?;
    }
    at_least("stock", input.thickness, f64::MIN_POSITIVE)?;
    at_least("arch", input.fit_error, 0.0)?;
    let shape = Shape::new(input)?;
    let name = format!("{} {}", input.arch, shape.name);
    let mut marks = if is_closed(&input.soffit) {
        closed::centre_lines(&shape)
    } else {
        shape.centre_line()
    };
    let mut notes = vec![shape.note.to_owned()];
    let chamfer = input.chamfer.unwrap_or_default();
    if chamfer > 0.0 {
        marks.extend(shape.arrises(chamfer));
    }
    match shape.letters(&name, CLEAR + chamfer)? {
        Some(letters) => marks.extend(letters),
        None => notes.push(NO_ROOM.to_owned()),
    }
    let figures = shape.figures(input);
    let part = Part {
        name,
        outline: shape.outline,
        openings: shape.openings,
        bores: Vec::new(),
        recesses: Vec::new(),
        marks,
        clean: Vec::new(),
        stock: input.stock.clone(),
        thickness: input.thickness,
        grain: Grain::Along(0.0),
        count: 1,
        fit_error: input.fit_error,
    };
    Ok(Form {
        kind: "pattern",
        arch: input.arch.clone(),
        parts: vec![part],
        list: Vec::new(),
        left: Vec::new(),
        assembly: None,
        figures,
        // A pattern only shows a shape; what cuts it has its own cautions.
        cautions: Vec::new(),
        notes,
    })
}

/// A pattern's edge, and the two lines that it lies between.
struct Shape {
    name: &'static str,
    note: &'static str,
    lower: Path,
    upper: Path,
    outline: Outline,
    openings: Vec<Outline>,
    /// How long the back of a ring is.
    back_length: f64,
}

impl Shape {
    fn new(input: &Input) -> Result<Self, Error> {
        let soffit = input.soffit.clone();
        if is_closed(&soffit) {
            return closed::shape(input);
        }
        Ok(match input.piece {
            Piece::Ring { depth } => {
                let upper = back(&soffit, depth)?;
                Self {
                    name: "ring",
                    note: "its straight ends stand on the springings, square to the soffit",
                    outline: between(&soffit, &upper),
                    openings: Vec::new(),
                    lower: soffit,
                    back_length: upper.length(),
                    upper,
                }
            }
            Piece::Inside { gap: None } => {
                Self::under(soffit, "inside", "its straight edge is the springing line")
            }
            Piece::Inside { gap: Some(gap) } => Self::under(
                leaf_head(input, gap)?,
                "leaf",
                "its straight edge is the leaf's own springing, which need not be level with the soffit's: mark it from \
                 the crown",
            ),
        })
    }

    /// What a line and the straight one between its ends enclose.
    fn under(upper: Path, name: &'static str, note: &'static str) -> Self {
        Self {
            name,
            note,
            lower: Path::polyline(&[upper.start(), upper.end()]),
            outline: Outline::closing(&upper.reversed()),
            openings: Vec::new(),
            back_length: 0.0,
            upper,
        }
    }

    /// The middle between the springings.
    fn centre(&self) -> f64 {
        self.lower.start().midpoint(self.lower.end()).x
    }

    fn centre_line(&self) -> Vec<Mark> {
        let under = highest_at(&self.lower, self.centre());
        under.map_or_else(Vec::new, |under| centre_line(self.centre(), under, &self.upper))
    }

    /// Every edge, to be eased on the face.
    fn arrises(&self, width: f64) -> impl Iterator<Item = Mark> + '_ {
        let edges = std::iter::once(&self.outline).chain(&self.openings);
        edges.map(move |edge| Mark {
            path: edge.opened_at(0, 0.0),
            kind: MarkKind::Chamfer { width },
        })
    }

    /// The name, to the right of the centre line and half way up.
    fn letters(&self, name: &str, clear: f64) -> Result<Option<Vec<Mark>>, Error> {
        let middle = |width: f64| {
            let x = self.centre() + BESIDE + width / 2.0;
            let (under, over) = (highest_at(&self.lower, x)?, highest_at(&self.upper, x)?);
            Some(Point::new(x, f64::midpoint(under, over)))
        };
        let middle = |width, _| middle(width).into_iter().collect();
        let wood = |p: Point| {
            let out = self
                .openings
                .iter()
                .all(|opening| opening.signed_distance(p) > clear);
            out && self.outline.signed_distance(p) < -clear
        };
        marks::name(name, middle, wood)
    }

    fn figures(&self, input: &Input) -> Vec<Figure> {
        let bounds = self.outline.bounds();
        let mut figures = vec![Figure::length("soffit length", input.soffit.length())];
        if let Piece::Ring { depth } = input.piece {
            figures.push(Figure::length("ring depth", depth));
            figures.push(Figure::length("back length", self.back_length));
        }
        if let Piece::Inside { gap: Some(gap) } = input.piece {
            figures.push(Figure::length("gap", gap));
            figures.extend(self.leaf_figures(input));
        }
        if let Some(width) = input.chamfer {
            figures.push(Figure::length("chamfer", width));
        }
        if input.fit_error > 0.0 {
            figures.push(Figure::fine("fit error", input.fit_error));
        }
        figures.push(Figure::length("pattern length", bounds.width()));
        figures.push(Figure::length("pattern height", bounds.height()));
        figures
    }

    fn leaf_figures(&self, input: &Input) -> Vec<Figure> {
        let foot = self.upper.start();
        let mut figures = Vec::new();
        if !is_closed(&input.soffit) {
            figures.push(Figure::length(
                "leaf width at its foot",
                foot.distance(self.upper.end()),
            ));
            figures.push(Figure::length(
                "foot below the springing",
                input.soffit.start().y - foot.y,
            ));
        }
        // Arcs laid along another curve are no radii to strike by.
        if input.fit_error <= 0.0 {
            let circles = self.upper.pieces().filter_map(|arc| arc.circle());
            figures.push(Figure::radii("leaf radii", circles.map(|c| c.radius).collect()));
        }
        figures
    }
}

fn highest_at(line: &Path, x: f64) -> Option<f64> {
    heights_at(line, x).into_iter().reduce(f64::max)
}

/// The back of a ring `depth` deep.
fn back(soffit: &Path, depth: f64) -> Result<Path, Error> {
    at_least("ring", depth, f64::MIN_POSITIVE)?;
    parallel_line(soffit, -depth).map_err(|LineError::TooFar { given, limit }| Error::Ring { given, limit })
}

/// Refuses a gap that leaves the tightest turn of the soffit no radius.
fn has_radius_left(input: &Input, gap: f64) -> Result<(), Error> {
    at_least("gap", gap, f64::MIN_POSITIVE)?;
    if gap < input.least_radius {
        return Ok(());
    }
    let limit = input.least_radius;
    Err(Error::Gap { given: gap, limit })
}

/// The curved top of a leaf `gap` inside soffit and jambs, between its own springings.
///
/// It is the soffit's parallel, so every radius is the soffit's own less the gap, from the same centre, and the leaf is two
/// gaps narrower than the opening. Where the soffit leans at its springings, the parallels of soffit and jambs meet below
/// them: the leaf's springing drops. (One struck anew through a narrower span with the old radius has no gap at the crown.)
fn leaf_head(input: &Input, gap: f64) -> Result<Path, Error> {
    let soffit = &input.soffit;
    has_radius_left(input, gap)?;
    // Far longer than the springings can drop.
    let opening = on_jambs(soffit, soffit.length());
    let inside = parallel_line(&opening, gap)
        .map_err(|LineError::TooFar { given, limit }| Error::Gap { given, limit })?;
    let head: Vec<_> = inside.pieces().collect();
    Ok(Path::from_pieces(&head[1..head.len() - 1]))
}

/// The piece between a soffit and its back, counter-clockwise: along the soffit and home over the back.
fn between(soffit: &Path, back: &Path) -> Outline {
    Outline::new([soffit.vertices(), back.reversed().vertices()].concat())
}

mod closed;

#[cfg(test)]
mod tests;
