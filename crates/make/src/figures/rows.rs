//! Rows of a table at most 80 columns wide: a name and its value, hung sentences, columns.

use cintre_write::wrapped;

/// As wide as a terminal that nobody has widened.
const WIDTH: usize = 80;

/// Where the values begin.
const NAMES: usize = 40;

/// How far columns are set in.
const INSET: usize = 4;

/// The rows of one arch or form, under its heading.
#[derive(Debug)]
pub(super) struct Rows(pub(super) Vec<String>);

impl Rows {
    pub(super) fn under(heading: String) -> Self {
        Self(vec![heading])
    }

    /// `  name      value`, each run on under itself where it is long.
    pub(super) fn put(&mut self, name: &str, value: &str) {
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
        self.0.append(&mut labels);
        for part in values {
            let room = NAMES.saturating_sub(label.chars().count()).max(1);
            self.0.push(format!("{label}{}{part}", pad(room)));
            label.clear();
        }
    }

    /// A sentence under a dash.
    pub(super) fn note(&mut self, sentence: &str) {
        self.0.extend(hung("  - ", sentence));
    }

    /// A small table: a heading over it, and its columns evenly wide, values to the right.
    pub(super) fn columns(&mut self, title: &str, heads: &[&str], lines: &[Vec<String>]) {
        self.0.push(format!("  {title}"));
        let each = (WIDTH - INSET) / heads.len().max(3);
        let mut line = |cells: &mut dyn Iterator<Item = &str>| {
            let cells: String = cells.map(|cell| format!("{cell:>each$}")).collect();
            self.0.push(format!("{}{cells}", " ".repeat(INSET)));
        };
        line(&mut heads.iter().copied());
        for cells in lines {
            line(&mut cells.iter().map(String::as_str));
        }
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
