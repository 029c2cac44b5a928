//! Lines scribed on the face, and arrises taken off: each cut goes along its line and to its depth, and every line is cut.

use crate::DEPTH;
use crate::cuts::{Cut, Run};
use crate::lines::Lines;
use crate::report::{Report, spot};
use crate::wood::Wood;
use cintre_geometry::{Path, Piece, Point};

/// How far a scribing bit's middle may stray from its mark, mm.
const ASIDE: f64 = 0.02;

/// The lines that a sheet's router cuts on the face.
#[derive(Debug)]
pub(crate) struct Marks {
    scribed: Lines,
    /// How deep; none where it scribes none.
    depth: Option<f64>,
    /// Arrises, each with its depth.
    arrises: Vec<(Lines, f64)>,
}

impl Marks {
    pub(crate) fn new(parts: &[Wood<'_>], depth: Option<f64>) -> Self {
        let arrises = parts.iter().flat_map(|p| &p.arrises);
        Self {
            scribed: Lines::new(parts.iter().flat_map(|p| &p.marks).flat_map(Path::pieces)),
            depth,
            arrises: arrises
                .map(|(path, depth)| (Lines::new(path.pieces()), *depth))
                .collect(),
        }
    }

    /// Whether a cut is the scribing of a mark, or takes an arris off with a `pointed` bit: no deeper than its depth, and along it
    /// all the way.
    pub(crate) fn allow(&self, cut: &Cut, pointed: bool) -> bool {
        let scribes = self.depth.is_some_and(|depth| along(cut, &self.scribed, depth));
        scribes || pointed && self.arrises.iter().any(|(line, depth)| along(cut, line, *depth))
    }
}

fn along(cut: &Cut, lines: &Lines, depth: f64) -> bool {
    cut.lowest >= -depth - DEPTH && lines.greatest(&cut.piece).0 <= ASIDE
}

/// Whether every mark of the parts is scribed to its depth, all along; the worst of each part is told.
pub(crate) fn judge(parts: &[Wood<'_>], runs: &[Run], depth: f64, report: &mut Report) {
    let scribed = cut_at(runs.iter(), depth);
    for part in parts {
        let marks = part.marks.iter().flat_map(Path::pieces);
        if let Some((off, at)) = worst(marks, &scribed) {
            let what = if off.is_infinite() {
                format!(
                    "no mark is scribed on {} to its depth of {depth:.2} mm",
                    part.name
                )
            } else {
                format!(
                    "a mark of {} is scribed {off:.3} mm off, or not to its depth of {depth:.2} mm",
                    part.name
                )
            };
            tell(part, (off.min(depth), at), what, report);
        }
    }
}

/// Whether every arris that is to be is taken off by a pointed bit, all along.
pub(crate) fn arrises(parts: &[Wood<'_>], runs: &[Run], report: &mut Report) {
    for part in parts {
        for (path, depth) in &part.arrises {
            let cut = cut_at(runs.iter().filter(|run| run.taper.is_some()), *depth);
            if let Some((off, at)) = worst(path.pieces(), &cut) {
                let what = format!(
                    "an arris of {} is not taken off all along, to a depth of {depth:.2} mm",
                    part.name
                );
                tell(part, (off.min(*depth), at), what, report);
            }
        }
    }
}

/// What is cut to a depth, and no deeper.
fn cut_at<'a>(runs: impl Iterator<Item = &'a Run>, depth: f64) -> Lines {
    let deep = runs.flat_map(|run| run.below(-depth + DEPTH));
    Lines::new(
        deep.filter(|cut| cut.lowest >= -depth - DEPTH)
            .map(|cut| cut.piece),
    )
}

/// Where a line strays farthest from what is cut, if that is too far.
fn worst(lines: impl Iterator<Item = Piece>, cut: &Lines) -> Option<(f64, Point)> {
    let each = lines.map(|piece| cut.greatest(&piece));
    each.max_by(|a, b| a.0.total_cmp(&b.0))
        .filter(|(off, _)| *off > ASIDE)
}

fn tell(part: &Wood<'_>, (off, at): (f64, Point), what: String, report: &mut Report) {
    let finding = report.find(off, what);
    finding.part = Some(part.name.to_owned());
    finding.at = spot(at);
}
