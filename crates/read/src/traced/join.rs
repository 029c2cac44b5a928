//! Pieces joined into one line.

use super::TracedError;
use crate::Chain;
use cintre_geometry::{Outline, Path, Piece, Point};

/// One line, open or closed.
#[derive(Debug)]
pub(super) enum Line {
    Open(Path),
    Closed(Outline),
}

/// A line made of all chains, with the gaps that were closed.
#[derive(Debug)]
pub(super) struct Joined {
    pub(super) line: Line,
    /// How many joints were moved.
    pub(super) count: usize,
    /// The widest gap among them, mm.
    pub(super) widest: f64,
}

/// Ends as near as this are the same; so is a piece as short as this nothing, mm.
const SAME: f64 = 1e-6;

/// Joins all chains into one line, in whichever order and direction they were drawn.
pub(super) fn joined(chains: &[Chain], gap: f64, passed_over: &[String]) -> Result<Joined, TracedError> {
    let runs: Vec<Vec<Piece>> = chains
        .iter()
        .map(|chain| {
            chain
                .pieces()
                .into_iter()
                .filter(|p| p.start.distance(p.end) > SAME)
                .collect()
        })
        .filter(|run: &Vec<Piece>| run.iter().map(Piece::length).sum::<f64>() > gap.max(SAME))
        .collect();
    let reach = gap.max(SAME);
    let ring = |run: &Vec<Piece>| run[0].start.distance(run[run.len() - 1].end) <= reach;
    if runs.is_empty() {
        return Err(TracedError::Nothing {
            passed_over: passed_over.to_vec(),
        });
    }
    let rings = runs.iter().filter(|run| ring(run)).count();
    if rings > 0 && runs.len() > 1 {
        return Err(TracedError::Several(runs.len()));
    }
    let links = Links { runs: &runs, reach };
    links.check(passed_over)?;
    let (order, closed) = links.walk();
    if order.len() < runs.len() {
        return Err(TracedError::Several(runs.len() - order.len() + 1));
    }
    Ok(sewn(&order, closed || rings > 0))
}

/// Which ends meet. End `2 i` is the start of run `i`, end `2 i + 1` its end.
struct Links<'r> {
    runs: &'r [Vec<Piece>],
    reach: f64,
}

impl Links<'_> {
    fn end(&self, end: usize) -> Point {
        let run = &self.runs[end / 2];
        if end.is_multiple_of(2) {
            run[0].start
        } else {
            run[run.len() - 1].end
        }
    }

    fn ends(&self) -> std::ops::Range<usize> {
        0..2 * self.runs.len()
    }

    /// The other ends within reach.
    fn partners(&self, end: usize) -> Vec<usize> {
        let at = self.end(end);
        self.ends()
            .filter(|&other| other != end && self.end(other).distance(at) <= self.reach)
            .collect()
    }

    /// Refuses branches and gaps.
    fn check(&self, passed_over: &[String]) -> Result<(), TracedError> {
        let mut loose = Vec::new();
        for end in self.ends() {
            match self.partners(end).len() {
                0 => loose.push(self.end(end)),
                1 => {}
                more => {
                    return Err(TracedError::Branch {
                        at: self.end(end),
                        ends: more + 1,
                    });
                }
            }
        }
        if loose.len() <= 2 {
            return Ok(());
        }
        let stretches = loose.len() / 2;
        // The two ends that are farthest from any other are those of the whole line.
        let mut gaps = Vec::new();
        while loose.len() > 2 {
            let pairs = (0..loose.len()).flat_map(|i| (i + 1..loose.len()).map(move |j| (i, j)));
            let apart = |&(i, j): &(usize, usize)| loose[i].distance(loose[j]);
            let Some((i, j)) = pairs.min_by(|a, b| apart(a).total_cmp(&apart(b))) else {
                break;
            };
            gaps.push((loose[i].midpoint(loose[j]), apart(&(i, j))));
            loose.remove(j);
            loose.remove(i);
            if gaps.len() == MOST_GAPS {
                break;
            }
        }
        Err(TracedError::Gaps {
            stretches,
            gaps,
            passed_over: passed_over.to_vec(),
        })
    }

    /// The runs in order, each the right way round, and whether the last meets the first.
    fn walk(&self) -> (Vec<Vec<Piece>>, bool) {
        let loose = self.ends().find(|&end| self.partners(end).is_empty());
        let first = loose.unwrap_or(0);
        let (mut from, mut order) = (first, Vec::new());
        loop {
            let run = &self.runs[from / 2];
            order.push(if from.is_multiple_of(2) {
                run.clone()
            } else {
                run.iter().rev().map(Piece::reversed).collect()
            });
            match self.partners(from ^ 1).first() {
                Some(&next) if next != first && order.len() < self.runs.len() => from = next,
                Some(_) => return (order, true),
                None => return (order, false),
            }
        }
    }
}

/// More gaps than these are not told one by one.
const MOST_GAPS: usize = 12;

/// The runs as one line, the ends at each joint moved to the middle between them.
fn sewn(order: &[Vec<Piece>], closed: bool) -> Joined {
    let (mut count, mut widest) = (0, 0.0f64);
    let mut pieces: Vec<Piece> = Vec::new();
    let mut meet = |before: &mut Piece, after: &mut Piece| {
        let apart = before.end.distance(after.start);
        if apart > SAME {
            count += 1;
            widest = widest.max(apart);
        }
        let middle = before.end.midpoint(after.start);
        (before.end, after.start) = (middle, middle);
    };
    for run in order {
        let mut run = run.clone();
        if let (Some(before), Some(after)) = (pieces.last_mut(), run.first_mut()) {
            meet(before, after);
        }
        pieces.extend(run);
    }
    let path = if closed && pieces.len() > 1 {
        let (first, rest) = pieces.split_at_mut(1);
        if let (Some(last), Some(first)) = (rest.last_mut(), first.first_mut()) {
            meet(last, first);
        }
        let mut vertices = Path::from_pieces(&pieces).vertices().to_vec();
        vertices.pop();
        Line::Closed(Outline::new(vertices))
    } else {
        Line::Open(Path::from_pieces(&pieces))
    };
    Joined {
        line: path,
        count,
        widest,
    }
}
