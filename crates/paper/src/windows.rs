//! One way of a grid of pages.

use crate::grid::OVERLAP;

/// Windows that fall short of the drawing by this share of one are taken to reach.
const ROUNDING: f64 = 1e-9;
/// So many places of the grid are tried each way.
const SHIFTS: u8 = 12;

/// One way of the grid: windows of one width that overlap.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Windows {
    pub(crate) start: f64,
    pub(crate) count: usize,
    pub(crate) window: f64,
}

impl Windows {
    pub(crate) fn step(self) -> f64 {
        self.window - OVERLAP
    }

    pub(crate) fn at(self, i: usize) -> f64 {
        self.start + real(i) * self.step()
    }

    /// The middle of the overlap before window `i`; the outer edges where there is none.
    pub(crate) fn seam(self, i: usize) -> f64 {
        if i == 0 {
            self.start
        } else if i == self.count {
            self.at(i) + OVERLAP
        } else {
            self.at(i) + OVERLAP / 2.0
        }
    }

    /// The window in whose share a place lies.
    pub(crate) fn of(self, place: f64) -> usize {
        let i = ((place - self.start - OVERLAP / 2.0) / self.step()).floor();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "not below 0, and at most the count"
        )]
        let i = i.clamp(0.0, real(self.count - 1)) as usize;
        i
    }

    /// Windows enough for what lies from `from` to `to`, and one more, each at several places; the tight ones first.
    pub(crate) fn choices(from: f64, to: f64, window: f64) -> Vec<Self> {
        let least = ((to - from - OVERLAP) / (window - OVERLAP) - ROUNDING)
            .ceil()
            .max(1.0);
        let mut choices = Vec::new();
        for more in [0.0, 1.0] {
            if least + more < 2.0 && more > 0.0 {
                continue;
            }
            let spare = (least + more) * (window - OVERLAP) + OVERLAP - (to - from);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a count of pages of at least one"
            )]
            let count = (least + more) as usize;
            choices.extend((0..=SHIFTS).map(|i| Self {
                start: from - spare * f64::from(i) / f64::from(SHIFTS),
                count,
                window,
            }));
        }
        choices
    }
}

/// A small count as a number to reckon with.
#[expect(clippy::cast_precision_loss, reason = "a count of pages or rows is small")]
pub(crate) const fn real(count: usize) -> f64 {
    count as f64
}
