//! Whole files: what is read, what is refused, what is written again.

mod faults;
mod files;
mod machines;
mod paper;
mod tables;

/// A job with its shop in it, in inches or millimetres, for tests to spoil.
pub(crate) const JOB: &str = include_str!("job.yaml");

/// [`JOB`] with one text replaced by another, which must be there.
pub(crate) fn spoilt(from: &str, to: &str) -> String {
    assert!(JOB.contains(from), "{from} is not in the job");
    JOB.replacen(from, to, 1)
}
