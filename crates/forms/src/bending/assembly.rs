//! How strips lie on their form, for a picture.

use cintre_geometry::{Path, Point};
use cintre_work::Part;

/// A form with its strips on it. Lengths in mm, in the arch's frame, its crown or its middle where it is on the arch.
#[derive(Clone, Debug, PartialEq)]
pub struct Bending {
    /// The pieces of the lowest layer, where they stand.
    pub pieces: Vec<Part>,
    /// The edges of the pieces of the layer over it, where that has other ones.
    pub over: Vec<Path>,
    /// The faces of the strips on the form, from the innermost to the outermost.
    pub strips: Vec<Path>,
    /// The caul's back; none without one.
    pub caul: Option<Path>,
    /// The line of the finished piece that the arch gives.
    pub finished: Path,
    /// The same line as it would come out of a form made to the finished shape.
    pub open: Path,
    /// The lines along which the clamps press.
    pub clamps: Vec<(Point, Point)>,
}
