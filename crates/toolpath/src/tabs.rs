//! Where the tabs stand.

use crate::cutting::Span;
use crate::elsewhere::Elsewhere;
use crate::road::Road;
use cintre_geometry::{Path, Point};
use cintre_work::TabRule;

/// A curve of at least this many bit diameters' radius is gentle enough to dress a tab off.
const GENTLE: f64 = 5.0;

/// Neighbours whose directions differ by more than this meet in a corner, radians.
const CORNER: f64 = 1e-3;

/// Tabs may take at most this share of an edge; more would leave the cut unmade.
pub(crate) const MOST: f64 = 0.5;

/// A strip of waste narrower than this, along the edge of the stock, breaks and holds no tab, mm.
pub(crate) const STRIP: f64 = 1.0;

/// A neck narrower than its width by no more than this is not narrower, mm.
const NARROWER: f64 = 1e-9;

/// The step in which a road is looked along for room, mm.
const LOOK: f64 = 5.0;

/// So many ways of setting the first tab are tried.
const SHIFTS: u32 = 16;

/// Tabs placed on a road.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Tabs {
    /// Where the bit stays up, in order.
    pub(crate) spans: Vec<Span>,
    /// How many the rule asks for.
    pub(crate) wanted: usize,
    /// Whether some stand at corners or on tight curves.
    pub(crate) near_corners: bool,
    /// Whether some stand where the part should be clean.
    pub(crate) on_clean: bool,
}

/// How far the middle of a tab must stand from the outline of another part, mm: beyond that part's own cut, with the whole of
/// the tab, so that it holds on to wood that stays.
pub(crate) fn clearance(rule: &TabRule, diameter: f64) -> f64 {
    diameter + (rule.width / 2.0).hypot(diameter / 2.0)
}

/// How far the middle of a bit on its way in or out must stay from the outline of another part, mm: beyond that part's own cut,
/// half of a tab's width of wood is left all round where its tab holds on.
pub(crate) fn passing(rule: &TabRule, diameter: f64) -> f64 {
    diameter + rule.width / 2.0 + diameter / 2.0
}

/// How far along the edge each side of a tab slopes, mm: one up in one where the bit climbs along its road.
pub(crate) fn flank(rule: &TabRule) -> f64 {
    if rule.ramped { rule.height } else { 0.0 }
}

/// Whether a tab with the bit's middle at `p` keeps off stretches of edge.
pub(crate) fn keeps_off(stretches: &[Path], p: Point, (rule, diameter): (&TabRule, f64)) -> bool {
    let apart = (rule.width / 2.0 + flank(rule)).hypot(diameter / 2.0);
    stretches.iter().all(|s| s.nearest(p).distance >= apart)
}

/// The share of a road that so many tabs take with the bit beside them.
pub(crate) fn share(rule: &TabRule, diameter: f64, count: usize, length: f64) -> f64 {
    float(count) * (rule.width + diameter + 2.0 * flank(rule)) / length
}

/// Tabs for a road of the bit's centre: at least two, no more than `rule.every` apart as far as corners let them, on straight
/// or gentle stretches where `clear` says of the road's points that a tab there holds on to something, where the rest of the road
/// leaves it whole, and off the first `ramp` mm where the bit goes down if there is other room.
pub(crate) fn place(
    road: &Road,
    (rule, diameter): (&TabRule, f64),
    ramp: f64,
    clear: &dyn Fn(Point) -> bool,
) -> Tabs {
    let neck = rule.width + diameter;
    let reach = neck + 2.0 * flank(rule);
    let length = road.length();
    let wanted = at_least(length / rule.every).max(2);
    let most = at_most(MOST * length / reach);
    let apart = diameter / 2.0 + (rule.width / 2.0 + flank(rule)).hypot(diameter / 2.0);
    let elsewhere = Elsewhere::on(road, reach, apart);
    let clear = |along: f64| clear(road.point_at(along)) && elsewhere.keeps_off(along);
    let gentle = clear_stretches(&gentle_stretches(road, diameter, reach, ramp), &clear);
    let near_corners = gentle.is_empty();
    let free = if near_corners {
        clear_stretches(&[(reach, length - reach)], &clear)
    } else {
        gentle
    };
    let count = if free.is_empty() { 0 } else { wanted.min(most) };
    let mut middles = if count == 0 {
        Vec::new()
    } else {
        spread(&free, length, count, reach)
    };
    if count > 0 {
        fill(&mut middles, &free, length, rule.every, (reach, most));
    }
    let spans: Vec<Span> = middles.iter().filter_map(|&s| span(road, s, neck)).collect();
    Tabs {
        near_corners: near_corners && !spans.is_empty(),
        on_clean: false,
        spans,
        wanted,
    }
}

/// The parts of some stretches that are clear, to the step in which they are looked at.
fn clear_stretches(stretches: &[(f64, f64)], clear: &dyn Fn(f64) -> bool) -> Vec<(f64, f64)> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    for &(from, to) in stretches.iter().filter(|(from, to)| from <= to) {
        let steps = at_least((to - from) / LOOK).max(1);
        let mut open = false;
        for i in 0..=steps {
            let s = from + (to - from) * float(i) / float(steps);
            let here = clear(s);
            match found.last_mut() {
                Some(last) if here && open => last.1 = s,
                _ if here => found.push((s, s)),
                _ => {}
            }
            open = here;
        }
    }
    found
}

/// The stretches of road on which the middle of a tab may stand.
fn gentle_stretches(road: &Road, diameter: f64, reach: f64, ramp: f64) -> Vec<(f64, f64)> {
    let gentle = |i: usize| road.pieces[i].curvature().abs() * GENTLE * diameter <= 1.0;
    let smooth = |i: usize| {
        let turn = road.pieces[i - 1]
            .tangent_at(1.0)
            .cross(road.pieces[i].tangent_at(0.0));
        turn.abs() < CORNER
            && road.pieces[i - 1]
                .tangent_at(1.0)
                .dot(road.pieces[i].tangent_at(0.0))
                > 0.0
    };
    let mut runs: Vec<(f64, f64)> = Vec::new();
    for i in 0..road.pieces.len() {
        let (from, to) = road.extent(i);
        match runs.last_mut() {
            Some(run) if gentle(i) && gentle(i - 1) && smooth(i) => run.1 = to,
            _ if gentle(i) => runs.push((from, to)),
            _ => {}
        }
    }
    // The ramp is kept clear only where that leaves most of the road.
    let kept = if ramp < road.length() / 3.0 { ramp } else { 0.0 };
    runs.iter()
        .map(|&(a, b)| ((a + reach).max(kept + reach / 2.0), b - reach))
        .filter(|(a, b)| a <= b)
        .collect()
}

/// `count` places as even as the free stretches let them be, at least two reaches apart: fewer where there is no room.
fn spread(free: &[(f64, f64)], length: f64, count: usize, reach: f64) -> Vec<f64> {
    let pitch = length / float(count);
    (0..SHIFTS)
        .map(|k| {
            let shift = f64::from(k) / f64::from(SHIFTS);
            let mut places: Vec<f64> = (0..count)
                .map(|i| snapped(free, (float(i) + shift) * pitch))
                .collect();
            apart(&mut places, length, reach);
            places
        })
        .min_by(|a, b| widest_gap(a, length).0.total_cmp(&widest_gap(b, length).0))
        .unwrap_or_default()
}

/// Adds tabs in the middle of gaps wider than `every`, as long as there is room.
fn fill(middles: &mut Vec<f64>, free: &[(f64, f64)], length: f64, every: f64, (reach, most): (f64, usize)) {
    while middles.len() < most {
        let (gap, start) = widest_gap(middles, length);
        let two = middles.len() >= 2;
        if gap <= every && two {
            return;
        }
        let mut more = middles.clone();
        more.push(snapped(free, (start + gap / 2.0).rem_euclid(length)));
        apart(&mut more, length, reach);
        if more.len() == middles.len() || widest_gap(&more, length).0 >= gap && two {
            return;
        }
        *middles = more;
    }
}

/// The nearest free place.
fn snapped(free: &[(f64, f64)], s: f64) -> f64 {
    free.iter()
        .map(|&(a, b)| s.clamp(a, b.max(a)))
        .min_by(|a, b| (a - s).abs().total_cmp(&(b - s).abs()))
        .unwrap_or(s)
}

/// In order, without those nearer than two reaches to the one before.
fn apart(places: &mut Vec<f64>, length: f64, reach: f64) {
    places.sort_by(f64::total_cmp);
    places.dedup_by(|b, a| *b - *a < 2.0 * reach);
    if places.len() > 1 && places[0] + length - places[places.len() - 1] < 2.0 * reach {
        places.pop();
    }
}

/// The widest gap round the road and where it begins; the whole road where there is at most one place.
fn widest_gap(places: &[f64], length: f64) -> (f64, f64) {
    let next = |i: usize| places.get(i + 1).copied().unwrap_or_else(|| places[0] + length);
    (0..places.len())
        .map(|i| (next(i) - places[i], places[i]))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .unwrap_or((length, 0.0))
}

/// The stretch about `middle` whose ends lie half of `reach` to either side of it straight across, so that on a curve, and where
/// one begins, the full width is left with its middle where it is planned. Round a corner it is as wide from end to end; none
/// where the road turns back so sharply that it never is.
pub(crate) fn span(road: &Road, middle: f64, reach: f64) -> Option<Span> {
    let (at, ahead) = road.station(middle);
    let side = |sign: f64| {
        let across = |half: f64| sign * (road.point_at(middle + sign * half) - at).dot(ahead);
        least_from(reach / 2.0, reach, |half| across(half) >= reach / 2.0 - NARROWER)
    };
    let ends = side(-1.0).zip(side(1.0)).or_else(|| {
        let chord = |half: f64| {
            let (from, to) = (road.point_at(middle - half), road.point_at(middle + half));
            from.distance(to)
        };
        least_from(reach / 2.0, reach, |half| chord(half) >= reach - NARROWER).map(|half| (half, half))
    });
    ends.map(|(before, behind)| Span {
        from: middle - before,
        middle,
        to: middle + behind,
    })
}

/// The least figure from `low` to `high` that is enough, if `high` is.
fn least_from(mut low: f64, mut high: f64, enough: impl Fn(f64) -> bool) -> Option<f64> {
    if enough(low) {
        return Some(low);
    }
    if !enough(high) {
        return None;
    }
    while high - low > NARROWER {
        let half = f64::midpoint(low, high);
        if enough(half) { high = half } else { low = half }
    }
    Some(high)
}

/// The whole number at or above a small positive figure.
fn at_least(x: f64) -> usize {
    let mut n = 0;
    while float(n) < x - 1e-9 {
        n += 1;
    }
    n
}

/// The whole number at or below.
fn at_most(x: f64) -> usize {
    let mut n = 0;
    while float(n + 1) <= x {
        n += 1;
    }
    n
}

#[expect(clippy::cast_precision_loss, reason = "counts of tabs are small")]
fn float(n: usize) -> f64 {
    n as f64
}

#[cfg(test)]
mod tests;
