//! How sheet goes into sheet.

use super::{BRIDGE, Input};

/// How much farther a slot goes than half of what crosses in it, mm: edges come flush before the slots' ends meet, where the beam leaves
/// its own radius.
pub(crate) const SEAT: f64 = 0.1;

/// How much longer than its tenon a mortise is along the arch, mm: it grips the tenon by its faces alone.
pub(crate) const SLIP: f64 = 0.1;

/// What slots and bridges measure, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Fit {
    /// A slot for one sheet, as it is cut: less than the sheet's thickness by the interference.
    pub(crate) slot: f64,
    /// The least wood between two cuts.
    pub(crate) bridge: f64,
    interference: f64,
    thickness: f64,
}

impl Fit {
    pub(crate) fn new(input: &Input) -> Self {
        Self {
            slot: input.thickness - input.interference,
            bridge: input.bridge.unwrap_or(BRIDGE * input.thickness),
            interference: input.interference,
            thickness: input.thickness,
        }
    }

    /// What a slot and the sheet in it take up at most.
    pub(crate) fn wider(&self) -> f64 {
        self.slot.max(self.thickness)
    }

    /// How deep each of two slots is that cross-halve pieces of this height.
    pub(crate) fn slot_depth(&self, height: f64) -> f64 {
        height / 2.0 + SEAT
    }

    /// How wide a mortise is for so many sheets side by side.
    pub(crate) fn mortise(&self, sheets: usize) -> f64 {
        super::as_length(sheets) * self.thickness - self.interference
    }
}
