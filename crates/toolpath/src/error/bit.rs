//! Why a bit cannot be used.

use super::listed;
use crate::plan::APPROACH;

/// Why a bit cannot be used, or the router has none that can.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BitError {
    /// The router has no bit that cuts profiles.
    #[error("{router} has no straight bit to cut outlines with")]
    NoStraightBit {
        /// The router's name.
        router: String,
    },
    /// The shop gave no feeds for the material.
    #[error("{bit} has no feeds for {material}; it has them for {}", listed(known))]
    NoFeeds {
        /// The bit's name.
        bit: String,
        /// The material wanted.
        material: String,
        /// The materials that it has feeds for.
        known: Vec<String>,
    },
    /// A speed, feed or depth that cuts nothing.
    #[error(
        "{bit} for {material} feeds {feed} mm/min along and {plunge} down, {depth} mm deep a pass: each must be over zero"
    )]
    NoMotion {
        /// The bit's name.
        bit: String,
        /// The material.
        material: String,
        /// The feed along the cut, mm/min.
        feed: f64,
        /// The feed straight down, mm/min.
        plunge: f64,
        /// The deepest pass, mm.
        depth: f64,
    },
    /// The spindle cannot turn as the feeds ask.
    #[error(
        "{bit} asks for {speed} turns a minute, and {router} turns from {slowest} to {fastest}: give it a speed between them that its maker allows, or take another bit"
    )]
    Speed {
        /// The bit's name.
        bit: String,
        /// The router's name.
        router: String,
        /// The speed asked for.
        speed: f64,
        /// The spindle's slowest.
        slowest: f64,
        /// The spindle's fastest.
        fastest: f64,
    },
    /// The cut is deeper than the bit is long.
    #[error(
        "{bit} cuts {length:.2} mm deep, by its cutting length or by what stands out of its holder, and {part} needs {needed:.2} mm: a bit that cuts as deep as that would do"
    )]
    TooShort {
        /// The bit's name.
        bit: String,
        /// The part.
        part: String,
        /// How deep it cuts, mm: its cutting length, or what stands out of its holder.
        length: f64,
        /// The depth of the cut, mm.
        needed: f64,
    },
    /// A bit so long that its tip does not come up to the safe height.
    #[error(
        "{bit} stands {out:.2} mm out of its collet, which {router} raises {travel:.2} mm above the bed: over stock {thickness:.2} mm thick its tip does not come up to the safe height of {safe_height:.2} mm; {}",
        shorter(travel - thickness - safe_height, travel - thickness - out)
    )]
    TooLong {
        /// The bit's name.
        bit: String,
        /// How far it stands out, mm.
        out: f64,
        /// The router's name.
        router: String,
        /// How high it raises the collet above the bed, mm.
        travel: f64,
        /// The stock's thickness, mm.
        thickness: f64,
        /// The safe height above the stock's face, mm.
        safe_height: f64,
    },
}

/// What would do instead of a bit that is too long: the longest that is not, or the safe height that it comes up to.
fn shorter(longest: f64, height: f64) -> String {
    let bit = (longest > 0.0).then(|| format!("a bit that stands {longest:.2} mm out would do"));
    let lower = (height > APPROACH)
        .then(|| format!("a safe height of {height:.2} mm would, if that clears the clamps"));
    let ways: Vec<String> = bit.into_iter().chain(lower).collect();
    if ways.is_empty() {
        "no bit would do".to_owned()
    } else {
        ways.join(", or ")
    }
}
