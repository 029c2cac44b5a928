//! How the router is held at the end of an arm or a plate.

use super::{Input, TrammelError};
use cintre_geometry::{Outline, Point};
use cintre_work::{Bore, Depth};

/// Round the bit an arm is open this much wider on each side, mm: for chips, and to see the cut.
const SIGHT: f64 = 10.0;

/// The base turns free in a round opening this much wider, mm.
const FREE: f64 = 0.2;

/// The wood about a round opening for the base, mm.
const RIM: f64 = 30.0;

/// The wood between a hole of the base and anything else, mm.
const BRIDGE: f64 = 4.0;

/// Where a router is held.
pub(super) struct Held {
    /// The radius of the opening in the middle.
    pub open: f64,
    /// The radius of the wood about it.
    pub pad: f64,
    /// The holes of its base.
    pub bores: Vec<Bore>,
}

impl Held {
    pub(super) fn new(input: &Input) -> Result<Self, TrammelError> {
        let half = input.base.diameter / 2.0;
        let Some((holes, diameter)) = &input.base.holes else {
            return Ok(Self {
                open: half + FREE / 2.0,
                pad: half + RIM,
                bores: Vec::new(),
            });
        };
        let open = input.bit / 2.0 + SIGHT;
        let least = open + BRIDGE + diameter / 2.0;
        let off = |hole: &Point| hole.to_vec2().hypot();
        if let Some(near) = holes.iter().map(off).find(|given| *given < least) {
            return Err(TrammelError::Hole {
                given: near,
                bit: input.bit,
                least,
            });
        }
        let farthest = holes.iter().map(off).fold(0.0, f64::max);
        Ok(Self {
            open,
            pad: half.max(farthest + diameter / 2.0 + 2.0 * BRIDGE),
            bores: holes
                .iter()
                .map(|&centre| Bore {
                    centre,
                    diameter: *diameter,
                    depth: Depth::Through,
                })
                .collect(),
        })
    }

    /// The opening that the bit, or the whole base, goes through.
    pub(super) fn opening(&self) -> Outline {
        Outline::circle(Point::ZERO, self.open).reversed()
    }
}

/// What to do about it.
pub(super) fn note(input: &Input) -> String {
    if input.base.holes.is_some() {
        format!(
            "screw the arm under the router in place of its sole, the screws' heads sunk; its {} mm come off the bit's reach",
            input.thickness
        )
    } else {
        "the router's base turns in the round opening: press it always to the same side, or its play shows in the radius".to_owned()
    }
}
