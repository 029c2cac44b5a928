//! Stock, and parts placed on it.

use crate::Part;
use cintre_geometry::Outline;

/// A kind of sheet that the shop has.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// The shop's name for it: `ply18`.
    pub name: String,
    /// What it is, as the bits' feeds name it: `plywood`.
    pub material: String,
    /// Length along x and width along y, mm.
    pub size: (f64, f64),
    /// Its real, measured thickness, mm.
    pub thickness: f64,
    /// Which way its grain runs.
    pub grain: StockGrain,
    /// How many there are; none where the shop did not say.
    pub sheets: Option<usize>,
    /// Cut off or kept clear along every edge, mm.
    pub trim: f64,
    /// Its edge where that is not a rectangle: an offcut's, counter-clockwise, inside its size. The trim goes along it.
    pub outline: Option<Outline>,
    /// Places that parts keep clear of: clamps, screws, knots.
    pub keep_outs: Vec<Outline>,
    /// Whether its two faces are alike, so that a part may be cut with either up.
    pub alike: bool,
}

/// Which way the grain of a sheet runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StockGrain {
    /// Along x, the sheet's first size.
    Long,
    /// Along y.
    Short,
    /// It has none: parts may lie any way.
    None,
}

/// One sheet of stock with parts placed on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Its name in the job, `sheet-1`, `sheet-2`, … over all stocks: it names files.
    pub id: String,
    /// What it is cut from.
    pub stock: Stock,
    /// What is on it, in the sheet's frame.
    pub parts: Vec<Placed>,
}

/// One part on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Its own name: the part's, with its number where several are made: `gate rib 2`.
    pub name: String,
    /// The part, moved into the sheet's frame.
    pub part: Part,
}
