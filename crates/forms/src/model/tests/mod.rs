//! Models of arches in sheet.

mod fits;
mod refusals;
mod ring;

use super::{Beam, Comb, Input, Made, Ring, model};
use crate::shapes;
use cintre_geometry::voussoirs::{Division, voussoirs};
use cintre_geometry::{Outline, Path, Piece, Point, parallel_line};
use cintre_work::Part;

/// A beam as it is common in 3 mm plywood.
const BEAM: Beam = Beam {
    kerf: 0.16,
    least_bridge: 1.5,
    tabs: Some(0.6),
};

/// The ring of a soffit `depth` deep, cut to so many voussoirs without joints.
fn ring(soffit: &Path, depth: f64, count: u32, made: Made) -> Ring {
    let back = parallel_line(soffit, -depth).expect("the ring does not fold");
    let cut = voussoirs(soffit, &back, Division::Cut { count, joint: 0.0 }).expect("it divides");
    let face = |line: &Path| (line.start(), line.end());
    let units = &cut.units;
    Ring {
        narrowest: units
            .iter()
            .map(|unit| unit.width.min(unit.width_at_back))
            .fold(depth, f64::min),
        units: units.iter().map(|unit| unit.outline.clone()).collect(),
        skewbacks: [face(&cut.joints[0]), face(&cut.joints[units.len()])],
        back,
        made,
    }
}

/// A brick arch at 1:10 in sheet of 3.05 mm.
fn input(soffit: Path, made: Option<Made>) -> Input {
    Input {
        arch: "gate".to_owned(),
        ring: made.map(|made| ring(&soffit, 215.0, 17, made)),
        soffit,
        fit_error: 0.0,
        wall: 330.0,
        scale: 10.0,
        joint: 0.0,
        interference: 0.06,
        bridge: None,
        beam: BEAM,
        comb: Comb::With,
        stock: "ply3".to_owned(),
        thickness: 3.05,
    }
}

fn gate() -> Input {
    input(shapes::segmental(1220.0, 260.0), Some(Made::Stacked))
}

fn parts(input: &Input) -> Vec<Part> {
    model(input).unwrap_or_else(|error| panic!("{error}")).parts
}

fn part<'a>(parts: &'a [Part], name: &str) -> &'a Part {
    let named = parts.iter().find(|part| part.name == name);
    named.unwrap_or_else(|| panic!("there is no {name}"))
}

/// Where a level line through a plate runs in its wood, from the left.
fn wood_at_level(outline: &Outline, y: f64) -> Vec<(f64, f64)> {
    let bounds = outline.bounds();
    along(
        outline,
        Piece::line(Point::new(bounds.x0 - 1.0, y), Point::new(bounds.x1 + 1.0, y)),
        |p| p.x,
    )
}

/// And a plumb line, from the bottom.
fn wood_at_plumb(outline: &Outline, x: f64) -> Vec<(f64, f64)> {
    let bounds = outline.bounds();
    along(
        outline,
        Piece::line(Point::new(x, bounds.y0 - 1.0), Point::new(x, bounds.y1 + 1.0)),
        |p| p.y,
    )
}

fn along(outline: &Outline, line: Piece, place: impl Fn(Point) -> f64) -> Vec<(f64, f64)> {
    let mut ends: Vec<f64> = outline
        .pieces()
        .flat_map(|piece| piece.meetings(&line, 1e-9))
        .map(place)
        .collect();
    ends.sort_by(f64::total_cmp);
    ends.dedup_by(|a, b| (*a - *b).abs() < 1e-7);
    assert!(ends.len().is_multiple_of(2), "{ends:?}");
    ends.chunks(2).map(|pair| (pair[0], pair[1])).collect()
}

/// The gaps between stretches of wood: middle and width.
fn gaps(wood: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let pairs = wood.windows(2);
    pairs
        .map(|w| (f64::midpoint(w[0].1, w[1].0), w[1].0 - w[0].1))
        .collect()
}

#[track_caller]
fn near(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-6, "{a} is not {b}");
}
