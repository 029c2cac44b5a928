//! The job sheet: one page that needs nothing else, for the bench.

use crate::figures::{Shown, form_heading, item_size};
use crate::{Plan, PlannedSheet, left_over};
use cintre_forms::Form;
use cintre_work::Verdict;
use cintre_work::manifest::{CutFile, Manifest, ManifestSheet};
use std::fmt::Write as _;

const STYLE: &str = "body{font:1rem/1.45 sans-serif;max-width:56rem;margin:1rem auto;padding:0 1rem;color:#111;background:#fff}\
table{border-collapse:collapse;width:100%;display:block;overflow-x:auto}td,th{border:1px solid #777;padding:.25rem .5rem;text-align:left;\
vertical-align:top}.caution{border:2px solid #111;padding:.25rem 1rem}figure{margin:1rem 0}figure svg{width:100%;height:auto}\
code{overflow-wrap:anywhere}@media print{section{break-inside:avoid}}";

/// The job sheet of a plan whose files have been proven.
pub(crate) fn html(plan: &Plan, manifest: &Manifest, shown: Shown) -> String {
    let mut page = Page::default();
    let title = escaped(&plan.title);
    page.put(&format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n\
         <title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<h1>{title}</h1>"
    ));
    page.cautions(&plan.cautions);
    page.parts(plan, shown);
    page.put("<section>\n<h2>What it takes</h2>");
    page.list(plan.layouts.iter().map(|laid| laid.sentence(shown)));
    page.put("</section>");
    let pictures = plan.pictures(shown);
    for (planned, sheet) in plan.sheets.iter().zip(&manifest.sheets) {
        let picture = pictures
            .iter()
            .find(|picture| picture.name == sheet.id)
            .map(|picture| picture.svg.as_str());
        page.sheet(planned, sheet, picture, shown);
    }
    page.put("<p>The proof speaks of shape only. A program is still run above the work first, hand on the stop, and the person at the machine decides.</p>");
    page.put("</body>\n</html>");
    page.text
}

#[derive(Default)]
struct Page {
    text: String,
}

impl Page {
    fn put(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn list(&mut self, items: impl Iterator<Item = String>) {
        self.put("<ul>");
        for item in items {
            self.put(&format!("<li>{}</li>", escaped(&item)));
        }
        self.put("</ul>");
    }

    fn cautions(&mut self, cautions: &[String]) {
        self.put("<section class=\"caution\">\n<h2>Read first</h2>");
        self.list(cautions.iter().cloned());
        self.put("</section>");
    }

    fn parts(&mut self, plan: &Plan, shown: Shown) {
        self.put("<section>\n<h2>What is made</h2>");
        for form in &plan.forms {
            self.put(&format!("<h3>{}</h3>", escaped(&form_heading(form))));
            self.put("<table>\n<tr><th>count</th><th>part</th><th>stock</th><th>size</th></tr>");
            for part in &form.parts {
                let size = part.outline.bounds();
                let size = format!("{} × {}", shown.length(size.width()), shown.length(size.height()));
                self.row(&[
                    part.count.to_string(),
                    part.name.clone(),
                    part.stock.clone(),
                    size,
                ]);
            }
            self.put("</table>");
            self.cutting_list(form, shown);
            self.list(form.notes.iter().cloned());
        }
        self.put("</section>");
    }

    /// What a form needs besides what is cut from its stock.
    fn cutting_list(&mut self, form: &Form, shown: Shown) {
        if form.list.is_empty() {
            return;
        }
        self.put("<table>\n<tr><th>count</th><th>besides</th><th>size</th></tr>");
        for item in &form.list {
            self.row(&[item.count.to_string(), item.name.clone(), item_size(item, shown)]);
        }
        self.put("</table>");
    }

    fn row(&mut self, cells: &[String]) {
        let cells: String = cells.iter().fold(String::new(), |mut row, cell| {
            // Writing into a string does not fail.
            let _ = write!(row, "<td>{}</td>", escaped(cell));
            row
        });
        self.put(&format!("<tr>{cells}</tr>"));
    }

    fn sheet(&mut self, planned: &PlannedSheet, sheet: &ManifestSheet, picture: Option<&str>, shown: Shown) {
        let length = |mm| shown.length(mm);
        let [across, up] = sheet.size;
        self.put(&format!(
            "<section>\n<h2>{}: {}</h2>",
            escaped(&sheet.id),
            escaped(&sheet.stock)
        ));
        self.put(&format!(
            "<p>{} × {}, {:.2} mm thick as measured. Cut by {}.</p>",
            escaped(&length(across)),
            escaped(&length(up)),
            sheet.thickness,
            escaped(planned.machine.name())
        ));
        if let Some(road) = &planned.road {
            self.put(&format!("<p>{}.</p>", escaped(&times(road))));
            self.list(road.notes.iter().map(ToString::to_string));
        }
        if let Some(entry) = left_over::entry(planned) {
            self.put(&format!(
                "<p>What stays whole of it, as an entry under <code>stock</code> of the shop file: <code>{}</code></p>",
                escaped(&entry)
            ));
        }
        if let Some(svg) = picture {
            // The picture's own prologue has no place inside a page.
            let svg = svg.find("<svg").map_or(svg, |at| &svg[at..]);
            self.put(&format!(
                "<figure>\n{svg}\n<figcaption>{}</figcaption>\n</figure>",
                escaped(&sheet.id)
            ));
        }
        self.put("<table>\n<tr><th>file</th><th>bit</th><th>proof</th><th>gouge</th><th>leftover</th><th>edge left uncut</th></tr>");
        for file in &sheet.files {
            self.row(&file_row(file));
        }
        self.put("</table>");
        for file in &sheet.files {
            self.put(&format!(
                "<p>SHA-256 of {}: <code>{}</code></p>",
                escaped(&file.path),
                file.sha256
            ));
        }
        self.put("</section>");
    }
}

/// How long a sheet takes, and each bit of it where there are several.
fn times(road: &cintre_toolpath::Plan) -> String {
    let minutes = |seconds: f64| format!("{:.0} min", (seconds / 60.0).ceil());
    let whole = format!("About {} of cutting", minutes(road.seconds));
    if road.programs.len() < 2 {
        return whole;
    }
    let each = road.programs.iter().zip(&road.program_seconds);
    let each: Vec<String> = each
        .map(|(program, seconds)| format!("{} {}", program.bit, minutes(*seconds)))
        .collect();
    format!("{whole}: {}", each.join(", "))
}

fn file_row(file: &CutFile) -> [String; 6] {
    let Verdict {
        gouge,
        leftover,
        uncut_edge,
        passed,
        ..
    } = &file.proof;
    let bit = file.bit.as_ref().map_or_else(
        || "none".to_owned(),
        |bit| format!("{}, {} mm", bit.name, bit.diameter),
    );
    let verdict = if *passed { "passed" } else { "FAILED" };
    [
        file.path.clone(),
        bit,
        verdict.to_owned(),
        format!("{gouge:.4} mm"),
        format!("{leftover:.4} mm"),
        format!("{uncut_edge:.1} mm"),
    ]
}

/// Text of the user's made safe inside a page.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}
