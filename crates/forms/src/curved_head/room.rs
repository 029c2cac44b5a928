//! How much of a joint has wood enough on both sides for a tongue or for dowels.

use super::band::Cut;
use super::joint::{CHEEK, INSIDE, SHORTEST_TONGUE, STOPPED, dowel, reach};
use super::segment::{Segment, out_of};
use super::{HeadError, Input, Joint};
use cintre_geometry::Outline;

/// Along which stretch of a joint, from its lower end, its tongue or its dowels find room in both segments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Room {
    pub(super) from: f64,
    pub(super) to: f64,
}

/// The refusal of a joint that finds no room in segments so short or so sharp.
pub(super) fn no_room(input: &Input, joint: Joint, segments: usize) -> HeadError {
    HeadError::JointReach {
        joint: joint.name(),
        reach: reach(input, joint),
        segments,
    }
}

/// The room of the joint at the right end of each segment of a layer; none at an end of the head.
pub(super) fn rooms(
    segments: &[Segment],
    joint: Joint,
    input: &Input,
) -> Result<Vec<Option<Room>>, HeadError> {
    let outlines: Vec<Outline> = segments.iter().map(Segment::outline).collect();
    let next = |i: usize| (i + 1) % segments.len();
    let at = |i: usize| {
        let cut = &segments[i].to;
        if !cut.joined {
            return Ok(None);
        }
        room(cut, [&outlines[i], &outlines[next(i)]], joint, input)
            .map(Some)
            .ok_or_else(|| no_room(input, joint, segments.len()))
    };
    (0..segments.len()).map(at).collect()
}

/// The longest stretch of a joint along which what is cut into both segments has wood about it.
fn room(cut: &Cut, wood: [&Outline; 2], joint: Joint, input: &Input) -> Option<Room> {
    /// Places are tried in steps of this, mm.
    const STEP: f64 = 1.0;
    let whole = cut.line.start().distance(cut.line.end());
    let (first, least) = match joint {
        Joint::Butt | Joint::Finger => return Some(Room { from: 0.0, to: whole }),
        Joint::Spline => (STOPPED, SHORTEST_TONGUE),
        Joint::Dowel => {
            let diameter = dowel(input)?;
            (INSIDE * diameter, INSIDE * diameter)
        }
    };
    let out = out_of(cut, false);
    let across = (cut.line.end() - cut.line.start()) / whole;
    let deep = reach(input, joint);
    let sound = |along: f64| {
        let at = cut.line.start() + across * along;
        wood.iter().zip([-out, out]).all(|(outline, inwards)| {
            [0.5, 1.0]
                .iter()
                .all(|share| outline.signed_distance(at + inwards * (deep * share)) < -CHEEK)
        })
    };
    let steps = |from: f64, by: f64| {
        std::iter::successors(Some(from), move |a| Some(a + by))
            .take_while(move |a| (0.0..=whole).contains(a))
    };
    let from = steps(first, STEP).find(|a| sound(*a))?;
    let to = steps(whole - first, -STEP).find(|a| sound(*a))?;
    (to - from >= least).then_some(Room { from, to })
}
