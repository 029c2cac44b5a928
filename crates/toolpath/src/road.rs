//! The closed road of a bit's centre, measured along its length from where the bit goes in.

use cintre_geometry::{Outline, Piece, Point, Vec2};

/// Pieces shorter than this are not cut off at a division, mm.
const SLIVER: f64 = 1e-6;

/// A closed road, from its start once round.
#[derive(Clone, Debug)]
pub(crate) struct Road {
    pub(crate) pieces: Vec<Piece>,
    /// Where each piece ends along the road, mm.
    ends: Vec<f64>,
}

impl Road {
    /// The road from a good place to go in: on the gentlest piece that is longer than a ramp of `ramp` mm, the longest of
    /// several, or else on the longest; in the middle of a straight one, at the start of a curve, which so stays whole.
    pub(crate) fn starting_well(edge: &Outline, ramp: f64) -> Self {
        let all: Vec<Piece> = edge.pieces().collect();
        let long: Vec<usize> = (0..all.len()).filter(|&i| all[i].length() > ramp).collect();
        let among = if long.is_empty() {
            (0..all.len()).collect()
        } else {
            long.clone()
        };
        let better = |&a: &usize, &b: &usize| {
            let bend = |i: usize| {
                if long.is_empty() {
                    0.0
                } else {
                    all[i].curvature().abs()
                }
            };
            bend(a)
                .total_cmp(&bend(b))
                .then(all[b].length().total_cmp(&all[a].length()))
        };
        let i = among.into_iter().min_by(better).unwrap_or(0);
        let room = all[i].length() - ramp;
        let middle = all[i].is_line() && room > 0.0;
        let fraction = if middle { room / 2.0 / all[i].length() } else { 0.0 };
        Self::of(edge.opened_at(i, fraction).pieces())
    }

    /// The road along `pieces`, a closed chain.
    pub(crate) fn of(pieces: impl Iterator<Item = Piece>) -> Self {
        let pieces: Vec<Piece> = pieces.flat_map(|p| p.within_half_turn()).collect();
        let ends = pieces
            .iter()
            .scan(0.0, |sum, p| {
                *sum += p.length();
                Some(*sum)
            })
            .collect();
        Self { pieces, ends }
    }

    pub(crate) fn length(&self) -> f64 {
        self.ends.last().copied().unwrap_or(0.0)
    }

    pub(crate) fn start(&self) -> Point {
        self.pieces[0].start
    }

    /// Where each piece begins and ends along the road.
    pub(crate) fn extent(&self, piece: usize) -> (f64, f64) {
        let from = if piece == 0 { 0.0 } else { self.ends[piece - 1] };
        (from, self.ends[piece])
    }

    /// The same road from another place on it.
    pub(crate) fn from(&self, along: f64) -> Self {
        Self::of(self.between(along, along + self.length()).into_iter())
    }

    /// The point at a length along the road, any number of times round.
    pub(crate) fn point_at(&self, along: f64) -> Point {
        let (i, fraction) = self.find(along);
        self.pieces[i].point_at(fraction)
    }

    /// The point at a length along the road, and the direction of travel there: where two pieces meet, the second's.
    pub(crate) fn station(&self, along: f64) -> (Point, Vec2) {
        let s = along.rem_euclid(self.length());
        let (i, fraction) = self.find(s);
        let next = (i + 1) % self.pieces.len();
        if self.extent(i).1 - s <= SLIVER {
            (self.pieces[next].start, self.pieces[next].tangent_at(0.0))
        } else {
            (
                self.pieces[i].point_at(fraction),
                self.pieces[i].tangent_at(fraction),
            )
        }
    }

    /// How far along the road its point nearest to `p` lies.
    pub(crate) fn along_of(&self, p: Point) -> f64 {
        let near = self
            .pieces
            .iter()
            .enumerate()
            .map(|(i, piece)| (i, piece.nearest(p)))
            .min_by(|a, b| a.1.distance.total_cmp(&b.1.distance));
        near.map_or(0.0, |(i, n)| {
            let (from, to) = self.extent(i);
            from + (to - from) * n.fraction
        })
    }

    /// The piece at a length along the road, and how far along that piece.
    fn find(&self, along: f64) -> (usize, f64) {
        let s = along.rem_euclid(self.length());
        let i = self
            .ends
            .partition_point(|&end| end < s)
            .min(self.pieces.len() - 1);
        let (from, to) = self.extent(i);
        (i, ((s - from) / (to - from)).clamp(0.0, 1.0))
    }

    /// The stretch between two lengths along the road, any number of times round; pieces stay whole but at its ends.
    pub(crate) fn between(&self, from: f64, to: f64) -> Vec<Piece> {
        let mut found = Vec::new();
        let mut lap = (from / self.length()).floor() * self.length();
        while lap < to {
            for (i, piece) in self.pieces.iter().enumerate() {
                let (a, b) = self.extent(i);
                let (a, b) = (a + lap, b + lap);
                let (begin, end) = (from.max(a), to.min(b));
                if end - begin <= SLIVER.min((b - a) / 2.0) {
                    continue;
                }
                let fraction = |s: f64| {
                    if s - a <= SLIVER {
                        0.0
                    } else if b - s <= SLIVER {
                        1.0
                    } else {
                        (s - a) / (b - a)
                    }
                };
                let (f, t) = (fraction(begin), fraction(end));
                found.push(if f > 0.0 || t < 1.0 {
                    piece.part(f, t)
                } else {
                    *piece
                });
            }
            lap += self.length();
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::Rect;

    #[test]
    fn it_starts_on_the_longest_side_with_the_ramp_in_its_middle() {
        let road = Road::starting_well(&Outline::rectangle(Rect::new(0.0, 0.0, 300.0, 100.0)), 60.0);
        assert!(road.start().distance(Point::new(120.0, 0.0)) < 1e-9);
        assert!((road.length() - 800.0).abs() < 1e-9);
    }

    #[test]
    fn a_stretch_may_go_round_more_than_once() {
        let road = Road::of(Outline::circle(Point::ZERO, 10.0).pieces());
        let pieces = road.between(10.0, 10.0 + 1.5 * road.length());
        let length: f64 = pieces.iter().map(Piece::length).sum();
        assert!((length - 1.5 * road.length()).abs() < 1e-6);
        assert!(pieces.windows(2).all(|w| w[0].end.distance(w[1].start) < 1e-9));
        assert!(pieces[0].start.distance(road.point_at(10.0)) < 1e-9);
    }
}
