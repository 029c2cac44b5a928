//! How many ribs stand under a wall, and how far apart.

use super::figures::as_length;
use super::{Build, Input};
use crate::Error;

/// A third rib is set under a wall deeper than this, mm (12 in).
pub const DEEP_WALL: f64 = 305.0;

/// Ribs chosen by the wall stand no farther apart than this from centre to centre, mm.
pub const RIB_CENTRES: f64 = 600.0;

/// The least clear room between two ribs, mm: a spacer that takes a screw from either side.
const SPACER: f64 = 25.0;

/// What rounding may take off a number of ribs that just have room.
const ROUNDING: f64 = 1e-9;

/// Ribs under a wall: the outer ones a little inside its faces, the others evenly between. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spacing {
    /// How many.
    pub(crate) ribs: usize,
    /// How thick each is.
    pub(crate) thickness: f64,
    /// From centre to centre.
    pub(crate) centres: f64,
    /// The clear room between two, which is the length of a spacer.
    pub(crate) clear: f64,
    /// What a turning piece leaves of the wall.
    pub(crate) left_over: f64,
}

impl Spacing {
    pub(crate) fn new(input: &Input, build: Build, layers: u32) -> Result<Self, Error> {
        let inside = input.wall - 2.0 * input.clear.faces;
        let thickness = input.thickness * f64::from(layers);
        if build == Build::TurningPiece {
            return Self::packed(input, inside);
        }
        let most = most(inside, thickness);
        // Where ribs are so thick that fewer have room than a deep wall would have, as many as have.
        let ribs = input
            .ribs
            .unwrap_or_else(|| by_wall(input.wall, inside, thickness).min(most));
        if input.ribs.is_some() && most >= 2 && !(2..=most).contains(&ribs) {
            return Err(Error::Ribs {
                given: ribs,
                wall: input.wall,
                most,
            });
        }
        if most < 2 {
            return Err(Error::Wall {
                given: input.wall,
                thickness,
                limit: 2.0 * (thickness + input.clear.faces) + SPACER,
            });
        }
        let bays = as_length(ribs - 1);
        let centres = (inside - thickness) / bays;
        Ok(Self {
            ribs,
            thickness,
            centres,
            clear: centres - thickness,
            left_over: 0.0,
        })
    }

    /// As many layers as fill the wall, side by side.
    fn packed(input: &Input, inside: f64) -> Result<Self, Error> {
        let thickness = input.thickness;
        let layers = (inside / thickness + ROUNDING).floor();
        if layers < 1.0 {
            return Err(Error::Wall {
                given: input.wall,
                thickness,
                limit: thickness + 2.0 * input.clear.faces,
            });
        }
        Ok(Self {
            ribs: whole(layers),
            thickness,
            centres: thickness,
            clear: 0.0,
            left_over: inside - layers * thickness,
        })
    }

    /// Where each rib stands across the wall, from its near face.
    pub(crate) fn places(&self, input: &Input) -> Vec<(f64, f64)> {
        let first = input.clear.faces + self.left_over / 2.0;
        (0..self.ribs)
            .map(|i| first + as_length(i) * self.centres)
            .map(|from| (from, from + self.thickness))
            .collect()
    }

    /// What to say of it.
    pub(crate) fn notes(&self, input: &Input) -> Vec<String> {
        let mut notes = vec![format!(
            "the outer ribs stand {:.1} mm inside the faces of the wall, so that a line and a level clear them",
            input.clear.faces + self.left_over / 2.0
        )];
        if self.centres > RIB_CENTRES {
            notes.push("the ribs asked for stand farther apart than ribs are set as a rule".to_owned());
        }
        notes
    }
}

fn by_wall(wall: f64, inside: f64, thickness: f64) -> usize {
    let least = if wall > DEEP_WALL { 3 } else { 2 };
    let bays = ((inside - thickness) / RIB_CENTRES).ceil();
    least.max(whole(bays).saturating_add(1))
}

/// How many ribs have room, with a spacer between each two.
fn most(wall: f64, thickness: f64) -> usize {
    whole(((wall + SPACER) / (thickness + SPACER) + ROUNDING).floor())
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a whole number, and `as` takes one out of range to the nearest end"
)]
fn whole(number: f64) -> usize {
    number as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ribs_by_the_wall() {
        let ribs = |wall| by_wall(wall, wall, 18.0);
        assert_eq!(
            [ribs(102.0), ribs(305.0), ribs(306.0), ribs(1218.0), ribs(1219.0)],
            [2, 2, 3, 3, 4]
        );
        // 2 x 150 and a spacer: three would be set under so deep a wall, but have no room.
        assert_eq!((by_wall(325.0, 325.0, 150.0), most(325.0, 150.0)), (3, 2));
        assert_eq!(most(61.0, 18.0), 2);
        assert_eq!(most(60.9, 18.0), 1);
    }
}
