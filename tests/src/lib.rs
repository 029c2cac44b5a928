//! Acceptance tests over whole jobs live in `tests/tests`.
