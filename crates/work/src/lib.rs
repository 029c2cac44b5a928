//! What the stages hand on to one another: data only.
//!
//! Millimetres everywhere. A part stands in its own frame until the layout places it; a sheet's origin is its lower left
//! corner, x to the right, y up; Z 0 is the top of the stock.

pub use beam::{Beam, BeamPower, BeamTabs, Dialect, Laser, LaserFile, Lift, Pen, PenFile};
pub use caution::{Caution, cautions};
pub use drawing::{Drawing, Figure, Layer, Shape};
pub use machine::{
    BitChange, Cut, DrawingFormat, DrawingMachine, FileLayout, Machine, Relief, Router, TabRule, Unit, Zero,
    ZeroHeight,
};
pub use page::{Document, Ink, Page, PageStroke};
pub use part::{Bore, Depth, Grain, Mark, MarkKind, Part, Recess};
pub use program::{Move, Program, Relieved, Tab, To};
pub use sheet::{Placed, Sheet, Stock, StockGrain, Trim};
pub use strokes::Stroke;
pub use tool::{Bit, BitKind, Feeds, Holder};
pub use verdict::{Finding, Verdict};

mod beam;
mod caution;
pub mod design;
mod drawing;
mod finish;
mod machine;
pub mod manifest;
mod page;
mod part;
mod program;
mod sheet;
mod strokes;
mod tool;
mod verdict;
