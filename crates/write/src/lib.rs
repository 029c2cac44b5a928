//! The one number formatter, units, and text made safe for each format.
