//! The key: the first page, with the cautions, how the pages go together, and a small picture of them all.

use crate::grid::{Grid, MARGIN, corner};
use crate::ink::{FINE, FRAME, full, letters, line};
use crate::size::Printer;
use crate::tiled::{FullSize, drawn, furniture};
use cintre_geometry::{Affine, Outline, Path, Point, Rect};
use cintre_lettering::{Anchor, wrapped};
use cintre_work::{Ink, Layer, Page, PageStroke};

const TITLE: f64 = 4.0;
const TEXT: f64 = 2.6;
/// From one line of text to the next, of the letters' height.
const LEADING: f64 = 1.9;
/// Longer lines are not read with ease, and a roll is not spent on the key, mm.
const WIDEST: f64 = 420.0;
const LONGEST: f64 = 420.0;
/// The least height of the picture of the pages, mm.
const PICTURE: f64 = 60.0;

/// The key, on as many pages as its sentences take; the picture stands on the last.
pub(crate) fn pages(input: &FullSize<'_>, grid: &Grid, lines: &[(Layer, Path)]) -> Vec<Page> {
    let text = sentences(input, grid);
    let mut pages = Vec::new();
    let mut sheet = Sheet::new(grid);
    for (sentence, height) in &text {
        let wide = sheet.room.width();
        for row in wrapped(sentence, *height, wide) {
            if sheet.room.height() < LEADING * height {
                pages.push(sheet.finished(grid));
                sheet = Sheet::new(grid);
            }
            sheet.row(&row, *height);
        }
        sheet.room.y1 -= TEXT * 0.6;
    }
    if sheet.room.height() < PICTURE.min(sheet.height / 3.0) {
        pages.push(sheet.finished(grid));
        sheet = Sheet::new(grid);
    }
    sheet.strokes.extend(picture(grid, lines, sheet.room));
    pages.push(sheet.finished(grid));
    pages
}

fn sentences(input: &FullSize<'_>, grid: &Grid) -> Vec<(String, f64)> {
    let count = grid.tiles.len();
    let pages = if count == 1 {
        "one page".to_owned()
    } else {
        format!("{count} pages")
    };
    let mut text = vec![
        (input.title.to_owned(), TITLE),
        (format!("{}, full size on {pages}", input.name), TITLE),
    ];
    let plain = input.cautions.iter().chain(input.facts).cloned();
    let plain = plain.chain(printing(input.printer)).chain(joining(input, grid));
    text.extend(plain.map(|sentence| (sentence, TEXT)));
    text
}

/// How it is printed, and what to do where the bars are not what they should be.
fn printing(printer: Printer) -> [String; 2] {
    let bars = "Measure both bars each way on one page before cutting: 100 mm must be 100 mm.";
    let print = "Print every page at full size: no fitting to the page, no scaling.";
    if printer == Printer::TRUE {
        let help = "If it is not, write what both measure into the shop file (house, printer, across and along) and make \
                    the job again.";
        return [print.to_owned(), format!("{bars} {help}")];
    }
    let Printer { across, along } = printer;
    let made = format!(
        "Drawn for a printer that makes {across} mm across and {along} mm along of 100: print it on no other."
    );
    let help = "If it is not, take the printer out of the shop file, make the job again, and measure the bars of that print.";
    [format!("{print} {made}"), format!("{bars} {help}")]
}

/// How the pages go together, and how that is checked.
fn joining(input: &FullSize<'_>, grid: &Grid) -> Vec<String> {
    let [rising, falling] = diagonals(grid).map(|(from, to)| (input.length)(from.distance(to)));
    let ways = format!(
        "from cross to cross along the dashed lines below: {rising} rising to the right, {falling} falling."
    );
    let moves = "Paper moves with damp and with the printer's heat: before cutting,";
    if grid.tiles.len() == 1 {
        return vec![format!("{moves} measure the page {ways}")];
    }
    let lay = "Lay each page on the next so that their crosses lie on one another: rows from the top (A, B, ...), columns from \
               the left (1, 2, ...).";
    vec![lay.to_owned(), format!("{moves} measure the joined pages {ways}")]
}

/// A page in the making, filled from the top.
struct Sheet {
    room: Rect,
    height: f64,
    strokes: Vec<PageStroke>,
}

impl Sheet {
    fn new(grid: &Grid) -> Self {
        let (width, height) = (grid.page.0, grid.page.1.min(LONGEST));
        let foot = corner();
        Self {
            room: Rect::new(
                foot.x,
                foot.y,
                (width - MARGIN).min(foot.x + WIDEST),
                height - MARGIN,
            ),
            height,
            strokes: Vec::new(),
        }
    }

    fn row(&mut self, text: &str, height: f64) {
        let foot = Point::new(self.room.x0, self.room.y1 - 1.2 * height);
        self.strokes
            .push(letters(text, height, foot, Anchor::Start, self.room.width()));
        self.room.y1 -= LEADING * height;
    }

    fn finished(self, grid: &Grid) -> Page {
        let mut strokes = self.strokes;
        strokes.extend(furniture(grid, "", &["key to the pages"]));
        Page {
            size: (grid.page.0, self.height),
            stretch: grid.stretch,
            strokes,
        }
    }
}

/// All pages as they lie on the drawing, small, with the two longest ways from cross to cross.
fn picture(grid: &Grid, lines: &[(Layer, Path)], room: Rect) -> Vec<PageStroke> {
    let shares: Vec<Rect> = grid.tiles.iter().map(|&tile| grid.share(tile)).collect();
    let Some(world) = shares.iter().copied().reduce(|a, b| a.union(b)) else {
        return Vec::new();
    };
    let room = room.inflate(-1.0, -2.0);
    let scale = (room.width() / world.width()).min(room.height() / world.height());
    let left = Point::new(room.x0, room.y1 - world.height() * scale);
    let small = Affine::translate(left.to_vec2())
        * Affine::scale(scale)
        * Affine::translate(-world.origin().to_vec2());
    let mut strokes: Vec<PageStroke> = Vec::new();
    let frames = shares
        .iter()
        .map(|share| closed(&Outline::rectangle(*share), small));
    strokes.push(full(Ink::Page, frames.collect(), FRAME));
    for layer in [Layer::Mark, Layer::Opening, Layer::Outline] {
        let edges = lines.iter().filter(|(on, _)| *on == layer);
        let edges = edges.map(|(_, line)| line.transformed(small)).collect();
        strokes.push(PageStroke {
            ink: Ink::Page,
            ..drawn(layer, edges)
        });
    }
    let ways = diagonals(grid).map(|(from, to)| line(small * from, small * to));
    strokes.push(PageStroke {
        dashes: vec![4.0, 2.0],
        ..full(Ink::Page, ways.into(), FINE)
    });
    for (share, &tile) in shares.iter().zip(&grid.tiles) {
        let height = (share.width().min(share.height()) * scale * 0.3).clamp(1.0, 5.0);
        let middle = small * share.center() - (0.0, height / 2.0);
        let name = letters(
            &grid.name(tile),
            height,
            middle,
            Anchor::Middle,
            share.width() * scale,
        );
        // A rim of white keeps the name legible where a line runs under it.
        let rim = PageStroke {
            weight: name.weight * 5.0,
            white: true,
            ..name.clone()
        };
        strokes.extend([rim, name]);
    }
    strokes
}

fn closed(outline: &Outline, by: Affine) -> Path {
    outline.transformed(by).opened_at(0, 0.0)
}

/// The longest ways across the joined pages from cross to cross, rising and falling to the right, to be measured.
fn diagonals(grid: &Grid) -> [(Point, Point); 2] {
    let crosses: Vec<Point> = grid.tiles.iter().flat_map(|&tile| grid.crosses(tile)).collect();
    let farthest = |key: &dyn Fn(&Point) -> f64| {
        let by = |a: &Point, b: &Point| key(a).total_cmp(&key(b));
        let least = crosses.iter().copied().min_by(by).unwrap_or_default();
        (least, crosses.iter().copied().max_by(by).unwrap_or_default())
    };
    [farthest(&|p| p.x + p.y), farthest(&|p| p.x - p.y)]
}
