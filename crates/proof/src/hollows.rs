//! Recesses and blind bores: their depth, their walls and their floor, which must be flat.

use crate::cuts::{Cut, Run};
use crate::leftover::{Edge, Through};
use crate::level::Level;
use crate::lines::Lines;
use crate::reach::{self, CORNER_SLACK};
use crate::report::Report;
use crate::wood::{Hollow, Wood};
use crate::{DEPTH, LEFTOVER};
use cintre_geometry::{Piece, Point};
use std::f64::consts::SQRT_2;

/// Patches of floor smaller than this are not looked into further, mm.
const PATCH: f64 = 0.05;
/// Nearer to a wall than this a floor is told from the wall itself, which is walked along: a bit that touches the wall has
/// taken the floor before it, mm.
const AT_WALL: f64 = 0.25;
/// In a corner out of the bit's reach patches of this size are small enough: its walls are walked along, mm.
const IN_CORNER: f64 = 0.2;

/// Whether every hollow of a part comes out to its depth and its width.
pub(crate) fn judge(part: &Wood<'_>, runs: &[Run], report: &mut Report) {
    for hollow in &part.hollows {
        let cuts = at_floor(hollow, runs);
        let word = hollow.word;
        let depth = hollow.depth;
        let wrong = if cuts.is_empty() {
            Some((
                depth,
                format!("a {word} is not cut to its depth of {depth:.2} mm"),
                hollow.middle(),
            ))
        } else {
            let swept = Through::of(cuts.iter().map(|(cut, drill)| (cut.piece, cut.radius, *drill)));
            walls(part, hollow, &swept, report)
                .or_else(|| floor(part, hollow, &swept))
                .map(|(left, at)| {
                    let what = format!("{left:.2} mm of a {word}'s floor or wall is left standing");
                    (left, what, Some([at.x, at.y]))
                })
        };
        if let Some((size, what, at)) = wrong {
            let finding = report.find(size.min(1e9), what);
            finding.part = Some(part.name.to_owned());
            finding.at = at;
        }
    }
}

/// What of the programs comes down to a hollow's floor near it, and whether it tells which corners a bit can reach: a drill
/// does not, nor a cut that only passes by.
fn at_floor(hollow: &Hollow, runs: &[Run]) -> Vec<(Cut, bool)> {
    let mut found = Vec::new();
    for run in runs.iter().filter(|run| run.taper.is_none()) {
        let down = run.near(hollow.bounds, -hollow.depth + DEPTH);
        let near = down.filter(|cut| touches(cut, hollow));
        found.extend(near.map(|c| (c, run.drill || !hollow.contains(c.piece.point_at(0.5)))));
    }
    found
}

fn touches(cut: &Cut, hollow: &Hollow) -> bool {
    let mut walls = hollow.walls();
    hollow.contains(cut.piece.start) || walls.any(|wall| cut.piece.distance_to(&wall).0 <= cut.radius)
}

/// How much is left at worst at the walls that stand on its floor, if it is too much.
fn walls(part: &Wood<'_>, hollow: &Hollow, swept: &Through, report: &mut Report) -> Option<(f64, Point)> {
    let level = part.above(hollow);
    let mut edge = Edge::new(level, swept);
    let own = |p: &Piece| {
        let middle = p.point_at(0.5);
        hollow.walls().any(|wall| wall.nearest(middle).distance < 1e-6)
    };
    for wall in level.edge.all().filter(|wall| own(wall)) {
        edge.walk(wall);
    }
    report.uncut_edge += edge.uncut;
    (edge.worst > LEFTOVER).then_some((edge.worst, edge.at))
}

/// How far a point of the floor stays from what was cut, if any stays too far.
fn floor(part: &Wood<'_>, hollow: &Hollow, swept: &Through) -> Option<(f64, Point)> {
    let floor = Floor {
        hollow,
        rim: Lines::new(hollow.walls()),
        above: part.above(hollow),
        whole: part.whole(),
        swept,
    };
    let b = hollow.bounds;
    let mut open = vec![(b.center(), b.width().max(b.height()) / 2.0)];
    while let Some((middle, half)) = open.pop() {
        match floor.patch(middle, half) {
            Patch::Done => {}
            Patch::Left(left) => return Some((left, middle)),
            Patch::Open => {
                let quarter = half / 2.0;
                for (x, y) in [(-1.0, -1.0), (1.0, -1.0), (-1.0, 1.0), (1.0, 1.0)] {
                    open.push(((middle.x + x * quarter, middle.y + y * quarter).into(), quarter));
                }
            }
        }
    }
    None
}

/// The floor of a hollow: what of it lies in the part, in none of its holes and under no wood.
struct Floor<'a> {
    hollow: &'a Hollow,
    rim: Lines,
    above: &'a Level,
    whole: &'a Level,
    swept: &'a Through,
}

/// What is known of a square patch.
enum Patch {
    Done,
    Open,
    Left(f64),
}

impl Floor<'_> {
    fn patch(&self, middle: Point, half: f64) -> Patch {
        let diagonal = half * SQRT_2;
        let left = self.swept.left(middle);
        if left + diagonal <= LEFTOVER {
            return Patch::Done;
        }
        let to_wall = self.above.edge.distance(middle);
        let within =
            self.hollow.contains(middle) && self.whole.contains(middle) && !self.above.contains(middle);
        let aside = !within
            && self
                .rim
                .distance(middle)
                .min(to_wall)
                .min(self.whole.edge.distance(middle))
                > diagonal;
        if aside || to_wall + diagonal <= AT_WALL {
            return Patch::Done;
        }
        if within && left > LEFTOVER && to_wall > AT_WALL {
            let least = self
                .swept
                .smallest
                .and_then(|r| reach::least_leftover(self.above, middle, r))
                .unwrap_or(0.0);
            if left - least > LEFTOVER + CORNER_SLACK {
                return Patch::Left(left - least);
            }
            if least > LEFTOVER && half <= IN_CORNER {
                return Patch::Done;
            }
        }
        if half > PATCH { Patch::Open } else { Patch::Done }
    }
}
