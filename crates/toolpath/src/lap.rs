//! A closed road cut in passes.
//!
//! Where there is room beside it the bit goes down round a loop in the waste, comes onto the road along the tangent, runs
//! round level and a little past where it came on, and leaves along the tangent again: pass after pass. Where there is
//! none it goes down along the road itself, and rises out of the cut along the road.

use crate::cutting::{Cutting, Ramp, free_of_tabs};
use crate::lead::{Lead, OVERLAP, across_allowance, allowance_length};
use crate::passes::Passes;
use crate::road::Road;
use crate::run::Run;
use cintre_geometry::Piece;
use cintre_work::Move;

/// The moves round a road that is come to and left by a loop, which begins and ends at the road's start: from [`crate::APPROACH`]
/// over the loop's beginning to the foot of the last way off. `over` is how far it runs past its beginning, mm.
pub(crate) fn by_loop(
    road: &Road,
    lead: &Lead,
    over: f64,
    passes: Passes,
    cutting: &Cutting<'_>,
) -> Vec<Move> {
    let mut run = Run::new(road, cutting);
    let close = road.between(0.0, over);
    let round: Vec<Piece> = std::iter::once(lead.inward)
        .chain(close.iter().copied())
        .chain([lead.outward, lead.back()])
        .collect();
    let length: f64 = round.iter().map(Piece::length).sum();
    for (k, floor) in (1..).zip(passes.floors()) {
        let rounds = Passes::of(run.z - floor, length * cutting.ramp.tan());
        let top = run.z;
        for turn in 1..=rounds.count {
            run.follow(
                &round,
                if turn == rounds.count {
                    floor
                } else {
                    top - rounds.step * f64::from(turn)
                },
            );
        }
        run.follow(&[lead.inward], floor);
        run.along(0.0, road.length(), Ramp::level(floor));
        run.follow(&close, floor);
        run.follow(&[lead.outward], floor);
        if k < passes.count {
            run.follow(&[lead.back()], floor);
        }
    }
    run.moves
}

/// The moves of a closed road, from [`crate::APPROACH`] over its start, down along the road, to above the face again.
///
/// Each pass falls along the road to its own floor and runs on to the start. Its ramp lies one pass above the next one's,
/// so the bit never takes more than one pass; the last ramp's own stretch is cleared at the end.
pub(crate) fn by_ramp(road: &Road, passes: Passes, cutting: &Cutting<'_>) -> Vec<Move> {
    let (mut run, overlap) = ramped(road, passes, cutting);
    run.rise(overlap);
    run.moves
}

/// The passes down along a road, and how far along it the last of them is cleared.
fn ramped<'a>(road: &'a Road, passes: Passes, cutting: &'a Cutting<'a>) -> (Run<'a>, f64) {
    let mut run = Run::new(road, cutting);
    let length = road.length();
    let mut overlap = 0.0;
    for floor in passes.floors() {
        let ramp = Ramp {
            from: run.z,
            floor,
            slope: cutting.ramp,
        };
        let laps = (ramp.length() / length).ceil().max(1.0);
        run.along(0.0, laps * length, ramp);
        overlap = ramp.length() - (laps - 1.0) * length;
    }
    run.along(0.0, overlap, Ramp::level(passes.bottom()));
    (run, overlap)
}

/// A last lap at full depth on a road beside the one that left an allowance for it.
#[derive(Debug)]
pub(crate) struct LastLap<'a> {
    pub(crate) road: Road,
    pub(crate) cutting: Cutting<'a>,
    /// The allowance, mm.
    pub(crate) allowance: f64,
    /// Whether the waste lies on the left.
    pub(crate) left: bool,
    /// The bit's radius, mm.
    pub(crate) radius: f64,
}

impl LastLap<'_> {
    /// The length of road without a tab that coming over and going off again take, mm.
    pub(crate) fn needs(&self) -> f64 {
        3.0 * allowance_length(self.allowance, self.radius) + OVERLAP * self.radius
    }
}

/// The passes down along a road, and the last lap on the finished one.
pub(crate) fn with_last_lap(
    road: &Road,
    passes: Passes,
    cutting: &Cutting<'_>,
    last: &LastLap<'_>,
) -> Vec<Move> {
    let (mut run, overlap) = ramped(road, passes, cutting);
    let floor = passes.bottom();
    let Some(over) = free_of_tabs(road, cutting, overlap, last.needs()) else {
        run.rise(overlap);
        return run.moves;
    };
    run.along(overlap, over, Ramp::level(floor));
    run.down_to(over, floor);
    let ahead = road.point_at(over + 2.0 * allowance_length(last.allowance, last.radius));
    let at = last.road.along_of(ahead);
    let lead = across_allowance(&last.road, at, last.allowance, (last.left, last.radius));
    let round = last.road.from(at);
    let cutting = last.cutting.from(at, round.length());
    let here = road.point_at(over);
    let mut lap = Run::new(&round, &cutting);
    (lap.z, lap.moves) = (floor, run.moves);
    lap.follow(&[Piece::line(here, lead.inward.start), lead.inward], floor);
    lap.along(0.0, round.length(), Ramp::level(floor));
    lap.follow(&round.between(0.0, OVERLAP * last.radius), floor);
    lap.follow(&[lead.outward], floor);
    lap.moves
}
