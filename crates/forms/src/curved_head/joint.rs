//! What holds the ends of two segments together: how it is cut, where it is marked, what it takes.

use super::band::Cut;
use super::fingers::{FINGER_REACH, finger_radius};
use super::room::{Room, rooms};
use super::segment::{Segment, out_of};
use super::{HeadError, Input, Joint};
use crate::{Error, Item};
use cintre_geometry::{Path, Point, Vec2};
use cintre_work::{Mark, MarkKind};

/// A loose tongue, over the joint, mm: half of it in each segment.
const TONGUE: f64 = 32.0;

/// What its slots are deeper, mm: room for glue, as for dowels.
const GLUE: f64 = 1.0;

/// It stops short of both edges by this, mm, so that neither shows it when they are moulded.
pub(super) const STOPPED: f64 = 12.0;

/// Shorter than this a tongue holds nothing, mm.
pub(super) const SHORTEST_TONGUE: f64 = 15.0;

/// A tongue is this share of the thickness.
const THIRD: f64 = 1.0 / 3.0;

/// The thinnest board that a tongue goes into, mm: its cheeks are three.
const THINNEST_SLOTTED: f64 = 9.0;

/// Dowels that are sold, mm.
const DOWELS: [f64; 4] = [12.0, 10.0, 8.0, 6.0];

/// A dowel is at most this share of the thickness.
const HALF: f64 = 0.5;

/// A dowel reaches this many diameters into each segment.
const REACH: f64 = 2.5;

/// And stands this many inside an edge, and twice as many apart at least.
pub(super) const INSIDE: f64 = 2.0;

/// About as far apart as dowels stand in a wide head, mm.
const DOWELS_APART: f64 = 50.0;

/// A mark begins this far from the end of a segment, mm.
const INSET: f64 = 2.0;

/// Wood left round a slot or a dowel, mm.
pub(super) const CHEEK: f64 = 3.0;

/// The thickness of a tongue.
fn tongue(input: &Input) -> f64 {
    input.boards.thickness * THIRD
}

/// The diameter of dowels in a thickness.
pub(super) fn dowel(input: &Input) -> Option<f64> {
    DOWELS.into_iter().find(|d| *d <= input.boards.thickness * HALF)
}

/// How far a joint reaches into a segment.
pub(super) fn reach(input: &Input, joint: Joint) -> f64 {
    match joint {
        Joint::Butt => 0.0,
        Joint::Spline => TONGUE / 2.0 + GLUE,
        Joint::Dowel => dowel(input).unwrap_or_default() * REACH + GLUE,
        Joint::Finger => finger_radius(input) * FINGER_REACH,
    }
}

/// Refuses a joint that boards so thin, or a head so narrow, have no room for.
pub(super) fn check(input: &Input, joint: Joint) -> Result<(), Error> {
    let thickness = input.boards.thickness;
    let (thinnest, narrowest) = match joint {
        Joint::Butt => return Ok(()),
        Joint::Spline => (THINNEST_SLOTTED, 2.0 * STOPPED + SHORTEST_TONGUE),
        Joint::Dowel => (
            DOWELS[DOWELS.len() - 1] / HALF,
            dowel(input).unwrap_or_default() * 4.0 * INSIDE,
        ),
        Joint::Finger => (0.0, finger_radius(input) * 6.0),
    };
    let joint = joint.name();
    if thickness < thinnest {
        return Err(HeadError::JointThickness {
            joint,
            thickness,
            least: thinnest,
        }
        .into());
    }
    if input.width < narrowest {
        return Err(HeadError::JointWidth {
            joint,
            width: input.width,
            least: narrowest,
        }
        .into());
    }
    Ok(())
}

/// The lines that show on a segment's face where its slots or dowels lie in it.
pub(super) fn marks(segment: &Segment, rooms: [Option<Room>; 2], joint: Joint, input: &Input) -> Vec<Mark> {
    let ends = [(&segment.from, true), (&segment.to, false)];
    let lines = ends.into_iter().zip(rooms).flat_map(|((cut, at_start), room)| {
        room.map_or_else(Vec::new, |room| {
            lines_at(cut, room, -out_of(cut, at_start), joint, input)
        })
    });
    lines
        .map(|path| Mark {
            path,
            kind: MarkKind::Line,
        })
        .collect()
}

fn lines_at(cut: &Cut, room: Room, inwards: Vec2, joint: Joint, input: &Input) -> Vec<Path> {
    let (from, to) = (cut.line.start(), cut.line.end());
    let across = (to - from).normalize();
    let deep = reach(input, joint);
    match joint {
        Joint::Butt | Joint::Finger => Vec::new(),
        Joint::Spline => {
            let ends: [Point; 2] = [from + across * room.from, from + across * room.to];
            vec![Path::polyline(&[
                ends[0] + inwards * INSET,
                ends[0] + inwards * deep,
                ends[1] + inwards * deep,
                ends[1] + inwards * INSET,
            ])]
        }
        Joint::Dowel => {
            let places = dowel_places(room);
            let line = |along: f64| {
                let at = from + across * along;
                Path::polyline(&[at + inwards * INSET, at + inwards * deep])
            };
            places.into_iter().map(line).collect()
        }
    }
}

/// Where dowels stand along a joint, from its lower end.
fn dowel_places(room: Room) -> Vec<f64> {
    let whole = room.to - room.from;
    let gaps = (whole / DOWELS_APART).floor().max(1.0);
    let places = std::iter::successors(Some(0.0), |i| Some(i + 1.0)).take_while(|i| *i <= gaps);
    places.map(|i| room.from + whole * i / gaps).collect()
}

/// What the joints of one layer take, for the cutting list.
pub(super) fn items(segments: &[Segment], joint: Joint, input: &Input) -> Result<Vec<Item>, HeadError> {
    let rooms = rooms(segments, joint, input)?;
    let rooms = rooms.into_iter().flatten();
    Ok(match joint {
        Joint::Butt | Joint::Finger => Vec::new(),
        Joint::Spline => {
            let mut items: Vec<Item> = Vec::new();
            for length in rooms.map(|room| room.to - room.from) {
                match items
                    .iter_mut()
                    .find(|item| (item.length - length).abs() < GLUE / 10.0)
                {
                    Some(item) => item.count += 1,
                    None => items.push(Item::of(
                        "loose tongue, its grain across the joint",
                        1,
                        length,
                        Some((TONGUE, tongue(input))),
                    )),
                }
            }
            items
        }
        Joint::Dowel => {
            let diameter = dowel(input).unwrap_or_default();
            let count = rooms.map(|room| dowel_places(room).len()).sum();
            let length = 2.0 * REACH * diameter;
            vec![Item::of("dowel", count, length, Some((diameter, diameter)))]
        }
    })
}

/// How the joint is cut, in a sentence.
pub(super) fn note(joint: Joint, input: &Input) -> String {
    let deep = reach(input, joint);
    match joint {
        Joint::Butt => "the ends of segments butt".to_owned(),
        Joint::Spline => format!(
            "each joint has a loose tongue: a slot {:.1} mm wide in the middle of the thickness, {deep:.1} mm deep, stopped {STOPPED} mm or more \
             inside both edges; its outline is scribed on the segments. Cut it with a slotting cutter, the scribed face on the fence \
             every time",
            tongue(input)
        ),
        Joint::Dowel => format!(
            "each joint has dowels of {} mm: holes {deep:.1} mm deep in the middle of the thickness, square to the joint; their lines \
             are scribed on the segments",
            dowel(input).unwrap_or_default()
        ),
        Joint::Finger => format!(
            "fingers are cut in the ends themselves, round to {:.2} mm so that a bit follows both sides of a joint; {:.1} mm to each \
             side of it. They are drawn to touch: if they bind, take a shaving off the flanks",
            finger_radius(input),
            deep
        ),
    }
}
