//! How a centre goes together, for a picture.

use super::Member;
use cintre_geometry::{Outline, Path, Point};
use cintre_work::Part;

/// A centre as it stands under its arch. Lengths in mm, in the arch's frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Assembly {
    /// The whole of it, or its two halves, the upper first.
    pub halves: Vec<Half>,
    /// The wall's depth.
    pub wall: f64,
    /// How far inside its faces the boards end.
    pub inside_faces: f64,
}

/// A kit put together. Lengths in mm, in the frame of the model.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// Its parts where they stand, those in front later.
    pub parts: Vec<Part>,
    /// The springings of its arch.
    pub springings: (Point, Point),
    /// The crown of its soffit.
    pub crown: Point,
}

/// A centre, or one half of that of a closed arch.
#[derive(Clone, Debug, PartialEq)]
pub struct Half {
    /// The soffit that it carries.
    pub soffit: Path,
    /// The back of its ribs, which the boards lie on.
    pub back: Path,
    /// One rib's members.
    pub members: Vec<Member>,
    /// The ends of the boards.
    pub boards: Vec<Outline>,
    /// Boards and skin together.
    pub lagging: f64,
    /// From where to where each rib stands across the wall.
    pub ribs: Vec<(f64, f64)>,
    /// The height of the ribs' level bottom.
    pub bottom: f64,
    /// The height of a pair of wedges under it.
    pub wedges: f64,
}
