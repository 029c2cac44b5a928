//! The road from a job to its files: the only place that sees it whole.
//!
//! `plan` goes to the end of planning; the files are made from the plan alone. Nothing here touches a disk: what was
//! written is read back by the caller and handed to the proof.

pub use arches::NamedArch;
pub use figures::Shown;
pub use pictures::Picture;
pub use plan::{Conduct, Plan, PlannedSheet, plan};
pub use trouble::Trouble;

mod arches;
mod design;
mod figures;
mod forms;
mod pictures;
mod plan;
mod shop;
mod trouble;
