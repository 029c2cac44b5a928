//! What the manifest says of a program, which its bytes alone do not tell.

use cintre_read::LengthUnit;
use cintre_work::manifest::{CutFile, FileBit};

/// What must be known of a program besides its bytes.
#[derive(Clone, Debug, PartialEq)]
pub struct ProgramRecord {
    /// The bit that runs it.
    pub bit: FileBit,
    /// The bits that are put in after it, where the program stops for them.
    pub later_bits: Vec<FileBit>,
    /// Z of the stock's face in it.
    pub top: f64,
    /// Z of the stock's underside in it.
    pub floor: f64,
    /// Its zero in the sheet's frame.
    pub origin: [f64; 2],
    /// The unit it must state.
    pub unit: LengthUnit,
}

impl ProgramRecord {
    /// The record of a program in a manifest; none where the manifest lacks what a program must have.
    pub fn of(file: &CutFile) -> Option<Self> {
        Some(Self {
            bit: file.bit.clone()?,
            later_bits: file.later_bits.clone(),
            top: file.top?,
            floor: file.floor?,
            origin: file.origin,
            unit: LengthUnit::named(&file.units)?,
        })
    }

    /// Its bits in the order in which they are put in.
    pub(crate) fn bits(&self) -> impl Iterator<Item = &FileBit> {
        std::iter::once(&self.bit).chain(&self.later_bits)
    }

    /// The largest error that a place can have by the rounding of the program's numbers; floors are met within it.
    pub(crate) const fn rounding() -> f64 {
        0.002
    }
}
