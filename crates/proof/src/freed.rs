//! Parts that are cut free before they are finished.

use crate::cuts::{Cut, Run};
use crate::report::Report;
use crate::tabs::Held;
use crate::wood::{Hollow, Wood};
use crate::{LEFTOVER, ProgramRecord};
use cintre_geometry::{Outline, Path, Piece};

/// A part without tabs moves once its outline is cut through, so nothing may cut it after that.
pub(crate) fn judge(part: &Wood<'_>, runs: &[Run], thickness: f64, tabs: &[Held<'_>], report: &mut Report) {
    if !tabs.is_empty() {
        return;
    }
    let cuts: Vec<Cut> = runs.iter().flat_map(|run| run.below(-LEFTOVER)).collect();
    let through = -thickness + ProgramRecord::rounding();
    let outline: Vec<Piece> = part.outline.pieces().collect();
    let freeing = cuts
        .iter()
        .rposition(|cut| cut.lowest <= through && touches(cut, &outline, part));
    let inner: Vec<Piece> = part.holes.iter().flat_map(Outline::pieces).collect();
    let hollows = part.hollows.iter().flat_map(Hollow::walls);
    let arrises = part.arrises.iter().map(|(path, _)| path);
    let marks = part.marks.iter().chain(arrises).flat_map(Path::pieces);
    let rest: Vec<Piece> = inner.into_iter().chain(hollows).chain(marks).collect();
    let Some(freeing) = freeing else { return };
    let inside = |cut: &Cut| part.hollows.iter().any(|h| h.contains(cut.piece.start));
    let late = |cut: &&Cut| touches(cut, &rest, part) || inside(cut);
    if let Some(late) = cuts[freeing + 1..].iter().find(late) {
        let line = cuts[freeing].line;
        let what = format!(
            "{} is still cut after its outline, without a tab, is cut through in line {line}",
            part.name
        );
        let finding = report.find(thickness, what);
        finding.part = Some(part.name.to_owned());
        finding.line = Some(late.line);
        finding.at = Some([late.piece.start.x, late.piece.start.y]);
    }
}

fn touches(cut: &Cut, lines: &[Piece], part: &Wood<'_>) -> bool {
    let bounds = cut.bounds.inflate(cut.radius, cut.radius);
    let reach = cut.radius + LEFTOVER;
    bounds.overlaps(part.bounds) && lines.iter().any(|line| cut.piece.distance_to(line).0 <= reach)
}
