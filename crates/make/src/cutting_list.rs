//! `cutting-list.csv`: every part, for a spreadsheet or a saw's own list. Comma separated, as RFC 4180 has it.

use crate::Plan;
use crate::cut_files::File;
use crate::figures::{Shown, form_heading};
use cintre_forms::Form;
use cintre_work::Part;

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
    /// The cutting list: the longest and the shortest side of the box that each part fills as it is drawn.
    pub(crate) fn cutting_list(&self, shown: Shown) -> File {
        let mut text = row(&HEADS.map(str::to_owned));
        for form in &self.forms {
            for part in &form.parts {
                text += &row(&self.cells(form, part, shown));
            }
        }
        File {
            path: "cutting-list.csv".to_owned(),
            bytes: text.into_bytes(),
        }
    }

    fn cells(&self, form: &Form, part: &Part, shown: Shown) -> [String; 10] {
        let size = part.outline.bounds();
        let (long, short) = (size.width().max(size.height()), size.width().min(size.height()));
        let numbered = format!("{} ", part.name);
        let is_it = |name: &str| {
            name == part.name
                || name
                    .strip_prefix(&numbered)
                    .is_some_and(|number| number.bytes().all(|b| b.is_ascii_digit()))
        };
        let sheets = self.sheets.iter().map(|planned| &planned.sheet);
        let on: Vec<&str> = sheets
            .filter(|sheet| sheet.parts.iter().any(|placed| is_it(&placed.name)))
            .map(|sheet| sheet.id.as_str())
            .collect();
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
            on.join(" "),
        ]
    }
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
