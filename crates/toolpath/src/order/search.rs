//! The search itself: an order of stops between two fixed ends, and a place chosen for each.

use cintre_geometry::Point;
use near::near;
use std::collections::VecDeque;

mod exchange;
mod near;
mod places;

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
}
