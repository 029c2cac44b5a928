//! SVG for cutting: finished drawings in, bytes out.
