//! Whole units, between joints that taper.

use super::bed::Bed;
use super::{Crown, Voussoir, VoussoirError, Voussoirs, joints, steps};
use crate::{Outline, Vec2};

/// A number of uncut units and the joints that it leaves. mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tally {
    /// How many units.
    pub count: u32,
    /// The joint at the soffit; below 0 where so many do not go in.
    pub joint: f64,
    /// The joint at the back.
    pub joint_at_back: f64,
    /// Whether the number suits the crown and the joints are within bounds.
    pub fits: bool,
}

impl Tally {
    fn mean_joint(&self) -> f64 {
        f64::midpoint(self.joint, self.joint_at_back)
    }
}

/// How many numbers are shown below the one taken, and above.
const SHOWN: (u32, u32) = (2, 3);

/// More units than any ring has.
const MOST: f64 = 10_000.0;

struct Ring {
    width: f64,
    least: f64,
    most: f64,
    soffit: f64,
    back: f64,
    crown: Crown,
}

impl Ring {
    fn tally(&self, count: u32) -> Tally {
        let n = f64::from(count);
        let joint = |length: f64| (length - n * self.width) / f64::from(self.crown.joints(count));
        let (joint, joint_at_back) = (joint(self.soffit), joint(self.back));
        let within = joint >= self.least && joint_at_back <= self.most;
        Tally {
            count,
            joint,
            joint_at_back,
            fits: within && self.crown.suits(count),
        }
    }

    /// The joint that is aimed at, half way between soffit and back.
    const fn aim(&self) -> f64 {
        f64::midpoint(self.least, self.most)
    }

    /// The numbers that suit the crown and whose mean joints come nearest to the aim, nearest first.
    fn near(&self) -> Vec<Tally> {
        let ideal = (f64::midpoint(self.soffit, self.back) - self.aim()) / (self.width + self.aim());
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 0 and a few thousand"
        )]
        let ideal = ideal.clamp(0.0, MOST) as u32;
        // Where any number fits, one does within two of the ideal: beyond, either soffit or back is out of bounds for good.
        let counts = ideal.saturating_sub(3).max(1)..=ideal + 4;
        let mut near: Vec<_> = counts
            .filter(|&n| self.crown.suits(n))
            .map(|n| self.tally(n))
            .collect();
        let off = |t: &Tally| (t.mean_joint() - self.aim()).abs();
        near.sort_by(|a, b| off(a).total_cmp(&off(b)));
        near
    }

    /// R = d / ((w + most) / (w + least) - 1).
    fn least_radius(&self, depth: f64) -> Option<f64> {
        let taper = (self.width + self.most) / (self.width + self.least) - 1.0;
        (taper > 0.0).then(|| depth / taper)
    }
}

pub(super) fn uncut(bed: Bed, width: f64, least: f64, most: f64) -> Result<Voussoirs, VoussoirError> {
    if width <= 0.0 || least < 0.0 || most < least {
        return Err(VoussoirError::Size { width, least, most });
    }
    let back = bed.back_length().ok_or(VoussoirError::Back { number: 1 })?;
    let depth = bed
        .line(bed.normal(0.0))
        .ok_or(VoussoirError::Back { number: 1 })?
        .length();
    let ring = Ring {
        width,
        least,
        most,
        soffit: bed.length,
        back,
        crown: bed.crown,
    };
    let near = ring.near();
    let least_radius = ring.least_radius(depth);
    let Some(taken) = near.iter().find(|tally| tally.fits).copied() else {
        let mut nearest: Vec<Tally> = near.into_iter().take(2).collect();
        nearest.sort_by_key(|tally| tally.count);
        return Err(VoussoirError::NoneFits {
            width,
            least,
            most,
            nearest,
            least_radius,
        });
    };
    let count = taken.count;
    let pitch = width + taken.joint;
    let bed = &bed.opened(pitch / 2.0).ok_or(VoussoirError::Back { number: 1 })?;
    let spans: Vec<(f64, f64)> = (0..count)
        .map(|i| bed.crown.first_joint(taken.joint) + f64::from(i) * pitch)
        .map(|from| (from, from + width))
        .collect();
    let shown = count.saturating_sub(SHOWN.0).max(1)..=count + SHOWN.1;
    Ok(Voussoirs {
        count,
        crown: bed.crown,
        width,
        joint: taken.joint,
        joint_at_back: taken.joint_at_back,
        units: spans.iter().map(|&span| unit(bed, span, width, depth)).collect(),
        joints: joints(bed, &spans)?,
        steps: steps(bed, count, pitch),
        tallies: shown.map(|n| ring.tally(n)).collect(),
        least_radius,
    })
}

/// A rectangle that lies on the soffit at its middle.
fn unit(bed: &Bed, (from, to): (f64, f64), width: f64, depth: f64) -> Voussoir {
    let middle = bed.normal(f64::midpoint(from, to));
    let along = Vec2::new(middle.up.y, -middle.up.x) * (width / 2.0);
    let (low, high) = (middle.foot, middle.foot + middle.up * depth);
    Voussoir {
        outline: Outline::polygon(&[low - along, low + along, high + along, high - along]),
        width,
        width_at_back: width,
    }
}
