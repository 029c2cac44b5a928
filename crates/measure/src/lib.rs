//! Lengths and angles as the trade writes and reads them.
//!
//! Read: `1371.6 mm`, `54 1/2"`, `4'-6 1/2"`, `15 deg`, `1:8`. Written: rounded to a rule's marks with what is left over
//! said, or plainly in a unit. Lengths come out in millimetres, angles in radians.

pub use angle::{AngleError, AngleFault, parse_angle, write_angle};
pub use length::{LengthError, LengthFault, parse_length};
pub use range::{LONGEST, RangeError, SHORTEST, not_negative, positive};
pub use rule::{Feet, Reading, Rule, RuleError};
pub use unit::{INCH, Unit, write_length};

mod angle;
mod length;
mod range;
mod rule;
mod scan;
mod unit;
