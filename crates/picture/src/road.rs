//! The bit's road over a sheet.

use cintre_geometry::{Piece, Point};
use cintre_work::{MarkKind, Placed, Program, To};
use std::collections::BTreeSet;

/// Two places nearer than this on the sheet are one, mm.
const SAME: f64 = 1.0;

/// A way in or out leads at least this share of the bit's radius farther from an edge than a cut along it does.
const ASIDE: f64 = 0.75;

/// What a program draws over a sheet, each line once however many passes run along it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Road {
    pub(crate) cuts: Vec<Piece>,
    /// Ways to an edge and off it, through the waste.
    pub(crate) leads: Vec<Piece>,
    /// Where the bit goes down along what it cuts.
    pub(crate) ramps: Vec<Piece>,
    pub(crate) rapids: Vec<Piece>,
    /// Where the bit enters the wood, in order, each place once; but for lettering, whose order tells nothing.
    pub(crate) starts: Vec<Point>,
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    Rapid,
    Ramp,
    Cut,
}

/// The road of one program over the parts of its sheet.
pub(crate) fn road(program: &Program, parts: &[Placed]) -> Road {
    let mut road = Road::default();
    let mut seen = BTreeSet::new();
    let mut from: Option<Point> = None;
    let mut height = f64::INFINITY;
    let mut in_air = true;
    for step in &program.moves {
        let cutting = !matches!(step.to, To::Rapid);
        if let Some(start) = from {
            if cutting
                && in_air
                && !on_letters(start, parts)
                && road.starts.iter().all(|s| s.distance(start) > SAME)
            {
                road.starts.push(start);
            }
            let bulge = match step.to {
                To::Arc { bulge, .. } => bulge,
                _ => 0.0,
            };
            let piece = Piece {
                start,
                end: step.end,
                bulge,
            };
            let down = height - step.z > 1e-6;
            let drawn = if cutting && down {
                Kind::Ramp
            } else if cutting {
                Kind::Cut
            } else {
                Kind::Rapid
            };
            if start.distance(step.end) > 1e-6 && seen.insert((drawn, key(&piece))) {
                road.add(drawn, piece, (program.diameter / 2.0, parts));
            }
        }
        (in_air, height) = (!cutting, step.z);
        from = Some(step.end);
    }
    road
}

/// Whether a stroke of lettering begins or ends at a place.
fn on_letters(p: Point, parts: &[Placed]) -> bool {
    let within = |placed: &&Placed| placed.part.outline.bounds().contains(p);
    let marks = parts.iter().filter(within).flat_map(|placed| &placed.part.marks);
    let mut letters = marks.filter(|mark| mark.kind == MarkKind::Text);
    letters.any(|mark| mark.path.start().distance(p) <= SAME || mark.path.end().distance(p) <= SAME)
}

impl Road {
    fn add(&mut self, kind: Kind, piece: Piece, (radius, parts): (f64, &[Placed])) {
        let aside = kind != Kind::Rapid
            && [piece.start, piece.end]
                .iter()
                .any(|&p| in_waste(p, radius, parts));
        let lines = match kind {
            Kind::Rapid => &mut self.rapids,
            _ if aside => &mut self.leads,
            Kind::Ramp => &mut self.ramps,
            Kind::Cut => &mut self.cuts,
        };
        // A way that is gone down along is gone level, too.
        if !(aside && lines.contains(&piece)) {
            lines.push(piece);
        }
    }
}

/// Whether the middle of a bit is in the waste and farther from every edge than when it cuts along one.
fn in_waste(p: Point, radius: f64, parts: &[Placed]) -> bool {
    let least = (1.0 + ASIDE) * radius;
    parts.iter().map(|placed| &placed.part).all(|part| {
        let outline = &part.outline;
        if !outline.bounds().inflate(least, least).contains(p) {
            return true;
        }
        if !outline.contains(p) {
            return outline.nearest(p).distance >= least;
        }
        let within = part.openings.iter().find(|o| o.contains(p));
        within.is_some_and(|o| o.nearest(p).distance >= least)
    })
}

/// The same for the same line run either way.
fn key(piece: &Piece) -> ([i64; 2], [i64; 2], [i64; 2]) {
    let (a, b) = (cell(piece.start), cell(piece.end));
    let middle = cell(piece.point_at(0.5));
    (a.min(b), a.max(b), middle)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a place on a sheet is far inside the range"
)]
fn cell(p: Point) -> [i64; 2] {
    [p.x, p.y].map(|v| (v * 100.0).round() as i64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::{Outline, Rect};
    use cintre_work::{Grain, Move, Part};

    /// A board along whose lower edge a bit of 6.35 mm runs at a height of 0.
    fn board() -> Placed {
        Placed {
            name: "board".into(),
            part: Part {
                name: "board".into(),
                outline: Outline::rectangle(Rect::new(0.0, 3.175, 90.0, 80.0)),
                openings: Vec::new(),
                bores: Vec::new(),
                recesses: Vec::new(),
                marks: Vec::new(),
                clean: Vec::new(),
                stock: "ply18".into(),
                thickness: 17.6,
                grain: Grain::Free,
                count: 1,
                fit_error: 0.0,
            },
        }
    }

    #[test]
    fn passes_along_one_line_are_drawn_once_and_entered_once() {
        let step = |x: f64, y: f64, z: f64, to: To| Move {
            end: Point::new(x, y),
            z,
            to,
        };
        let feed = To::Straight { feed: 1000.0 };
        let moves = vec![
            step(0.0, 0.0, 12.0, To::Rapid),
            step(0.0, 0.0, -5.0, feed),
            step(90.0, 0.0, -5.0, feed),
            step(0.0, 0.0, -10.0, feed),
            step(0.0, 0.0, 12.0, To::Rapid),
            step(50.0, 40.0, 12.0, To::Rapid),
            step(50.0, 40.0, -10.0, feed),
            step(50.0, 40.0, 12.0, To::Rapid),
        ];
        let program = Program {
            sheet: "sheet-1".into(),
            bit: "straight-6".into(),
            diameter: 6.35,
            number: None,
            speed: 16000.0,
            moves,
        };
        let road = road(&program, &[board()]);
        assert_eq!((road.cuts.len(), road.rapids.len()), (1, 1));
        assert_eq!(road.starts, [Point::ZERO, Point::new(50.0, 40.0)]);
    }
}
