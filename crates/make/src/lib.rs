//! The road from a job to its files.
