//! What a user reads of a job.

mod figures;
mod leaves;
