//! What a trammel is made from.

use cintre_geometry::{Path, Point};

/// What a trammel is made from. Lengths in mm, in the arch's frame.
#[derive(Clone, Debug)]
pub struct Input {
    /// The arch's name.
    pub arch: String,
    /// Everything that is struck with it.
    pub arcs: Vec<Struck>,
    /// The lines of its own arch, which a plate of centres must keep off; none where no plate is asked for.
    pub lines: Vec<Path>,
    /// The bit's diameter.
    pub bit: f64,
    /// The router.
    pub base: Base,
    /// The diameter of the pivot's pin.
    pub pin: f64,
    /// The longest arm from pivot to bit.
    pub longest_arm: f64,
    /// The thickness of the work; none where it is that of the stock.
    pub work: Option<f64>,
    /// The diameter of the holes for screws.
    pub screw: f64,
    /// The stock's name.
    pub stock: String,
    /// The stock's real thickness.
    pub thickness: f64,
}

/// An arc that is struck.
#[derive(Clone, Debug, PartialEq)]
pub struct Struck {
    /// What it is: `gate soffit`.
    pub of: String,
    /// Its centre, if it belongs to the trammel's own arch.
    pub centre: Option<Point>,
    /// Its radius.
    pub radius: f64,
}

/// The base of a router, the bit's centre at the origin, and how an arm holds it. mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Base {
    /// Its diameter.
    pub diameter: f64,
    /// The centres and the diameter of the holes that it is screwed by; none where it stands in a round opening.
    pub holes: Option<(Vec<Point>, f64)>,
}
