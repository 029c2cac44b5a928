//! Fewer sheets.

use crate::collisions::Pose;
use crate::limit::Limit;
use crate::rng::Chance;
use crate::separate::Search;
use crate::spread::{Spot, Spread};

/// Grown pieces that would fill more of the sheets than this are not tried on them: no search finds that.
pub(crate) const FULLEST: f64 = 0.92;

/// Takes sheets away for as long as the pieces on them go on the others. Every piece is laid clear before and after.
pub(crate) fn fewer_sheets(spread: &mut Spread<'_>, chance: &mut Chance, limit: Limit<'_>) {
    while spread.boards.len() > 1 && !limit.reached(spread) {
        let Some(sheet) = to_remove(spread) else { return };
        let before = spread.clone();
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
    let left: f64 = (0..spread.boards.len())
        .filter(|&s| s != sheet)
        .map(|s| rooms[spread.boards[s].room].area)
        .sum();
    (spread.grown_area() < FULLEST * left).then_some(sheet)
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
    for _ in 0..limit.again() {
        if search.separate(limit) {
            return true;
        }
        if limit.reached(search.spread) {
            return false;
        }
        swap_two(&mut search);
    }
    false
}

/// Two pieces of different kinds change places: of the larger half, so that it matters.
pub(crate) fn swap_two(search: &mut Search<'_, '_>) {
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
pub(crate) fn pushed_in(spread: &mut Spread<'_>, piece: usize, spot: Spot) -> Spot {
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
