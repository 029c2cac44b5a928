//! What a model is made from.

use cintre_geometry::{Outline, Path, Point};

/// What a model is made from. The arch at full size; lengths in mm.
#[derive(Clone, Debug)]
pub struct Input {
    /// The arch's name.
    pub arch: String,
    /// The lower edge of its ring, from the left springing to the right one.
    pub soffit: Path,
    /// What the soffit's arcs are out by from the curve they were fitted to; 0 where it is arcs already.
    pub fit_error: f64,
    /// The ring that is turned on the centre; none for a model of the centre alone.
    pub ring: Option<Ring>,
    /// The thickness of the wall that the arch carries.
    pub wall: f64,
    /// How many times smaller the model is: 20 for 1:20.
    pub scale: f64,
    /// The joint between the model's voussoirs, as they are cut.
    pub joint: f64,
    /// How tightly sheet goes into a slot: how much narrower the slot is cut than the sheet is thick. Negative for play.
    pub interference: f64,
    /// The least wood between two cuts; none for [`BRIDGE`](super::BRIDGE) thicknesses.
    pub bridge: Option<f64>,
    /// What cuts it.
    pub beam: Beam,
    /// Whether pieces to try kerf and fit with are cut.
    pub comb: Comb,
    /// The stock's name.
    pub stock: String,
    /// The stock's real thickness, which no scale changes.
    pub thickness: f64,
}

/// Whether pieces to try kerf and fit with are cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comb {
    /// With the kit.
    With,
    /// And nothing else.
    Only,
    /// None are.
    None,
}

/// The beam that cuts a model, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beam {
    /// The whole width of its cut.
    pub kerf: f64,
    /// The thinnest bridge between two cuts that holds on the machine; 0 where nothing is known of it.
    pub least_bridge: f64,
    /// The width of the tabs that it leaves on small parts; none where it leaves none.
    pub tabs: Option<f64>,
}

/// The ring of an arch, divided for a model. At full size, in the arch's frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// Its back, run as the soffit is.
    pub back: Path,
    /// Its voussoirs, from the left.
    pub units: Vec<Outline>,
    /// The narrowest that one of them is, along the soffit, along the back or between them.
    pub narrowest: f64,
    /// The faces that it springs from, left and right, each from the soffit to the back.
    pub skewbacks: [(Point, Point); 2],
    /// How its voussoirs are built up.
    pub made: Made,
}

/// How the pieces of a ring are built up across the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Made {
    /// As many slices of sheet as come nearest to the wall's depth.
    Stacked,
    /// One piece each, for the face alone.
    Flat,
}
