//! The least sum of squares, by the method of Gauss and Newton with steps halved until they help.

use crate::{Point, Vec2};
use nalgebra::{DMatrix, DVector, SVector};

/// Steps after which the search is given up; a fair start takes five to ten.
const ROUNDS: usize = 200;

/// A step this small, beside parameters of about 1, is the last one.
const STILL: f64 = 1e-12;

/// A search that cannot better itself has still ended well if its last step was no longer than this.
const NEAR: f64 = 1e-7;

/// Halvings of a step that does not help.
const HALVINGS: usize = 40;

/// A residual and how it grows with each parameter.
pub(super) type Row<const N: usize> = (f64, SVector<f64, N>);

/// The parameters of the least sum of squared residuals, from a start; none if the search does not end.
///
/// `rows` gives every residual at given parameters, or nothing where the parameters make no sense.
pub(super) fn least_squares<const N: usize>(
    start: SVector<f64, N>,
    rows: impl Fn(&SVector<f64, N>) -> Option<Vec<Row<N>>>,
) -> Option<SVector<f64, N>> {
    let mut at = start;
    let mut here = rows(&at)?;
    for _ in 0..ROUNDS {
        let step = step(&here)?;
        let size = step.norm() / (1.0 + at.norm());
        if size <= STILL {
            return Some(at);
        }
        let better = (0..HALVINGS).find_map(|halvings| {
            let tried = at + step * 0.5f64.powi(i32::try_from(halvings).unwrap_or(i32::MAX));
            let there = rows(&tried)?;
            (cost(&there) < cost(&here)).then_some((tried, there))
        });
        match better {
            Some(found) => (at, here) = found,
            // Rounding hides what is still to be gained.
            None => return (size <= NEAR).then_some(at),
        }
    }
    None
}

fn cost<const N: usize>(rows: &[Row<N>]) -> f64 {
    rows.iter().map(|(residual, _)| residual * residual).sum()
}

/// The step that would end the search if every residual were linear.
fn step<const N: usize>(rows: &[Row<N>]) -> Option<SVector<f64, N>> {
    let slopes = DMatrix::from_fn(rows.len(), N, |row, column| rows[row].1[column]);
    let residuals = DVector::from_iterator(rows.len(), rows.iter().map(|row| row.0));
    let step = solved(slopes, &residuals)?;
    Some(SVector::from_fn(|i, _| -step[i]))
}

/// The least-squares solution of a linear system with more rows than columns.
pub(super) fn solved(system: DMatrix<f64>, right: &DVector<f64>) -> Option<DVector<f64>> {
    let svd = system.svd(true, true);
    let least = svd.singular_values.max() * f64::EPSILON;
    svd.solve(right, least).ok()
}

/// A frame in which measured points stand about the origin, no farther off than 1.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scaled {
    pub(super) middle: Point,
    pub(super) size: f64,
}

impl Scaled {
    pub(super) fn of(points: &[Point]) -> Self {
        #[expect(clippy::cast_precision_loss, reason = "far fewer points than 2^52")]
        let count = points.len() as f64;
        let middle = (points.iter().fold(Vec2::ZERO, |sum, p| sum + p.to_vec2()) / count).to_point();
        let size = points.iter().map(|p| p.distance(middle)).fold(0.0, f64::max);
        Self { middle, size }
    }

    /// A point in this frame.
    pub(super) fn inside(self, p: Point) -> Vec2 {
        (p - self.middle) / self.size
    }

    /// A place of this frame in millimetres.
    pub(super) fn outside(self, p: Vec2) -> Point {
        self.middle + p * self.size
    }
}

/// How far points stand off a line, each and all.
#[derive(Clone, Debug, PartialEq)]
pub struct Residuals {
    /// Point by point, mm, square to the line: positive outside it.
    pub each: Vec<f64>,
    /// The greatest of them, whatever its sign, mm.
    pub worst: f64,
    /// The root of the mean of their squares, mm.
    pub rms: f64,
}

impl Residuals {
    pub(super) fn new(each: Vec<f64>) -> Self {
        #[expect(clippy::cast_precision_loss, reason = "far fewer points than 2^52")]
        let count = each.len() as f64;
        Self {
            worst: each.iter().fold(0.0, |worst, r| r.abs().max(worst)),
            rms: (each.iter().map(|r| r * r).sum::<f64>() / count).sqrt(),
            each,
        }
    }
}
