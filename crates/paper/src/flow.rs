//! Rows of figures that flow down columns.

use crate::ink::letters;
use crate::setting_out::{TEXT, rule};
use crate::windows::real;
use cintre_geometry::{Point, Rect};
use cintre_lettering::{Anchor, width, wrapped};
use cintre_work::PageStroke;

/// From one row to the next, mm.
const ROW: f64 = 4.15;
/// A row that begins something new stands so much lower, mm.
const BREAK: f64 = 2.2;
/// How far a name is set in that belongs to the row before, mm.
const INSET: f64 = 3.0;
/// Between the cells of a table, mm.
const CELLS_APART: f64 = 2.5;
/// Between a name and its value, mm.
const BETWEEN: f64 = 3.0;
/// A table of no more lines is not parted.
const TOGETHER: usize = 22;
/// The line on which a measured length is written, mm.
const TO_WRITE: f64 = 18.0;

/// A column, filled from the top.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Column {
    pub(crate) room: Rect,
}

/// One row, or rows that stay together.
#[derive(Clone, Debug)]
pub(crate) struct Item {
    rows: Vec<Line>,
    /// Whether it begins something new.
    new: bool,
}

/// Texts side by side, each with its place in the column and how it is anchored there.
#[derive(Clone, Debug)]
struct Line {
    texts: Vec<(String, f64, Anchor)>,
    /// Texts that would be wider are written smaller, mm.
    widest: f64,
    /// From where to where it has a line under it.
    ruled: Option<(f64, f64)>,
}

impl Line {
    fn of(text: impl Into<String>, at: f64, anchor: Anchor) -> Self {
        Self {
            texts: vec![(text.into(), at, anchor)],
            widest: f64::INFINITY,
            ruled: None,
        }
    }
}

impl Item {
    fn of(rows: Vec<Line>) -> Self {
        Self { rows, new: false }
    }

    /// A name and its value beside it, under one another where they are long.
    pub(crate) fn figure(name: &str, value: &str, wide: f64) -> Vec<Self> {
        let inset = if name.starts_with(' ') { INSET } else { 0.0 };
        let name = name.trim_start();
        let long = |text: &str| width(&cintre_lettering::spell(text), TEXT).unwrap_or(wide);
        let beside = wide - long(value) - BETWEEN;
        if long(name) + inset <= beside {
            let mut line = Line::of(name, inset, Anchor::Start);
            line.texts.push((value.to_owned(), wide, Anchor::End));
            line.ruled = Some((inset, wide));
            return vec![Self::of(vec![line])];
        }
        let mut rows: Vec<Line> = wrapped(name, TEXT, wide - inset)
            .into_iter()
            .map(|row| Line::of(row, inset, Anchor::Start))
            .collect();
        let values = wrapped(value, TEXT, wide - inset - INSET);
        rows.extend(values.into_iter().map(|row| Line::of(row, wide, Anchor::End)));
        if let Some(last) = rows.last_mut() {
            last.ruled = Some((inset, wide));
        }
        vec![Self::of(rows)]
    }

    /// A sentence under a dash.
    pub(crate) fn sentence(text: &str, wide: f64) -> Vec<Self> {
        let rows = wrapped(text, TEXT, wide - INSET);
        let mut rows: Vec<Line> = rows
            .into_iter()
            .map(|row| Line::of(row, INSET, Anchor::Start))
            .collect();
        if let Some(first) = rows.first_mut() {
            first.texts.push(("-".to_owned(), 0.0, Anchor::Start));
        }
        vec![Self::of(rows)]
    }

    /// A title, heads and lines, values to the right in columns evenly wide. What is not very long stays together; of what is,
    /// the title stays with the first line.
    pub(crate) fn table(title: &str, heads: &[String], lines: &[Vec<String>], wide: f64) -> Vec<Self> {
        let mut left = 0.0;
        let ends: Vec<f64> = heads
            .iter()
            .map(|_| {
                left += wide / real(heads.len());
                left
            })
            .collect();
        let line = |cells: &[String]| Line {
            texts: cells
                .iter()
                .zip(&ends)
                .map(|(cell, end)| (cell.clone(), *end, Anchor::End))
                .collect(),
            widest: wide / real(heads.len()) - CELLS_APART,
            ruled: Some((0.0, wide)),
        };
        let mut head: Vec<Line> = wrapped(title, TEXT, wide)
            .into_iter()
            .map(|row| Line::of(row, 0.0, Anchor::Start))
            .collect();
        head.push(line(heads));
        let together = if lines.len() <= TOGETHER { lines.len() } else { 1 };
        head.extend(lines.iter().take(together).map(|cells| line(cells)));
        let mut items = vec![Self {
            rows: head,
            new: true,
        }];
        items.extend(
            lines
                .iter()
                .skip(together)
                .map(|cells| Self::of(vec![line(cells)])),
        );
        items
    }

    /// Names, each with its length and a line to write on what was measured, under words of their own.
    pub(crate) fn checks(title: &str, checks: &[(String, String)], wide: f64) -> Self {
        let mut rows = vec![Line::of(title, 0.0, Anchor::Start)];
        for (name, value) in checks {
            for item in Self::figure(name, value, wide - TO_WRITE - BETWEEN) {
                rows.extend(item.rows.into_iter().map(|row| Line {
                    ruled: row.ruled.map(|_| (wide - TO_WRITE, wide)),
                    ..row
                }));
            }
        }
        Self { rows, new: true }
    }

    fn height(&self, first: bool) -> f64 {
        let before = if self.new && !first { BREAK } else { 0.0 };
        before + ROW * real(self.rows.len())
    }
}

/// Columns being filled one after another.
#[derive(Debug)]
pub(crate) struct Flow {
    columns: [Column; 2],
    filling: usize,
    /// How far the column being filled is filled, from its top.
    filled: f64,
    strokes: Vec<PageStroke>,
}

impl Flow {
    pub(crate) const fn new(columns: [Column; 2]) -> Self {
        Self {
            columns,
            filling: 0,
            filled: 0.0,
            strokes: Vec::new(),
        }
    }

    /// Puts an item where there is room; whether there was.
    pub(crate) fn put(&mut self, item: &Item) -> bool {
        while let Some(column) = self.columns.get(self.filling) {
            let room = column.room;
            let height = item.height(self.filled <= 0.0);
            // What is taller than a whole column stands in one and runs over its foot rather than nowhere.
            if self.filled + height <= room.height() || (self.filled <= 0.0 && height > room.height()) {
                let mut top = room.y1 - self.filled - height + ROW * real(item.rows.len());
                for row in &item.rows {
                    top -= ROW;
                    self.draw(row, Point::new(room.x0, top));
                }
                self.filled += height;
                return true;
            }
            self.filling += 1;
            self.filled = 0.0;
        }
        false
    }

    fn draw(&mut self, row: &Line, left: Point) {
        let foot = Point::new(left.x, left.y + 1.2);
        for (text, at, anchor) in &row.texts {
            let at = Point::new(foot.x + at, foot.y);
            self.strokes.push(letters(text, TEXT, at, *anchor, row.widest));
        }
        if let Some((from, to)) = row.ruled {
            self.strokes.push(rule(
                Point::new(left.x + from, left.y),
                Point::new(left.x + to, left.y),
            ));
        }
    }

    pub(crate) fn strokes(self) -> Vec<PageStroke> {
        self.strokes
    }
}
