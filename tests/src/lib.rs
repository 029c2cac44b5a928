//! What the acceptance tests share: the built command, a folder to work in, jobs to spoil.
#![expect(clippy::disallowed_methods, reason = "the tests look at files as a user does")]

mod bench;
mod figures;
mod jobs;
mod measure;
mod spoil;
mod tool;

pub use bench::{Bench, Tree, tree};
pub use figures::near;
pub use jobs::{NICHE, SHOP, example, line_of, spoilt};
pub use measure::{Measure, lines_change};
pub use spoil::{
    Spoilt, around_last_cut, harmless_programs, spoilt_beams, spoilt_dxf, spoilt_paper, spoilt_plots,
    spoilt_programs, spoilt_svg,
};
pub use tool::{Ran, cintre};
