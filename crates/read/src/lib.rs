//! Strict readers of DXF, SVG and RS-274 programs.
