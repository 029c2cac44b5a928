//! The wood that a template is made of: the work beside its line, as far out as base and clamps need.

use super::lines::Lines;
use super::{Edge, Input, Run, TemplateError};
use crate::Error;
use cintre_geometry::{Outline, Path, Piece, Point, Rect, parallel};

/// How wide a stop is, mm.
pub(super) const STOP: f64 = 20.0;

/// The wood that stays below a stop, mm.
const BELOW_STOP: f64 = 15.0;

/// The least that a template runs on past the work, mm.
const LEAST_RUN_ON: f64 = 30.0;

/// The narrowest band that holds together while a bush leans on it, mm.
const LEAST_BAND: f64 = 20.0;

/// Points nearer to a line than this lie on it, mm.
pub(super) const ON: f64 = 1e-6;

/// How a template lies to its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lies {
    /// Under it, with a level bottom.
    Under,
    /// Over it, with legs beside it.
    Over,
    /// Between two lines.
    Between,
    /// All of what a closed line holds.
    Within,
    /// All round a closed line.
    Round,
}

/// A template's body, and the work that it is the parallel of.
pub(super) struct Body {
    pub lies: Lies,
    /// The lines of the work, run on.
    pub lines: Vec<Path>,
    /// The same lines as far as there is work beside them.
    own: Vec<Path>,
    /// The edges of the work along which the bit runs, the wood on the left of each: of an outline the rest lies
    /// so far out that the template's own margins are left.
    pub work: Vec<Outline>,
    /// The template's outer edge.
    pub outline: Outline,
    /// And its openings.
    pub openings: Vec<Outline>,
    /// Where the work springs, on its line; none of a closed one.
    pub springings: Option<[Point; 2]>,
}

impl Body {
    pub(super) fn new(input: &Input) -> Result<Self, Error> {
        let lines = Lines::new(input, run_on(input))?;
        let lies = lies(input, &lines);
        let lines = Lines {
            each: if input.pair.is_some() {
                lines.each.iter().map(home).collect()
            } else {
                lines.each
            },
            ..lines
        };
        let first = &lines.each[0];
        let springings = (!lines.closed).then(|| springings(first, input.pair.is_some()));
        let frame = Frame::new(input, first, springings);
        let (outline, openings) = match lies {
            Lies::Under => (Some(frame.under(first)), Vec::new()),
            Lies::Over => (Some(frame.over(first)), Vec::new()),
            Lies::Within => (Some(all_round(first)), Vec::new()),
            Lies::Round => (None, vec![all_round(first).reversed()]),
            Lies::Between if lines.closed => {
                (Some(all_round(&lines.each[1])), vec![all_round(first).reversed()])
            }
            Lies::Between => (Some(between(&lines.each)), Vec::new()),
        };
        let own = Outline::rectangle(frame.box_round());
        Ok(Self {
            outline: outline.as_ref().map_or(Ok(own), |work| set_back(input, work))?,
            openings: openings
                .iter()
                .map(|work| set_back(input, work))
                .collect::<Result<_, _>>()?,
            work: outline.into_iter().chain(openings).collect(),
            own: lines
                .each
                .iter()
                .map(|line| worked(input, line, &lines))
                .collect(),
            lies,
            lines: lines.each,
            springings,
        })
    }

    /// The template's edges along which something runs, each beside the work that it is the parallel of.
    pub(super) fn edges(&self) -> impl Iterator<Item = (&Outline, &Outline)> {
        let outline = (self.lies != Lies::Round).then_some(&self.outline);
        self.work.iter().zip(outline.into_iter().chain(&self.openings))
    }

    /// The stretches of the template's edges along which bush or bearing run, over the work and on past it.
    pub(super) fn guided<'a>(
        &'a self,
        outline: &'a Outline,
        setback: f64,
    ) -> impl Iterator<Item = Path> + 'a {
        let runs = move |piece: &Piece| {
            let off = |line: &Path| line.nearest(piece.point_at(0.5)).distance;
            self.lines
                .iter()
                .any(|line| (off(line) - setback.abs()).abs() < ON)
        };
        let edges = std::iter::once(outline).chain(&self.openings);
        edges
            .flat_map(Outline::pieces)
            .filter(runs)
            .map(|piece| Path::from_pieces(&[piece]))
    }

    /// Whether a point lies on a line of the work.
    pub(super) fn on_line(&self, p: Point) -> bool {
        self.own.iter().any(|line| line.nearest(p).distance < ON)
    }

    /// Whether two pieces that meet both lie on a line of the work, and not one of them in the template's own edges.
    pub(super) fn on_work(&self, before: &Piece, after: &Piece) -> bool {
        [before, after]
            .iter()
            .all(|piece| self.on_line(piece.point_at(0.5)))
    }

    /// Every piece of the work's lines, the wood on its left.
    pub(super) fn pieces(&self) -> impl Iterator<Item = Piece> + '_ {
        let all = self.work.iter().flat_map(Outline::pieces);
        all.filter(|piece| self.on_line(piece.point_at(0.5)) && self.on_line(piece.point_at(0.25)))
    }

    /// The middle between the springings, or of what is closed.
    pub(super) fn centre(&self) -> f64 {
        match self.springings {
            Some([left, right]) => left.midpoint(right).x,
            None => self.lines[0].bounds().center().x,
        }
    }
}

/// How far a template runs on past the work: until the bit is clear of it and the bush is still held.
fn run_on(input: &Input) -> f64 {
    let clear = f64::midpoint(input.guide.diameter, input.guide.bit) + 10.0;
    let tail = if matches!(input.edge, Edge::Ring { .. }) {
        input.room.clamps
    } else {
        0.0
    };
    clear.max(LEAST_RUN_ON) + tail
}

fn lies(input: &Input, lines: &Lines) -> Lies {
    match (&input.edge, input.run, lines.closed || input.pair.is_some()) {
        (Edge::Ring { .. }, _, _) => Lies::Between,
        (_, Run::Outside, true) => Lies::Within,
        (_, Run::Inside, true) => Lies::Round,
        (_, Run::Outside, false) => Lies::Under,
        (_, Run::Inside, false) => Lies::Over,
    }
}

/// The line between its springings, closed by the straight one between them.
fn home(line: &Path) -> Path {
    let [from, to] = springings(line, false);
    if from.distance(to) < ON {
        return line.clone();
    }
    let pieces: Vec<Piece> = line.pieces().collect();
    Path::from_pieces(&pieces[1..pieces.len() - 1]).then(&Path::polyline(&[to, from]))
}

/// A line without what it runs on past the work; the sides of a leaf or a panel are work too.
fn worked(input: &Input, line: &Path, lines: &Lines) -> Path {
    let sided = matches!(input.edge, Edge::Leaf { .. } | Edge::Panel { .. });
    if sided || lines.closed || input.pair.is_some() {
        return line.clone();
    }
    let pieces: Vec<Piece> = line.pieces().collect();
    Path::from_pieces(&pieces[1..pieces.len() - 1])
}

/// Where a line springs that runs on past its springings by a piece at each end, or by one straight home.
fn springings(line: &Path, home: bool) -> [Point; 2] {
    let all = line.vertices();
    if home {
        return [all[0].point, all[all.len() - 2].point];
    }
    [all[1].point, all[all.len() - 2].point]
}

/// The template's edge along an edge of the work.
fn set_back(input: &Input, work: &Outline) -> Result<Outline, TemplateError> {
    let setback = input.guide.setback();
    let narrow = || {
        let bounds = work.bounds();
        let width = input
            .edge
            .ring()
            .unwrap_or_else(|| bounds.width().min(bounds.height()));
        TemplateError::Narrow {
            setback,
            width,
            bit: input.guide.bit,
            limit: input.guide.at_setback((width - LEAST_BAND) / 2.0),
            least: LEAST_BAND,
        }
    };
    if input
        .edge
        .ring()
        .is_some_and(|depth| depth - 2.0 * setback < LEAST_BAND)
    {
        return Err(narrow());
    }
    let mut found = parallel(work, -setback)?;
    match (found.pop(), found.is_empty()) {
        (Some(one), true) => Ok(one),
        _ => Err(narrow()),
    }
}

fn all_round(line: &Path) -> Outline {
    Outline::closing(line).oriented(true)
}

/// Along the inner line and home over the outer one.
fn between(lines: &[Path]) -> Outline {
    Outline::new([lines[0].vertices(), lines[1].reversed().vertices()].concat())
}

/// How far the outer edges of a template stand from its line.
struct Frame {
    bounds: Rect,
    /// Beside the line, with what the setback takes.
    beside: f64,
    /// Level ends on the left and on the right.
    feet: [f64; 2],
    setback: f64,
    clamps: f64,
}

impl Frame {
    fn new(input: &Input, line: &Path, springings: Option<[Point; 2]>) -> Self {
        let setback = input.guide.setback();
        let under_stop = |p: Point| p.y - STOP - BELOW_STOP - setback;
        let ends = [line.start(), line.end()];
        let feet = springings.map_or(ends.map(|end| end.y), |springings| {
            let stops = has_stops(input);
            [0, 1].map(|i| {
                if stops {
                    ends[i].y.min(under_stop(springings[i]))
                } else {
                    ends[i].y
                }
            })
        });
        Self {
            bounds: line.bounds(),
            beside: input.room.base + input.room.clamps + setback,
            feet,
            setback,
            clamps: input.room.clamps,
        }
    }

    /// What lies under a line: plumb down from its ends, as deep as base and clamps need.
    fn under(&self, line: &Path) -> Outline {
        let lowest = line.start().y.min(line.end().y);
        let high = self.bounds.y1 - lowest;
        let tail = (self.beside - high).max(self.clamps + self.setback).max(1.0);
        let bottom = (lowest - tail).min(self.feet[0]).min(self.feet[1]);
        let foot = [line.end(), line.start()].map(|end| Point::new(end.x, bottom));
        closed_by(line, &foot).oriented(true)
    }

    /// What lies over a line: legs beside it, straight edges round it.
    fn over(&self, line: &Path) -> Outline {
        let (left, right) = (self.bounds.x0 - self.beside, self.bounds.x1 + self.beside);
        let top = self.bounds.y1 + self.beside;
        let (start, end) = (line.start(), line.end());
        closed_by(
            line,
            &[
                Point::new(end.x, self.feet[1]),
                Point::new(right, self.feet[1]),
                Point::new(right, top),
                Point::new(left, top),
                Point::new(left, self.feet[0]),
                Point::new(start.x, self.feet[0]),
            ],
        )
    }

    /// A box round a closed line; it is no edge of the work, and is not set back.
    fn box_round(&self) -> Rect {
        let beside = self.beside;
        self.bounds.inflate(beside, beside)
    }
}

/// Whether the work ends at its springings, against stops.
pub(super) fn has_stops(input: &Input) -> bool {
    input.stops && input.pair.is_none() && matches!(input.edge, Edge::Soffit(_) | Edge::Back(_))
}

/// A line and straight ones home over some points, those that repeat the one before left out.
fn closed_by(line: &Path, over: &[Point]) -> Outline {
    let mut points = vec![line.end()];
    for &p in over {
        if points.iter().chain([&line.start()]).all(|q| q.distance(p) > ON) {
            points.push(p);
        }
    }
    points.push(line.start());
    Outline::closing(&line.then(&Path::polyline(&points)))
}
