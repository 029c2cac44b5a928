//! How far a bit bites into the parts.

use crate::cuts::{Cut, Run};
use crate::lines::Lines;
use crate::report::{Report, spot};
use crate::wood::Wood;
use crate::{DEPTH, GOUGE, distance};
use cintre_geometry::{Piece, Point};

/// Deeper than this a line scribed on the face is a groove in the part, mm.
const MARK_DEPTH: f64 = 2.0;
/// How far a scribing bit may stray from its mark, mm.
const MARK_ASIDE: f64 = 0.02;
/// How finely the depth of a cut inside the wood is found, mm: it is out by a bit's radius already.
const INSIDE: f64 = 0.05;

/// The worst bite that a program takes out of each part.
pub(crate) fn judge(run: &Run<'_>, parts: &[Wood<'_>], marks: &Lines, report: &mut Report) {
    let cuts: Vec<Cut> = run.below(-GOUGE).filter(|cut| !is_mark(cut, marks)).collect();
    for part in parts {
        let worst = cuts
            .iter()
            .filter_map(|cut| bite(cut, part).map(|(depth, at)| (depth, at, cut.line)))
            .max_by(|a, b| a.0.total_cmp(&b.0));
        let Some((depth, at, line)) = worst else { continue };
        report.gouge = report.gouge.max(depth);
        if depth > GOUGE {
            let name = part.name;
            let finding = report.find(depth, format!("it cuts {depth:.3} mm into {name}"));
            finding.part = Some(name.to_owned());
            finding.at = spot(at);
            finding.line = Some(line);
        }
    }
}

/// Whether a cut is the scribing of a mark: shallow, and along it all the way.
fn is_mark(cut: &Cut, marks: &Lines) -> bool {
    cut.lowest >= -MARK_DEPTH - DEPTH && marks.greatest(&cut.piece).0 <= MARK_ASIDE
}

/// How deep a cut bites into a part and where, if it touches it at all.
fn bite(cut: &Cut, part: &Wood<'_>) -> Option<(f64, Point)> {
    let reach = cut.radius;
    if !cut.bounds.inflate(reach, reach).overlaps(part.bounds) {
        return None;
    }
    if let Some(bite) = bite_in_bore(cut, part) {
        return Some(bite);
    }
    let nearest = part
        .edge
        .around(cut.bounds, reach)
        .map(|line| distance::between(&cut.piece, &line.piece))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let crosses = nearest.is_some_and(|(d, _)| d < 1e-9);
    if crosses || part.contains(cut.piece.start) {
        let (inside, at) = deepest(&cut.piece, part);
        return Some((cut.radius + inside, at));
    }
    nearest.map(|(d, at)| ((cut.radius - d).max(0.0), at))
}

/// A cut inside a blind bore, down to its depth, bites only by what it takes beyond the wall.
fn bite_in_bore(cut: &Cut, part: &Wood<'_>) -> Option<(f64, Point)> {
    part.blind.iter().find_map(|bore| {
        let centre = Point::new(bore.centre[0], bore.centre[1]);
        let far = distance::range_from(&cut.piece, centre).1;
        let beyond = far + cut.radius - bore.diameter / 2.0;
        let shallow = cut.lowest >= -bore.depth? - DEPTH;
        (shallow && beyond < cut.radius).then(|| (beyond.max(0.0), cut.piece.start))
    })
}

/// How deep inside the wood a path runs at most, and where.
fn deepest(path: &Piece, part: &Wood<'_>) -> (f64, Point) {
    let depth = |p: Point| {
        let distance = part.edge.distance(p);
        if part.contains(p) { distance } else { -distance }
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
