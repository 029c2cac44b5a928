//! The base board that a form stands on, in plates where it is larger than the sheet.

use super::body::Body;
use super::{BendingError, Input, Side, tried};
use crate::Error;
use crate::centering::{Layer, Member, as_length};
use crate::line::{at_level, at_plumb, length_to};
use cintre_geometry::{Outline, Path, Point, Rect};
use cintre_work::{Bore, Depth, Mark, MarkKind};

/// How far the base reaches beyond everything that stands on it, mm.
const BEYOND: f64 = 30.0;

/// The groove for what is squeezed out is so wide, mm: room for the common cutters.
const GROOVE: f64 = 8.0;

/// A groove or a line ends so far inside its plate, mm, and is left out where less than this is left of it.
const INSIDE: f64 = 15.0;

/// A joint of plates keeps this far off a dowel's middle, mm.
const OFF_DOWEL: f64 = 25.0;

/// The most plates along one side.
const MOST: usize = 8;

/// Tries of a joint that meets a dowel, each so much farther along, mm.
const STEP: f64 = 10.0;
const STEPS: usize = 20;

/// A plate of the base with what is cut into it.
pub(super) struct Plate {
    pub(super) member: Member,
    pub(super) marks: Vec<Mark>,
}

/// The base under the bodies, and under the strips whose outermost line is `outermost`.
pub(super) fn base(input: &Input, bodies: &[Body], outermost: &Path) -> Result<Vec<Plate>, Error> {
    let whole = bodies
        .iter()
        .flat_map(|body| &body.members)
        .map(|member| member.outline.bounds())
        .fold(outermost.bounds(), |all, one| all.union(one))
        .inset(BEYOND);
    // The segments of a female move: they stand on it, and are not pinned.
    let pinned = bodies.iter().filter(|body| body.segments == 1);
    let dowels: Vec<Point> = pinned.flat_map(|body| body.dowels.iter().copied()).collect();
    let rects = plates(input, whole, &dowels).ok_or_else(|| {
        tried(BendingError::Pieces {
            what: "the base",
            most: MOST * MOST,
        })
    })?;
    let lines = grooves(input, bodies);
    let several = rects.len() > 1;
    Ok((1..)
        .zip(rects)
        .map(|(number, rect): (usize, Rect)| {
            let name = if several {
                format!("base {number}")
            } else {
                "base".to_owned()
            };
            let mut member = Member::new(name, Layer::A, Outline::rectangle(rect), 0.0);
            let held = dowels.iter().filter(|&&p| rect.contains(p));
            member.bores = held
                .map(|&centre| Bore {
                    centre,
                    diameter: input.body.dowel,
                    depth: Depth::Through,
                })
                .collect();
            let inner = rect.inset(-INSIDE);
            let marks = lines.iter().flat_map(|line| within(line, inner));
            let marks = marks
                .map(|path| Mark {
                    path,
                    kind: kind(input),
                })
                .collect();
            Plate { member, marks }
        })
        .collect())
}

const fn kind(input: &Input) -> MarkKind {
    if input.body.groove > 0.0 {
        MarkKind::Groove {
            width: GROOVE,
            depth: input.body.groove,
        }
    } else {
        MarkKind::Line
    }
}

/// The lines of the faces; one between them where two grooves would run into one another.
fn grooves(input: &Input, bodies: &[Body]) -> Vec<Path> {
    let slot = input.strips.stack() + 2.0 * input.liner;
    let faces = bodies.iter().map(|body| body.face.clone());
    if input.side == Side::Pair && slot < 2.0 * GROOVE {
        faces.take(1).collect()
    } else {
        faces.collect()
    }
}

/// The fewest plates that fit the sheet, in rows and columns, their joints clear of the dowels.
fn plates(input: &Input, whole: Rect, dowels: &[Point]) -> Option<Vec<Rect>> {
    let takes = |r: &Rect| input.sheet.is_none_or(|sheet| sheet.takes(r.width(), r.height()));
    let mut grids: Vec<(usize, usize)> = (1..=MOST)
        .flat_map(|columns| (1..=MOST).map(move |rows| (columns, rows)))
        .collect();
    grids.sort_by_key(|(columns, rows)| (columns * rows, *rows));
    grids.into_iter().find_map(|(columns, rows)| {
        let x = cuts(whole.x0, whole.x1, columns, dowels.iter().map(|p| p.x))?;
        let y = cuts(whole.y0, whole.y1, rows, dowels.iter().map(|p| p.y))?;
        let rects: Vec<Rect> = y
            .windows(2)
            .flat_map(|y| x.windows(2).map(|x| Rect::new(x[0], y[0], x[1], y[1])))
            .collect();
        rects.iter().all(takes).then_some(rects)
    })
}

/// The ends of `count` like parts of a stretch, moved a little where they would meet a dowel.
fn cuts(from: f64, to: f64, count: usize, dowels: impl Iterator<Item = f64> + Clone) -> Option<Vec<f64>> {
    let mut all = vec![from];
    for i in 1..count {
        let even = from + (to - from) * as_length(i) / as_length(count);
        let tries = (0..=STEPS).flat_map(|k| [even - STEP * as_length(k), even + STEP * as_length(k)]);
        let clear = |x: &f64| dowels.clone().all(|d| (d - x).abs() >= OFF_DOWEL);
        all.push(tries.into_iter().find(clear)?);
    }
    all.push(to);
    Some(all)
}

/// The parts of a line inside a box.
fn within(line: &Path, inner: Rect) -> Vec<Path> {
    let mut lengths: Vec<f64> = [inner.x0, inner.x1]
        .iter()
        .flat_map(|&x| at_plumb(line, x))
        .chain([inner.y0, inner.y1].iter().flat_map(|&y| at_level(line, y)))
        .map(|crossing| length_to(line, &crossing))
        .chain([0.0, line.length()])
        .collect();
    lengths.sort_by(f64::total_cmp);
    let inside = |pair: &&[f64]| {
        pair[1] - pair[0] > INSIDE && inner.contains(line.station(f64::midpoint(pair[0], pair[1])).0)
    };
    lengths
        .windows(2)
        .filter(inside)
        .map(|pair| line.part(pair[0], pair[1]))
        .collect()
}
