//! Lines scribed on the face: each goes along its mark and to its depth, and every mark is scribed.

use crate::DEPTH;
use crate::cuts::{Cut, Run};
use crate::lines::Lines;
use crate::report::{Report, spot};
use crate::wood::Wood;
use cintre_geometry::{Path, Piece};

/// How far a scribing bit's middle may stray from its mark, mm.
const ASIDE: f64 = 0.02;

/// The marks that a sheet's router scribes.
#[derive(Debug)]
pub(crate) struct Marks {
    lines: Lines,
    /// How deep; none where it scribes none.
    depth: Option<f64>,
}

impl Marks {
    pub(crate) fn new(parts: &[Wood<'_>], depth: Option<f64>) -> Self {
        let lines = Lines::new(parts.iter().flat_map(|p| &p.marks).flat_map(Path::pieces));
        Self { lines, depth }
    }

    /// Whether a cut is the scribing of a mark: no deeper than its depth, and along it all the way.
    pub(crate) fn allow(&self, cut: &Cut) -> bool {
        let shallow = self.depth.is_some_and(|depth| cut.lowest >= -depth - DEPTH);
        shallow && self.lines.greatest(&cut.piece).0 <= ASIDE
    }
}

/// Whether every mark of the parts is scribed to its depth, all along; the worst of each part is told.
pub(crate) fn judge(parts: &[Wood<'_>], runs: &[Run], depth: f64, report: &mut Report) {
    let deep = runs.iter().flat_map(|run| run.below(-depth + DEPTH));
    let right = deep.filter(|cut| cut.lowest >= -depth - DEPTH);
    let scribed = Lines::new(right.map(|cut| cut.piece));
    for part in parts {
        let each = part
            .marks
            .iter()
            .flat_map(Path::pieces)
            .map(|m: Piece| scribed.greatest(&m));
        let Some((off, at)) = each.max_by(|a, b| a.0.total_cmp(&b.0)) else {
            continue;
        };
        if off > ASIDE {
            let name = part.name;
            let what = if off.is_infinite() {
                format!("no mark is scribed on {name} to its depth of {depth:.2} mm")
            } else {
                format!("a mark of {name} is scribed {off:.3} mm off, or not to its depth of {depth:.2} mm")
            };
            let finding = report.find(off.min(depth), what);
            finding.part = Some(name.to_owned());
            finding.at = spot(at);
        }
    }
}
