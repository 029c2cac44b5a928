//! What a drawing holds, whichever format it came in.

use crate::LengthUnit;
use cintre_geometry::{Outline, Path, Piece, Rect, Vertex};

/// A drawing as read: its lines, and whatever in it could not be taken for a line or an arc.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DrawingRead {
    /// The unit that the file states; none where it states none.
    pub unit: Option<LengthUnit>,
    /// The area that the file shows, mm; none where it states none.
    pub area: Option<Rect>,
    /// Its lines and arcs, in the order of the file, mm.
    pub chains: Vec<Chain>,
    /// What was not taken.
    pub faults: Vec<DrawingFault>,
    /// How far tangent arcs stand off the curves that they replace, mm; 0 where there was none.
    pub fit_error: f64,
}

/// A chain of lines and arcs on one layer. A full circle is a closed chain of two half circles.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// The layer or group, as the file spells it.
    pub layer: String,
    /// Whether its last vertex's piece runs back to the first vertex.
    pub closed: bool,
    /// At least two vertices.
    pub vertices: Vec<Vertex>,
}

/// Something in a drawing that was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawingFault {
    /// The layer or group it stands on, empty where it stands on none.
    pub layer: String,
    /// What it is.
    pub what: String,
}

impl Chain {
    /// Its pieces in order, the closing one last.
    pub fn pieces(&self) -> Vec<Piece> {
        if self.closed {
            Outline::new(self.vertices.clone()).pieces().collect()
        } else {
            Path::new(self.vertices.clone()).pieces().collect()
        }
    }

    /// The chain as an outline, none where it is open.
    pub fn outline(&self) -> Option<Outline> {
        self.closed.then(|| Outline::new(self.vertices.clone()))
    }

    /// The chain as an open path, none where it is closed.
    pub fn path(&self) -> Option<Path> {
        (!self.closed).then(|| Path::new(self.vertices.clone()))
    }
}

impl DrawingRead {
    pub(crate) fn fault(&mut self, layer: &str, what: impl Into<String>) {
        self.faults.push(DrawingFault {
            layer: layer.to_owned(),
            what: what.into(),
        });
    }

    /// Takes a chain in, unless a number in it is no number a drawing can hold.
    pub(crate) fn take(&mut self, layer: &str, closed: bool, vertices: Vec<Vertex>) {
        let sound =
            |v: &Vertex| v.point.x.abs() < FARTHEST && v.point.y.abs() < FARTHEST && v.bulge.is_finite();
        if vertices.len() < 2 {
            self.fault(layer, "a chain of fewer than two points");
        } else if vertices.iter().all(sound) {
            self.chains.push(Chain {
                layer: layer.to_owned(),
                closed,
                vertices,
            });
        } else {
            self.fault(
                layer,
                "a coordinate that is no number or farther than a kilometre",
            );
        }
    }
}

/// No drawing of a building part reaches farther, mm: a kilometre.
pub(crate) const FARTHEST: f64 = 1e6;
