//! Whether pages join to the whole drawing.

use super::{Printed, refuse_at};
use crate::PRINTED;
use crate::report::Report;
use cintre_geometry::{Piece, Point, Rect};
use cintre_work::design::{self, DesignLine};
use std::collections::BTreeMap;

/// Corners of pages nearer than this stand in one row or column, mm.
const SAME: f64 = 1e-6;
/// Two neighbours must share so many crosses: two fix them on one another.
const SHARED: usize = 2;

/// A page that shows a part of the drawing.
pub(super) struct Tile {
    pub(super) number: usize,
    /// The place of its lower left corner on the drawing.
    pub(super) corner: Point,
    pub(super) page: Printed,
}

/// One piece of the design, and which stretches of it the pages show.
struct Wanted {
    piece: Piece,
    bounds: Rect,
    shown: Vec<(f64, f64)>,
}

/// Holds what all pages draw against the lines of the design, both ways.
pub(super) fn drawing(lines: &[DesignLine], tiles: &[Tile], report: &mut Report) {
    let mut wanted: BTreeMap<&str, Vec<Wanted>> = BTreeMap::new();
    for line in lines {
        let Some(path) = design::path(&line.chain) else {
            report.refuse("the design has a line of fewer than two points");
            return;
        };
        let pieces = path.pieces().filter(|piece| piece.length() > SAME);
        wanted
            .entry(&line.layer)
            .or_default()
            .extend(pieces.map(|piece| Wanted {
                piece,
                bounds: piece.bounds().inflate(PRINTED, PRINTED),
                shown: Vec::new(),
            }));
    }
    for tile in tiles {
        drawn(tile, &mut wanted, report);
    }
    for (layer, pieces) in &wanted {
        for piece in pieces {
            let (gap, at) = piece.longest_gap();
            report.leftover = report.leftover.max(gap);
            if gap > PRINTED {
                refuse_at(
                    report,
                    format!("{gap:.3} mm of a line of the {layer} stand on no page"),
                    at,
                );
            }
        }
    }
}

/// Takes in what one page draws.
fn drawn(tile: &Tile, wanted: &mut BTreeMap<&str, Vec<Wanted>>, report: &mut Report) {
    let number = tile.number;
    let mut empty = true;
    for stroke in tile.page.lines() {
        let mut none = Vec::new();
        let pieces = wanted.get_mut(stroke.mark.as_str()).unwrap_or(&mut none);
        for curve in stroke.curves.iter().filter(|c| c[0].distance(c[3]) > SAME) {
            empty = false;
            let curve = curve.map(|p| p + tile.corner.to_vec2());
            let points = [0.0, 0.25, 0.5, 0.75, 1.0].map(|t| on_curve(&curve, t));
            let mut off = f64::INFINITY;
            for want in pieces
                .iter_mut()
                .filter(|want| points.iter().all(|p| want.bounds.contains(*p)))
            {
                let worst = points
                    .iter()
                    .map(|p| want.piece.nearest(*p).distance)
                    .fold(0.0, f64::max);
                if worst <= PRINTED {
                    let ends = [points[0], points[4]].map(|p| want.piece.nearest(p).fraction);
                    want.shown.push((ends[0].min(ends[1]), ends[0].max(ends[1])));
                }
                off = off.min(worst);
            }
            if off <= PRINTED {
                report.gouge = report.gouge.max(off);
            } else {
                let what = format!(
                    "page {number}: a line of the {} that is not in the design",
                    stroke.mark
                );
                refuse_at(report, what, points[2]);
            }
        }
    }
    if empty {
        report.refuse(format!("page {number}: nothing stands on it"));
    }
}

impl Wanted {
    /// The longest stretch that no page shows, and its middle.
    fn longest_gap(&self) -> (f64, Point) {
        let mut shown = self.shown.clone();
        shown.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (mut reached, mut worst) = (0.0, (0.0, 0.0));
        for (from, to) in shown.into_iter().chain([(1.0, 1.0)]) {
            if from - reached > worst.0 {
                worst = (from - reached, f64::midpoint(from, reached));
            }
            reached = to.max(reached);
        }
        (worst.0 * self.piece.length(), self.piece.point_at(worst.1))
    }
}

fn on_curve(curve: &[Point; 4], t: f64) -> Point {
    let [a, b, c, d] = curve.map(Point::to_vec2);
    let u = 1.0 - t;
    (a * (u * u * u) + b * (3.0 * u * u * t) + c * (3.0 * u * t * t) + d * (t * t * t)).to_point()
}

/// Every page and its neighbours to the right and above share crosses.
pub(super) fn crosses(tiles: &[Tile], report: &mut Report) {
    let places: Vec<Vec<Point>> = tiles
        .iter()
        .map(|tile| {
            let crosses = tile.page.crosses();
            crosses.into_iter().map(|p| p + tile.corner.to_vec2()).collect()
        })
        .collect();
    let swapped = |p: Point| Point::new(p.y, p.x);
    for (i, tile) in tiles.iter().enumerate() {
        let right = neighbour(tiles, tile.corner, |p| p);
        let above = neighbour(tiles, tile.corner, swapped);
        for next in right.into_iter().chain(above) {
            let shared = places[i]
                .iter()
                .filter(|p| places[next].iter().any(|q| q.distance(**p) <= PRINTED));
            let shared = shared.count();
            if shared < SHARED {
                let (a, b) = (tile.number, tiles[next].number);
                report.refuse(format!(
                    "pages {a} and {b} lie side by side and share {shared} crosses"
                ));
            }
        }
    }
}

/// The next tile in a row, of those whose pages reach over one another.
fn neighbour(tiles: &[Tile], from: Point, along: impl Fn(Point) -> Point) -> Option<usize> {
    let from = along(from);
    let ahead = tiles.iter().enumerate().filter_map(|(i, tile)| {
        let at = along(tile.corner);
        let step = at.x - from.x;
        let (width, height) = tile.page.size;
        let reach = along(Point::new(width, height)).x;
        ((at.y - from.y).abs() < SAME && step > SAME && step < reach).then_some((i, step))
    });
    ahead.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(i, _)| i)
}
