//! The units that files are written in.

/// A unit of length that a cut file's numbers may be in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetres.
    Millimetre,
    /// Inches of 25.4 mm.
    Inch,
}

impl LengthUnit {
    /// How many millimetres it is long.
    pub const fn millimetres(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Inch => 25.4,
        }
    }

    /// Its name in a manifest: `mm` or `in`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Inch => "in",
        }
    }

    /// The unit of that name.
    pub fn named(name: &str) -> Option<Self> {
        [Self::Millimetre, Self::Inch]
            .into_iter()
            .find(|u| u.name() == name)
    }
}
