//! The setting-out sheet: the cautions, then one arch a page: its drawing, its figures, and what to check on the cut piece.
//!
//! A page is no wider than A4 and no taller than Letter, so that it prints on both without scaling.

use crate::flow::{Column, Flow, Item};
use crate::ink::{FINE, FRAME, full, letters, line};
use cintre_geometry::{Affine, Path, Point, Rect};
use cintre_lettering::{Anchor, wrapped};
use cintre_work::{Document, Ink, Page, PageStroke};

/// The width of A4 and the height of Letter, mm.
pub const PAGE: (f64, f64) = (210.0, 279.4);
/// Kept clear along every edge, mm.
const MARGIN: f64 = 12.0;
/// The paper that a drawing has, mm: its width, and the most that its lines stand high.
pub const DRAWING: (f64, f64) = (PAGE.0 - 2.0 * MARGIN, 84.0);
/// Between the columns of figures, mm.
const GAP: f64 = 8.0;
const TITLE: f64 = 3.2;
const HEADING: f64 = 4.6;
/// Figures and sentences: read at arm's length, mm.
pub(crate) const TEXT: f64 = 2.3;
const CAUTION: f64 = 2.8;
/// The line at the foot of each page, mm.
const FOOT: f64 = 2.0;

/// Everything on the sheet.
#[derive(Clone, Debug)]
pub struct SettingOut {
    /// The job's title.
    pub title: String,
    /// The cautions of the job.
    pub cautions: Vec<String>,
    /// Plain sentences that hold for every figure: the rule they are read on.
    pub notes: Vec<String>,
    /// The arches, a page each.
    pub arches: Vec<ArchSheet>,
}

/// One arch.
#[derive(Clone, Debug)]
pub struct ArchSheet {
    /// Its name and kind: `gate: segmental arch`.
    pub heading: String,
    /// Its drawing, mm of paper from its lower left corner, y up, [`DRAWING`] wide.
    pub drawing: Vec<PageStroke>,
    /// How high the drawing stands, mm of paper.
    pub height: f64,
    /// To what scale it is drawn: `1 : 10`.
    pub scale: String,
    /// Its figures, in the order to read them.
    pub rows: Vec<Row>,
    /// What to measure on the cut piece: names and lengths.
    pub checks: Vec<(String, String)>,
}

/// A row of the figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Row {
    /// A name and its value; a name set in by two spaces belongs to the row before.
    Figure(String, String),
    /// A sentence.
    Note(String),
    /// A small table: a title, the heads of its columns, its lines.
    Table(String, Vec<String>, Vec<Vec<String>>),
}

/// The pages of the sheet.
pub fn setting_out(sheet: &SettingOut) -> Document {
    let mut pages = vec![first_page(sheet)];
    for arch in &sheet.arches {
        pages.extend(arch_pages(sheet, arch));
    }
    let count = pages.len();
    for (i, strokes) in pages.iter_mut().enumerate() {
        let foot = Point::new(PAGE.0 - MARGIN, MARGIN);
        let number = format!("page {} of {count}", i + 1);
        strokes.push(letters(&number, FOOT, foot, Anchor::End, 40.0));
        let words =
            "Work from the figures; measure nothing off the drawing. Cautions on page 1: read them first.";
        let left = Point::new(MARGIN, MARGIN);
        strokes.push(letters(
            words,
            FOOT,
            left,
            Anchor::Start,
            PAGE.0 - 2.0 * MARGIN - 45.0,
        ));
    }
    Document {
        title: format!("{}: setting out", sheet.title),
        notes: [sheet.cautions.as_slice(), &sheet.notes].concat(),
        pages: pages
            .into_iter()
            .map(|strokes| Page {
                size: PAGE,
                stretch: (1.0, 1.0),
                strokes,
            })
            .collect(),
    }
}

/// The room between the margins, over the line at the foot.
const fn room() -> Rect {
    Rect::new(MARGIN, MARGIN + 3.0 * FOOT, PAGE.0 - MARGIN, PAGE.1 - MARGIN)
}

fn first_page(sheet: &SettingOut) -> Vec<PageStroke> {
    let room = room();
    let mut strokes = Vec::new();
    let mut top = room.y1;
    let mut put = |text: &str, height: f64, after: f64| {
        for row in wrapped(text, height, room.width()) {
            top -= 1.25 * height;
            strokes.push(letters(
                &row,
                height,
                Point::new(room.x0, top),
                Anchor::Start,
                room.width(),
            ));
            top -= 0.7 * height;
        }
        top -= after;
    };
    put(&sheet.title, HEADING, 1.0);
    put("setting out", HEADING, 4.0);
    put("Read first", TITLE, 1.5);
    for caution in &sheet.cautions {
        put(caution, CAUTION, 1.8);
    }
    put("On the figures", TITLE, 1.5);
    for note in &sheet.notes {
        put(note, CAUTION, 1.8);
    }
    strokes
}

fn arch_pages(sheet: &SettingOut, arch: &ArchSheet) -> Vec<Vec<PageStroke>> {
    let room = room();
    let mut strokes = head(sheet, &arch.heading);
    let under = room.y1 - HEAD - arch.height;
    let put = Affine::translate((room.x0, under));
    strokes.extend(arch.drawing.iter().map(|stroke| PageStroke {
        lines: stroke.lines.iter().map(|l| l.transformed(put)).collect(),
        ..stroke.clone()
    }));
    let scale = format!("drawn {}", arch.scale);
    let at = Point::new(room.x1, room.y1 - TITLE);
    strokes.push(letters(&scale, TEXT, at, Anchor::End, 60.0));
    let mut pages = vec![strokes];
    let wide = (room.width() - GAP) / 2.0;
    let columns = |top: f64| {
        [room.x0, room.x0 + wide + GAP].map(|left| Column {
            room: Rect::new(left, room.y0, left + wide, top),
        })
    };
    let items = items(arch, wide);
    let mut flow = Flow::new(columns(under - 4.0));
    for item in items {
        if !flow.put(&item) {
            if let Some(page) = pages.last_mut() {
                page.extend(flow.strokes());
            }
            pages.push(head(sheet, &format!("{}, continued", arch.heading)));
            flow = Flow::new(columns(room.y1 - HEAD));
            flow.put(&item);
        }
    }
    if let Some(page) = pages.last_mut() {
        page.extend(flow.strokes());
    }
    pages
}

/// The height of the head of a page, mm.
const HEAD: f64 = 16.0;

fn head(sheet: &SettingOut, heading: &str) -> Vec<PageStroke> {
    let room = room();
    let rule = line(
        Point::new(room.x0, room.y1 - 13.5),
        Point::new(room.x1, room.y1 - 13.5),
    );
    let (title, name) = (room.y1 - TITLE, room.y1 - 11.5);
    vec![
        letters(
            &sheet.title,
            TITLE * 0.8,
            Point::new(room.x0, title),
            Anchor::Start,
            room.width() - 65.0,
        ),
        letters(
            heading,
            HEADING,
            Point::new(room.x0, name),
            Anchor::Start,
            room.width(),
        ),
        full(Ink::Page, vec![rule], FRAME),
    ]
}

/// Every line of an arch's figures, to be put one under another.
fn items(arch: &ArchSheet, wide: f64) -> Vec<Item> {
    let mut items = Vec::new();
    for row in &arch.rows {
        match row {
            Row::Figure(name, value) => items.extend(Item::figure(name, value, wide)),
            Row::Note(sentence) => items.extend(Item::sentence(sentence, wide)),
            Row::Table(title, heads, lines) => items.extend(Item::table(title, heads, lines, wide)),
        }
    }
    if !arch.checks.is_empty() {
        let title = "Check on the cut piece: measure, and write it down";
        items.push(Item::checks(title, &arch.checks, wide));
    }
    items
}

/// A rule under a row of figures.
pub(crate) fn rule(from: Point, to: Point) -> PageStroke {
    let line: Path = line(from, to);
    full(Ink::Page, vec![line], FINE)
}

#[cfg(test)]
#[path = "setting_out_tests.rs"]
mod tests;
