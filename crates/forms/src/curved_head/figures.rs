//! The figures of a curved head, and the boards that it takes.

use super::band::Band;
use super::divide::Divided;
use super::pieces::Pieces;
use super::segment::{Blank, Segment};
use super::{Boards, Input};
use crate::centering::as_length;
use crate::{Figure, Item};
use cintre_geometry::{Outline, Path};

/// What a saw takes between two blanks, mm.
const SAW: f64 = 4.0;

/// How far the grain runs across in good work, degrees: six segments to a half circle.
const GOOD_GRAIN: f64 = 15.0;

/// Figures nearer than this are one, mm or degrees.
const SAME: f64 = 1e-6;

pub(super) fn figures(input: &Input, band: &Band, divided: &Divided, layers: usize) -> Vec<Figure> {
    let first = &divided.layers[0];
    let all: Vec<&Segment> = divided.layers.iter().flatten().collect();
    let blanks: Vec<Blank> = first.iter().map(Segment::blank).collect();
    let most = |of: fn(&Blank) -> f64| blanks.iter().map(of).fold(0.0, f64::max);
    let widest = all.iter().map(|s| s.bounds().height()).fold(0.0, f64::max);
    let longest = all.iter().map(|s| s.bounds().width()).fold(0.0, f64::max);
    let mut figures = vec![
        Figure::length("width", input.width),
        Figure::radii("inner radii", radii(first, |s| &s.lower)),
        Figure::radii("outer radii", radii(first, |s| &s.upper)),
        Figure::count("segments", first.len()),
        Figure::count("layers", layers),
        Figure::length("board width", widest),
        Figure::length("board leaves", input.boards.across()),
        Figure::length("board length", longest),
        Figure::length("long edge", most(|b| b.long_edge)),
        Figure::length("short edge", most(|b| b.short_edge)),
        Figure::degrees("mitre", distinct(mitres(first, true))),
        Figure::degrees(
            "ends of the head lean on their boards",
            distinct(mitres(first, false)),
        ),
        Figure::lengths("joint length", distinct(joints(first))),
        Figure::degrees("cross grain at worst", vec![cross_grain(&all)]),
        Figure::length("inner edge", band.lower.length()),
        Figure::length("outer edge", band.upper.length()),
    ];
    // What has no values is no figure: a ring has no ends, a head in one piece no joints.
    figures.retain(|figure| !figure.values.is_empty());
    if let [_, second] = &divided.layers[..] {
        let laps = laps(first, second);
        figures.push(Figure::length("joints lap by", laps));
    }
    if input.fit_error > 0.0 {
        figures.push(Figure::fine("fit error", input.fit_error));
    }
    figures
}

fn radii(segments: &[Segment], edge: fn(&Segment) -> &Path) -> Vec<f64> {
    let circles = segments
        .iter()
        .flat_map(|s| edge(s).pieces().filter_map(|p| p.circle()));
    distinct(circles.map(|c| c.radius))
}

/// How far the ends of segments lean from square, degrees: those where others meet them, or those of the head.
fn mitres(segments: &[Segment], met: bool) -> impl Iterator<Item = f64> {
    segments.iter().flat_map(move |segment| {
        let [left, right] = segment.blank().mitres;
        let ends = [(&segment.from, left), (&segment.to, right)];
        ends.into_iter()
            .filter(move |(cut, _)| cut.joined == met)
            .map(|(_, angle)| angle.to_degrees())
    })
}

fn joints(segments: &[Segment]) -> impl Iterator<Item = f64> {
    let joined = segments.iter().map(|s| &s.to).filter(|cut| cut.joined);
    joined.map(|cut| cut.line.start().distance(cut.line.end()))
}

fn cross_grain(segments: &[&Segment]) -> f64 {
    let worst = segments.iter().map(|s| s.cross_grain()).fold(0.0, f64::max);
    worst.to_degrees()
}

/// The least way along the lower edge from a joint of one layer to one of the other.
fn laps(first: &[Segment], second: &[Segment]) -> f64 {
    let joints = |layer: &[Segment]| -> Vec<f64> {
        let met = layer.iter().map(|s| &s.to).filter(|cut| cut.joined);
        met.map(|cut| cut.lower).collect()
    };
    let (ours, others) = (joints(first), joints(second));
    let ways = ours
        .iter()
        .flat_map(|a| others.iter().map(move |b| (a - b).abs()));
    // Those at a corner lie on one another, and are said by themselves.
    ways.filter(|way| *way > SAME).fold(f64::INFINITY, f64::min)
}

/// Each value once, in the order met.
fn distinct(values: impl IntoIterator<Item = f64>) -> Vec<f64> {
    let mut kept: Vec<f64> = Vec::new();
    for value in values {
        if kept.iter().all(|other| (other - value).abs() > SAME) {
            kept.push(value);
        }
    }
    kept
}

/// The boards that the blanks take if they are sawn off them one after another, and what becomes waste.
pub(super) fn boards(input: &Input, pieces: &Pieces) -> (Vec<Item>, Vec<Figure>) {
    let boards = &input.boards;
    let mut blanks: Vec<f64> = Vec::new();
    for part in &pieces.parts {
        let bounds = part.outline.bounds();
        blanks.extend(std::iter::repeat_n(bounds.width(), part.count));
    }
    let widths = pieces.parts.iter().map(|part| part.outline.bounds().height());
    let widest = widths.fold(0.0, f64::max);
    let count = in_line(blanks, boards.along()).div_ceil(abreast(widest, boards.across()));
    let of_all = |of: fn(&Outline) -> f64| {
        let each = pieces
            .parts
            .iter()
            .map(|part| of(&part.outline) * as_length(part.count));
        each.sum::<f64>()
    };
    let wood = of_all(Outline::area);
    let sawn = of_all(|outline| outline.bounds().area());
    let Boards { size, thickness, .. } = boards;
    let bought = as_length(count) * size.0 * size.1;
    let item = Item::of(
        "board, as bought, for blanks sawn in line",
        count,
        size.0,
        Some((size.1, *thickness)),
    );
    let figures = vec![
        Figure::count("boards, blanks sawn in line", count),
        Figure::share("waste of the blanks", 1.0 - wood / sawn),
        Figure::share("waste of the boards, offcuts with it", 1.0 - wood / bought),
    ];
    (vec![item], figures)
}

/// How many blanks lie side by side in a board.
fn abreast(blank: f64, board: f64) -> usize {
    // A board that is not wide enough is met as it is divided.
    std::iter::successors(Some(blank), |all| Some(all + SAW + blank))
        .take_while(|all| *all <= board + SAME)
        .count()
        .max(1)
}

/// How many lengths of board blanks take, the longest first, each on the first that has room.
fn in_line(mut blanks: Vec<f64>, board: f64) -> usize {
    blanks.sort_by(|a, b| b.total_cmp(a));
    let mut left: Vec<f64> = Vec::new();
    for blank in blanks {
        match left.iter_mut().find(|room| **room >= blank) {
            Some(room) => *room -= blank + SAW,
            None => left.push(board - blank - SAW),
        }
    }
    left.len()
}

/// What to know of the grain and of the boards.
pub(super) fn notes(input: &Input, divided: &Divided, needed: usize) -> Vec<String> {
    let all: Vec<&Segment> = divided.layers.iter().flatten().collect();
    let worst = cross_grain(&all);
    let mut notes = Vec::new();
    if worst > GOOD_GRAIN + SAME {
        notes.push(format!(
            "the grain runs {worst:.1} degrees across the ends of segments, where they are weakest: good work keeps it to {GOOD_GRAIN} \
             degrees, by more segments or `cross-grain: {GOOD_GRAIN} deg`"
        ));
    }
    if let Some(have) = input.boards.count
        && needed > have
    {
        notes.push(format!(
            "sawn in line it takes {needed} boards and the shop has {have}: segments laid head to tail may take fewer, as the sheets show"
        ));
    }
    notes
}
