//! Parts that are cut free before they are finished.

use crate::cuts::{Cut, Run};
use crate::report::Report;
use crate::tabs::Held;
use crate::wood::Wood;
use crate::{LEFTOVER, ProgramRecord, distance};
use cintre_geometry::{Outline, Path, Piece, Point};

/// A part without tabs moves once its outline is cut through, so nothing may cut it after that.
pub(crate) fn judge(
    part: &Wood<'_>,
    runs: &[Run<'_>],
    thickness: f64,
    tabs: &[Held<'_>],
    report: &mut Report,
) {
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
    let blind = part.blind.iter().map(|b| {
        let centre = Point::new(b.centre[0], b.centre[1]);
        Piece::line(centre, centre)
    });
    let marks = part.marks.iter().flat_map(Path::pieces);
    let rest: Vec<Piece> = inner.into_iter().chain(blind).chain(marks).collect();
    let Some(freeing) = freeing else { return };
    if let Some(late) = cuts[freeing + 1..].iter().find(|cut| touches(cut, &rest, part)) {
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
    bounds.overlaps(part.bounds)
        && lines
            .iter()
            .any(|line| distance::between(&cut.piece, line).0 <= reach)
}
