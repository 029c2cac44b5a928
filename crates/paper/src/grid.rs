//! How a drawing is parted over pages: the way they lie, and where their grid stands.

use crate::clip::meets;
use crate::ink::{BAR, BARS_WIDE};
use crate::size::{LONGEST_PAGE, Paper, Printer};
use crate::windows::{Windows, real};
use cintre_geometry::{Affine, Path, Point, Rect};
use std::collections::BTreeSet;
use std::f64::consts::FRAC_PI_2;

/// Kept clear along every edge of a page: printers do not reach it, mm.
pub(crate) const MARGIN: f64 = 12.0;
/// What two pages side by side both show, mm.
pub(crate) const OVERLAP: f64 = 12.0;
/// The strip under the drawing, for the level bars and the words, mm.
const FOOT: f64 = BARS_WIDE + 4.0;
/// The strip to its left, for the upright bars, mm.
const SIDE: f64 = BARS_WIDE + 2.0;
/// What stands clear round the whole drawing, so that no line lies on the rim of a page, mm.
const CLEAR: f64 = 2.0;
/// The drawing is weighed in squares of this side to find the grid with the fewest pages, mm.
const SQUARE: f64 = 5.0;
/// Crosses along a seam stand no farther apart than this, mm.
const CROSSES_APART: f64 = 300.0;
/// Pages laid over a drawing.
#[derive(Clone, Debug)]
pub(crate) struct Grid {
    /// The drawing turned as it lies on the pages.
    pub(crate) turn: Affine,
    /// A page as it comes out of the printer, mm.
    pub(crate) page: (f64, f64),
    /// What it is multiplied by for the printer.
    pub(crate) stretch: (f64, f64),
    /// Whether the paper's own width runs level on the page.
    pub(crate) upright: bool,
    x: Windows,
    y: Windows,
    /// The pages that show anything, from the top row down and from the left: column from the left, row from the bottom.
    pub(crate) tiles: Vec<(usize, usize)>,
}

impl Grid {
    /// The grid with the fewest pages; of those with the fewest, the one that takes the least paper, and then the first.
    /// `lines` must hold at least one line.
    pub(crate) fn fewest(lines: &[&Path], paper: Paper, printer: Printer) -> Self {
        let (across, along) = printer.factors();
        let mut best: Option<(usize, f64, Self)> = None;
        for lie in lies(lines, paper, (across, along)) {
            let squares = squares(lines, lie.turn);
            let area = lie.page.0 * lie.page.1;
            let Some(choice) = fewest_of(&lie, &squares) else {
                continue;
            };
            let (count, x, y) = choice;
            let paper = real(count) * area;
            if best
                .as_ref()
                .is_none_or(|(n, least, _)| (count, paper) < (*n, *least))
            {
                let grid = Self {
                    turn: lie.turn,
                    page: lie.page,
                    stretch: lie.stretch,
                    upright: lie.upright,
                    x,
                    y,
                    tiles: Vec::new(),
                };
                best = Some((count, paper, grid));
            }
        }
        let (_, _, mut grid) = best.expect("a drawing with a line fills at least one page");
        grid.tiles = grid.filled(lines);
        grid
    }

    /// The pages in whose own share any line lies.
    fn filled(&self, lines: &[&Path]) -> Vec<(usize, usize)> {
        let lines: Vec<Path> = lines.iter().map(|line| line.transformed(self.turn)).collect();
        let rows = (0..self.y.count).rev();
        rows.flat_map(|row| (0..self.x.count).map(move |column| (column, row)))
            .filter(|&tile| lines.iter().any(|line| meets(line, self.share(tile))))
            .collect()
    }

    /// What a page shows, in the turned drawing's frame.
    pub(crate) fn window(&self, (column, row): (usize, usize)) -> Rect {
        let (x, y) = (self.x.at(column), self.y.at(row));
        Rect::new(x, y, x + self.x.window, y + self.y.window)
    }

    /// The part of its window that a page shows for itself, as far as the middles of its overlaps.
    pub(crate) fn share(&self, (column, row): (usize, usize)) -> Rect {
        Rect::new(
            self.x.seam(column),
            self.y.seam(row),
            self.x.seam(column + 1),
            self.y.seam(row + 1),
        )
    }

    /// From the turned drawing's frame onto the page.
    pub(crate) fn onto_page(&self, tile: (usize, usize)) -> Affine {
        let window = self.window(tile);
        Affine::translate(corner() - window.origin())
    }

    /// The places on the drawing of a page's crosses: along the middles of its overlaps, those at the outer edges of the grid
    /// half an overlap inside.
    pub(crate) fn crosses(&self, tile: (usize, usize)) -> Vec<Point> {
        let inner = self.window(tile).inflate(-OVERLAP / 2.0, -OVERLAP / 2.0);
        let corners = [
            Point::new(inner.x0, inner.y0),
            Point::new(inner.x1, inner.y0),
            Point::new(inner.x1, inner.y1),
            Point::new(inner.x0, inner.y1),
        ];
        let mut crosses = Vec::new();
        for (i, from) in corners.into_iter().enumerate() {
            let to = corners[(i + 1) % 4];
            let gaps = (from.distance(to) / CROSSES_APART).ceil();
            let mut gap = 0.0;
            while gap < gaps {
                crosses.push(from.lerp(to, gap / gaps));
                gap += 1.0;
            }
        }
        crosses
    }

    /// A page's name: its row from the top as a letter, its column from the left as a number.
    pub(crate) fn name(&self, (column, row): (usize, usize)) -> String {
        let mut down = self.y.count - 1 - row;
        let mut letters = String::new();
        loop {
            let letter = char::from(b'A' + u8::try_from(down % 26).unwrap_or_default());
            letters.insert(0, letter);
            if down < 26 {
                break;
            }
            down = down / 26 - 1;
        }
        format!("{letters}{}", column + 1)
    }
}

/// The lower left corner of the window on every page.
pub(crate) const fn corner() -> Point {
    Point::new(MARGIN + SIDE, MARGIN + FOOT)
}

/// One way for the paper to lie.
struct Lie {
    turn: Affine,
    page: (f64, f64),
    stretch: (f64, f64),
    upright: bool,
    /// The drawing's box, turned, with what stands clear round it.
    bounds: Rect,
    window: (f64, f64),
}

fn lies(lines: &[&Path], paper: Paper, (across, along): (f64, f64)) -> Vec<Lie> {
    let lie = |turn: Affine, nominal: (f64, f64), stretch: (f64, f64), upright| {
        let page = (nominal.0 / stretch.0, nominal.1 / stretch.1);
        Lie {
            turn,
            page,
            stretch,
            upright,
            bounds: bounds(lines, turn),
            window: (page.0 - corner().x - MARGIN, page.1 - corner().y - MARGIN),
        }
    };
    match paper {
        Paper::Sheets(size) => vec![
            lie(Affine::IDENTITY, (size.short, size.long), (across, along), true),
            lie(Affine::IDENTITY, (size.long, size.short), (along, across), false),
        ],
        Paper::Roll(width) => [Affine::IDENTITY, Affine::rotate(FRAC_PI_2)]
            .map(|turn| {
                let mut roll = lie(turn, (width, LONGEST_PAGE), (across, along), true);
                // Every page as long as an even share of the drawing, and not longer.
                let share = |longest: f64| {
                    let count = ((roll.bounds.height() - OVERLAP) / (longest - OVERLAP))
                        .ceil()
                        .max(1.0);
                    (roll.bounds.height() - OVERLAP) / count + OVERLAP
                };
                let height = share(roll.window.1).max(BAR);
                roll.page.1 += height - roll.window.1;
                roll.window.1 = height;
                roll
            })
            .into(),
    }
}

fn bounds(lines: &[&Path], turn: Affine) -> Rect {
    let boxes = lines.iter().map(|line| line.transformed(turn).bounds());
    let all = boxes.reduce(|a, b| a.union(b)).unwrap_or_default();
    all.inflate(CLEAR, CLEAR)
}

/// The squares of a drawing that any of its lines runs through or near.
fn squares(lines: &[&Path], turn: Affine) -> Vec<Rect> {
    let mut squares = BTreeSet::new();
    for line in lines {
        for piece in line.transformed(turn).pieces() {
            let steps = (piece.length() / SQUARE).ceil().max(1.0);
            let mut i = 0.0;
            while i < steps {
                let bounds = piece.part(i / steps, (i + 1.0) / steps).bounds();
                squares.insert(square(bounds.origin()));
                squares.insert(square(Point::new(bounds.x1, bounds.y1)));
                i += 1.0;
            }
        }
    }
    let side = |i: i64| f64::from(i32::try_from(i).unwrap_or_default()) * SQUARE;
    squares
        .into_iter()
        .map(|(x, y)| Rect::new(side(x), side(y), side(x) + SQUARE, side(y) + SQUARE))
        .collect()
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "buildings are far smaller than 2^31 squares"
)]
fn square(p: Point) -> (i64, i64) {
    ((p.x / SQUARE).floor() as i64, (p.y / SQUARE).floor() as i64)
}

/// The grid of one lie with the fewest pages, and how many.
fn fewest_of(lie: &Lie, squares: &[Rect]) -> Option<(usize, Windows, Windows)> {
    let mut best: Option<(usize, Windows, Windows)> = None;
    let across = Windows::choices(lie.bounds.x0, lie.bounds.x1, lie.window.0);
    let up = Windows::choices(lie.bounds.y0, lie.bounds.y1, lie.window.1);
    for x in &across {
        for y in &up {
            let mut filled = vec![false; x.count * y.count];
            for s in squares {
                for column in x.of(s.x0)..=x.of(s.x1) {
                    for row in y.of(s.y0)..=y.of(s.y1) {
                        filled[row * x.count + column] = true;
                    }
                }
            }
            let count = filled.iter().filter(|f| **f).count();
            if best.is_none_or(|(n, ..)| count < n) {
                best = Some((count, *x, *y));
            }
        }
    }
    best
}
