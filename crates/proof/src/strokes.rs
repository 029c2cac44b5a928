//! Lines that a beam cuts and marks, whether they come from a program or from a drawing with the kerf taken: half of the beam's
//! width lies to each side of them.

use crate::cuts::{Run, Step};
use crate::leftover::{self, Tabs, Through};
use crate::marks::{self, Marks};
use crate::report::Report;
use crate::wood;
use crate::{freed, gouge, tabs};
use cintre_geometry::Piece;
use cintre_work::design::{DesignBeam, DesignSheet};

/// A line of a beam.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stroke {
    /// The line of the program, 0 for a drawing.
    pub(crate) line: usize,
    pub(crate) piece: Piece,
    pub(crate) does: Does,
}

/// What it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Does {
    /// Cuts through the sheet.
    Cut,
    /// Marks its face.
    Mark,
    /// Nothing: the beam is out.
    Travel,
}

/// How deep a mark is taken to be and how far a cut to go below the underside, mm: a beam has no depth of its own.
const SKIN: f64 = 0.1;

/// Judges what a beam of the given kerf makes of a sheet; `ordered` where its lines are cut in this order.
pub(crate) fn judge(design: &DesignSheet, strokes: &[Stroke], kerf: f64, ordered: bool, report: &mut Report) {
    let parts = match wood::parts(design) {
        Ok(parts) => parts,
        Err(what) => {
            report.refuse(what);
            return;
        }
    };
    for part in parts.iter().filter(|part| !part.hollows.is_empty()) {
        let finding = report.refuse("a beam cuts neither a recess nor a blind bore");
        finding.part = Some(part.name.to_owned());
    }
    let run = run(design, strokes, kerf);
    gouge::judge(&run, &parts, &Marks::new(&parts, Some(SKIN)), report);
    let runs = [run];
    let through = Through::below(-design.thickness, &runs);
    tabs::of_no_part(design, &parts, report);
    for part in &parts {
        let held = tabs::of(design, part, report);
        let whole = [Tabs {
            held: held.iter().collect(),
            over: None,
        }];
        leftover::judge(part, &through, &whole, report);
        for tab in &held {
            tab.judge(&runs, design.thickness, report);
            tab.judge_width(&runs, -design.thickness, report);
        }
        if ordered {
            freed::judge(part, &runs, design.thickness, &held, report);
        }
    }
    marks::judge(&parts, &runs, SKIN, report);
}

/// A file's kerf must be the design's.
pub(crate) fn kerf(beam: &DesignBeam, file: f64, report: &mut Report) {
    let planned = beam.kerf;
    if (planned - file).abs() > 1e-6 {
        report.refuse(format!(
            "its kerf is said to be {file} mm, and {planned} mm in the design"
        ));
    }
}

fn run(design: &DesignSheet, strokes: &[Stroke], kerf: f64) -> Run {
    let steps = strokes.iter().map(|stroke| {
        let z = match stroke.does {
            Does::Cut => -design.thickness - SKIN,
            Does::Mark => -SKIN,
            Does::Travel => SKIN,
        };
        Step::new(stroke.line, stroke.does == Does::Travel, stroke.piece, (z, z))
    });
    Run::upright(steps.collect(), kerf / 2.0)
}
