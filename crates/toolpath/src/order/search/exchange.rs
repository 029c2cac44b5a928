//! The exchanges that shorten an order: a stretch run backwards, and a short one moved elsewhere.

use super::{GAIN, Search};

/// The longest stretch that is moved as a whole.
const STRETCH: usize = 3;

impl Search<'_> {
    /// Tries to join a stop to a near one by running the stretch between them backwards.
    pub(super) fn turned(&mut self, stop: usize) -> bool {
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
    pub(super) fn moved(&mut self, stop: usize) -> bool {
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
}
