//! Drawings of arches, parts and sheets.
