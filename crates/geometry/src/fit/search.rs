//! The search for few arcs.
//!
//! Layer by layer: from each of the best chains of k arcs, chains of k + 1 that end across from several places of the curve by
//! several arcs each; those are kept from which one more arc reaches farthest. The first chain that can be brought to the goal
//! is taken.

use super::reach::{Reach, to_float};
use super::samples::Samples;
use super::stand::Stand;
use crate::{Piece, Point, Vec2};
use kurbo::common::solve_itp;

/// Chains kept of each number of arcs. Half as many take a tenth more arcs here and there, twice as many seldom fewer.
const KEPT: usize = 16;

/// Places at which an arc may end that are tried, over the second half of its reach.
const ENDS: u32 = 8;

/// Arcs that are tried to each of them.
const ARCS: u32 = 5;

/// First arcs of the two that come to a fixed end that are tried.
const CLOSINGS: u32 = 16;

/// Where the directions of two curvatures differ by less than this share, their circles are one and touch nowhere.
const ONE_CIRCLE: f64 = 1e-9;

/// Two parameters nearer to one another than this, relative, cannot be told apart: a search asked for less never ends.
const FINEST: f64 = 4.0 * f64::EPSILON;

/// Arcs along part of a curve.
#[derive(Debug)]
pub(super) struct Chain {
    pub(super) pieces: Vec<Piece>,
    /// Across from which parameters of the curve they begin and end: one more than there are arcs.
    pub(super) parameters: Vec<f64>,
}

/// How a chain has to begin and end.
#[derive(Debug)]
pub(super) struct Goal {
    start: Stand,
    end: Stand,
    /// Whether the last arc has only to meet, square, the line through the end square to its heading.
    on_axis: bool,
}

impl Goal {
    /// To the curve's own end, in its own direction.
    pub(super) fn end(samples: &Samples<'_>) -> Self {
        let stand = |t: f64| Stand {
            place: samples.curve.point(t),
            heading: samples.curve.tangent(t),
        };
        Self {
            start: stand(samples.parameters[0]),
            end: stand(samples.parameters[samples.last]),
            on_axis: false,
        }
    }

    /// To the axis about which the curve mirrors itself, square to it: its mirror image then runs smoothly on.
    pub(super) fn square_to_axis(samples: &Samples<'_>) -> Self {
        Self {
            on_axis: true,
            ..Self::end(samples)
        }
    }

    /// How many arcs bring a chain to it.
    const fn closing_arcs(&self) -> usize {
        if self.on_axis { 1 } else { 2 }
    }
}

/// The end of a chain that has come across from a place of the curve.
#[derive(Clone, Copy)]
struct Link {
    place: usize,
    stand: Stand,
    /// The link before, by its number; its own where it is the start.
    before: usize,
    farthest: f64,
}

struct Search<'a> {
    samples: &'a Samples<'a>,
    goal: &'a Goal,
    tolerance: f64,
    links: Vec<Link>,
    /// What arcs reach that come back from the end, counted from there.
    back: Reach,
}

/// The fewest arcs found that keep the tolerance; none if there are more than `most`, or no end to them.
pub(super) fn search(samples: &Samples<'_>, goal: &Goal, tolerance: f64, most: usize) -> Option<Chain> {
    let start = Link {
        place: 0,
        stand: goal.start,
        before: 0,
        farthest: 0.0,
    };
    let mut search = Search {
        samples,
        goal,
        tolerance,
        links: vec![start],
        back: Reach::default(),
    };
    if !goal.on_axis {
        let reversed: Vec<Point> = samples.points[..=samples.last].iter().rev().copied().collect();
        search.back.look(&reversed, 0, &goal.end.turned_back(), tolerance);
    }
    search.run(most)
}

impl Search<'_> {
    fn run(&mut self, most: usize) -> Option<Chain> {
        let mut ahead = Reach::default();
        let first = self.links[0];
        ahead.look(&self.samples.points, 0, &first.stand, self.tolerance);
        if let Some(closing) = self.closing(&first, &ahead) {
            return Some(self.chain(&first, closing)).filter(|chain| chain.pieces.len() <= most);
        }
        let mut layer = 0..1;
        // Each arc comes at least one place on, and the last takes the chain to its goal.
        let layers = most
            .saturating_sub(self.goal.closing_arcs())
            .min(self.samples.last);
        for _ in 0..layers {
            let mut found: Vec<Link> = Vec::new();
            for number in layer {
                let parent = self.links[number];
                let mut reach = Reach::default();
                reach.look(&self.samples.points, parent.place, &parent.stand, self.tolerance);
                for (place, bend) in self.steps(&parent, &reach) {
                    let mut link = Link {
                        place,
                        stand: parent.stand.across_from(self.samples.points[place], bend),
                        before: number,
                        farthest: 0.0,
                    };
                    ahead.look(&self.samples.points, place, &link.stand, self.tolerance);
                    if let Some(closing) = self.closing(&link, &ahead) {
                        return Some(self.chain(&link, closing)).filter(|chain| chain.pieces.len() <= most);
                    }
                    link.farthest = ahead.farthest;
                    found.push(link);
                }
            }
            if found.is_empty() {
                return None;
            }
            found.sort_by(|a, b| b.farthest.total_cmp(&a.farthest));
            found.truncate(KEPT);
            layer = self.links.len()..self.links.len() + found.len();
            self.links.append(&mut found);
        }
        None
    }

    /// The places at which an arc from a link is tried to end, and the curvatures by which it gets there.
    fn steps(&self, link: &Link, reach: &Reach) -> Vec<(usize, f64)> {
        let last = reach.last().min(self.samples.last - 1);
        let mut steps = Vec::new();
        let mut before = link.place;
        for i in 0..ENDS {
            let share = 0.5 + 0.5 * f64::from(i) / f64::from(ENDS - 1);
            let place = at_share(link.place, last, share);
            if place <= before {
                continue;
            }
            before = place;
            if let Some((least, greatest)) = reach.allowed_at(place) {
                steps.extend((0..ARCS).map(|k| {
                    let share = f64::from(k) / f64::from(ARCS - 1);
                    (place, least + (greatest - least) * share)
                }));
            }
        }
        steps
    }

    /// What brings a link to the goal: where each arc ends, and across from which parameter.
    fn closing(&self, link: &Link, ahead: &Reach) -> Option<Vec<(Stand, f64)>> {
        if self.goal.on_axis {
            self.onto_axis(link, ahead)
        } else {
            self.onto_end(link, ahead)
        }
    }

    /// By the one arc whose centre is on the axis.
    fn onto_axis(&self, link: &Link, ahead: &Reach) -> Option<Vec<(Stand, f64)>> {
        let Self { samples, goal, .. } = self;
        let across = goal.end.heading;
        let bend = -link.stand.left().dot(across) / (link.stand.place - goal.end.place).dot(across);
        ahead.allows(samples.last, bend).then(|| {
            let end = link.stand.across_from(samples.points[samples.last], bend);
            vec![(end, samples.parameters[samples.last])]
        })
    }

    /// By two arcs, of which the second comes to the end in its direction.
    fn onto_end(&self, link: &Link, ahead: &Reach) -> Option<Vec<(Stand, f64)>> {
        let last = self.samples.last;
        // The first place to which an arc comes back from the end.
        let nearest = last.checked_sub(self.back.last())?.max(link.place + 1);
        let (least, greatest) = ahead.allowed_at(nearest)?;
        (0..=CLOSINGS).find_map(|i| {
            let bend = least + (greatest - least) * f64::from(i) / f64::from(CLOSINGS);
            let (joint, second) = touching(&link.stand, &self.goal.end, bend)?;
            let place = self.last_before(&joint, link.place)?;
            let kept = ahead.allows(place + 1, bend)
                && (place == link.place || ahead.allows(place, bend))
                && self.back.allows(last - place, -second);
            kept.then(|| {
                vec![
                    (joint, self.parameter_across(&joint, place)),
                    (self.goal.end, self.samples.parameters[last]),
                ]
            })
        })
    }

    /// The number of the last place, from `from` on, that is not past the line square to a stand.
    fn last_before(&self, stand: &Stand, from: usize) -> Option<usize> {
        let places = &self.samples.points[from..=self.samples.last];
        let before = places.partition_point(|&p| (p - stand.place).dot(stand.heading) <= 0.0);
        (before > 0 && before < places.len()).then(|| from + before - 1)
    }

    /// Between a place and the next, the parameter across from a stand.
    fn parameter_across(&self, stand: &Stand, place: usize) -> f64 {
        let past = |p: Point| (p - stand.place).dot(stand.heading);
        let (before, after) = (self.samples.points[place], self.samples.points[place + 1]);
        let (from, to) = (self.samples.parameters[place], self.samples.parameters[place + 1]);
        solve_itp(
            |t| past(self.samples.curve.point(t)),
            from,
            to,
            FINEST * from.abs().max(to.abs()),
            1,
            0.2 / (to - from),
            past(before),
            past(after),
        )
    }

    fn chain(&self, link: &Link, closing: Vec<(Stand, f64)>) -> Chain {
        let mut stands = Vec::new();
        let mut at = *link;
        loop {
            stands.push((at.stand, self.samples.parameters[at.place]));
            if at.place == 0 {
                break;
            }
            at = self.links[at.before];
        }
        stands.reverse();
        stands.extend(closing);
        Chain {
            pieces: stands
                .windows(2)
                .map(|pair| pair[0].0.arc_to(pair[1].0.place))
                .collect(),
            parameters: stands.iter().map(|stand| stand.1).collect(),
        }
    }
}

/// Where the arc of curvature k that leaves one stand touches an arc that comes to another, and the curvature of that one.
///
/// Two circles touch if their centres are as far apart as their radii differ: with d from the end to the start, m and n to the
/// left of start and end, |d|² k κ + 2 d·m κ - 2 d·n k + 2 (1 - m·n) = 0, κ being the curvature sought.
fn touching(start: &Stand, end: &Stand, k: f64) -> Option<(Stand, f64)> {
    let (d, m, n) = (start.place - end.place, start.left(), end.left());
    let other = (2.0 * d.dot(n) * k - 2.0 * (1.0 - m.dot(n))) / (d.hypot2() * k + 2.0 * d.dot(m));
    if !other.is_finite() || (other - k).abs() <= ONE_CIRCLE * k.abs().max(other.abs()) {
        return None;
    }
    let left: Vec2 = ((d * (k * other) + m * other - n * k) / (other - k)).normalize();
    let place = if k.abs() > other.abs() {
        start.place + (m - left) / k
    } else {
        end.place + (n - left) / other
    };
    let heading = Vec2::new(left.y, -left.x);
    Some((Stand { place, heading }, other))
}

/// The number that stands at a share of the way from one to another.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "between two numbers of places"
)]
fn at_share(from: usize, to: usize, share: f64) -> usize {
    from + (to_float(to.saturating_sub(from)) * share).floor() as usize
}
