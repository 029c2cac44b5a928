//! The `cintre` command.
fn main() {}
