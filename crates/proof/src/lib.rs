//! Holds what was read from a cut file against the design of its sheet.
//!
//! Shares nothing with the stages that plan and write the files: it reads the bytes with readers of its own, sweeps the
//! bit along every move with exact distances between lines and arcs, and says the worst gouge and the worst leftover.
//! It speaks of shape only, never of whether a program is safe to run. Millimetres; each sheet's own frame; Z 0 on the
//! stock's face.

pub use beam::{BeamRecord, prove_beam};
pub use drawing::{DrawingRecord, prove_drawing};
pub use folder::{
    DESIGN, FileVerdict, FolderError, FolderFinding, FolderVerdict, MANIFEST, prove_folder, sha256,
};
pub use paper::prove_paper;
pub use record::ProgramRecord;
pub use report::NOTHING;
pub use sheet::prove_sheet;

mod beam;
mod conduct;
mod cuts;
mod distance;
mod drawing;
mod folder;
mod freed;
mod gouge;
mod hollows;
mod leftover;
mod level;
mod limits;
mod lines;
mod marks;
mod paper;
mod reach;
mod record;
mod reliefs;
mod report;
mod sheet;
mod strokes;
mod tabs;
mod wood;

#[cfg(test)]
mod tests;

/// How far a cut may bite into a part, mm: the rounding of the files and of arcs sent out as chords, and no more.
pub const GOUGE: f64 = 0.005;
/// How far an edge may stay from what was cut, mm: a scraping's thickness, well under what a hand can feel.
pub const LEFTOVER: f64 = 0.02;
/// How far a drawing's line may stand off the design's, mm.
pub const DRAWN: f64 = 0.005;
/// How far a line on paper may stand off the design's, and pages that join off one another, mm: far less than any printer.
pub const PRINTED: f64 = 0.01;
/// How far a depth may be off, mm.
pub const DEPTH: f64 = 0.02;
