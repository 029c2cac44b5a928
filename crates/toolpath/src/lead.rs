//! The way to an edge and off it: arcs in the waste, tangent to the road of the bit's centre.
//!
//! A loop leaves the road by a quarter turn, runs back beside it and comes in again by a quarter turn. A bit goes down
//! along it, round after round, so that it meets the finished edge only at full depth of the pass and in motion.

use crate::road::Road;
use cintre_geometry::{Outline, Piece, Point, Rect, Vec2};
use std::f64::consts::FRAC_PI_2;

/// Radii that are tried, in bit radii, the widest first: a loop of up to two leaves no loose piece of waste in its middle.
const RADII: [f64; 3] = [2.0, 1.5, 1.0];

/// The bit runs on past where it came in by this share of its radius before it leaves.
pub(crate) const OVERLAP: f64 = 0.5;

/// Points of a loop looked at stand this far apart, mm.
const LOOK: f64 = 1.0;

/// How much nearer to its own edge than its radius a bit may seem to come, mm: the tolerance of a parallel.
const ROUNDING: f64 = 5e-6;

/// Where a bit's centre may go beside an edge: in the waste, clear of every other part, on the stock and the bed.
#[derive(Debug)]
pub(crate) struct Room<'a> {
    /// The bit's radius, mm.
    pub(crate) radius: f64,
    /// The edge that is cut.
    pub(crate) own: &'a Outline,
    /// Edges of other parts near by.
    pub(crate) others: &'a [&'a Outline],
    /// How far from those the bit's centre stays, mm, so that their tabs keep wood to hold on to.
    pub(crate) clearance: f64,
    /// What the bit's centre stays within.
    pub(crate) area: Rect,
    /// What it stays out of.
    pub(crate) keep_outs: &'a [Rect],
}

impl Room<'_> {
    fn free(&self, p: Point) -> bool {
        let r = self.radius;
        self.area.contains(p)
            && !self.keep_outs.iter().any(|k| k.inflate(r, r).contains(p))
            && self.own.nearest(p).distance >= r - ROUNDING
            && self
                .others
                .iter()
                .all(|o| beyond(o, p, self.clearance) || o.nearest(p).distance >= self.clearance)
    }

    fn holds(&self, piece: &Piece) -> bool {
        let steps = (piece.length() / LOOK).ceil().max(1.0);
        let mut k = 0.0;
        while k <= steps {
            if !self.free(piece.point_at(k / steps)) {
                return false;
            }
            k += 1.0;
        }
        true
    }
}

fn beyond(edge: &Outline, p: Point, distance: f64) -> bool {
    !edge.bounds().inflate(distance, distance).contains(p)
}

/// A loop in the waste beside a road.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Lead {
    /// Onto the road.
    pub(crate) inward: Piece,
    /// Off it, from a little past where it came on.
    pub(crate) outward: Piece,
}

impl Lead {
    /// The widest loop that there is room for at a length along a road; the waste lies on its left where `left`.
    pub(crate) fn at(road: &Road, along: f64, left: bool, room: &Room<'_>) -> Option<Self> {
        let over = OVERLAP * room.radius;
        let round = |share: f64| {
            Self::of(
                road,
                along,
                over,
                if left { 1.0 } else { -1.0 } * share * room.radius,
            )
        };
        RADII.into_iter().map(round).find(|lead| {
            [&lead.outward, &lead.inward, &lead.back()]
                .into_iter()
                .all(|piece| room.holds(piece))
        })
    }

    /// `radius` is positive where the waste lies on the left.
    fn of(road: &Road, along: f64, over: f64, radius: f64) -> Self {
        let (on, heading) = road.station(along);
        let (off, parting) = road.station(along + over);
        let (centre, last) = (on + across(heading) * radius, off + across(parting) * radius);
        let turn = radius.signum() * FRAC_PI_2;
        let start = centre - heading * radius.abs();
        Self {
            inward: Piece {
                end: on,
                ..Piece::arc(centre, start, turn)
            },
            outward: Piece::arc(last, off, turn),
        }
    }

    /// From the end of the way off back to the beginning of the way on.
    pub(crate) fn back(&self) -> Piece {
        Piece::line(self.outward.end, self.inward.start)
    }
}

/// The way over from a road that leaves an allowance to the finished one beside it, within what is cut already.
///
/// The arc has the bit's diameter for its radius, and ends on `finished` at `along`; the way off is its mirror image.
pub(crate) fn across_allowance(
    finished: &Road,
    along: f64,
    allowance: f64,
    (left, radius): (bool, f64),
) -> Lead {
    let side = if left { 1.0 } else { -1.0 };
    let (on, heading) = finished.station(along);
    let (off, parting) = finished.station(along + OVERLAP * radius);
    let turn = allowance_turn(allowance, radius);
    let bend = 2.0 * radius;
    let inward = Piece::arc(on + across(heading) * (side * bend), on, -side * turn).reversed();
    let outward = Piece::arc(off + across(parting) * (side * bend), off, side * turn);
    Lead { inward, outward }
}

/// The length along the road that such a way over takes, mm.
pub(crate) fn allowance_length(allowance: f64, radius: f64) -> f64 {
    2.0 * radius * allowance_turn(allowance, radius).sin()
}

/// The angle through which an arc of the bit's diameter stands off by the allowance: R (1 - cos a).
fn allowance_turn(allowance: f64, radius: f64) -> f64 {
    (1.0 - allowance / (2.0 * radius)).acos()
}

/// Square to a direction, to its left.
fn across(v: Vec2) -> Vec2 {
    Vec2::new(-v.y, v.x)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> (Outline, Road) {
        let edge = Outline::rectangle(Rect::new(0.0, 0.0, 100.0, 100.0));
        let road = Road::of(cintre_geometry::parallel(&edge, 3.0).unwrap()[0].pieces());
        (edge, road)
    }

    fn room<'a>(own: &'a Outline, others: &'a [&'a Outline]) -> Room<'a> {
        Room {
            radius: 3.0,
            own,
            others,
            clearance: 11.0,
            area: Rect::new(-200.0, -200.0, 300.0, 300.0),
            keep_outs: &[],
        }
    }

    #[test]
    fn it_comes_and_goes_along_the_tangent_in_the_waste() {
        let (edge, road) = square();
        let lead = Lead::at(&road, 50.0, false, &room(&edge, &[])).unwrap();
        let (on, heading) = road.station(50.0);
        assert!(lead.inward.end.distance(on) < 1e-9);
        assert!((lead.inward.tangent_at(1.0) - heading).hypot() < 1e-9);
        assert!((lead.outward.tangent_at(0.0) - heading).hypot() < 1e-9);
        assert!(
            (lead.outward.circle().unwrap().radius - 6.0).abs() < 1e-9,
            "the bit's diameter"
        );
        for p in [lead.inward.start, lead.outward.end] {
            assert!((edge.signed_distance(p) - 9.0).abs() < 1e-9);
        }
    }

    #[test]
    fn a_neighbour_makes_it_narrower_and_then_impossible() {
        let (edge, road) = square();
        let beside = |gap: f64| Outline::rectangle(Rect::new(-50.0, -gap - 50.0, 150.0, -gap));
        let bottom = road.along_of(Point::new(50.0, -3.0));
        let radius = |gap: f64| {
            let other = beside(gap);
            let lead = Lead::at(&road, bottom, false, &room(&edge, &[&other]));
            lead.map(|l| l.inward.circle().unwrap().radius)
        };
        assert!((radius(20.1).unwrap() - 6.0).abs() < 1e-9);
        assert!((radius(17.1).unwrap() - 3.0).abs() < 1e-9);
        assert_eq!(radius(16.9), None);
    }

    #[test]
    fn the_way_over_an_allowance_begins_on_the_road_that_left_it() {
        let (_, road) = square();
        let at = road.along_of(Point::new(50.0, -3.0));
        let lead = across_allowance(&road, at, 0.4, (false, 3.0));
        assert!((lead.inward.start.y + 3.4).abs() < 1e-9 && (lead.outward.end.y + 3.4).abs() < 1e-9);
        assert!(lead.inward.start.x < lead.inward.end.x && lead.outward.end.x > lead.outward.start.x);
        assert!((lead.inward.tangent_at(1.0) - Vec2::new(1.0, 0.0)).hypot() < 1e-9);
        assert!((lead.inward.end.x - lead.inward.start.x - allowance_length(0.4, 3.0)).abs() < 1e-9);
    }
}
