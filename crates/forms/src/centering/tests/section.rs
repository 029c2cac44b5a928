//! Centerings of the trade's own cases.
