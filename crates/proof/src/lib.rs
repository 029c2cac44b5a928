//! Sweeps what was read from a file and holds it against the design.
