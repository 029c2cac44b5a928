//! What is too thin at a scale, and the scale at which nothing is.

use super::Input;
use super::kit::Kit;
use super::springer::Springer;
use crate::Error;

/// Two tabs find room on a side this many times as long as one and its beam.
const TABS: f64 = 4.0;

/// Something that is too thin, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Thin {
    pub(crate) what: &'static str,
    pub(crate) width: f64,
    pub(crate) least: f64,
}

impl Kit<'_> {
    /// Refuses what the beam would leave too thin to hold together, or too small to be held.
    pub(crate) fn check(&self) -> Result<(), Thin> {
        let least = least_piece(self.input);
        let mut sizes = Vec::new();
        if let Some(ring) = &self.input.ring {
            sizes.push(("a voussoir (fewer are wider)", ring.narrowest / self.scale, least));
            let tenons = self.springers.iter().map(Springer::tenon);
            let narrowest = tenons.fold(f64::INFINITY, f64::min);
            sizes.push(("a springer's tenon", narrowest, self.fit.bridge));
        }
        let thin = |(what, width, least)| (width < least).then_some(Thin { what, width, least });
        sizes.into_iter().find_map(thin).map_or(Ok(()), Err)
    }
}

/// The narrowest that a whole piece may be, mm: what holds between two cuts, and what two tabs find room on.
pub(crate) fn least_piece(input: &Input) -> f64 {
    let held = input.beam.tabs.map_or(0.0, |tab| TABS * (tab + input.beam.kerf));
    held.max(input.beam.least_bridge)
}

/// The refusal of a scale, with the nearest whole one that does.
pub(crate) fn refused(input: &Input, thin: Thin) -> Error {
    let larger = std::iter::successors(Some((input.scale - 1e-9).floor()), |scale| Some(scale - 1.0));
    let works = larger
        .take_while(|scale| *scale >= 1.0)
        .find(|scale| Kit::new(input, *scale).is_ok());
    Error::Thin {
        what: thin.what,
        width: thin.width,
        least: thin.least,
        scale: input.scale,
        works,
    }
}
