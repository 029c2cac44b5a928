//! What is made, from which stock, of how many pieces.

use super::html::{Html, Page, code, text};
use super::{CUTTING_LIST, JobSheet, MADE};
use crate::cutting_list::sheets_with;
use crate::figures::{heading, item_size};
use crate::pictures::{Picture, arch_picture};
use cintre_forms::Form;
use cintre_work::{Sheet, Stock};

impl JobSheet<'_> {
    pub(super) fn made(&self, page: &mut Page, pictures: &[Picture]) {
        page.section("made", "made", MADE, |page| {
            page.facts(&[
                (
                    "made",
                    (1..)
                        .zip(&self.plan.forms)
                        .map(|(n, form)| self.form(n, form))
                        .collect(),
                ),
                ("from", self.stocks().iter().map(|of| self.from(of)).collect()),
                (
                    "lengths",
                    vec![text(&format!(
                        "read on a rule of {}; what is left over follows",
                        self.shown.rule
                    ))],
                ),
            ]);
            for arch in &self.plan.arches {
                page.heading(&heading(arch));
                page.facts(&[
                    ("span", vec![text(&self.shown.length(arch.arch.span))]),
                    ("rise", vec![text(&self.shown.length(arch.arch.rise))]),
                ]);
                page.list(false, arch.arch.notes.iter().map(|note| text(note)));
                let own = arch_picture(&arch.name);
                for picture in pictures.iter().filter(|picture| picture.name == own) {
                    page.picture(&own, &picture.svg, &format!("{}, set out", heading(arch)));
                }
            }
        });
    }

    pub(super) fn cutting_list(&self, page: &mut Page) {
        page.section("cutting-list", "list", CUTTING_LIST, |page| {
            page.paragraph(
                &text("The same as a table for a spreadsheet: ")
                    .and(code(crate::cutting_list::FILE))
                    .then("."),
            );
            for (number, form) in (1..).zip(&self.plan.forms) {
                let heading = self.heading(number, form);
                let rows: Vec<_> = form.parts.iter().map(|part| self.part_row(part)).collect();
                page.table(
                    &format!("{heading}, cut from sheets"),
                    &["part", "count", "size", "stock", "on"],
                    &rows,
                );
                if !form.list.is_empty() {
                    let row = |item| self.item_row(item);
                    let rows: Vec<_> = form.list.iter().map(row).collect();
                    page.table(
                        &format!("{heading}, got out by hand"),
                        &["piece", "count", "size"],
                        &rows,
                    );
                }
            }
        });
    }

    fn part_row(&self, part: &cintre_work::Part) -> Vec<Html> {
        let size = part.outline.bounds();
        let length = |mm| self.shown.length(mm);
        vec![
            text(&part.name),
            text(&part.count.to_string()),
            text(&format!("{} × {}", length(size.width()), length(size.height()))),
            text(&format!(
                "{}, {} thick",
                part.stock,
                self.shown.measured(part.thickness)
            )),
            text(&sheets_with(self.plan, part).join(", ")),
        ]
    }

    fn item_row(&self, item: &cintre_forms::Item) -> Vec<Html> {
        let count = item.count.to_string();
        vec![text(&item.name), text(&count), text(&item_size(item, self.shown))]
    }

    /// Every kind of sheet that is used, and how many of it.
    fn stocks(&self) -> Vec<(&Stock, usize)> {
        let mut stocks: Vec<(&Stock, usize)> = Vec::new();
        for Sheet { stock, .. } in self.plan.sheets.iter().map(|planned| &planned.sheet) {
            match stocks.iter_mut().find(|(known, _)| known.name == stock.name) {
                Some((_, count)) => *count += 1,
                None => stocks.push((stock, 1)),
            }
        }
        stocks
    }

    fn from(&self, &(stock, count): &(&Stock, usize)) -> Html {
        let measured = |mm| self.shown.measured(mm);
        let sheets = if count == 1 { "sheet" } else { "sheets" };
        text(&format!(
            "{count} {sheets} of {} ({}), {} × {}, {} thick: measure yours, for the job counts with that thickness",
            stock.name,
            stock.material,
            measured(stock.size.0),
            measured(stock.size.1),
            measured(stock.thickness)
        ))
    }

    /// A form and how many pieces it is of.
    fn form(&self, number: usize, form: &Form) -> Html {
        let parts: usize = form.parts.iter().map(|part| part.count).sum();
        let besides: usize = form.list.iter().map(|item| item.count).sum();
        let pieces = |count: usize| if count == 1 { "piece" } else { "pieces" };
        let cut = format!(
            "{}: {parts} {} cut from sheets",
            self.heading(number, form),
            pieces(parts)
        );
        if besides == 0 {
            return text(&cut);
        }
        text(&format!("{cut}, {besides} {} got out by hand", pieces(besides)))
    }
}
