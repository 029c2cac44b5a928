//! Voussoirs cut to a taper, between joints that are even.

use super::bed::{Bed, Face};
use super::{Crown, Voussoir, VoussoirError, Voussoirs, joints, outline, steps};

/// Nothing narrower is cut, mm.
const NARROWEST: f64 = 1.0;

pub(super) fn cut(bed: Bed, count: u32, joint: f64) -> Result<Voussoirs, VoussoirError> {
    check(&bed, count, joint)?;
    let pitch = bed.length / f64::from(count);
    let bed = &bed.opened(pitch / 2.0).ok_or(VoussoirError::Back { number: 1 })?;
    let too_many = || too_many(bed, count, joint);
    // Over a point the joint stands plumb, aslant to the soffit, and takes a little more of it.
    let over = if bed.pointed() {
        bed.half_apex_joint(joint).ok_or_else(too_many)? - joint / 2.0
    } else {
        0.0
    };
    let n = f64::from(count);
    let width = (bed.length - 2.0 * over - f64::from(bed.crown.joints(count)) * joint) / n;
    if width < NARROWEST {
        return Err(too_many());
    }
    let spans: Vec<(f64, f64)> = (0..count)
        .map(|i| {
            let past = if bed.pointed() && i >= count / 2 {
                2.0 * over
            } else {
                0.0
            };
            let from = bed.crown.first_joint(joint) + f64::from(i) * (width + joint) + past;
            (from, from + width)
        })
        .collect();
    let units = (1..)
        .zip(&spans)
        .map(|(number, &span)| unit(bed, span, joint, number, count));
    Ok(Voussoirs {
        count,
        crown: bed.crown,
        width,
        joint,
        joint_at_back: joint,
        units: units.collect::<Result<_, _>>()?,
        joints: joints(bed, &spans)?,
        steps: steps(bed, count, width + joint),
        tallies: Vec::new(),
        least_radius: None,
    })
}

fn check(bed: &Bed, count: u32, joint: f64) -> Result<(), VoussoirError> {
    if joint < 0.0 {
        return Err(VoussoirError::Joint { joint });
    }
    match bed.crown {
        _ if count == 0 => Err(VoussoirError::None),
        crown if crown.suits(count) => Ok(()),
        Crown::Closed => Err(VoussoirError::TooFew { count }),
        Crown::Point => Err(VoussoirError::OddAtPoint { count }),
        Crown::Key => Err(VoussoirError::Even { count }),
    }
}

fn too_many(bed: &Bed, count: u32, joint: f64) -> VoussoirError {
    let one_more = f64::from(bed.crown.joints(count) - count) * joint;
    let most = ((bed.length - one_more) / (joint + NARROWEST))
        .floor()
        .clamp(0.0, f64::from(count));
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 0 and a whole number of that kind"
    )]
    let most = most as u32;
    let most = if bed.crown.suits(most) {
        most
    } else {
        most.saturating_sub(1)
    };
    VoussoirError::TooMany { count, joint, most }
}

/// The voussoir between two lengths of the soffit: its faces run even with the middles of its joints.
fn unit(
    bed: &Bed,
    (from, to): (f64, f64),
    joint: f64,
    number: u32,
    count: u32,
) -> Result<Voussoir, VoussoirError> {
    let plumb = |side: bool| bed.pointed() && number == count / 2 + u32::from(side);
    let face = |at: f64, middle: f64, plumb: bool| Face {
        foot: bed.soffit.station(at).0,
        up: if plumb {
            bed.apex().up
        } else {
            bed.normal(middle).up
        },
    };
    let left = face(from, from - joint / 2.0, plumb(true));
    let right = face(to, to + joint / 2.0, plumb(false));
    let (a, b) = bed.reaches(left, right).ok_or(VoussoirError::Back { number })?;
    Ok(Voussoir {
        outline: outline(&bed.soffit.part(from, to), &bed.back.part(a, b)),
        width: to - from,
        width_at_back: b - a,
    })
}
