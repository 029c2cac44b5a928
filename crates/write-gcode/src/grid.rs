//! The numbers that a program can print.

use cintre_geometry::{Point, Vec2};
use cintre_work::Unit;
use cintre_write::{MM_PER_INCH, NotFinite, fixed};

/// A length over a printable number by no more than this share of a step is that number.
const SAME_NUMBER: f64 = 1e-6;

/// The lattice of a program's coordinates: its unit and decimals.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Grid {
    /// Units to the millimetre.
    pub(crate) per_mm: f64,
    /// Between two neighbouring numbers, in units.
    pub(crate) step: f64,
    unit: Unit,
    decimals: usize,
}

impl Grid {
    pub(crate) fn new(unit: Unit, decimals: usize) -> Self {
        Self {
            per_mm: match unit {
                Unit::Millimetre => 1.0,
                Unit::Inch => 1.0 / MM_PER_INCH,
            },
            step: if decimals == 3 {
                1e-3
            } else if decimals == 4 {
                1e-4
            } else {
                1e-5
            },
            unit,
            decimals,
        }
    }

    /// The word that states the unit.
    pub(crate) const fn unit_word(&self) -> &'static str {
        match self.unit {
            Unit::Millimetre => "G21",
            Unit::Inch => "G20",
        }
    }

    /// The nearest number that can be printed, in units, of a length in units.
    pub(crate) fn nearest(&self, units: f64) -> f64 {
        // Divided by a whole number, so that the result is the very one that its digits read back to.
        let steps = (1.0 / self.step).round();
        (units * steps).round() / steps
    }

    /// The lowest number that can be printed, in units, at or above a length in units: a height that must not be undercut.
    pub(crate) fn above(&self, units: f64) -> f64 {
        let steps = (1.0 / self.step).round();
        (units * steps - SAME_NUMBER).ceil() / steps
    }

    /// The nearest printable point of one in mm.
    pub(crate) fn point(&self, mm: Point) -> Point {
        Point::new(self.nearest(mm.x * self.per_mm), self.nearest(mm.y * self.per_mm))
    }

    /// The nearest printable offset of one in units.
    pub(crate) fn offset(&self, units: Vec2) -> Vec2 {
        Vec2::new(self.nearest(units.x), self.nearest(units.y))
    }

    pub(crate) fn print(&self, units: f64) -> Result<String, NotFinite> {
        fixed(units, self.decimals)
    }

    /// A feed in mm/min as an F word's number: a tenth of a millimetre or a hundredth of an inch a minute.
    pub(crate) fn feed(&self, mm: f64) -> Result<String, NotFinite> {
        match self.unit {
            Unit::Millimetre => fixed(mm, 1),
            Unit::Inch => fixed(mm * self.per_mm, 2),
        }
    }
}
