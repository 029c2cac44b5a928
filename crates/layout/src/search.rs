//! Fewer sheets, and then as large an offcut as can be had.

use crate::collisions::Pose;
use crate::rng::Chance;
use crate::separate::{Limit, Search};
use crate::spread::{Spot, Spread};

/// Grown pieces that would fill more of the sheets than this are not tried on them: no search finds that.
const FULLEST: f64 = 0.92;

/// The last sheet is narrowed by this share of what its pieces take up, and by half as much whenever that fails, down to the
/// least.
const NARROWED: f32 = 0.12;
const LEAST_NARROWED: f32 = 0.01;

/// When that is had, it is narrowed by this share at a time, from many beginnings; and in the end by ever less.
const STEP: f32 = 0.005;
const LEAST_STEP: f32 = 0.0002;

/// How many of the tries that failed are kept to begin anew from.
const MOST_FAILED: usize = 20;

/// Takes sheets away for as long as the pieces on them go on the others. Every piece is laid clear before and after.
pub(crate) fn fewer_sheets(
    spread: &mut Spread<'_>,
    chance: &mut Chance,
    limit: Limit<'_>,
    say: &dyn Fn(&str),
) {
    while spread.boards.len() > 1 && !limit.reached(spread) {
        let Some(sheet) = to_remove(spread) else { return };
        let before = spread.clone();
        say(&format!("trying {} sheets", spread.boards.len() - 1));
        let freed = spread.on(sheet);
        for &piece in &freed {
            spread.lift(piece);
        }
        spread.close(sheet);
        if !without(spread, freed, chance, limit) {
            let asked = spread.asked;
            *spread = before;
            spread.asked = asked;
            return;
        }
    }
}

/// The sheet to do without: of those that the shop has too few of, else of all, the one with the least on it; none where the
/// rest could not hold everything.
fn to_remove(spread: &Spread<'_>) -> Option<usize> {
    let rooms = &spread.lot.rooms;
    let used = |room: usize| spread.boards.iter().filter(|b| b.room == room).count();
    let over = |sheet: &usize| {
        let room = spread.boards[*sheet].room;
        rooms[room].stock.sheets.is_some_and(|have| used(room) > have)
    };
    let all = 0..spread.boards.len();
    let too_many: Vec<usize> = all.clone().filter(over).collect();
    let candidates = if too_many.is_empty() {
        all.collect()
    } else {
        too_many
    };
    let sheet = candidates
        .into_iter()
        .min_by(|&a, &b| spread.area_on(a).total_cmp(&spread.area_on(b)))?;
    let grown: f64 = (0..spread.spots.len())
        .map(|p| f64::from(spread.lot.kind(p).shape.area()))
        .sum();
    let left: f64 = (0..spread.boards.len())
        .filter(|&s| s != sheet)
        .map(|s| rooms[spread.boards[s].room].area)
        .sum();
    (grown < FULLEST * left).then_some(sheet)
}

/// Lays the freed pieces among the others, and pulls all apart.
fn without(spread: &mut Spread<'_>, mut freed: Vec<usize>, chance: &mut Chance, limit: Limit<'_>) -> bool {
    let sheets = (0..spread.boards.len()).collect();
    let mut search = Search::new(spread, chance, sheets);
    freed.sort_by(|&a, &b| {
        let area = |p: usize| search.spread.lot.kind(p).area;
        area(b).total_cmp(&area(a))
    });
    for piece in freed {
        let Some((_, spot)) = search.best_spot(piece) else {
            return false;
        };
        search.spread.put(piece, spot);
        search.overlaps.measure(search.spread, piece);
    }
    loop {
        if search.separate(limit) {
            return true;
        }
        if limit.reached(search.spread) {
            return false;
        }
        swap_two(&mut search);
    }
}

/// Two pieces of different kinds change places: of the larger half, so that it matters.
fn swap_two(search: &mut Search<'_, '_>) {
    let lot = search.spread.lot;
    let mut large: Vec<usize> = (0..lot.pieces.len()).collect();
    large.sort_by(|&a, &b| lot.kind(b).area.total_cmp(&lot.kind(a).area));
    large.truncate((lot.pieces.len() / 2).max(2));
    for _ in 0..20 {
        let (a, b) = (
            large[search.chance.below(large.len())],
            large[search.chance.below(large.len())],
        );
        let (Some(at_a), Some(at_b)) = (search.spread.spots[a], search.spread.spots[b]) else {
            continue;
        };
        let alike = lot.pieces[a].kind == lot.pieces[b].kind;
        if a == b || alike && search.chance.share() < 0.95 {
            continue;
        }
        search.spread.lift(a);
        search.spread.lift(b);
        for (piece, from, to) in [(a, at_a, at_b), (b, at_b, at_a)] {
            let spot = moved(search.spread, piece, from, to);
            search.spread.put(piece, spot);
        }
        search.overlaps.measure(search.spread, a);
        search.overlaps.measure(search.spread, b);
        return;
    }
}

/// A piece laid the way it lay, or as its new sheet lets it, as near to another place as the room has it.
fn moved(spread: &mut Spread<'_>, piece: usize, from: Spot, to: Spot) -> Spot {
    let same_room = spread.boards[from.sheet].room == spread.boards[to.sheet].room;
    let first = spread.ways(piece, to.sheet)[0];
    let (turn, flipped) = if same_room {
        (from.pose.turn, from.pose.flipped)
    } else {
        (first.turn, first.flipped)
    };
    let pose = Pose {
        turn,
        flipped,
        ..to.pose
    };
    pushed_in(spread, piece, Spot { pose, ..to })
}

/// The spot shifted so that the piece stands within the bounds of its sheet.
fn pushed_in(spread: &mut Spread<'_>, piece: usize, spot: Spot) -> Spot {
    let bounds = spread.boards[spot.sheet].bounds;
    let reach = spread.reach(piece, spot.pose.turn, spot.pose.flipped);
    let within = |v: f32, axis: usize| {
        let (low, high) = (bounds[axis] - reach[axis], bounds[axis + 2] - reach[axis + 2]);
        v.min(high).max(low)
    };
    let pose = Pose {
        x: within(spot.pose.x, 0),
        y: within(spot.pose.y, 1),
        ..spot.pose
    };
    Spot { pose, ..spot }
}

/// Empties the fullest possible stretch at the right of the sheet that has the least on it.
pub(crate) fn largest_offcut(spread: &mut Spread<'_>, chance: &mut Chance, limit: Limit<'_>) {
    let area = |spread: &Spread<'_>, s: usize| spread.area_on(s);
    let last = (0..spread.boards.len()).min_by(|&a, &b| area(spread, a).total_cmp(&area(spread, b)));
    let Some(sheet) = last else { return };
    to_others(spread, sheet, chance, limit);
    narrow(spread, sheet, chance, limit);
    spread.narrow(sheet, f64::INFINITY);
}

/// Moves what goes clear on another sheet there.
fn to_others(spread: &mut Spread<'_>, sheet: usize, chance: &mut Chance, limit: Limit<'_>) {
    let mut on_it = spread.on(sheet);
    on_it.sort_by(|&a, &b| spread.lot.kind(b).area.total_cmp(&spread.lot.kind(a).area));
    for piece in on_it {
        for other in (0..spread.boards.len()).filter(|&o| o != sheet) {
            if limit.reached(spread) || spread.on(sheet).len() == 1 {
                return;
            }
            if let Some(pose) = crate::first::leftmost(spread, piece, other, chance) {
                spread.lift(piece);
                spread.put(piece, Spot { sheet: other, pose });
                break;
            }
        }
    }
}

/// Narrows a sheet about its pieces: by large steps, each tried from many beginnings, and at last by small ones.
pub(crate) fn narrow(spread: &mut Spread<'_>, sheet: usize, chance: &mut Chance, limit: Limit<'_>) {
    let left = limit.asked.saturating_sub(spread.asked);
    let most = Limit {
        asked: spread.asked + left / 10 * 8,
        ..limit
    };
    let mut share = NARROWED;
    while share > LEAST_NARROWED && !most.reached(spread) {
        if !narrowed(spread, sheet, share, chance, most, 1) {
            share /= 2.0;
        }
    }
    while !most.reached(spread) && may_be_narrowed(spread, sheet, STEP) {
        narrowed(spread, sheet, STEP, chance, most, usize::MAX);
    }
    let mut share = STEP / 2.0;
    while share > LEAST_STEP && !limit.reached(spread) {
        if !narrowed(spread, sheet, share, chance, limit, 1) {
            share *= 0.7;
        }
    }
}

/// Whether the pieces of a sheet could be laid on a stretch that is shorter by this share, in so many tries. If not, they
/// lie as before.
fn narrowed(
    spread: &mut Spread<'_>,
    sheet: usize,
    share: f32,
    chance: &mut Chance,
    limit: Limit<'_>,
    tries: usize,
) -> bool {
    if !may_be_narrowed(spread, sheet, share) {
        return false;
    }
    let right = spread.right_of(sheet);
    let left = spread.boards[sheet].bounds[0];
    let target = left + (right - left) * (1.0 - share);
    let before = spread.spots.clone();
    let from = chance.between(left, target);
    spread.narrow(sheet, f64::from(target));
    for piece in spread.on(sheet) {
        if let Some(mut spot) = spread.spots[piece] {
            if spot.pose.x > from {
                spot.pose.x -= right - target;
            }
            let spot = pushed_in(spread, piece, spot);
            spread.lift(piece);
            spread.put(piece, spot);
        }
    }
    let mut search = Search::new(spread, chance, vec![sheet]);
    let mut failed: Vec<(f32, Vec<Option<Spot>>)> = Vec::new();
    for _ in 0..tries {
        if search.separate(limit) {
            return true;
        }
        if limit.reached(search.spread) {
            break;
        }
        let total = search.overlaps.total();
        failed.push((total, search.spread.spots.clone()));
        failed.sort_by(|a, b| a.0.total_cmp(&b.0));
        failed.truncate(MOST_FAILED);
        let (a, b) = (
            search.chance.below(failed.len()),
            search.chance.below(failed.len()),
        );
        search.begin_at(&failed[a.min(b)].1);
        swap_two(&mut search);
    }
    spread.narrow(sheet, f64::from(right));
    spread.restore(&before);
    false
}

/// Whether every piece of a sheet goes on a stretch that is shorter by this share, alone.
fn may_be_narrowed(spread: &mut Spread<'_>, sheet: usize, share: f32) -> bool {
    let length = spread.right_of(sheet) - spread.boards[sheet].bounds[0];
    widest(spread, sheet) <= length * (1.0 - share)
}

/// The width of the widest piece on a sheet, as it must lie there at least, mm.
fn widest(spread: &Spread<'_>, sheet: usize) -> f32 {
    let narrowest = |piece: usize| {
        let ways = spread.ways(piece, sheet).iter();
        ways.map(|w| w.reach[2] - w.reach[0])
            .fold(f32::INFINITY, f32::min)
    };
    spread.on(sheet).into_iter().map(narrowest).fold(0.0, f32::max)
}
