//! A drawing at full size, over as many pages as it takes.

use crate::clip::clipped;
use crate::grid::{Grid, MARGIN, OVERLAP, corner};
use crate::ink::{BAR, CUT, FINE, bars, cross, full, letters};
use crate::key;
use crate::size::{NARROWEST_ROLL, Paper, Printer, WIDEST_ROLL};
use cintre_geometry::{Path, Point};
use cintre_lettering::Anchor;
use cintre_work::{Document, Figure, Ink, Layer, Page, PageStroke, Shape};

/// A drawing to be printed at full size.
#[derive(Clone, Copy)]
#[expect(
    missing_debug_implementations,
    reason = "it holds a question to the caller, with nothing in it to show"
)]
pub struct FullSize<'a> {
    /// The job's title.
    pub title: &'a str,
    /// What is drawn: `gate rib`.
    pub name: &'a str,
    /// Plain sentences for the key page: its size, its stock.
    pub facts: &'a [String],
    /// The cautions of the work.
    pub cautions: &'a [String],
    /// What is drawn, in its own frame, mm.
    pub shapes: &'a [Shape],
    /// What it is printed on.
    pub paper: Paper,
    /// What the printer makes of 100 mm.
    pub printer: Printer,
    /// Writes a length given in mm, its unit included.
    pub length: &'a dyn Fn(f64) -> String,
}

/// The pages of a drawing, and where each lies on it.
#[derive(Clone, Debug)]
pub struct Tiled {
    /// The key page, and after it a page for each tile.
    pub document: Document,
    /// The drawing's lines by layer, turned as they lie on the pages.
    pub lines: Vec<(Layer, Path)>,
    /// For every page after the key, in order.
    pub tiles: Vec<Tile>,
}

/// Where a page lies on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Tile {
    /// Its name: row from the top as a letter, column from the left as a number.
    pub name: String,
    /// The place of its lower left corner in the turned drawing's frame, mm.
    pub corner: Point,
}

/// Why a drawing cannot be put on paper.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum Error {
    /// It has no line.
    #[error("there is no line to print")]
    Empty,
    /// A roll that the bars do not go on, or that no printer takes.
    #[error("a roll {width} mm wide is not printed on: it must be {NARROWEST_ROLL} to {WIDEST_ROLL} mm")]
    Roll {
        /// Its width, mm.
        width: f64,
    },
}

/// Puts a drawing on pages at full size, with the fewest pages: each with its name, bars both ways, and crosses that meet
/// those of its neighbours. Pages on which nothing would stand are left out.
pub fn full_size(input: &FullSize<'_>) -> Result<Tiled, Error> {
    if let Paper::Roll(width) = input.paper
        && !(NARROWEST_ROLL..=WIDEST_ROLL).contains(&width)
    {
        return Err(Error::Roll { width });
    }
    let drawn: Vec<(Layer, Path)> = input
        .shapes
        .iter()
        .map(|shape| (shape.layer, line_of(&shape.figure)))
        .collect();
    if drawn.is_empty() {
        return Err(Error::Empty);
    }
    let grid = Grid::fewest(
        &drawn.iter().map(|(_, line)| line).collect::<Vec<_>>(),
        input.paper,
        input.printer,
    );
    let lines: Vec<(Layer, Path)> = drawn
        .iter()
        .map(|(layer, line)| (*layer, line.transformed(grid.turn)))
        .collect();
    let mut pages = key::pages(input, &grid, &lines);
    pages.extend(grid.tiles.iter().map(|&tile| page(input, &grid, &lines, tile)));
    let tiles = grid.tiles.iter().map(|&tile| Tile {
        name: grid.name(tile),
        corner: grid.onto_page(tile).inverse() * Point::ZERO,
    });
    let tiles = tiles.collect();
    Ok(Tiled {
        document: Document {
            title: format!("{}: {}, full size", input.title, input.name),
            notes: [&[WORDS.to_owned()], input.facts, input.cautions].concat(),
            pages,
        },
        lines,
        tiles,
    })
}

/// What every page says.
pub(crate) const WORDS: &str = "print full size, no scaling";

/// A figure as one path; a circle as two half circles.
fn line_of(figure: &Figure) -> Path {
    match figure {
        Figure::Open(path) => path.clone(),
        Figure::Closed(outline) => outline.opened_at(0, 0.0),
        Figure::Circle { centre, radius } => {
            cintre_geometry::Outline::circle(*centre, *radius).opened_at(0, 0.0)
        }
    }
}

fn page(input: &FullSize<'_>, grid: &Grid, lines: &[(Layer, Path)], tile: (usize, usize)) -> Page {
    let (window, onto) = (grid.window(tile), grid.onto_page(tile));
    let mut strokes = Vec::new();
    for layer in Layer::ALL {
        let inside = lines
            .iter()
            .filter(|(on, line)| *on == layer && line.bounds().overlaps(window));
        let parts = inside
            .flat_map(|(_, line)| clipped(line, window))
            .map(|part| part.transformed(onto))
            .collect();
        strokes.push(drawn(layer, parts));
    }
    let crosses = grid.crosses(tile);
    let arms = crosses.iter().flat_map(|&at| cross(onto * at, OVERLAP / 2.0));
    strokes.push(full(Ink::Cross, arms.collect(), FINE));
    let number = grid.tiles.iter().position(|t| *t == tile).unwrap_or_default() + 1;
    let place = format!("page {number} of {}", grid.tiles.len());
    strokes.extend(furniture(grid, &grid.name(tile), &[input.name, &place]));
    Page {
        size: grid.page,
        stretch: grid.stretch,
        strokes,
    }
}

/// The lines of one layer in their pen.
pub(crate) fn drawn(layer: Layer, lines: Vec<Path>) -> PageStroke {
    let (weight, dashes): (f64, &[f64]) = match layer {
        Layer::Outline | Layer::Opening | Layer::Bore => (CUT, &[]),
        Layer::Recess => (CUT, &[3.0, 1.5]),
        Layer::Mark | Layer::Text => (FINE, &[]),
        Layer::Stock => (FINE, &[1.0, 2.0]),
    };
    PageStroke {
        dashes: dashes.to_vec(),
        ..full(Ink::Drawn(layer), lines, weight)
    }
}

/// The bars and the words of a page: its name in large letters, and what else is told in small ones under the rest.
pub(crate) fn furniture(grid: &Grid, name: &str, told: &[&str]) -> Vec<PageStroke> {
    let (level, plumb) = if grid.upright {
        ("across", "along")
    } else {
        ("along", "across")
    };
    let mut strokes = bars(corner(), level, plumb);
    let left = corner().x + BAR + 8.0;
    let room = grid.page.0 - MARGIN - left;
    let large = if name.is_empty() {
        0.0
    } else {
        (room * 0.3).min(18.0)
    };
    strokes.push(letters(
        name,
        8.0,
        Point::new(left, MARGIN + 2.5),
        Anchor::Start,
        large,
    ));
    let (left, room) = (left + large + 2.0, room - large - 2.0);
    let small = [WORDS, "measure both bars before you cut"]
        .into_iter()
        .chain(told.iter().copied());
    let mut foot = MARGIN + 13.5;
    for (text, height) in small.zip([2.6, 2.2, 2.2, 2.2]) {
        strokes.push(letters(text, height, Point::new(left, foot), Anchor::Start, room));
        foot -= 3.9;
    }
    strokes
}
