//! Rampant: two arcs from springings at two heights, both plumb there, smooth at the join; the low side is on the left.

use super::{Arch, ArchError, Bound};
use crate::{Path, Piece, Point, Soffit};

const SHAPE: &str = "rampant";

/// What fixes a rampant arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct Rampant {
    /// The level width between the springings.
    pub span: f64,
    /// How much higher the right springing stands than the left.
    pub springing_difference: f64,
    /// The height of the highest point above the lower springing; half of span and difference together if left out.
    pub rise: Option<f64>,
}

impl Rampant {
    /// Works out the arch.
    ///
    /// Of span s, difference d and rise r, the crown is on the low side's arc up to r = (s + d) / 2, whose radius then is r;
    /// beyond, it is on the high side's, whose radius is r - d. The other radius follows from the smooth join.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let Self {
            span,
            springing_difference: difference,
            rise,
        } = self;
        let even = f64::midpoint(span, difference);
        let rise = rise.unwrap_or(even);
        let least = if difference < span {
            (span * span + difference * difference) / (2.0 * span)
        } else {
            difference
        };
        let most = difference + span / 2.0;
        if rise <= least || rise >= most {
            return Err(ArchError::OutOfRange {
                shape: SHAPE,
                size: "rise",
                bound: Bound::Between(least, most),
                because: "two arcs that leave both springings plumb meet smoothly only between",
                instead: None,
            });
        }
        let square = span * span + difference * difference;
        let (low, high) = if rise <= even {
            (rise, (2.0 * span * rise - square) / (2.0 * (2.0 * rise - span)))
        } else {
            let high = rise - difference;
            ((square - 2.0 * span * high) / (2.0 * (span - 2.0 * high)), high)
        };
        let half = span / 2.0;
        let low_centre = Point::new(low - half, 0.0);
        let high_centre = Point::new(half - high, difference);
        let crown = if rise <= even { low_centre.x } else { high_centre.x };
        let soffit = two_arcs(half, difference, (low_centre, low), (high_centre, high));
        let mut arch = Arch {
            crown,
            ..Arch::new(SHAPE, span, rise, Soffit::Path(soffit))
        };
        if self.rise.is_none() {
            arch.notes.push(
                "its rise was left open: taken is half of span and springing difference together, which sets both centres on \
                 one plumb line"
                    .to_owned(),
            );
        }
        Ok(arch)
    }
}

/// The low arc from the left springing and the high arc to the right one, joined on the line through their centres.
fn two_arcs(half: f64, difference: f64, low: (Point, f64), high: (Point, f64)) -> Path {
    let join = high.0 + (high.0 - low.0).normalize() * high.1;
    Path::from_pieces(&[
        Piece::arc_between(low.0, Point::new(-half, 0.0), join, false),
        Piece::arc_between(high.0, join, Point::new(half, difference), false),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn over_a_stair(rise: Option<f64>) -> Result<Arch, ArchError> {
        Rampant {
            span: 1350.0,
            springing_difference: 270.0,
            rise,
        }
        .arch()
    }

    #[test]
    fn both_centres_stand_on_one_plumb_line_if_the_rise_is_left_out() {
        let arch = over_a_stair(None).unwrap();
        let centres = arch.figures().centres;
        assert!((centres[0].radius - 810.0).abs() < 1e-9 && (centres[1].radius - 540.0).abs() < 1e-9);
        assert!((centres[0].at.x - 135.0).abs() < 1e-9 && (centres[1].at.x - 135.0).abs() < 1e-9);
        assert!((arch.rise - 810.0).abs() < 1e-9 && (arch.crown - 135.0).abs() < 1e-9);
        assert!(arch.notes[0].contains("one plumb line"));
    }

    #[test]
    fn its_crown_is_its_highest_point_on_either_side() {
        for rise in [720.0, 790.0, 830.0, 900.0, 940.0] {
            let arch = over_a_stair(Some(rise)).unwrap();
            let Soffit::Path(path) = &arch.soffit else {
                panic!("arcs")
            };
            assert!((path.bounds().y1 - rise).abs() < 1e-9);
            assert!((arch.soffit.height_at(arch.crown).unwrap() - rise).abs() < 1e-9);
        }
    }

    #[test]
    fn beyond_its_limits_it_is_refused() {
        let Err(ArchError::OutOfRange {
            bound: Bound::Between(least, most),
            ..
        }) = over_a_stair(Some(300.0))
        else {
            panic!("it is too low")
        };
        assert!((least - 702.0).abs() < 1e-9 && (most - 945.0).abs() < 1e-9);
        assert!(over_a_stair(Some(least)).is_err() && over_a_stair(Some(most)).is_err());
        assert!(over_a_stair(Some(least + 0.01)).is_ok() && over_a_stair(Some(most - 0.01)).is_ok());
    }
}
