//! What holds the ends of two segments together: how it is cut, where it is marked, what it takes.

use super::band::Cut;
use super::segment::{Segment, out_of};
use super::{HeadError, Input, Joint};
use crate::{Error, Item};
use cintre_geometry::{Outline, Path, Piece, Point, Vec2};
use cintre_work::{Mark, MarkKind};
use std::f64::consts::FRAC_PI_8;

/// A loose tongue, over the joint, mm: half of it in each segment.
const TONGUE: f64 = 32.0;

/// What its slots are deeper, mm: room for glue, as for dowels.
const GLUE: f64 = 1.0;

/// It stops short of both edges by this, mm, so that neither shows it when they are moulded.
const STOPPED: f64 = 12.0;

/// Shorter than this a tongue holds nothing, mm.
const SHORTEST_TONGUE: f64 = 15.0;

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
const INSIDE: f64 = 2.0;

/// About as far apart as dowels stand in a wide head, mm.
const DOWELS_APART: f64 = 50.0;

/// The least radius that fingers turn with, mm.
const FINGER: f64 = 5.0;

/// What that is over the radius of the bit at least, mm: a bit turns no corner of its own radius without stopping in it.
const OVER_BIT: f64 = 0.5;

/// A finger reaches so many radii to each side of the joint.
const FINGER_REACH: f64 = 3.0;

/// A mark begins this far from the end of a segment, mm.
const INSET: f64 = 2.0;

/// Wood left round a slot or a dowel, mm.
const CHEEK: f64 = 3.0;

/// The radius that fingers turn with.
fn finger_radius(input: &Input) -> f64 {
    FINGER.max(input.least_corner + OVER_BIT)
}

/// The thickness of a tongue.
fn tongue(input: &Input) -> f64 {
    input.boards.thickness * THIRD
}

/// The diameter of dowels in a thickness.
fn dowel(input: &Input) -> Option<f64> {
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

/// The same cut with fingers: half circles and straight flanks, so that a bit follows both sides and they close without a gap.
pub(super) fn fingered(cut: Cut, input: &Input) -> Option<Cut> {
    let (from, to) = (cut.line.start(), cut.line.end());
    let whole = from.distance(to);
    let radius = finger_radius(input);
    let count = (whole / (2.0 * radius)).floor() - 2.0;
    if count < 1.0 {
        return None;
    }
    let margin = (whole - (2.0 * count + 2.0) * radius) / 2.0;
    let across = (to - from) / whole;
    let along = Vec2::new(across.y, -across.x);
    let at = |a: f64, b: f64| from + across * a + along * b;
    let flank = radius * (FINGER_REACH - 1.0);
    let quarter = FRAC_PI_8.tan();
    let arc = |start, end, bulge| Piece { start, end, bulge };
    let mut side = 1.0;
    let mut a = margin + radius;
    let mut pieces = vec![
        Piece::line(from, at(margin, 0.0)),
        arc(at(margin, 0.0), at(a, radius), -quarter),
    ];
    let mut reached = radius;
    let mut left = count;
    while left > 0.0 {
        pieces.push(Piece::line(at(a, reached), at(a, side * flank)));
        let next = a + 2.0 * radius;
        pieces.push(arc(at(a, side * flank), at(next, side * flank), side));
        (a, reached, side, left) = (next, side * flank, -side, left - 1.0);
    }
    pieces.push(Piece::line(at(a, reached), at(a, side * radius)));
    let end = at(a + radius, 0.0);
    pieces.push(arc(at(a, side * radius), end, side * quarter));
    pieces.push(Piece::line(end, to));
    pieces.retain(|piece| piece.start.distance(piece.end) > super::band::MEET);
    Some(Cut {
        line: Path::from_pieces(&pieces),
        ..cut
    })
}

/// Along which stretch of a joint, from its lower end, its tongue or its dowels find room in both segments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Room {
    from: f64,
    to: f64,
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
