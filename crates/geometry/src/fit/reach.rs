//! How far one arc can follow a curve.

use super::stand::Stand;
use crate::Point;

/// The arcs that leave a stand and keep a tolerance, to each of the places that they reach.
///
/// An arc of greater curvature passes every place ahead farther to the left. With v from the stand to a place and a the part of
/// v to the left, the arc that passes it e to its right, has curvature 2 (a - e) / (v² - e²): so the curvatures that keep the
/// tolerance as far as some place lie between the greatest such lower bound met so far and the least upper one.
#[derive(Debug, Default)]
pub(super) struct Reach {
    /// The place, counted over all of the curve, that `allowed` begins with.
    first: usize,
    /// The least and greatest curvature with which each place is reached in turn.
    allowed: Vec<(f64, f64)>,
    /// How far the farthest reaches: the number of a place and the fraction to the next.
    pub(super) farthest: f64,
}

impl Reach {
    /// Looks along `points` from number `from`, across from which the stand is. No arc turns by half a circle or more.
    pub(super) fn look(&mut self, points: &[Point], from: usize, stand: &Stand, tolerance: f64) {
        self.first = from + 1;
        self.allowed.clear();
        self.farthest = to_float(points.len() - 1);
        let left = stand.left();
        let square = tolerance * tolerance;
        // No arc tighter than a few times the tolerance.
        let (mut least, mut greatest) = (-0.25 / tolerance, 0.25 / tolerance);
        for (i, &point) in points.iter().enumerate().skip(from + 1) {
            let v = point - stand.place;
            let before = greatest - least;
            let reach = v.hypot2() - square;
            // Nearer than twice the tolerance any arc will do.
            if reach > 3.0 * square {
                let aside = v.dot(left);
                least = least.max(2.0 * (aside - tolerance) / reach);
                greatest = greatest.min(2.0 * (aside + tolerance) / reach);
            }
            let now = greatest - least;
            if now < 0.0 || v.dot(stand.heading) < 0.0 {
                self.farthest = to_float(i - 1) + if now < 0.0 { before / (before - now) } else { 0.0 };
                return;
            }
            self.allowed.push((least, greatest));
        }
    }

    /// The curvatures with which the place of this number is reached, if it is.
    pub(super) fn allowed_at(&self, place: usize) -> Option<(f64, f64)> {
        let (least, greatest) = *self.allowed.get(place.checked_sub(self.first)?)?;
        (least <= greatest).then_some((least, greatest))
    }

    /// Whether an arc of this curvature reaches the place of this number.
    pub(super) fn allows(&self, place: usize, bend: f64) -> bool {
        self.allowed_at(place)
            .is_some_and(|(least, greatest)| least <= bend && bend <= greatest)
    }

    /// The number of the last place that is reached; that of the stand itself if none is.
    pub(super) fn last(&self) -> usize {
        self.first + self.allowed.len() - 1
    }
}

#[expect(clippy::cast_precision_loss, reason = "no curve is looked at in 2⁵² places")]
pub(super) const fn to_float(count: usize) -> f64 {
    count as f64
}
