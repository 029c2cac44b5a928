//! A drawing whose lines stand half of the cut's width beside the edges.

use super::{CUT, DrawingRecord, drawn, marks_of};
use crate::DRAWN;
use crate::lines::Lines;
use crate::report::{Report, spot};
use crate::strokes::{self, Does, Stroke};
use cintre_geometry::Point;
use cintre_read::{Chain, DrawingRead};
use cintre_work::Layer;
use cintre_work::design::DesignSheet;

/// How much farther than its width demands from the middle of a tab a line may leave off, mm: what tabs on a curve need; whether
/// the tab is as wide as planned is judged besides.
const AT_TAB: f64 = 0.1;

/// A drawing with the kerf taken: what a beam that wide makes of its lines.
pub(super) fn judge(
    design: &DesignSheet,
    record: &DrawingRecord,
    drawing: &DrawingRead,
    report: &mut Report,
) {
    if let Some(beam) = &design.beam {
        strokes::kerf(beam, record.kerf, report);
    }
    let mut strokes = Vec::new();
    for (on, does) in CUT
        .map(|on| (on, Does::Cut))
        .into_iter()
        .chain([(Layer::Mark, Does::Mark)])
    {
        for chain in drawn(drawing, on) {
            if does == Does::Cut
                && !chain.closed
                && !(on == Layer::Outline && between_tabs(design, chain, record.kerf))
            {
                let finding = report.refuse(format!("a line on the layer {} that is not closed", on.name()));
                finding.at = spot(chain.vertices[0].point);
            }
            strokes.extend(
                chain
                    .pieces()
                    .into_iter()
                    .map(|piece| Stroke { line: 0, piece, does }),
            );
        }
    }
    // Lettering marks too, where it is the design's; what else is written there cuts nothing.
    let wanted = Lines::new(design.parts.iter().flat_map(marks_of).map(|(_, piece)| piece));
    let text = drawn(drawing, Layer::Text).flat_map(Chain::pieces);
    strokes.extend(
        text.filter(|piece| wanted.greatest(piece).0 <= DRAWN)
            .map(|piece| Stroke {
                line: 0,
                piece,
                does: Does::Mark,
            }),
    );
    strokes::judge(design, &strokes, record.kerf, false, report);
}

/// Whether a line leaves off at planned tabs, at both its ends.
fn between_tabs(design: &DesignSheet, chain: &Chain, kerf: f64) -> bool {
    let at_tab = |p: Point| {
        design.tabs.iter().any(|tab| {
            let at = Point::new(tab.at[0], tab.at[1]);
            let half = (tab.width + kerf) / 2.0;
            at.distance(p) <= half.hypot(kerf / 2.0) + AT_TAB
        })
    };
    let ends = [chain.vertices.first(), chain.vertices.last()];
    ends.into_iter().flatten().all(|end| at_tab(end.point))
}
