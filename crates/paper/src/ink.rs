//! Pens, letters and bars.

use cintre_geometry::{Affine, Path, Point, Vec2};
use cintre_lettering::{Anchor, spell, strokes, width};
use cintre_work::{Ink, PageStroke};
use std::f64::consts::FRAC_PI_2;

/// A line to cut by, mm: thin, so that nobody asks which side of it is meant.
pub(crate) const CUT: f64 = 0.15;
/// Every other line, mm.
pub(crate) const FINE: f64 = 0.1;
/// The frame of the key and of tables, mm.
pub(crate) const FRAME: f64 = 0.2;
/// The weight of a letter's strokes, of its height.
const LETTER: f64 = 0.1;

/// Lines in a full black pen.
pub(crate) const fn full(ink: Ink, lines: Vec<Path>, weight: f64) -> PageStroke {
    PageStroke {
        ink,
        lines,
        weight,
        dashes: Vec::new(),
        white: false,
    }
}

/// A line between two points.
pub(crate) fn line(from: Point, to: Point) -> Path {
    Path::polyline(&[from, to])
}

/// A line of letters; `at` is its foot, at `anchor`. Smaller where it would be wider than `widest`.
pub(crate) fn letters(text: &str, height: f64, at: Point, anchor: Anchor, widest: f64) -> PageStroke {
    let text = spell(text);
    let wide = width(&text, height).expect("spelled text has only letters of the face");
    let height = height * (widest / wide.max(1e-9)).min(1.0);
    let lines = strokes(&text, height, at, anchor).expect("spelled text has only letters of the face");
    full(Ink::Page, lines, LETTER * height)
}

/// A stroke turned a quarter to the left about a point, to be read from the right.
pub(crate) fn upright(stroke: PageStroke, about: Point) -> PageStroke {
    let turn = Affine::rotate_about(FRAC_PI_2, about);
    PageStroke {
        lines: stroke.lines.iter().map(|line| line.transformed(turn)).collect(),
        ..stroke
    }
}

/// An inch, mm.
const INCH: f64 = 25.4;
/// The bars: what stands beside them, and how long they are, mm.
const BARS: [(&str, f64); 2] = [("100 mm", 100.0), ("4 in", 4.0 * INCH)];
/// The longest bar, mm.
pub(crate) const BAR: f64 = 4.0 * INCH;
/// How wide a strip the bars of one way take, their figures included, mm.
pub(crate) const BARS_WIDE: f64 = 13.0;
const APART: f64 = BARS_WIDE / 2.0;
const TICK: f64 = 1.4;
const FIGURES: f64 = 2.2;

/// Both bars to the right of `corner` and both upwards from it: level ones under it in a strip of [`BARS_WIDE`], upright
/// ones to its left. `level` and `plumb` say which way of the paper each runs.
pub(crate) fn bars(corner: Point, level: &str, plumb: &str) -> Vec<PageStroke> {
    let mut strokes = Vec::new();
    for (i, (name, length)) in (0u8..).zip(BARS) {
        let off = APART * (f64::from(i) + 0.5);
        let foot = Point::new(corner.x, corner.y - off - TICK);
        strokes.extend(bar(foot, Vec2::new(1.0, 0.0), length));
        let over = Point::new(foot.x + length / 2.0, foot.y + 1.0);
        strokes.push(letters(
            &format!("{name} {level}"),
            FIGURES,
            over,
            Anchor::Middle,
            length,
        ));
        let foot = Point::new(corner.x - off + TICK, corner.y);
        strokes.extend(bar(foot, Vec2::new(0.0, 1.0), length));
        let beside = Point::new(foot.x - 1.0, foot.y + length / 2.0);
        let label = letters(
            &format!("{name} {plumb}"),
            FIGURES,
            beside,
            Anchor::Middle,
            length,
        );
        strokes.push(upright(label, beside));
    }
    strokes
}

/// A line of the full length as the bar, and ticks whose middles stand at its ends.
fn bar(from: Point, along: Vec2, length: f64) -> [PageStroke; 2] {
    let to = from + along * length;
    let across = Vec2::new(-along.y, along.x) * TICK;
    let ticks = [from, to].map(|p| line(p - across, p + across));
    [
        full(Ink::Bar, vec![line(from, to)], FRAME),
        full(Ink::Page, ticks.into(), FINE),
    ]
}

/// A cross of thin arms.
pub(crate) fn cross(at: Point, arm: f64) -> [Path; 2] {
    [Vec2::new(arm, 0.0), Vec2::new(0.0, arm)].map(|arm| line(at - arm, at + arm))
}
