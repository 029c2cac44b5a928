//! `cutting-list.csv`: every part, for a spreadsheet or a saw's own list. Comma separated, as RFC 4180 has it.

use crate::Plan;
use crate::blame::is_copy;
use crate::cut_files::File;
use crate::figures::{Shown, form_heading};
use cintre_forms::{Form, Item};
use cintre_work::Part;

/// The file's name.
pub(crate) const FILE: &str = "cutting-list.csv";

const HEADS: [&str; 10] = [
    "part",
    "count",
    "stock",
    "thickness mm",
    "length mm",
    "width mm",
    "length as read",
    "width as read",
    "form",
    "sheets",
];

impl Plan {
    /// The cutting list: the longest and the shortest side of the box that each part fills as it is drawn; and after the
    /// parts of a form what is got out by hand for it, which names no stock and no sheet.
    pub(crate) fn cutting_list(&self, shown: Shown) -> File {
        let mut text = row(&HEADS.map(str::to_owned));
        for form in &self.forms {
            for part in &form.parts {
                text += &row(&self.cells(form, part, shown));
            }
            for item in &form.list {
                text += &row(&by_hand(form, item, shown));
            }
        }
        File {
            path: FILE.to_owned(),
            bytes: text.into_bytes(),
        }
    }

    fn cells(&self, form: &Form, part: &Part, shown: Shown) -> [String; 10] {
        let size = part.outline.bounds();
        let (long, short) = (size.width().max(size.height()), size.width().min(size.height()));
        [
            part.name.clone(),
            part.count.to_string(),
            part.stock.clone(),
            format!("{:.2}", part.thickness),
            format!("{long:.1}"),
            format!("{short:.1}"),
            shown.mark(long),
            shown.mark(short),
            form_heading(form),
            sheets_with(self, part).join(" "),
        ]
    }
}

fn by_hand(form: &Form, item: &Item, shown: Shown) -> [String; 10] {
    let tenths = |mm: f64| format!("{mm:.1}");
    let section = |side: Option<f64>, write: &dyn Fn(f64) -> String| side.map(write).unwrap_or_default();
    let (width, thickness) = item.section.unzip();
    [
        item.name.clone(),
        item.count.to_string(),
        String::new(),
        section(thickness, &|mm| format!("{mm:.2}")),
        tenths(item.length),
        section(width, &tenths),
        shown.mark(item.length),
        section(width, &|mm| shown.mark(mm)),
        form_heading(form),
        String::new(),
    ]
}

/// The sheets that a part lies on.
pub(crate) fn sheets_with<'p>(plan: &'p Plan, part: &Part) -> Vec<&'p str> {
    let sheets = plan.sheets.iter().map(|planned| &planned.sheet);
    sheets
        .filter(|sheet| sheet.parts.iter().any(|placed| is_copy(&placed.name, &part.name)))
        .map(|sheet| sheet.id.as_str())
        .collect()
}

fn row(cells: &[String]) -> String {
    let cells: Vec<String> = cells.iter().map(|text| cell(text)).collect();
    cells.join(",") + "\r\n"
}

/// A cell; one that a spreadsheet could take for a formula is told to be text.
fn cell(text: &str) -> String {
    let text = if text.starts_with(['=', '+', '-', '@']) {
        format!("'{text}")
    } else {
        text.to_owned()
    };
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_stays_one_cell_of_text() {
        assert_eq!(cell("40 5/8\""), "\"40 5/8\"\"\"");
        assert_eq!(cell("gate rib, form 2"), "\"gate rib, form 2\"");
        assert_eq!(cell("=1+1"), "'=1+1");
        assert_eq!(row(&["a".into(), "b".into()]), "a,b\r\n");
    }
}
