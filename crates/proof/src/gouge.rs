//! How far a bit bites into the parts.

use crate::cuts::{Cut, Run};
use crate::level::Level;
use crate::marks::Marks;
use crate::report::{Report, spot};
use crate::wood::Wood;
use crate::{DEPTH, GOUGE};
use cintre_geometry::{Piece, Point};

/// How finely the depth of a cut inside the wood is found, mm: it is out by a bit's radius already.
const INSIDE: f64 = 0.05;

/// How deep a cut bites, where, and how far below a floor it goes there: none beside one.
struct Bite {
    depth: f64,
    at: Point,
    below: Option<f64>,
    line: usize,
}

/// The worst bite that a program takes out of each part.
pub(crate) fn judge(run: &Run, parts: &[Wood<'_>], marks: &Marks, report: &mut Report) {
    let own = |cut: &Cut| !marks.allow(cut, run.taper.is_some());
    let shallow: Vec<Cut> = run.below(-GOUGE).filter(own).collect();
    for part in parts {
        let worst = part
            .levels
            .iter()
            .filter_map(|level| worst(run, &shallow, part, level))
            .max_by(|a, b| a.depth.total_cmp(&b.depth));
        let Some(Bite {
            depth,
            at,
            below,
            line,
        }) = worst
        else {
            continue;
        };
        report.gouge = report.gouge.max(depth);
        if depth > GOUGE {
            let name = part.name;
            let what = match below {
                Some(below) => format!("it cuts {below:.3} mm below a floor of {name}"),
                None => format!("it cuts {depth:.3} mm into {name}"),
            };
            let finding = report.find(depth, what);
            finding.part = Some(name.to_owned());
            finding.at = spot(at);
            finding.line = Some(line);
        }
    }
}

/// The worst bite into one level of a part.
fn worst(run: &Run, shallow: &[Cut], part: &Wood<'_>, level: &Level) -> Option<Bite> {
    let deeper: Vec<Cut>;
    let cuts = if level.over > 0.0 {
        deeper = run.below(-level.over - DEPTH).collect();
        &deeper
    } else {
        shallow
    };
    cuts.iter()
        .filter(|cut| !part.reliefs.iter().any(|relief| relief.allows(cut, level.over)))
        .filter_map(|cut| {
            let (aside, at) = bite(cut, part, level)?;
            // Below a floor it bites no deeper than down from there.
            let below = -cut.lowest - level.over;
            let down = level.over > 0.0 && below < aside;
            Some(Bite {
                depth: if down { below } else { aside },
                at,
                below: down.then_some(below),
                line: cut.line,
            })
        })
        .max_by(|a, b| a.depth.total_cmp(&b.depth))
}

/// How deep a cut bites into the wood and where, if it touches it at all.
fn bite(cut: &Cut, part: &Wood<'_>, level: &Level) -> Option<(f64, Point)> {
    let reach = cut.radius;
    if !cut.bounds.inflate(reach, reach).overlaps(part.bounds) {
        return None;
    }
    let nearest = level
        .edge
        .around(cut.bounds, reach)
        .map(|line| cut.piece.distance_to(&line.piece))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let crosses = nearest.is_some_and(|(d, _)| d < 1e-9);
    if crosses || level.contains(cut.piece.start) {
        let (inside, at) = deepest(&cut.piece, level);
        return Some((cut.radius + inside, at));
    }
    nearest.map(|(d, at)| ((cut.radius - d).max(0.0), at))
}

/// How deep inside the wood a path runs at most, and where.
fn deepest(path: &Piece, level: &Level) -> (f64, Point) {
    let depth = |p: Point| {
        let distance = level.edge.distance(p);
        if level.contains(p) { distance } else { -distance }
    };
    let mut best = (0.0, path.start);
    let mut open = vec![*path];
    while let Some(stretch) = open.pop() {
        let (middle, half) = (stretch.point_at(0.5), stretch.length() / 2.0);
        let here = depth(middle);
        if here > best.0 {
            best = (here, middle);
        }
        // The depth changes by no more than the way along the path.
        if here + half > best.0 + INSIDE.max(best.0 / 10.0) {
            open.extend([stretch.part(0.0, 0.5), stretch.part(0.5, 1.0)]);
        }
    }
    best
}
