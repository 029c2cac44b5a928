//! How much each piece overlaps each other and the places kept free, with the weight that each overlap has come to have.
//!
//! A pair that will not come apart weighs more and more, until moving one of the two elsewhere is worth what it costs: the
//! guided local search of Voudouris and Tsang (1999), as used on overlaps by Egeblad, Nielsen and Odgaard (2007).

use crate::collisions::{Met, Shape};
use crate::poles::Poles;
use crate::spread::{Spot, Spread};

/// The weight of a pair grows by the least of these where it overlaps little, and by the most where it overlaps worst.
const LEAST_GROWTH: f32 = 1.2;
const MOST_GROWTH: f32 = 2.0;

/// The weight of a pair that lies apart falls by this again and again, down to 1.
const FADING: f32 = 0.95;

/// Pairs lying apart by this share of the larger one's length still count for half of nothing's slope.
const SOFT: f32 = 0.01;

/// What a piece that stands out of the room counts, in lengths of it by itself: so much that no search keeps it.
const OUTSIDE: f32 = 1e6;

/// Overlaps and weights of pairs.
#[derive(Clone, Debug)]
pub(crate) struct Overlaps {
    pieces: usize,
    /// How many things a piece can meet: pieces, then places kept free.
    columns: usize,
    loss: Vec<f32>,
    weight: Vec<f32>,
}

/// What the measure needs of a shape: how large it is in the round, and how soft its edge counts.
#[derive(Clone, Copy, Debug)]
struct Build {
    stout: f32,
    soft: f32,
}

fn build(shape: &Shape) -> Build {
    Build {
        stout: shape.hull_area().sqrt().sqrt(),
        soft: SOFT * shape.length(),
    }
}

/// The overlap of a piece's poles with another's, in mm².
fn loss(a: Build, own: &Poles, met: Met, b: Option<Build>, other: &Poles) -> f32 {
    if met == Met::Outside {
        return OUTSIDE * a.stout * a.stout;
    }
    let b = b.unwrap_or(a);
    let soft = a.soft.max(b.soft);
    (own.overlap(other, soft) + soft * soft).sqrt() * a.stout * b.stout
}

impl Overlaps {
    pub(crate) fn new(spread: &Spread<'_>) -> Self {
        let pieces = spread.lot.pieces.len();
        let kept = spread.lot.rooms.iter().map(|r| r.kept.len()).max().unwrap_or(0);
        let columns = pieces + kept;
        Self {
            pieces,
            columns,
            loss: vec![0.0; pieces * columns],
            weight: vec![1.0; pieces * columns],
        }
    }

    const fn column(&self, met: Met) -> usize {
        match met {
            Met::Piece(p) => p,
            Met::Kept(k) => self.pieces + k,
            Met::Outside => 0,
        }
    }

    /// What a piece would overlap there, weighed; none as soon as that is no less than `bound`.
    pub(crate) fn weigh(&self, spread: &mut Spread<'_>, piece: usize, spot: Spot, bound: f32) -> Option<f32> {
        let lot = spread.lot;
        let own_build = build(&lot.kind(piece).shape);
        let row = piece * self.columns;
        let mut sum = 0.0;
        let under = spread.meet(piece, spot, |met, own, other| {
            let other_build = match met {
                Met::Piece(p) => Some(build(&lot.kind(p).shape)),
                _ => None,
            };
            let weight = if met == Met::Outside {
                1.0
            } else {
                self.weight[row + self.column(met)]
            };
            sum += weight * loss(own_build, own, met, other_build, other);
            sum >= bound
        });
        under.then_some(sum)
    }

    /// Measures again what a piece overlaps where it lies now.
    pub(crate) fn measure(&mut self, spread: &mut Spread<'_>, piece: usize) {
        let row = piece * self.columns;
        for column in 0..self.columns {
            self.loss[row + column] = 0.0;
            if column < self.pieces {
                self.loss[column * self.columns + piece] = 0.0;
            }
        }
        let Some(spot) = spread.spots[piece] else {
            return;
        };
        let lot = spread.lot;
        let own_build = build(&lot.kind(piece).shape);
        let mut found: Vec<(Met, f32)> = Vec::new();
        spread.meet(piece, spot, |met, own, other| {
            let other_build = match met {
                Met::Piece(p) => Some(build(&lot.kind(p).shape)),
                _ => None,
            };
            found.push((met, loss(own_build, own, met, other_build, other)));
            false
        });
        for (met, loss) in found {
            let column = self.column(met);
            self.loss[row + column] = loss;
            if column < self.pieces && met != Met::Outside {
                self.loss[column * self.columns + piece] = loss;
            }
        }
    }

    pub(crate) fn measure_all(&mut self, spread: &mut Spread<'_>) {
        for piece in 0..self.pieces {
            self.measure(spread, piece);
        }
    }

    /// What a piece overlaps where it lies, weighed.
    pub(crate) fn weighed(&self, piece: usize) -> f32 {
        let row = piece * self.columns..(piece + 1) * self.columns;
        self.loss[row.clone()]
            .iter()
            .zip(&self.weight[row])
            .map(|(l, w)| l * w)
            .sum()
    }

    /// Whether a piece overlaps anything.
    pub(crate) fn overlaps(&self, piece: usize) -> bool {
        self.loss[piece * self.columns..(piece + 1) * self.columns]
            .iter()
            .any(|&l| l > 0.0)
    }

    /// All overlap, not weighed; a pair counts twice.
    pub(crate) fn total(&self) -> f32 {
        self.loss.iter().sum()
    }

    /// Overlapping pairs come to weigh more, the others less.
    pub(crate) fn weigh_anew(&mut self) {
        let most = self.loss.iter().copied().fold(0.0, f32::max);
        for (weight, &loss) in self.weight.iter_mut().zip(&self.loss) {
            if loss > 0.0 {
                *weight *= LEAST_GROWTH + (MOST_GROWTH - LEAST_GROWTH) * loss / most;
            } else {
                *weight = (*weight * FADING).max(1.0);
            }
        }
    }
}
