//! The pivots of a trammel: two for each radius, one for either side of the cut.

use super::{Input, TrammelError};
use cintre_geometry::setting_out::{LONGEST_TRAMMEL, trammel_is_practical};

/// Radii nearer than this are one, mm: no hole is bored more truly.
const SAME: f64 = 0.005;

/// A place of the pivot. mm.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Station {
    /// Its number on the arm.
    pub number: usize,
    /// What is struck from it: `gate soffit`.
    pub of: String,
    /// The radius of the edge that is cut.
    pub radius: f64,
    /// Which side of the cut is the work.
    pub kept: Kept,
    /// From the pivot to the bit's centre.
    pub distance: f64,
}

/// Which side of the cut is the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kept {
    /// That towards the pivot: the bit runs outside the edge.
    Inside,
    /// That away from it.
    Outside,
}

impl Kept {
    /// A word for it, to be lettered.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Inside => "keep in",
            Self::Outside => "keep out",
        }
    }
}

impl Station {
    /// What is written of it.
    pub(super) fn text(&self) -> String {
        format!("{}: R {:.1} {}", self.number, self.radius, self.kept.name())
    }

    /// A sentence of it, with the check by the cutting edges.
    pub(super) fn note(&self, bit: f64) -> String {
        let side = match self.kept {
            Kept::Inside => "the wood towards the pivot kept",
            Kept::Outside => "the wood away from the pivot kept",
        };
        format!(
            "hole {}: {}, R {:.3} mm, {side}: {:.3} mm from pivot to bit's centre, cutting edges {:.3} and {:.3} mm from it",
            self.number,
            self.of,
            self.radius,
            self.distance,
            self.distance - bit / 2.0,
            self.distance + bit / 2.0
        )
    }
}

/// Every station, the nearest pivot first; refused where one is beyond any bar.
pub(super) fn stations(input: &Input) -> Result<Vec<Station>, TrammelError> {
    let mut radii: Vec<(f64, Vec<&str>)> = Vec::new();
    for arc in &input.arcs {
        if !trammel_is_practical(arc.radius + input.bit / 2.0) {
            return Err(TrammelError::Beyond {
                of: arc.of.clone(),
                radius: arc.radius,
                arm: input.longest_arm,
                bar: LONGEST_TRAMMEL,
            });
        }
        match radii
            .iter_mut()
            .find(|(radius, _)| (radius - arc.radius).abs() < SAME)
        {
            Some((_, of)) => {
                if !of.contains(&arc.of.as_str()) {
                    of.push(&arc.of);
                }
            }
            None => radii.push((arc.radius, vec![&arc.of])),
        }
    }
    if radii.is_empty() {
        return Err(TrammelError::NoArc);
    }
    let mut all: Vec<Station> = radii
        .iter()
        .flat_map(|(radius, of)| {
            [(Kept::Inside, 0.5), (Kept::Outside, -0.5)].map(|(kept, side)| Station {
                number: 0,
                of: of.join(", "),
                radius: *radius,
                kept,
                distance: radius + side * input.bit,
            })
        })
        .collect();
    all.sort_by(|a, b| a.distance.total_cmp(&b.distance));
    for (i, station) in all.iter_mut().enumerate() {
        station.number = i + 1;
    }
    Ok(all)
}
