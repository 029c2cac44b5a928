//! The road from a job to its files: the only place that sees it whole.
//!
//! `plan` goes to the end of planning; the files are made from the plan alone. Nothing here touches a disk: what was
//! written is read back by the caller and handed to the proof.

pub use arches::NamedArch;
pub use cut_files::File;
pub use faults::fault_pictures;
pub use figures::Shown;
pub use folder::{Draft, files_listed};
pub use laid_stock::LaidStock;
pub use pictures::{Picture, png};
pub use plan::{Conduct, Plan, PlannedSheet, plan};
pub use trouble::Trouble;

mod arches;
mod batch;
mod blame;
mod cut_files;
mod cutting_list;
mod design;
mod duration;
mod faults;
mod figures;
mod folder;
mod forms;
mod job_sheet;
mod kit_picture;
mod kits;
mod laid_stock;
mod left_over;
mod many_centred;
mod notes;
mod own_lines;
mod paper;
mod pictures;
mod plan;
mod ring;
mod setting_out_sheet;
mod shop;
mod traced;
mod trouble;

#[cfg(test)]
mod tests;
