//! The tabs planned on a sheet: where edge may stay uncut, and whether the wood is really left there.

use crate::DEPTH;
use crate::cuts::Run;
use crate::report::Report;
use crate::wood::Wood;
use cintre_geometry::{Piece, Point, Rect, Vec2};
use cintre_work::design::{DesignSheet, DesignTab};

/// How much farther than its geometry demands edge may stay uncut to each side of a tab, mm.
const TAB_SLACK: f64 = 0.02;
/// How much narrower than planned a tab may be, mm.
const TAB_LESS: f64 = 0.02;
/// The parts that a move round the tip of a part is taken in.
const ROUND_A_TIP: u32 = 32;
/// How far a tab's middle may lie from the part's edge, mm: the digits it is written with.
const ON_EDGE: f64 = 0.01;

/// A tab on its edge.
#[derive(Debug)]
pub(crate) struct Held<'a> {
    pub(crate) tab: &'a DesignTab,
    pub(crate) at: Point,
    /// Square to the edge, away from the wood.
    away: Vec2,
    /// The edge's curvature there, positive where the wood bulges out, 1/mm; where curves join, that of the most hollow.
    curvature: f64,
}

/// The tabs of a part; those that stand on no edge of it are found wrong.
pub(crate) fn of<'a>(sheet: &'a DesignSheet, part: &Wood<'_>, report: &mut Report) -> Vec<Held<'a>> {
    let own = sheet.tabs.iter().filter(|tab| tab.part == part.name);
    own.filter_map(|tab| {
        let held = held(sheet, tab, part);
        if held.is_none() {
            let finding = report.refuse("a tab that does not stand on its part's edge");
            finding.part = Some(tab.part.clone());
            finding.at = Some(tab.at);
        }
        held
    })
    .collect()
}

/// Finds tabs of parts that the sheet does not have.
pub(crate) fn of_no_part(sheet: &DesignSheet, parts: &[Wood<'_>], report: &mut Report) {
    for tab in sheet
        .tabs
        .iter()
        .filter(|t| !parts.iter().any(|p| p.name == t.part))
    {
        report.refuse("a tab of a part that is not on the sheet").part = Some(tab.part.clone());
    }
}

fn held<'a>(sheet: &DesignSheet, tab: &'a DesignTab, part: &Wood<'_>) -> Option<Held<'a>> {
    let at = Point::new(tab.at[0], tab.at[1]);
    let line = part.whole().edge.nearest(at)?;
    let nearest = line.piece.nearest(at);
    let sized = tab.width > 0.0 && tab.height > 0.0 && tab.flank >= 0.0;
    if nearest.distance.is_nan() || nearest.distance > ON_EDGE || !sized {
        return None;
    }
    let tangent = line.piece.tangent_at(nearest.fraction);
    let bits = sheet.bits.iter().filter(|bit| !bit.drill);
    let widest = bits.map(|bit| bit.diameter / 2.0).fold(0.0, f64::max);
    let zone = tab.width / 2.0 + tab.flank + widest;
    let edge = &part.whole().edge;
    let beside = edge.around(Rect::from_points(at, at), zone);
    let beside = beside.filter(|line| line.piece.nearest(at).distance < zone);
    Some(Held {
        tab,
        at: nearest.point,
        away: Vec2::new(tangent.y, -tangent.x),
        curvature: beside
            .map(|line| line.piece.curvature())
            .fold(line.piece.curvature(), f64::min),
    })
}

impl Held<'_> {
    /// How far from its middle edge stays uncut for a bit of radius `r`: two bits a tab's width apart, their centres on
    /// the parallel to the edge, and the edge between the feet of those centres.
    ///
    /// Where its sides slope, that much farther.
    pub(crate) fn reach(&self, r: f64) -> f64 {
        let half = self.tab.width / 2.0 + self.tab.flank + r;
        let along = if self.curvature.abs() < 1e-9 {
            half
        } else {
            // From the chord between the centres to the angle at the edge's centre, and back out to the edge.
            let radius = 1.0 / self.curvature.abs();
            let path = (1.0 / self.curvature + r).abs();
            radius * (half / path).min(1.0).asin()
        };
        along.max(half) + TAB_SLACK
    }

    /// How near a bit's centre comes to the middle of the tab, from its neck outward; none where it stays on the wood's side of
    /// the edge: along the far side of a thin part a bit comes near, with the part's own wood between.
    fn distance(&self, piece: &Piece, radius: f64) -> Option<f64> {
        let neck = self.at + self.away * radius;
        let across = Piece::line(neck, neck + self.away * radius);
        let (distance, at) = piece.distance_to(&across);
        let outside = |p: Point| (p - self.at).dot(self.away) >= 0.0;
        if outside(at) {
            return Some(distance);
        }
        // Round a tip one move stands on both sides: what it does on this one is told from its parts.
        let parts = (0..ROUND_A_TIP).map(|i| {
            let share = |i: u32| f64::from(i) / f64::from(ROUND_A_TIP);
            piece.part(share(i), share(i + 1)).distance_to(&across)
        });
        parts
            .filter(|&(_, at)| outside(at))
            .map(|(distance, _)| distance)
            .min_by(f64::total_cmp)
    }

    /// The box that reaches so far from its middle to every side.
    fn around(&self, reach: f64) -> Rect {
        Rect::from_points(self.at, self.at).inflate(reach, reach)
    }

    /// How far from its middle the nearest cut at or below a height leaves off, on the one side and on the other along the edge.
    fn sides(&self, runs: &[Run], height: f64) -> [f64; 2] {
        let along = Vec2::new(-self.away.y, self.away.x);
        let near = |run: &Run| self.around(self.tab.width + 2.0 * self.tab.flank + 3.0 * run.widest);
        let mut sides = [f64::INFINITY; 2];
        for cut in runs.iter().flat_map(|run| run.near(near(run), height)) {
            // From the edge outward: round a bulge the cuts leave off below the neck.
            let across = Piece::line(self.at, self.at + self.away * (2.0 * cut.radius));
            let (distance, at) = cut.piece.distance_to(&across);
            let aside = (at - self.at).dot(along);
            if (at - self.at).dot(self.away) >= 0.0 {
                let side = &mut sides[usize::from(aside > 0.0)];
                *side = side.min(distance - cut.radius);
            }
        }
        sides
    }

    /// Whether the cuts to each side come near enough: a tab too wide is more to saw than was planned.
    pub(crate) fn judge_width(&self, runs: &[Run], foot: f64, report: &mut Report) {
        let planned = self.tab.width / 2.0 + self.tab.flank;
        let widest = self.sides(runs, foot).into_iter().fold(0.0, f64::max);
        if widest.is_finite() && widest > planned + TAB_SLACK {
            let what = format!(
                "a tab reaches {widest:.2} mm to one side of its middle, where {planned:.2} mm are planned"
            );
            let finding = report.find(widest - planned, what);
            finding.part = Some(self.tab.part.clone());
            finding.at = Some(self.tab.at);
        }
    }

    /// Whether enough wood is left: no program may come below the tab's height within half its width of its middle.
    pub(crate) fn judge(&self, runs: &[Run], thickness: f64, report: &mut Report) {
        let height = self.tab.height;
        let near = |run: &Run| self.around(self.tab.width + 3.0 * run.widest);
        let worst = runs
            .iter()
            .flat_map(|run| run.near(near(run), -thickness + height - DEPTH))
            .filter_map(|cut| Some((self.distance(&cut.piece, cut.radius)? - cut.radius, cut.line)))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((side, line)) = worst else { return };
        if side < (self.tab.width - TAB_LESS) / 2.0 {
            let left = (2.0 * side).max(0.0);
            let what = if left > 0.0 {
                format!(
                    "a tab {left:.2} mm wide or less is left where {:.2} mm are planned",
                    self.tab.width
                )
            } else {
                "a planned tab is cut through or too low".to_owned()
            };
            let finding = report.find(self.tab.width, what);
            finding.part = Some(self.tab.part.clone());
            finding.at = Some(self.tab.at);
            finding.line = Some(line);
        }
    }
}
