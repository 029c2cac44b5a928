//! What a form comes out as.

use crate::bending::Bending;
use crate::centering::{Assembly, Standing};
use cintre_work::{Caution, Part};

/// A jig or form, ready to be laid out on stock.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// What it is, as the job file names it: `centering`.
    pub kind: &'static str,
    /// The arch that it is made for.
    pub arch: String,
    /// What is cut for it from its stock.
    pub parts: Vec<Part>,
    /// What it needs besides, got out by hand.
    pub list: Vec<Item>,
    /// Its figures, in the order to read them.
    pub figures: Vec<Figure>,
    /// The cautions that belong to it.
    pub cautions: Vec<Caution>,
    /// What whoever makes it should know besides, in plain sentences without a final stop.
    pub notes: Vec<String>,
    /// What the bit leaves of the work that it is for, to be taken off by hand: each as a piece, for a picture.
    pub left: Vec<Part>,
    /// How it goes together, for a picture; none where its parts show it.
    pub assembly: Option<Assembled>,
}

impl Form {
    /// How a centering goes together; none of any other form.
    pub fn centre(&self) -> Option<&Assembly> {
        match &self.assembly {
            Some(Assembled::Centre(assembly)) => Some(assembly),
            _ => None,
        }
    }
}

/// How a form goes together.
#[derive(Clone, Debug, PartialEq)]
pub enum Assembled {
    /// A centre under its arch.
    Centre(Box<Assembly>),
    /// A kit where it stands.
    Model(Box<Standing>),
    /// Strips on their bending form.
    Bending(Box<Bending>),
}

impl Form {
    /// Whether its parts may be sawn by hand from full-size paper: those of a model are too small, and must fit too closely.
    pub fn is_sawn_by_hand(&self) -> bool {
        self.kind != "model"
    }
}

/// Something that a form needs besides its parts: one line of a cutting list. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is: `batten`.
    pub name: String,
    /// How many.
    pub count: usize,
    /// How long each.
    pub length: f64,
    /// Width and thickness; none where they are for someone else to say.
    pub section: Option<(f64, f64)>,
}

impl Item {
    pub(crate) fn of(name: &str, count: usize, length: f64, section: Option<(f64, f64)>) -> Self {
        Self {
            name: name.to_owned(),
            count,
            length,
            section,
        }
    }
}

/// One figure of a form, with full precision.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it is, in the trade's words: `rib radii`.
    pub name: &'static str,
    /// Its value, or its values in order: radii from left to right, or x and y of a point.
    pub values: Vec<f64>,
    /// What the values are.
    pub unit: Unit,
}

/// What a figure's values are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Lengths or coordinates, mm.
    Millimetre,
    /// Points, the x and the y of one after another, mm.
    Point,
    /// Radii to strike by, mm.
    Radius,
    /// A length finer than a rule reads, mm.
    Fine,
    /// A number of things.
    Count,
    /// A weight, kN.
    Kilonewton,
    /// An angle, degrees.
    Degree,
    /// A number without a unit, to four places.
    Number,
    /// A share, per cent.
    PerCent,
}

impl Figure {
    /// One length.
    pub(crate) fn length(name: &'static str, value: f64) -> Self {
        Self::lengths(name, vec![value])
    }

    /// A length finer than a rule reads.
    pub(crate) fn fine(name: &'static str, value: f64) -> Self {
        Self {
            name,
            values: vec![value],
            unit: Unit::Fine,
        }
    }

    /// Several lengths, or a point.
    pub(crate) const fn lengths(name: &'static str, values: Vec<f64>) -> Self {
        Self {
            name,
            values,
            unit: Unit::Millimetre,
        }
    }

    /// Points, the x and the y of one after another.
    pub(crate) const fn points(name: &'static str, values: Vec<f64>) -> Self {
        Self {
            name,
            values,
            unit: Unit::Point,
        }
    }

    /// Radii, from left to right.
    pub(crate) const fn radii(name: &'static str, values: Vec<f64>) -> Self {
        Self {
            name,
            values,
            unit: Unit::Radius,
        }
    }

    /// Angles, in degrees.
    pub(crate) const fn degrees(name: &'static str, values: Vec<f64>) -> Self {
        Self {
            name,
            values,
            unit: Unit::Degree,
        }
    }

    /// Numbers without a unit.
    pub(crate) const fn numbers(name: &'static str, values: Vec<f64>) -> Self {
        Self {
            name,
            values,
            unit: Unit::Number,
        }
    }

    /// A share, 1 for the whole.
    pub(crate) fn share(name: &'static str, share: f64) -> Self {
        Self {
            name,
            values: vec![share * 100.0],
            unit: Unit::PerCent,
        }
    }

    /// A weight.
    pub(crate) fn weight(name: &'static str, kilonewtons: f64) -> Self {
        Self {
            name,
            values: vec![kilonewtons],
            unit: Unit::Kilonewton,
        }
    }

    /// A number of things.
    pub(crate) fn count(name: &'static str, count: usize) -> Self {
        // Far below 2^52, where every whole number is exact.
        #[expect(clippy::cast_precision_loss, reason = "counts of ribs and bolts are small")]
        let value = count as f64;
        Self {
            name,
            values: vec![value],
            unit: Unit::Count,
        }
    }
}
