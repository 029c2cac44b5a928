//! How long a search goes on, and what it tells meanwhile.

use crate::Conduct;
use crate::spread::Spread;

/// Rounds without less overlap before a try is given up, and tries in a row without less before a separation is: of a search
/// that is stubborn, and of one that is not.
const ROUNDS: [usize; 2] = [120, 40];
const TRIES: [usize; 2] = [3, 1];

/// How many separations of one attempt may fail before a search that is not stubborn gives the attempt up.
const AGAIN: usize = 2;

/// What a search may spend, and on whose word it ends before.
#[derive(Clone, Copy)]
pub(crate) struct Limit<'l> {
    /// The counts of questions asked at which it began and at which it is enough.
    from: u64,
    to: u64,
    stubborn: bool,
    conduct: Conduct<'l>,
}

impl Limit<'_> {
    /// So many questions from now on, and no more once there was an attempt in vain, unless stubborn.
    pub(crate) const fn new<'l>(
        spread: &Spread<'_>,
        questions: u64,
        stubborn: bool,
        conduct: Conduct<'l>,
    ) -> Limit<'l> {
        Limit {
            from: spread.asked,
            to: spread.asked.saturating_add(questions),
            stubborn,
            conduct,
        }
    }

    /// The same with as many tenths of what is left of it.
    pub(crate) const fn part(self, spread: &Spread<'_>, tenths: u64) -> Self {
        let left = self.to.saturating_sub(spread.asked);
        Self {
            to: spread.asked + left / 10 * tenths,
            ..self
        }
    }

    pub(crate) fn reached(&self, spread: &Spread<'_>) -> bool {
        spread.asked >= self.to || (self.conduct.stop)()
    }

    /// Tells how far it has come.
    pub(crate) fn tell(&self, spread: &Spread<'_>) {
        let stock = spread.lot.rooms.first().map_or("", |room| &room.stock.name);
        let spent = (spread.asked - self.from) * 100 / (self.to - self.from).max(1);
        (self.conduct.say)(&format!(
            "laying out {stock}: trying {} sheets, {spent} % of the search at most",
            spread.boards.len()
        ));
    }

    pub(crate) const fn rounds(&self) -> usize {
        ROUNDS[if self.stubborn { 0 } else { 1 }]
    }

    pub(crate) const fn tries(&self) -> usize {
        TRIES[if self.stubborn { 0 } else { 1 }]
    }

    /// How many separations of one attempt may fail.
    pub(crate) const fn again(&self) -> usize {
        if self.stubborn { usize::MAX } else { AGAIN }
    }
}
