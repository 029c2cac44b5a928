//! The rest of a road, as a tab on it meets the bit that comes by there: in a narrow cusp, on the other side.

use crate::road::Road;
use cintre_geometry::{Piece, Rect};

/// A road that keeps off its own tabs.
pub(crate) struct Elsewhere<'a> {
    road: &'a Road,
    /// Round each piece, `apart` wide, mm.
    boxes: Vec<Rect>,
    /// How far along the road it is the tab's own cut, mm.
    own: f64,
    /// How far the bit's middle must stay from the tab's, mm.
    apart: f64,
}

impl<'a> Elsewhere<'a> {
    /// The road but for `own` mm to either side of a tab, which keeps `apart` mm from it.
    pub(crate) fn on(road: &'a Road, own: f64, apart: f64) -> Self {
        let boxes = road.pieces.iter().map(|p| p.bounds().inflate(apart, apart));
        Self {
            road,
            boxes: boxes.collect(),
            own,
            apart,
        }
    }

    /// Whether a tab so far along the road is left whole by the rest of it.
    pub(crate) fn keeps_off(&self, along: f64) -> bool {
        let p = self.road.point_at(along);
        let mut near = (0..self.boxes.len()).filter(|&i| self.boxes[i].contains(p));
        near.all(|i| {
            self.rest_of(i, along)
                .all(|piece| piece.nearest(p).distance >= self.apart)
        })
    }

    /// What of a piece is not the tab's own cut.
    fn rest_of(&self, i: usize, along: f64) -> impl Iterator<Item = Piece> {
        let (own, round) = (self.own, self.road.length());
        let (from, to) = self.road.extent(i);
        let (start, length) = ((from - along).rem_euclid(round), to - from);
        let piece = self.road.pieces[i];
        // From the tab once round, and from it again where the piece goes past it.
        [(own, round - own), (round + own, 2.0 * round - own)]
            .into_iter()
            .map(move |(a, b)| (a.max(start) - start, b.min(start + length) - start))
            .filter(|(a, b)| a < b)
            .map(move |(a, b)| piece.part(a / length, b / length))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::{Outline, Point};

    #[test]
    fn a_slit_narrower_than_a_tab_needs_bears_none_and_its_mouth_does() {
        // A slit of 12 at its mouth that runs to a point 300 deep.
        let slit: [Point; 3] = [(0.0, 0.0), (300.0, -6.0), (300.0, 6.0)].map(Point::from);
        let road = Road::of(Outline::polygon(&slit).pieces());
        let elsewhere = Elsewhere::on(&road, 20.0, 8.0);
        for (along, free) in [(100.0, false), (190.0, false), (210.0, true), (270.0, true)] {
            assert_eq!(elsewhere.keeps_off(along), free, "{along}");
            assert_eq!(
                elsewhere.keeps_off(road.length() - along),
                free,
                "{along} from the other end"
            );
        }
    }

    #[test]
    fn a_straight_road_is_in_no_tabs_way() {
        let board = Outline::rectangle(Rect::new(0.0, 0.0, 400.0, 100.0));
        let road = Road::of(board.pieces());
        let elsewhere = Elsewhere::on(&road, 14.0, 8.0);
        assert!((0..100).all(|k| elsewhere.keeps_off(10.0 * f64::from(k))));
    }
}
