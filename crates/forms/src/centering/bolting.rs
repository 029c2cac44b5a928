//! Where a built-up rib is bolted: along its middle and along its tie, two bolts between any joint and the next, none nearer to
//! an edge of any member than the edge distance.

use super::bolts::{LIFTING, PITCH, ROUND_LIFTING, edge_distance, lifting_places};
use super::frame::{Face, Frame, Side};
use super::joints::Divided;
use super::member::{Layer, Member};
use crate::line::{at_level, length_to, point_along};
use cintre_geometry::{Outline, Path, Point};
use cintre_work::{Bore, Depth};

/// Joints stand on curves, where a length along the line is a little more than the distance from the joint.
const CURVED: f64 = 1.01;

/// What rounding may take off a distance, mm.
const ROUNDING: f64 = 1e-6;

/// Cuts nearer than this are one, mm.
const SAME: f64 = 0.5;

/// The bolts and the holes of a rib in the making.
pub(crate) struct Bolting<'a> {
    pub(crate) frame: &'a Frame,
    pub(crate) divided: &'a Divided,
    /// All members, plates and posts too.
    pub(crate) members: &'a mut Vec<Member>,
    pub(crate) bolt: f64,
}

impl Bolting<'_> {
    fn edge(&self) -> f64 {
        edge_distance(self.bolt)
    }

    /// Bores every member for the bolts that are `wanted` first, and for the rows; all the bolts' places.
    pub(crate) fn bore(&mut self, wanted: Vec<Point>) -> Vec<Point> {
        let mut taken: Vec<Point> = Vec::new();
        for p in wanted.into_iter().chain(self.rows()) {
            let apart = taken
                .iter()
                .all(|t| t.distance(p) >= 2.0 * self.edge() - ROUNDING);
            if apart && self.is_clear(p, self.edge()) {
                taken.push(p);
            }
        }
        for member in self.members.iter_mut() {
            let through = taken.iter().filter(|&&p| member.holds(p));
            member.bores = through
                .map(|&centre| Bore {
                    centre,
                    diameter: self.bolt,
                    depth: Depth::Through,
                })
                .collect();
        }
        taken
    }

    /// Whether a point keeps clear of the edges of every member, and lies in a layer of the rib itself.
    fn is_clear(&self, p: Point, edge: f64) -> bool {
        let in_rib = |m: &Member| matches!(m.layer, Layer::A | Layer::B) && m.holds(p);
        self.members.iter().all(|m| m.off_edges(p) >= edge - ROUNDING) && self.members.iter().any(in_rib)
    }

    fn rows(&self) -> Vec<Point> {
        let mut points = Vec::new();
        if let Some(middle) = self.frame.middle(self.edge()) {
            points.extend(self.along(&middle));
        }
        let y = if self.frame.depth.is_some() {
            f64::midpoint(self.frame.bottom, self.frame.tie_top)
        } else {
            self.frame.bottom + self.edge()
        };
        points.extend(self.across(y));
        if self.frame.depth.is_none() {
            points.extend(self.on_plates());
        }
        points
    }

    /// Across the middle of each plate on a solid frame.
    fn on_plates(&self) -> Vec<Point> {
        let plates = self.members.iter().filter(|m| m.layer == Layer::OnBoth);
        let rows = plates.flat_map(|plate| {
            let mut row = self.across(plate.outline.bounds().center().y);
            row.retain(|&p| plate.holds(p));
            row
        });
        rows.collect()
    }

    /// Between the joints and the ends of plates, along the middle of the band.
    fn along(&self, middle: &Path) -> Vec<Point> {
        let mut cuts: Vec<f64> = Vec::new();
        let level = if self.frame.depth.is_some() {
            self.frame.tie_top
        } else {
            self.frame.bottom
        };
        let ends = at_level(middle, level);
        cuts.extend(ends.first().map(|c| length_to(middle, c)));
        cuts.extend(ends.last().map(|c| length_to(middle, c)));
        cuts.extend(
            self.divided
                .joints
                .iter()
                .map(|f| self.frame.station_on(middle, f)),
        );
        cuts.extend(
            self.plate_ends()
                .map(|p| length_to(middle, &middle.nearest(p).into())),
        );
        let edge = self.edge() * CURVED;
        let places = between(cuts, edge);
        places.into_iter().map(|s| point_along(middle, s)).collect()
    }

    /// The corners of plates that lie along the band.
    fn plate_ends(&self) -> impl Iterator<Item = Point> {
        let plates = self.members.iter().filter(|m| m.layer == Layer::OnBoth);
        plates
            .flat_map(|m| m.outline.vertices().iter().map(|v| v.point))
            .filter(|p| p.y > self.frame.tie_top + 1.0)
    }

    /// Along the tie, or along the bottom of a solid frame.
    fn across(&self, y: f64) -> Vec<Point> {
        let mut cuts: Vec<f64> = Vec::new();
        let frame = self.frame;
        cuts.extend(at_level(&frame.outer, y).iter().map(|c| c.point.x));
        if frame.depth.is_some() {
            for side in [Side::Left, Side::Right] {
                cuts.extend(frame.level(frame.bottom, side).map(|face| face.to.x));
            }
        } else {
            let at = |face: &Face| {
                let share = (face.from.y - y) / (face.from.y - face.to.y);
                face.from.lerp(face.to, share).x
            };
            cuts.extend(self.divided.joints.iter().map(at));
        }
        cuts.extend(&self.divided.tie_joints);
        let plates = self.members.iter().filter(|m| m.layer == Layer::OnBoth);
        let low = plates.filter(|m| m.outline.bounds().y0 < y);
        cuts.extend(low.flat_map(|m| {
            let bounds = m.outline.bounds();
            [bounds.x0, bounds.x1]
        }));
        between(cuts, self.edge() * CURVED)
            .into_iter()
            .map(|x| Point::new(x, y))
            .collect()
    }

    /// Cuts a lifting hole on each side near the quarters of the band; whether both have room.
    pub(crate) fn lifting_holes(&mut self, bolts: &[Point]) -> bool {
        let Some(middle) = self.frame.middle(LIFTING + ROUND_LIFTING) else {
            return false;
        };
        let room = |p: Point| {
            bolts.iter().all(|b| b.distance(p) >= LIFTING + self.edge())
                && self.is_clear(p, LIFTING + ROUND_LIFTING)
        };
        let Some(holes) = lifting_places(&middle).find(|pair| pair.iter().all(|&p| room(p))) else {
            return false;
        };
        for hole in holes {
            for member in self.members.iter_mut().filter(|m| m.holds(hole)) {
                member.openings.push(Outline::circle(hole, LIFTING).reversed());
            }
        }
        true
    }
}

/// Places between each two cuts, `edge` clear of both: two at least where there is room for two, no farther apart than the pitch.
fn between(mut cuts: Vec<f64>, edge: f64) -> Vec<f64> {
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|b, a| *b - *a < SAME);
    let mut places = Vec::new();
    for pair in cuts.windows(2) {
        let (from, to) = (pair[0] + edge, pair[1] - edge);
        if to < from {
            continue;
        }
        if to - from < 2.0 * edge {
            places.push(f64::midpoint(from, to));
            continue;
        }
        let bays = ((to - from) / PITCH).ceil().max(1.0);
        let step = (to - from) / bays;
        places.extend(
            std::iter::successors(Some(0.0), |n| Some(n + 1.0))
                .take_while(|&n| n <= bays)
                .map(|n| from + n * step),
        );
    }
    places
}
