//! What the stages hand on to one another: data only.
