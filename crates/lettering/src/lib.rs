//! The stroke face for marks and part names.
