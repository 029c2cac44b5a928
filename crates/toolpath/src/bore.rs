//! Round holes: drilled, or wound out by a straight bit.

use crate::choose::Tool;
use crate::demand::depth_of;
use crate::passes::Passes;
use crate::plan::APPROACH;
use crate::run::along;
use cintre_geometry::{Piece, Point, Vec2};
use cintre_work::{Bit, Bore, Cut, Feeds, Move, Router, To};
use std::f64::consts::PI;

/// A bit whose end cuts may wind down this share of its diameter a turn, however tight the winding: at the ramp's angle a
/// bolt hole would take fifty turns.
const PLUNGING_FALL: f64 = 0.25;

/// A drill makes a bore whose diameter it meets within this, mm.
const DRILL_FIT: f64 = 0.05;

/// A bit winds out a bore of at least this many of its own diameters: less leaves the chips no way out.
const WINDING: f64 = 1.2;

/// Neighbouring windings overlap by leaving no more than this share of the bit's radius between them.
const STEP_OVER: f64 = 0.9;

/// On its way back down a drilled hole the bit slows this far above the floor, mm.
const SLOW: f64 = 0.5;

/// The least bore that a straight bit of a diameter makes, mm.
pub fn least_bore(diameter: f64) -> f64 {
    WINDING * diameter
}

/// The drill that makes a bore in stock cut `needed` mm deep, the nearest in size.
pub(crate) fn by_drill<'a>(bore: &Bore, drills: &[Tool<'a>], needed: f64) -> Option<Tool<'a>> {
    let off = |d: &Tool<'_>| (d.bit.diameter - bore.diameter).abs();
    drills
        .iter()
        .filter(|d| off(d) <= DRILL_FIT && d.bit.reach() >= depth_of(bore, needed))
        .min_by(|a, b| off(a).total_cmp(&off(b)))
        .copied()
}

/// How far a bit falls in one turn of a winding: by the ramp, or as steeply as a bit whose end cuts may, mm.
pub(crate) fn fall_a_turn(radius: f64, tool: Tool<'_>, ramp: f64) -> f64 {
    let gentle = 2.0 * PI * radius * ramp.tan();
    let least = if tool.bit.plunges {
        PLUNGING_FALL * tool.bit.diameter
    } else {
        0.0
    };
    gentle.max(least).min(tool.feeds.depth)
}

/// Straight down in pecks, out to [`APPROACH`] after each to clear the chips.
pub(crate) fn pecks(centre: Point, depth: f64, feeds: &Feeds) -> Vec<Move> {
    let to = |z: f64, to: To| Move { end: centre, z, to };
    let mut moves = Vec::new();
    let mut floor = APPROACH;
    for next in Passes::of(depth, feeds.depth).floors() {
        if floor < 0.0 {
            moves.push(to(APPROACH, To::Rapid));
            moves.push(to(floor + SLOW, To::Straight { feed: feeds.feed }));
        }
        moves.push(to(next, To::Straight { feed: feeds.plunge }));
        floor = next;
    }
    moves
}

/// Winds out a hole from [`APPROACH`] over the start of its first winding to a full turn on its floor, from the inside
/// outward in as many windings as leave nothing between them. The first starts at [`winding_start`].
pub(crate) fn windings(bore: &Bore, depth: f64, tool: Tool<'_>, router: &Router) -> Vec<Move> {
    let Tool { bit, feeds } = tool;
    let sense = if router.cut == Cut::Climb { PI } else { -PI };
    let mut moves = Vec::new();
    let radii = radii(bore.diameter, bit.diameter);
    for (k, &radius) in radii.iter().enumerate() {
        let start = bore.centre + Vec2::new(radius, 0.0);
        if k > 0 {
            // Up the hole already made and across above the face.
            moves.push(Move {
                z: APPROACH,
                to: To::Rapid,
                end: bore.centre + Vec2::new(radii[k - 1], 0.0),
            });
            moves.push(Move {
                z: APPROACH,
                to: To::Straight { feed: feeds.feed },
                end: start,
            });
        }
        let halves = {
            let there = Piece::arc(bore.centre, start, sense);
            [
                there,
                Piece {
                    start: there.end,
                    end: start,
                    bulge: there.bulge,
                },
            ]
        };
        let fall = fall_a_turn(radius, tool, router.ramp);
        let turns = Passes::of(depth + APPROACH, fall);
        for turn in 1..=turns.count {
            let z = APPROACH - turns.step * f64::from(turn);
            moves.push(along(&halves[0], z + turns.step / 2.0, feeds.plunge));
            moves.push(along(
                &halves[1],
                if turn == turns.count { -depth } else { z },
                feeds.plunge,
            ));
        }
        moves.extend(halves.iter().map(|half| along(half, -depth, feeds.feed)));
    }
    // Off the wall before it is lifted out.
    moves.push(Move {
        end: bore.centre,
        z: -depth,
        to: To::Straight { feed: feeds.feed },
    });
    moves
}

/// Where the first winding of a bore starts.
pub(crate) fn winding_start(bore: &Bore, bit: &Bit) -> Point {
    bore.centre + Vec2::new(radii(bore.diameter, bit.diameter)[0], 0.0)
}

/// The radii of the windings, the smallest first; the last leaves the bore's own wall.
fn radii(bore: f64, bit: f64) -> Vec<f64> {
    let outermost = (bore - bit) / 2.0;
    let even = Passes::of(outermost, STEP_OVER * bit / 2.0);
    (1..=even.count).map(|k| even.step * f64::from(k)).collect()
}
