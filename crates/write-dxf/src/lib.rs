//! DXF: finished drawings in, bytes out.
