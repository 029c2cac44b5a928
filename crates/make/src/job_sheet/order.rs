//! In which order the job is worked.

use super::html::{Html, Page, code, link, text};
use super::{CHECK, JobSheet, ORDER, TOGETHER, sheet};
use crate::PlannedSheet;
use crate::left_over;
use cintre_work::Machine;
use cintre_work::manifest::ManifestSheet;

impl JobSheet<'_> {
    pub(super) fn order(&self, page: &mut Page) {
        page.section("order", "order", ORDER, |page| {
            let mut steps = vec![
                link("Read the cautions", "read-first").then(
                    ". Hold the sizes above against the opening itself, and the stock's thickness against the stock, before anything is cut.",
                ),
            ];
            if self.has_papers() {
                steps.push(
                    text("Where a piece is sawn by hand or a pattern is tried in place: print its drawing from ")
                        .and(code("paper/"))
                        .then(" at full size, no scaling, and measure the bars on every page first."),
                );
            }
            let sheets = self.plan.sheets.iter().zip(&self.manifest.sheets);
            steps.extend(sheets.map(|(planned, sheet)| cut(planned, sheet)));
            steps.push(
                text("Part the pieces from what holds them, clean their edges, and ")
                    .and(link(&lower(CHECK), "check"))
                    .then(" with a rule. A piece that is out is not used."),
            );
            if self.plan.forms.iter().any(|form| !form.list.is_empty()) {
                let by_hand = link("Get out by hand", "cutting-list").then(" what the cutting list names besides.");
                steps.push(by_hand);
            }
            steps.push(link(TOGETHER, "together").then(": follow the notes and the pictures there."));
            if let Some(entries) = self.left_over() {
                steps.push(entries);
            }
            page.list(true, steps);
        });
    }

    fn has_papers(&self) -> bool {
        self.files.iter().any(|file| file.path.starts_with("paper/"))
    }

    /// What is worth keeping of the sheets, as the shop file would have it.
    fn left_over(&self) -> Option<Html> {
        let entries = self.plan.sheets.iter().filter_map(left_over::entry);
        let all = entries
            .map(|entry| code(&entry))
            .reduce(|a, b| a.then(" and ").and(b))?;
        Some(
            text("Keep what stays whole of the sheets, and enter it under ")
                .and(code("stock"))
                .then(" of the shop file: ")
                .and(all)
                .then("."),
        )
    }
}

/// One sheet, who cuts it and with what.
fn cut(planned: &PlannedSheet, sheet: &ManifestSheet) -> Html {
    let name = planned.machine.name();
    let id = &sheet.id;
    match &planned.machine {
        Machine::Drawing(_) => text("Give the drawing of ")
            .and(link(&sheet::title(sheet), id))
            .then(&format!(" to {name}.")),
        Machine::Laser(_) | Machine::Pen(_) => text("Run ")
            .and(link(&sheet::title(sheet), id))
            .then(&format!(" on {name}.")),
        Machine::Router(_) => {
            let bits = planned.road.iter().flat_map(|road| &road.programs);
            let bits: Vec<_> = bits.map(|program| program.bit.as_str()).collect();
            text("Cut ")
                .and(link(&sheet::title(sheet), id))
                .then(&format!(" on {name}, in this order: {}.", bits.join(", ")))
        }
    }
}

fn lower(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|c| c.to_ascii_lowercase());
    first.into_iter().chain(letters).collect()
}
