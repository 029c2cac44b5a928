//! How long a search goes on, and what it tells meanwhile.

use crate::Conduct;
use crate::spread::Spread;

/// How much may be in vain before a separation is given up.
#[derive(Clone, Copy)]
struct Patience {
    /// Rounds without less overlap before a try is given up.
    rounds: usize,
    /// Tries in a row without less before the separation is.
    tries: usize,
}

/// That of a search that is stubborn, and of one that is not.
const LONG: Patience = Patience {
    rounds: 120,
    tries: 3,
};
const SHORT: Patience = Patience { rounds: 40, tries: 1 };

/// Fewer pieces than this gain more by beginning anew than by going on: there are not so many ways to lay them.
const FEW: usize = 32;

/// How many separations of one attempt may fail before a search that is not stubborn gives the attempt up.
const AGAIN: usize = 2;

/// What a search may spend, and on whose word it ends before.
#[derive(Clone, Copy)]
pub(crate) struct Limit<'l> {
    /// The counts of questions asked at which it began and at which it is enough.
    from: u64,
    to: u64,
    stubborn: bool,
    /// Whether it goes on to the end with few pieces, and so has time for the smallest steps.
    fine: bool,
    patience: Patience,
    conduct: Conduct<'l>,
}

impl Limit<'_> {
    /// So many questions from now on, and no more once there was an attempt in vain, unless stubborn.
    pub(crate) fn new<'l>(
        spread: &Spread<'_>,
        questions: u64,
        stubborn: bool,
        conduct: Conduct<'l>,
    ) -> Limit<'l> {
        let few = spread.lot.pieces.len() < FEW;
        Limit {
            from: spread.asked,
            to: spread.asked.saturating_add(questions),
            stubborn,
            fine: stubborn && few,
            patience: if stubborn && !few { LONG } else { SHORT },
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
        self.patience.rounds
    }

    pub(crate) const fn tries(&self) -> usize {
        self.patience.tries
    }

    pub(crate) const fn fine(&self) -> bool {
        self.fine
    }

    /// How many separations of one attempt may fail.
    pub(crate) const fn again(&self) -> usize {
        if self.stubborn { usize::MAX } else { AGAIN }
    }
}
