//! The search itself: an order of stops between two fixed ends, and a place chosen for each.

use cintre_geometry::{Point, Vec2};
use std::collections::VecDeque;

/// How many near stops are tried as the next one in each quarter of the compass, and in all.
const QUARTER: usize = 2;
const NEAR: usize = 10;
/// The longest stretch that is moved as a whole.
const STRETCH: usize = 3;
/// The longest stretches that a shuffle exchanges.
const SHUFFLED: usize = 50;
/// A gain smaller than this is rounding, mm.
const GAIN: f64 = 1e-7;

pub(super) struct Search<'a> {
    stops: &'a [Vec<Point>],
    /// What must come before each stop.
    earlier: Vec<Vec<usize>>,
    home: Point,
    back: bool,
    near: Vec<Vec<usize>>,
    /// Home, the stops, and the end: one place more at either side.
    order: Vec<usize>,
    /// Where each stands in the order.
    at: Vec<usize>,
    /// The place chosen at each stop.
    place: Vec<usize>,
    queue: VecDeque<usize>,
    queued: Vec<bool>,
    random: u64,
}

impl<'a> Search<'a> {
    pub(super) fn new(stops: &'a [Vec<Point>], before: &[(usize, usize)], home: Point, back: bool) -> Self {
        let n = stops.len();
        let mut earlier = vec![Vec::new(); n + 2];
        for &(first, second) in before {
            earlier[second].push(first);
        }
        let mut search = Self {
            stops,
            earlier,
            home,
            back,
            near: near(stops),
            order: Vec::new(),
            at: vec![0; n + 2],
            place: vec![0; n + 2],
            queue: VecDeque::new(),
            queued: vec![false; n + 2],
            random: 0x9E37_79B9_7F4A_7C15,
        };
        search.nearest_first();
        search
    }

    pub(super) fn found(&self) -> Vec<(usize, usize)> {
        let stops = &self.order[1..=self.stops.len()];
        stops.iter().map(|&s| (s, self.place[s])).collect()
    }

    pub(super) fn improve(&mut self, shuffles: usize) {
        let n = self.stops.len();
        for stop in 0..n {
            self.push(stop);
        }
        self.settle();
        let mut best = self.length();
        let (mut order, mut at, mut place) = (Vec::new(), Vec::new(), Vec::new());
        for _ in 0..if n < 3 { 0 } else { shuffles } {
            order.clone_from(&self.order);
            at.clone_from(&self.at);
            place.clone_from(&self.place);
            if self.shuffle() {
                self.settle();
            }
            let length = self.length();
            if length < best - GAIN {
                best = length;
            } else if length > best + GAIN {
                self.order.clone_from(&order);
                self.at.clone_from(&at);
                self.place.clone_from(&place);
            }
        }
    }

    /// Exchanges until nothing gains, and the best places for what comes of it.
    fn settle(&mut self) {
        self.exchange();
        while self.stops.iter().any(|s| s.len() > 1) && self.choose_places() {
            self.exchange();
        }
    }

    fn exchange(&mut self) {
        while let Some(stop) = self.queue.pop_front() {
            self.queued[stop] = false;
            while self.turned(stop) || self.moved(stop) {}
        }
    }

    fn point(&self, stop: usize) -> Point {
        self.stops
            .get(stop)
            .map_or(self.home, |places| places[self.place[stop]])
    }

    fn distance(&self, a: usize, b: usize) -> f64 {
        let end = self.stops.len() + 1;
        if !self.back && (a == end || b == end) {
            0.0
        } else {
            self.point(a).distance(self.point(b))
        }
    }

    fn length(&self) -> f64 {
        self.order.windows(2).map(|w| self.distance(w[0], w[1])).sum()
    }

    fn push(&mut self, stop: usize) {
        if stop < self.stops.len() && !self.queued[stop] {
            self.queued[stop] = true;
            self.queue.push_back(stop);
        }
    }

    fn nearest_first(&mut self) {
        let n = self.stops.len();
        let (mut here, mut left): (Point, Vec<usize>) = (self.home, (0..n).collect());
        self.order.push(n);
        let mut done = vec![false; n];
        while !left.is_empty() {
            let ready = left.iter().filter(|&&s| self.earlier[s].iter().all(|&e| done[e]));
            let nearest = ready
                .flat_map(|&s| self.stops[s].iter().enumerate().map(move |(k, p)| (s, k, *p)))
                .min_by(|a, b| here.distance_squared(a.2).total_cmp(&here.distance_squared(b.2)));
            // In a circle of what comes before what nothing is ready: then anything is.
            let (stop, place, p) = nearest.unwrap_or((left[0], 0, self.stops[left[0]][0]));
            (here, self.place[stop], done[stop]) = (p, place, true);
            left.retain(|&s| s != stop);
            self.order.push(stop);
        }
        self.order.push(n + 1);
        self.place_all(0, n + 1);
    }

    fn place_all(&mut self, from: usize, to: usize) {
        for k in from..=to {
            self.at[self.order[k]] = k;
        }
    }

    /// Whether all that stands from one place to another comes after what it must.
    fn in_order(&self, from: usize, to: usize) -> bool {
        self.order[from..=to]
            .iter()
            .all(|&s| self.earlier[s].iter().all(|&e| self.at[e] < self.at[s]))
    }

    /// Runs a stretch backwards if that keeps what must come before what.
    fn reverse(&mut self, from: usize, to: usize) -> bool {
        self.order[from..=to].reverse();
        self.place_all(from, to);
        let kept = self.in_order(from, to);
        if !kept {
            self.order[from..=to].reverse();
            self.place_all(from, to);
        }
        kept
    }

    /// Tries to join a stop to a near one by running the stretch between them backwards.
    fn turned(&mut self, stop: usize) -> bool {
        for ahead in [true, false] {
            let i = self.at[stop];
            let beside = |s: &Self, k: usize| s.order[if ahead { k + 1 } else { k - 1 }];
            let own = beside(self, i);
            let reach = self.distance(stop, own);
            for k in 0..self.near[stop].len() {
                let other = self.near[stop][k];
                let joined = self.distance(stop, other);
                if joined >= reach - GAIN && own <= self.stops.len() {
                    break;
                }
                let j = self.at[other];
                let theirs = beside(self, j);
                let gain = reach + self.distance(other, theirs) - joined - self.distance(own, theirs);
                let (from, to) = match (ahead, i < j) {
                    (true, true) => (i + 1, j),
                    (true, false) => (j + 1, i),
                    (false, true) => (i, j - 1),
                    (false, false) => (j, i - 1),
                };
                if gain > GAIN && from < to && self.reverse(from, to) {
                    [stop, other, own, theirs].into_iter().for_each(|s| self.push(s));
                    return true;
                }
            }
        }
        false
    }

    /// Tries to move a short stretch that begins or ends with a stop beside a near one.
    fn moved(&mut self, stop: usize) -> bool {
        let n = self.stops.len();
        for count in 1..=STRETCH.min(n.saturating_sub(1)) {
            for first in [true, false] {
                let i = self.at[stop];
                let (from, to) = if first {
                    (i, i + count - 1)
                } else {
                    ((i + 1).saturating_sub(count), i)
                };
                if from < 1 || to > n {
                    continue;
                }
                let removed = self.removed(from, to);
                for k in 0..self.near[stop].len() {
                    let other = self.near[stop][k];
                    let j = self.at[other];
                    // A stop farther off than all that is saved gains nothing worth the search.
                    if self.distance(stop, other) >= removed {
                        break;
                    }
                    if (from..=to).contains(&j) {
                        continue;
                    }
                    for after in [true, false] {
                        // The stop comes to stand beside the near one: behind it the stretch runs on, before it it ends.
                        if self.put(
                            (from, to),
                            if after { (j, j + 1) } else { (j - 1, j) },
                            first != after,
                        ) {
                            return true;
                        }
                    }
                }
            }
        }
        false
    }

    /// What is saved by leaving a stretch out.
    fn removed(&self, from: usize, to: usize) -> f64 {
        let (before, behind) = (self.order[from - 1], self.order[to + 1]);
        self.distance(before, self.order[from]) + self.distance(self.order[to], behind)
            - self.distance(before, behind)
    }

    /// Puts a stretch between two neighbours elsewhere, turned round or not, if that gains.
    fn put(&mut self, (from, to): (usize, usize), (left, right): (usize, usize), turned: bool) -> bool {
        if left + 1 == from || right == to + 1 || left + 1 > self.stops.len() + 1 {
            return false;
        }
        let stand = |s: &Self, k: usize| s.order[k];
        let (a, b) = (stand(self, from), stand(self, to));
        let (before, behind) = (stand(self, from - 1), stand(self, to + 1));
        let (l, r) = (stand(self, left), stand(self, right));
        let removed = self.removed(from, to);
        let (head, tail) = if turned { (b, a) } else { (a, b) };
        let added = self.distance(l, head) + self.distance(tail, r) - self.distance(l, r);
        if removed - added <= GAIN {
            return false;
        }
        let count = to - from + 1;
        let (low, high) = if left > to { (from, left) } else { (right, to) };
        let old = self.order[low..=high].to_vec();
        if turned {
            self.order[from..=to].reverse();
        }
        if left > to {
            self.order[low..=high].rotate_left(count);
        } else {
            self.order[low..=high].rotate_right(count);
        }
        self.place_all(low, high);
        if !self.in_order(low, high) {
            self.order[low..=high].copy_from_slice(&old);
            self.place_all(low, high);
            return false;
        }
        [a, b, before, behind, l, r]
            .into_iter()
            .for_each(|s| self.push(s));
        true
    }

    /// Goes to another place at some stop, or exchanges two neighbouring stretches somewhere, if that keeps what must come
    /// before what.
    fn shuffle(&mut self) -> bool {
        let n = self.stops.len();
        let stop = self.below(n);
        if self.stops[stop].len() > 1 && self.below(2) == 0 {
            self.place[stop] = self.below(self.stops[stop].len());
            for k in self.at[stop] - 1..=self.at[stop] + 1 {
                self.push(self.order[k]);
            }
            return true;
        }
        let longest = SHUFFLED.min(n / 2).max(1);
        let (one, two) = (1 + self.below(longest), 1 + self.below(longest));
        if one + two > n {
            return false;
        }
        let from = 1 + self.below(n - one - two + 1);
        let to = from + one + two - 1;
        self.order[from..=to].rotate_left(one);
        self.place_all(from, to);
        if !self.in_order(from, to) {
            self.order[from..=to].rotate_right(one);
            self.place_all(from, to);
            return false;
        }
        for k in [from - 1, from, from + two - 1, from + two, to, to + 1] {
            self.push(self.order[k]);
        }
        true
    }

    /// A number below a small one, the same series on every run (xorshift).
    fn below(&mut self, n: usize) -> usize {
        self.random ^= self.random << 13;
        self.random ^= self.random >> 7;
        self.random ^= self.random << 17;
        let n = u64::try_from(n).unwrap_or(1);
        usize::try_from((self.random >> 16) % n).unwrap_or(0)
    }

    /// Chooses the best place at every stop for the order as it is; whether one changed to some gain.
    fn choose_places(&mut self) -> bool {
        let n = self.stops.len();
        let was = self.length();
        let mut costs: Vec<f64> = vec![0.0];
        let mut came: Vec<Vec<usize>> = Vec::with_capacity(n);
        let mut from: &[Point] = std::slice::from_ref(&self.home);
        for &stop in &self.order[1..=n] {
            let places = &self.stops[stop];
            let best = |p: &Point| {
                let ways = from.iter().zip(&costs).map(|(q, cost)| cost + q.distance(*p));
                ways.enumerate()
                    .min_by(|a, b| a.1.total_cmp(&b.1))
                    .unwrap_or((0, 0.0))
            };
            let (back, next): (Vec<usize>, Vec<f64>) = places.iter().map(best).unzip();
            came.push(back);
            (costs, from) = (next, places);
        }
        let last = |(k, cost): (usize, &f64)| {
            (
                k,
                cost + if self.back {
                    from[k].distance(self.home)
                } else {
                    0.0
                },
            )
        };
        let ends = costs.iter().enumerate().map(last);
        let Some((mut k, length)) = ends.min_by(|a, b| a.1.total_cmp(&b.1)) else {
            return false;
        };
        if length > was - GAIN {
            return false;
        }
        for (i, back) in came.iter().enumerate().rev() {
            let stop = self.order[i + 1];
            if self.place[stop] != k {
                self.place[stop] = k;
                self.push(stop);
            }
            k = back[k];
        }
        true
    }
}

/// The nearest stops of each, by their nearest places: of each quarter of the compass some, so that a cluster is left again.
fn near(stops: &[Vec<Point>]) -> Vec<Vec<usize>> {
    let apart = |a: &[Point], b: &[Point]| {
        let each = a
            .iter()
            .flat_map(|p| b.iter().map(move |q| (p.distance_squared(*q), *q - *p)));
        each.min_by(|x, y| x.0.total_cmp(&y.0))
            .unwrap_or((f64::INFINITY, Vec2::ZERO))
    };
    (0..stops.len())
        .map(|i| {
            let mut others: Vec<(f64, usize, usize)> = (0..stops.len())
                .filter(|&j| j != i)
                .map(|j| {
                    let (far, way) = apart(&stops[i], &stops[j]);
                    (far, j, usize::from(way.x > 0.0) * 2 + usize::from(way.y > 0.0))
                })
                .collect();
            others.sort_by(|a, b| a.0.total_cmp(&b.0));
            let mut taken = [0; 4];
            let (mut near, mut more) = (Vec::new(), Vec::new());
            for &(far, j, quarter) in &others {
                taken[quarter] += 1;
                if taken[quarter] <= QUARTER {
                    &mut near
                } else {
                    &mut more
                }
                .push((far, j));
            }
            near.extend(more.into_iter().take(NEAR.saturating_sub(near.len())));
            near.sort_by(|a, b| a.0.total_cmp(&b.0));
            near.into_iter().map(|(_, j)| j).collect()
        })
        .collect()
}
