//! Stock, and parts placed on it.

use crate::Part;
use cintre_geometry::{Outline, Point, Rect};

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
    /// Cut off or kept clear along its edges.
    pub trim: Trim,
    /// Its edge where that is not a rectangle: an offcut's, counter-clockwise, inside its size. The widest trim goes all along it.
    pub outline: Option<Outline>,
    /// Places that parts keep clear of: clamps, screws, knots.
    pub keep_outs: Vec<Outline>,
    /// Whether its two faces are alike, so that a part may be cut with either up.
    pub alike: bool,
}

impl Stock {
    /// The box round what lies inside its trim, in its own frame, mm; turned inside out where the trim leaves nothing.
    pub fn usable(&self) -> Rect {
        let whole = Rect::new(0.0, 0.0, self.size.0, self.size.1);
        match &self.outline {
            Some(edge) => edge.bounds().inset(-self.trim.widest()),
            None => self.trim.inside(whole),
        }
    }

    /// The leftmost corner of its near edge: of a sheet its origin, of an offcut the leftmost of its lowest corners, where there is
    /// wood.
    pub fn near_left(&self) -> Point {
        let corners = self.outline.iter().flat_map(|edge| edge.vertices());
        let lowest = |a: &Point, b: &Point| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x));
        corners.map(|v| v.point).min_by(lowest).unwrap_or_default()
    }
}

/// What is cut off or kept clear along each edge of a sheet, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trim {
    /// Along its left edge, where x is 0.
    pub left: f64,
    /// Along its right edge.
    pub right: f64,
    /// Along its bottom edge, where y is 0.
    pub bottom: f64,
    /// Along its top edge.
    pub top: f64,
}

impl Trim {
    /// As much along every edge.
    pub const fn even(mm: f64) -> Self {
        Self {
            left: mm,
            right: mm,
            bottom: mm,
            top: mm,
        }
    }

    /// What is left of a box.
    pub const fn inside(self, whole: Rect) -> Rect {
        Rect {
            x0: whole.x0 + self.left,
            y0: whole.y0 + self.bottom,
            x1: whole.x1 - self.right,
            y1: whole.y1 - self.top,
        }
    }

    /// The most that any edge is trimmed by, mm.
    pub const fn widest(self) -> f64 {
        self.left.max(self.right).max(self.bottom).max(self.top)
    }
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
