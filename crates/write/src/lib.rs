//! The one number formatter, units, and text made safe for each format.
//!
//! Numbers reach a file only through [`fixed`] and [`trimmed`]: no exponent, no minus zero, and a value that is not
//! finite is an error. Text reaches one only through [`ascii`], [`comment`] and [`wrapped`].

pub use number::{MM_PER_INCH, NotFinite, fixed, trimmed};
pub use text::{LINE, ascii, comment, wrapped};

mod number;
mod text;
