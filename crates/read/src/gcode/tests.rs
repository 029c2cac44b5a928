//! Reference programs and troubles.
