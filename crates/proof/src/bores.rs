//! Blind bores: their depth, their wall and their floor.

use crate::DEPTH;
use crate::cuts::Run;
use crate::leftover::Through;
use crate::lines::Lines;
use crate::report::Report;
use crate::wood::Wood;
use crate::{LEFTOVER, distance};
use cintre_geometry::Point;
use cintre_work::design::DesignBore;

/// Patches of floor smaller than this are not looked into further, mm.
const PATCH: f64 = 0.05;

/// Whether every blind bore of a part comes out to its depth and its width.
pub(crate) fn judge(part: &Wood<'_>, runs: &[Run<'_>], report: &mut Report) {
    for bore in &part.blind {
        let Some(depth) = bore.depth else { continue };
        let centre = Point::new(bore.centre[0], bore.centre[1]);
        let mut finding = |what: String| {
            let finding = report.find(1.0, what);
            finding.part = Some(part.name.to_owned());
            finding.at = Some(bore.centre);
        };
        let inside = |run: &Run<'_>| -> Vec<_> {
            let cuts = run.below(-depth + DEPTH);
            cuts.filter(|c| {
                distance::range_from(&c.piece, centre).0 + c.radius <= bore.diameter / 2.0 + LEFTOVER
            })
            .collect()
        };
        let cuts: Vec<_> = runs.iter().flat_map(inside).collect();
        if cuts.is_empty() {
            finding(format!("a bore is not cut to its depth of {depth:.2} mm"));
            continue;
        }
        if let Some(deep) = cuts.iter().map(|c| -c.lowest).find(|z| *z > depth + DEPTH) {
            finding(format!(
                "a bore is {deep:.2} mm deep where {depth:.2} mm are planned"
            ));
        }
        let swept = cuts.iter().map(|c| (c.radius, Lines::new([c.piece])));
        let floor = Through {
            swept: swept.collect(),
            smallest: None,
        };
        if let Some(left) = uncovered(bore, centre, &floor) {
            finding(format!("{left:.2} mm of a bore's floor or wall is left standing"));
        }
    }
}

/// How far a point of the bore's floor stays from what was cut, if any stays too far.
fn uncovered(bore: &DesignBore, centre: Point, floor: &Through) -> Option<f64> {
    let radius = bore.diameter / 2.0;
    let mut open = vec![(centre, radius)];
    while let Some((middle, half)) = open.pop() {
        let diagonal = half * std::f64::consts::SQRT_2;
        if middle.distance(centre) > radius + diagonal {
            continue;
        }
        let left = floor.left(middle);
        if left + diagonal <= LEFTOVER {
            continue;
        }
        let within = middle.distance(centre) <= radius;
        if within && left > LEFTOVER {
            return Some(left);
        }
        if half > PATCH {
            let quarter = half / 2.0;
            for (x, y) in [(-1.0, -1.0), (1.0, -1.0), (-1.0, 1.0), (1.0, 1.0)] {
                open.push(((middle.x + x * quarter, middle.y + y * quarter).into(), quarter));
            }
        }
    }
    None
}
