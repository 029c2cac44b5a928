//! One sheet: what lies on it, how it is set up, what runs on it, and what the proof found.

use super::html::{Html, Page, code, strong, text};
use super::{JobSheet, machine, time};
use crate::PlannedSheet;
use crate::duration::minutes;
use crate::notes::of_sheet;
use crate::pictures::Picture;
use cintre_work::manifest::{CutFile, FileBit, ManifestSheet};
use cintre_work::{Machine, Trim, Verdict};

/// What stands over a sheet: `sheet-1: ply18`.
pub(super) fn title(sheet: &ManifestSheet) -> String {
    format!("{}: {}", sheet.id, sheet.stock)
}

impl JobSheet<'_> {
    pub(super) fn sheet(
        &self,
        page: &mut Page,
        planned: &PlannedSheet,
        sheet: &ManifestSheet,
        picture: Option<&Picture>,
    ) {
        page.section(&sheet.id, "sheet", &title(sheet), |page| {
            if let Some(picture) = picture {
                let count = sheet.parts.len();
                let parts = if count == 1 {
                    "part as it lies"
                } else {
                    "parts as they lie"
                };
                let shows = format!("{}: {count} {parts} on it", title(sheet));
                page.picture(&picture.name, &picture.svg, &shows);
            }
            let setup = machine::setup(planned, sheet, self.shown);
            let parts = sheet.parts.join(", ");
            let mut facts = vec![
                ("stock", vec![text(&self.stock(planned))]),
                ("parts", vec![text(&parts)]),
            ];
            facts.extend(setup);
            let notes = planned.road.iter().flat_map(|road| of_sheet(&road.notes));
            let notes: Vec<Html> = notes.map(|note| text(&note)).collect();
            if !notes.is_empty() {
                facts.push(("mind", notes));
            }
            facts.push(("proof", vec![verdict(sheet)]));
            page.facts(&facts);
            let rows: Vec<_> = sheet.files.iter().map(|file| row(planned, file)).collect();
            page.table(
                &format!("Files of {}, in the order in which they run", sheet.id),
                &["file", "with", "how", "time", "proof"],
                &rows,
            );
            page.paragraph(&text(PROOF));
        });
    }

    fn stock(&self, planned: &PlannedSheet) -> String {
        let stock = &planned.sheet.stock;
        let measured = |mm| self.shown.measured(mm);
        format!(
            "{}, {}, {} × {}, {} thick as measured, {}",
            stock.name,
            stock.material,
            measured(stock.size.0),
            measured(stock.size.1),
            measured(stock.thickness),
            trimmed(stock.trim, measured)
        )
    }
}

/// What is trimmed off which edge.
fn trimmed(trim: Trim, measured: impl Fn(f64) -> String) -> String {
    let Trim {
        left,
        right,
        bottom,
        top,
    } = trim;
    if trim == Trim::even(left) {
        return format!("{} trimmed off every edge", measured(left));
    }
    let [left, right, bottom, top] = [left, right, bottom, top].map(measured);
    format!(
        "trimmed by {left} on the left, {right} on the right, {bottom} at the bottom and {top} at the top"
    )
}

/// What a verdict is worth.
const PROOF: &str = "Gouge: the deepest bite into a part. Leftover: how far an edge stays off the cut at worst, tabs and corners \
                     out of the bit's reach apart. The proof speaks of shape only. A program is still run above the work first, \
                     hand on the stop, and the person at the machine decides.";

/// Whether all files of a sheet passed.
fn verdict(sheet: &ManifestSheet) -> Html {
    let failed = sheet.files.iter().filter(|file| !file.proof.passed).count();
    let count = sheet.files.len();
    if failed > 0 {
        return strong("FAILED").then(&format!(": {failed} of {count}; run none of them"));
    }
    let read = if count == 1 {
        "the file was read back from disk and holds".to_owned()
    } else {
        format!("all {count} files were read back from disk and hold")
    };
    strong("passed").then(&format!(": {read} to the design"))
}

/// One file: with what it runs, how, how long, and what the proof found.
fn row(planned: &PlannedSheet, file: &CutFile) -> Vec<Html> {
    let mut cells = vec![code(&file.path)];
    cells.extend(match &file.machine {
        None => [
            text("no machine"),
            text("the sheet drawn with no allowance, to hold the others against"),
            text("none"),
        ],
        Some(_) => run(planned, file),
    });
    cells.push(found(&file.proof));
    cells
}

fn run(planned: &PlannedSheet, file: &CutFile) -> [Html; 3] {
    let bits: Vec<&FileBit> = file.bit.iter().chain(&file.later_bits).collect();
    if bits.is_empty() {
        return time::without_bits(planned);
    }
    let each = bits
        .iter()
        .map(|bit| format!("{}, ⌀ {} mm", bit.name, bit.diameter));
    let ways = bits.iter().filter_map(|bit| time::feeds(planned, &bit.name));
    let times = bits.iter().map(|bit| minutes(planned.bit_seconds(&bit.name)));
    [
        text(&each.collect::<Vec<_>>().join("; then ")),
        text(&ways.collect::<Vec<_>>().join("; then ")),
        text(&times.collect::<Vec<_>>().join("; then ")),
    ]
}

fn found(proof: &Verdict) -> Html {
    let word = if proof.passed {
        text("passed")
    } else {
        strong("FAILED")
    };
    let figures = format!(": gouge {:.4} mm, leftover {:.4} mm", proof.gouge, proof.leftover);
    let uncut = if proof.uncut_edge > 0.0 {
        format!(", {:.1} mm of edge left at tabs and in corners", proof.uncut_edge)
    } else {
        String::new()
    };
    let findings = proof.findings.iter().map(|finding| format!("; {}", finding.what));
    word.then(&figures)
        .then(&uncut)
        .then(&findings.collect::<String>())
}

/// The kind of a machine.
pub(super) const fn kind(machine: &Machine) -> &'static str {
    match machine {
        Machine::Router(_) => "router",
        Machine::Laser(_) => "laser",
        Machine::Pen(_) => "pen",
        Machine::Drawing(_) => "takes a drawing",
    }
}
