//! The first placement: each piece where it lies clear and farthest to the left, on the first sheet that has room.

use crate::Error;
use crate::collisions::Pose;
use crate::rng::Chance;
use crate::room::EASE;
use crate::spread::{Spot, Spread, Way};

/// Places tried at random for a piece on a sheet before it is called full.
const TRIES: usize = 260;

/// How many of the clear ones are moved on from.
const KEPT: usize = 3;

/// Steps shorter than this are not worth taking, mm, nor worth a larger share of the piece's own length.
const LEAST_STEP: f32 = 0.02;
const LEAST_SHARE: f32 = 2e-4;

/// Lays every piece in this order, opening sheets as they are needed: of the rooms in their order as many as each stock has,
/// of the last of those it fits on without end.
pub(crate) fn lay(spread: &mut Spread<'_>, order: &[usize], chance: &mut Chance) -> Result<(), Error> {
    // A sheet that had no room for a piece has none for another of its kind.
    let mut from = vec![0; spread.lot.kinds.len()];
    for &piece in order {
        let kind = spread.lot.pieces[piece].kind;
        let found = (from[kind]..spread.boards.len())
            .find_map(|sheet| Some((sheet, leftmost(spread, piece, sheet, chance)?)));
        if let Some((sheet, pose)) = found {
            from[kind] = sheet;
            spread.put(piece, Spot { sheet, pose });
        } else {
            let spot = on_new(spread, piece, chance)?;
            from[kind] = spot.sheet;
            spread.put(piece, spot);
        }
    }
    Ok(())
}

/// A place on a sheet opened for the piece.
fn on_new(spread: &mut Spread<'_>, piece: usize, chance: &mut Chance) -> Result<Spot, Error> {
    let rooms = &spread.lot.rooms;
    let used = |room: usize| spread.boards.iter().filter(|b| b.room == room).count();
    let left: Vec<usize> = (0..rooms.len())
        .filter(|&room| rooms[room].stock.sheets.is_none_or(|have| used(room) < have))
        .collect();
    // More sheets than the shop has are counted, so that it can be told how many are wanted.
    let beyond = (0..rooms.len()).rev();
    for room in left.into_iter().chain(beyond) {
        if !spread.open(room) {
            continue;
        }
        let sheet = spread.boards.len() - 1;
        if let Some(pose) = leftmost(spread, piece, sheet, chance) {
            return Ok(Spot { sheet, pose });
        }
        spread.close(sheet);
    }
    Err(crate::lots::too_large(spread.lot, piece))
}

/// The clear place on a sheet where the piece lies farthest left, then lowest, as far as it is found.
pub(crate) fn leftmost(
    spread: &mut Spread<'_>,
    piece: usize,
    sheet: usize,
    chance: &mut Chance,
) -> Option<Pose> {
    let ways: Vec<Way> = spread.ways(piece, sheet).to_vec();
    let bounds = spread.boards[sheet].bounds;
    let ways: Vec<Way> = ways
        .into_iter()
        .filter(|w| {
            span(w, bounds, 0).1 >= span(w, bounds, 0).0 && span(w, bounds, 1).1 >= span(w, bounds, 1).0
        })
        .collect();
    let mut kept: Vec<(f32, Pose, Way)> = Vec::new();
    for n in 0..TRIES + ways.len() * 2 {
        let way = *ways.get(if n < 2 * ways.len() {
            n / 2
        } else {
            chance.below(ways.len())
        })?;
        let pose = if n < 2 * ways.len() {
            corner(&way, bounds, n % 2 == 1)
        } else {
            let worst = kept.get(KEPT - 1).map_or(f32::INFINITY, |k| k.0);
            let (x, y) = (span(&way, bounds, 0), span(&way, bounds, 1));
            let x_to = x.1.min(worst - way.reach[2]);
            if x_to < x.0 {
                continue;
            }
            at(&way, chance.between(x.0, x_to), chance.between(y.0, y.1))
        };
        let rank = rank(&way, pose);
        if kept.len() == KEPT && rank >= kept[KEPT - 1].0 || !spread.is_clear(piece, Spot { sheet, pose }) {
            continue;
        }
        kept.push((rank, pose, way));
        kept.sort_by(|a, b| a.0.total_cmp(&b.0));
        kept.truncate(KEPT);
    }
    let moved = kept.into_iter().map(|(_, pose, way)| {
        let pose = pressed(spread, piece, Spot { sheet, pose }, &way);
        (rank(&way, pose), pose)
    });
    moved.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, pose)| pose)
}

/// Between which places a way's middle may stand along an axis.
pub(crate) fn span(way: &Way, bounds: [f32; 4], axis: usize) -> (f32, f32) {
    (
        bounds[axis] - way.reach[axis],
        bounds[axis + 2] - way.reach[axis + 2],
    )
}

pub(crate) const fn at(way: &Way, x: f32, y: f32) -> Pose {
    Pose {
        turn: way.turn,
        flipped: way.flipped,
        x,
        y,
    }
}

/// In the lower left corner of the room, or the upper left.
fn corner(way: &Way, bounds: [f32; 4], upper: bool) -> Pose {
    #[expect(clippy::cast_possible_truncation, reason = "a hair's breadth")]
    let off = (EASE / 2.0) as f32;
    let (x, y) = (span(way, bounds, 0), span(way, bounds, 1));
    at(way, x.0 + off, if upper { y.1 - off } else { y.0 + off })
}

/// Less is farther left, and a little for lower.
fn rank(way: &Way, pose: Pose) -> f32 {
    pose.x + way.reach[2] + 0.1 * (pose.y + way.reach[3])
}

/// The place moved left and down for as long as it stays clear.
fn pressed(spread: &mut Spread<'_>, piece: usize, from: Spot, way: &Way) -> Pose {
    const WAYS: [(f32, f32); 6] = [
        (-1.0, 0.0),
        (0.0, -1.0),
        (-1.0, 1.0),
        (-1.0, -1.0),
        (-0.3, 1.0),
        (0.05, -1.0),
    ];
    let bounds = spread.boards[from.sheet].bounds;
    let (x, y) = (span(way, bounds, 0), span(way, bounds, 1));
    let length = spread.lot.kind(piece).shape.length();
    let least = LEAST_STEP.max(LEAST_SHARE * length);
    let mut best = from.pose;
    let mut step = length / 4.0;
    while step > least {
        let before = best;
        for (dx, dy) in WAYS {
            loop {
                let pose = at(
                    way,
                    (best.x + dx * step).clamp(x.0, x.1),
                    (best.y + dy * step).clamp(y.0, y.1),
                );
                let better = rank(way, pose) < rank(way, best);
                if !better || !spread.is_clear(piece, Spot { pose, ..from }) {
                    break;
                }
                best = pose;
            }
        }
        if best == before {
            step /= 2.0;
        }
    }
    best
}
