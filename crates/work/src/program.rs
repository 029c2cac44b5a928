//! What a bit does on a sheet.

use cintre_geometry::Point;

/// One bit's run on one sheet, in the sheet's frame, Z 0 on the stock's face.
#[derive(Clone, Debug, PartialEq)]
pub struct Program {
    /// The sheet's id.
    pub sheet: String,
    /// The bit's name.
    pub bit: String,
    /// Its diameter, mm.
    pub diameter: f64,
    /// Its number in the machine, if it has one.
    pub number: Option<u32>,
    /// Spindle speed, turns a minute.
    pub speed: f64,
    /// The moves, beginning with the bit at the safe height over an unknown place and ending at the safe height.
    pub moves: Vec<Move>,
}

/// One move of the bit, from where the one before ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Move {
    /// Where it ends in x and y.
    pub end: Point,
    /// Where it ends in height, mm; Z falls or rises evenly along the move.
    pub z: f64,
    /// How it gets there.
    pub to: To,
}

/// How a move gets to its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum To {
    /// As fast as the machine can, not cutting.
    Rapid,
    /// Straight, at `feed` mm/min.
    Straight {
        /// Feed, mm/min.
        feed: f64,
    },
    /// Along an arc of at most half a turn, at `feed` mm/min.
    Arc {
        /// tan(sweep / 4), counter-clockwise positive.
        bulge: f64,
        /// Feed, mm/min.
        feed: f64,
    },
}

/// A tab planned on a sheet: wood left at the foot of a cut to hold the part.
#[derive(Clone, Debug, PartialEq)]
pub struct Tab {
    /// The placed part's name.
    pub part: String,
    /// Its middle, on the part's edge, in the sheet's frame.
    pub at: Point,
    /// The least width of wood left, mm.
    pub width: f64,
    /// Its height above the underside, mm.
    pub height: f64,
}

/// A corner of a part relieved, so that a square edge seats in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Relieved {
    /// The placed part's name.
    pub part: String,
    /// Where the bit's centre leaves the road along the edge, in the sheet's frame.
    pub from: Point,
    /// How far into the corner it goes.
    pub to: Point,
    /// The bit's diameter, mm.
    pub diameter: f64,
}
