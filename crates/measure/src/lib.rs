//! Lengths and angles as the trade writes and reads them.
