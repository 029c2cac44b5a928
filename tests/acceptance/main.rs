//! The acceptance tests: jobs and faults as a user meets them, through the built command. One program for all of them, since
//! each of its own costs a build and a link.

mod bad_cuts;
mod bad_input;
mod bending;
mod cautions;
mod centres;
mod commands;
mod floors;
mod folders_in_the_way;
mod heads;
mod job_sheet;
mod layouts;
mod models;
mod on_paper;
mod proving;
mod reference_values;
mod setting_out;
mod spoilt_files;
mod stopped_runs;
mod templates;
mod tricky_jobs;
mod whole_jobs;

/// A file that no line above names would never run.
#[test]
fn every_file_of_tests_is_run() {
    let text = include_str!("main.rs");
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/acceptance");
    for name in cintre_tests::tree(std::path::Path::new(folder)).into_keys() {
        let file = name
            .strip_suffix(".rs")
            .filter(|file| !file.contains('/') && *file != "main");
        if let Some(file) = file {
            assert!(
                text.contains(&format!("\nmod {file};")),
                "{name} is not named here"
            );
        }
    }
}
