//! Corners relieved so that a square edge seats in them: a bit may go into the wood there, along the planned way and no farther.

use crate::cuts::{Cut, Run};
use crate::leftover::Through;
use crate::report::{Report, spot};
use crate::wood::{Hollow, Wood};
use crate::{DEPTH, GOUGE, LEFTOVER};
use cintre_geometry::{Piece, Point, Rect};
use cintre_work::design::DesignRelief;

/// One corner's relief.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Relief {
    /// The way of the bit's middle, into the corner.
    along: Piece,
    radius: f64,
    /// How deep below the face; none where it goes through.
    depth: Option<f64>,
}

impl Relief {
    /// Of a part with these hollows: a corner of one of them is relieved down to its floor.
    pub(crate) fn new(planned: &DesignRelief, hollows: &[Hollow]) -> Option<Self> {
        let [from, to] = [planned.from, planned.to].map(|p| Point::new(p[0], p[1]));
        let sound = from.is_finite() && to.is_finite() && planned.diameter > 0.0;
        let depths = hollows.iter().filter(|h| h.contains(from)).map(|h| h.depth);
        sound.then(|| Self {
            along: Piece::line(from, to),
            radius: planned.diameter / 2.0,
            depth: depths.max_by(f64::total_cmp),
        })
    }

    /// Whether a cut below a level's floor is this relief: along it all the way, with a bit no wider and no deeper.
    pub(crate) fn allows(&self, cut: &Cut, over: f64) -> bool {
        let ends = [cut.piece.start, cut.piece.end];
        self.depth.is_none_or(|depth| over < depth)
            && cut.radius <= self.radius + GOUGE
            && cut.piece.is_line()
            && ends.iter().all(|&p| self.along.nearest(p).distance <= GOUGE)
    }
}

/// How far `to` stays from what comes down to a height about it; infinite where nothing does.
fn left(to: Point, height: f64, runs: &[Run]) -> f64 {
    let upright = runs.iter().filter(|run| run.taper.is_none());
    let about = upright.flat_map(|run| run.near(Rect::from_points(to, to), height));
    about
        .map(|cut| cut.piece.distance_from(to) - cut.radius)
        .fold(f64::INFINITY, f64::min)
}

/// Whether every planned relief of a part is cut. `through` is what is cut through.
pub(crate) fn judge(part: &Wood<'_>, runs: &[Run], through: &Through, report: &mut Report) {
    for relief in &part.reliefs {
        let to = relief.along.end;
        let left = relief
            .depth
            .map_or_else(|| through.left(to), |depth| left(to, -depth + DEPTH, runs));
        // A bit that stood there has its whole radius beyond its middle.
        let short = left + relief.radius;
        if short > LEFTOVER {
            let what = format!("a corner of {} is not relieved as planned", part.name);
            let finding = report.find(short.min(1e9), what);
            finding.part = Some(part.name.to_owned());
            finding.at = spot(to);
        }
    }
}
