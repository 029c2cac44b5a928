//! `job-sheet.html`: one page that needs nothing else, for the bench: the cautions, what is made and from what, the cutting
//! list, the order of work, every sheet with its programs, what to check, how it goes together, and the files.

mod files;
mod html;
mod machine;
mod made;
mod order;
mod sheet;
mod time;

use crate::Plan;
use crate::figures::{Shown, form_figures, form_heading, heading};
use crate::pictures::Picture;
use crate::setting_out_sheet::checks;
use cintre_forms::Form;
use cintre_paper::Row;
use cintre_work::manifest::Manifest;
use html::{Page, text};

const STYLE: &str = include_str!("style.css");

/// A file of the made folder, as the job sheet lists it.
#[derive(Clone, Debug)]
pub(crate) struct Listed {
    pub(crate) path: String,
    pub(crate) bytes: usize,
    pub(crate) sha256: String,
}

/// What the job sheet tells of.
pub(crate) struct JobSheet<'a> {
    pub(crate) plan: &'a Plan,
    /// The manifest, with the verdicts in it.
    pub(crate) manifest: &'a Manifest,
    /// Every other file of the folder.
    pub(crate) files: Vec<Listed>,
    pub(crate) shown: Shown,
}

impl JobSheet<'_> {
    /// The page.
    pub(crate) fn html(&self) -> String {
        let pictures = self.plan.pictures(self.shown);
        let mut page = Page::default();
        page.section("read-first", "caution", "Read first", |page| {
            page.list(false, self.plan.cautions.iter().map(|caution| text(caution)));
        });
        page.contents(&self.parts());
        self.made(&mut page, &pictures);
        self.cutting_list(&mut page);
        self.order(&mut page);
        for (planned, sheet) in self.plan.sheets.iter().zip(&self.manifest.sheets) {
            let picture = pictures.iter().find(|picture| picture.name == sheet.id);
            self.sheet(&mut page, planned, sheet, picture);
        }
        self.checks(&mut page);
        self.together(&mut page, &pictures);
        self.list_files(&mut page);
        page.document(&self.plan.title, STYLE)
    }

    /// What a form is called: where there are several, by its number too, as its pictures and papers are.
    fn heading(&self, number: usize, form: &Form) -> String {
        let heading = form_heading(form);
        if self.plan.forms.len() == 1 {
            return heading;
        }
        format!("form {number}, {heading}")
    }

    /// The parts of the page: their places and names.
    fn parts(&self) -> Vec<(String, String)> {
        let fixed = |(id, name): (&str, &str)| (id.to_owned(), name.to_owned());
        let before = [("made", MADE), ("cutting-list", CUTTING_LIST), ("order", ORDER)];
        let after = [("check", CHECK), ("together", TOGETHER), ("files", FILES)];
        let sheets = self.manifest.sheets.iter();
        let sheets = sheets.map(|sheet| (sheet.id.clone(), sheet::title(sheet)));
        let before = before.into_iter().map(fixed);
        before.chain(sheets).chain(after.into_iter().map(fixed)).collect()
    }

    /// What to measure on the cut pieces.
    fn checks(&self, page: &mut Page) {
        page.section("check", "check", CHECK, |page| {
            page.paragraph(&text(
                "Measure these before a piece is used, and write down what you find. Every figure stands in setting-out.pdf.",
            ));
            for arch in &self.plan.arches {
                let rows: Vec<_> = checks(arch, self.shown)
                    .iter()
                    .map(|(name, length)| vec![text(name), text(length), text("")])
                    .collect();
                page.table(&heading(arch), &["measure", "should be", "found"], &rows);
            }
        });
    }

    fn form_figures(&self, page: &mut Page, heading: &str, form: &Form) {
        let rows = form_figures(form, self.shown).into_iter();
        let rows: Vec<_> = rows
            .filter_map(|row| match row {
                Row::Figure(name, value) => Some(vec![text(name.trim()), text(&value)]),
                Row::Note(_) | Row::Table(..) => None,
            })
            .collect();
        if !rows.is_empty() {
            page.table(&format!("{heading}, its figures"), &["figure", "value"], &rows);
        }
    }

    /// Every form with its figures, its pictures and what whoever makes it should know.
    fn together(&self, page: &mut Page, pictures: &[Picture]) {
        page.section("together", "together", TOGETHER, |page| {
            for (number, form) in (1..).zip(&self.plan.forms) {
                let heading = self.heading(number, form);
                page.heading(&heading);
                page.list(false, form.notes.iter().map(|note| text(note)));
                self.form_figures(page, &heading, form);
                let own = format!("form-{number}-");
                let mut pictures: Vec<_> = pictures
                    .iter()
                    .filter(|picture| picture.name.starts_with(&own))
                    .collect();
                // How it stands comes before what it is made of.
                pictures.sort_by_key(|picture| !stands(picture));
                for picture in pictures {
                    let shows = format!("{heading}, {}", shows(picture, form.kind));
                    page.picture(&picture.name, &picture.svg, &shows);
                }
            }
        });
    }
}

const MADE: &str = "What is made, and from what";
const CUTTING_LIST: &str = "Cutting list";
const ORDER: &str = "Order of work";
const CHECK: &str = "Check the cut pieces";
const TOGETHER: &str = "How it goes together";
const FILES: &str = "Files";

/// What a picture of a form shows, after its name.
fn shows(picture: &Picture, kind: &str) -> &'static str {
    if stands(picture) {
        "as it stands"
    } else if picture.name.ends_with(kind) {
        "its parts"
    } else {
        "more of it"
    }
}

fn stands(picture: &Picture) -> bool {
    picture.name.ends_with("-assembly")
}
