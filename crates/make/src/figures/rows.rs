//! Rows of a table at most 80 columns wide: a name and its value, hung sentences, columns.

use cintre_paper::Row;
use cintre_write::wrapped;

/// As wide as a terminal that nobody has widened.
const WIDTH: usize = 80;

/// Where the values begin.
const NAMES: usize = 40;

/// How far columns are set in.
const INSET: usize = 4;

/// The rows of one arch or form, under its heading.
#[derive(Debug)]
pub(crate) struct Rows {
    pub(crate) heading: String,
    pub(crate) rows: Vec<Row>,
}

impl Rows {
    pub(super) const fn under(heading: String) -> Self {
        Self {
            heading,
            rows: Vec::new(),
        }
    }

    /// A name and its value; a name set in by two spaces belongs to the row before.
    pub(super) fn put(&mut self, name: &str, value: &str) {
        self.rows.push(Row::Figure(name.to_owned(), value.to_owned()));
    }

    /// A sentence.
    pub(super) fn note(&mut self, sentence: &str) {
        self.rows.push(Row::Note(sentence.to_owned()));
    }

    /// A small table: a heading over it, and its columns evenly wide, values to the right.
    pub(super) fn columns(&mut self, title: &str, heads: &[&str], lines: &[Vec<String>]) {
        let heads = heads.iter().map(|&head| head.to_owned()).collect();
        self.rows
            .push(Row::Table(title.to_owned(), heads, lines.to_vec()));
    }

    /// The lines of text, heading first.
    pub(super) fn lines(&self) -> Vec<String> {
        let mut lines = vec![self.heading.clone()];
        for row in &self.rows {
            match row {
                Row::Figure(name, value) => figure(&mut lines, name, value),
                Row::Note(sentence) => lines.extend(hung("  - ", sentence)),
                Row::Table(title, heads, cells) => table(&mut lines, title, heads, cells),
            }
        }
        lines
    }
}

/// `  name      value`, each run on under itself where it is long.
fn figure(lines: &mut Vec<String>, name: &str, value: &str) {
    let inset = name.len() - name.trim_start().len() + 2;
    let pad = |n: usize| " ".repeat(n);
    let mut labels: Vec<String> = wrapped(name.trim_start(), NAMES - 1 - inset)
        .iter()
        .enumerate()
        .map(|(i, line)| format!("{}{line}", pad(if i == 0 { inset } else { inset + 2 })))
        .collect();
    let values = wrapped(value, WIDTH - NAMES);
    // The value begins beside the last line of its name.
    let mut label = labels.pop().unwrap_or_default();
    lines.append(&mut labels);
    for part in values {
        let room = NAMES.saturating_sub(label.chars().count()).max(1);
        lines.push(format!("{label}{}{part}", pad(room)));
        label.clear();
    }
}

fn table(lines: &mut Vec<String>, title: &str, heads: &[String], cells: &[Vec<String>]) {
    lines.push(format!("  {title}"));
    let each = (WIDTH - INSET) / heads.len().max(3);
    for row in std::iter::once(heads).chain(cells.iter().map(Vec::as_slice)) {
        let row: String = row.iter().map(|cell| format!("{cell:>each$}")).collect();
        lines.push(format!("{}{row}", " ".repeat(INSET)));
    }
}

/// A sentence with a mark before its first line and room before the others.
pub(super) fn hung(mark: &str, sentence: &str) -> Vec<String> {
    let room = mark.chars().count();
    wrapped(sentence, WIDTH - room)
        .iter()
        .enumerate()
        .map(|(i, line)| {
            if i == 0 {
                format!("{mark}{line}")
            } else {
                format!("{}{line}", " ".repeat(room))
            }
        })
        .collect()
}
