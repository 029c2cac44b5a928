//! Why a trammel cannot be made.

/// Why a trammel cannot be made of what was given. Lengths in mm.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TrammelError {
    /// Nothing of the arch is struck from a centre.
    #[error("nothing of this arch is struck from a centre: give `radii`, or make a `template` of its curve")]
    NoArc,
    /// A radius is beyond the arm and beyond a bar.
    #[error(
        "{of} has a radius of {radius:.1} mm, beyond an arm of {arm} mm and beyond a bar of {bar} mm: set it out by ordinates, which the \
         figures give at any step, or make a `template` of it"
    )]
    Beyond {
        /// What has it.
        of: String,
        /// The radius.
        radius: f64,
        /// The longest arm.
        arm: f64,
        /// The longest bar.
        bar: f64,
    },
    /// A pivot would stand in the router's own opening.
    #[error(
        "{of} has a radius of {radius:.1} mm, and its pivot would lie {distance:.1} mm from the bit's centre, in the way of the router: \
         {least:.1} mm is the least"
    )]
    Short {
        /// What has it.
        of: String,
        /// The radius.
        radius: f64,
        /// From the pivot to the bit's centre.
        distance: f64,
        /// The least such distance.
        least: f64,
    },
    /// The pin's hole has no room among the others.
    #[error("{count} pivots with a pin of {pin} mm run into one another: a thinner pin, or fewer radii")]
    Crowded {
        /// How many pivots.
        count: usize,
        /// The pin.
        pin: f64,
    },
    /// The base's holes run into the bit's opening.
    #[error(
        "a hole of the base lies {given:.1} mm from the bit's centre, and the opening for a bit of {bit} mm reaches {least:.1} mm: \
         `mount: opening` needs none"
    )]
    Hole {
        /// How far off it lies.
        given: f64,
        /// The bit.
        bit: f64,
        /// How far off it should.
        least: f64,
    },
}

impl TrammelError {
    /// The field of the job file that it speaks of.
    pub const fn field(&self) -> &'static str {
        match self {
            Self::NoArc | Self::Beyond { .. } | Self::Short { .. } => "arch",
            Self::Crowded { .. } => "pin",
            Self::Hole { .. } => "mount",
        }
    }
}
