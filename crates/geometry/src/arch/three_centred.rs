//! Three-centred: haunch arcs centred on the springing line and a crown arc, smooth throughout.

use super::halves::{both_halves, crown_arc};
use super::{Arch, ArchError, Bound};
use crate::{Path, Piece, Point, Soffit};

const SHAPE: &str = "three-centred";

/// What fixes a three-centred arch, mm.
#[derive(Clone, Copy, Debug)]
pub struct ThreeCentred {
    /// The width at the springing.
    pub span: f64,
    /// The height of the crown above it, less than half the span.
    pub rise: f64,
    /// What fixes it besides.
    pub by: ThreeCentredBy,
}

/// What fixes a three-centred arch besides span and rise, which leave one number open.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum ThreeCentredBy {
    /// The radii as alike as they can be: the rest of the diagonal from springing to crown is bisected.
    #[default]
    LeastRatio,
    /// Every arc turns 60°.
    Sixty,
    /// The radius of the haunch arcs, less than the rise, mm.
    HaunchRadius(f64),
}

impl ThreeCentred {
    /// Works out the arch. Of half span a, rise r and haunch radius h the crown radius is (a² + r² - 2ah) / 2(r - h).
    pub fn arch(self) -> Result<Arch, ArchError> {
        let Self { span, rise, by } = self;
        let half = span / 2.0;
        if rise >= half {
            let because = "its crown arc is flatter than its haunches only under half the span";
            return Err(out_of_range("rise", Bound::Under(half), because, "elliptical"));
        }
        let (haunch, note) = match by {
            ThreeCentredBy::LeastRatio => (
                least_ratio(half, rise),
                Some(
                    "span and rise leave a three-centred arch open: taken is the least ratio, the crown radius as little \
                     longer than the haunch radius as it can be",
                ),
            ),
            ThreeCentredBy::Sixty => (
                sixty(half, rise)?,
                Some(
                    "span and rise leave a three-centred arch open: taken is that of which every arc turns 60 deg",
                ),
            ),
            ThreeCentredBy::HaunchRadius(haunch) if haunch > 0.0 && haunch < rise => (haunch, None),
            ThreeCentredBy::HaunchRadius(_) => {
                let because = "the haunch arcs are smaller than the rise";
                return Err(out_of_range(
                    "haunch-radius",
                    Bound::Between(0.0, rise),
                    because,
                    SHAPE,
                ));
            }
        };
        let mut arch = Arch::new(SHAPE, span, rise, Soffit::Path(three_arcs(half, rise, haunch)));
        arch.notes.extend(note.map(str::to_owned));
        Ok(arch)
    }
}

/// c (c - a + r) / 2a, c the diagonal from springing to crown; c - a without loss of digits.
fn least_ratio(half: f64, rise: f64) -> f64 {
    let diagonal = half.hypot(rise);
    diagonal * (rise * rise / (diagonal + half) + rise) / (2.0 * half)
}

/// (r - (2 - √3) a) / (√3 - 1), which is more than 0 only over 0.134 of the span.
fn sixty(half: f64, rise: f64) -> Result<f64, ArchError> {
    let root = 3.0f64.sqrt();
    let least = (2.0 - root) * half;
    if rise <= least {
        let because = "with arcs of 60 deg it is over 0.134 of the span";
        let instead = "three-centred of the construction least-ratio";
        return Err(out_of_range("rise", Bound::Over(least), because, instead));
    }
    Ok((rise - least) / (root - 1.0))
}

fn out_of_range(size: &'static str, bound: Bound, because: &'static str, instead: &'static str) -> ArchError {
    ArchError::OutOfRange {
        shape: SHAPE,
        size,
        bound,
        because,
        instead: (instead != SHAPE).then_some(instead),
    }
}

fn three_arcs(half: f64, rise: f64, haunch: f64) -> Path {
    // How much longer the crown radius is than the haunch radius.
    let longer = ((half - haunch).powi(2) + (rise - haunch).powi(2)) / (2.0 * (rise - haunch));
    let springing_centre = Point::new(half - haunch, 0.0);
    let crown_centre = Point::new(0.0, rise - haunch - longer);
    let join = springing_centre + (springing_centre - crown_centre) * (haunch / longer);
    let right = Piece::arc_between(springing_centre, join, Point::new(half, 0.0), false);
    both_halves(Some(crown_arc(crown_centre, join)), &[right])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn radii(arch: &Arch) -> (f64, f64) {
        let centres = arch.figures().centres;
        (centres[0].radius, centres[1].radius)
    }

    fn basket(span: f64, rise: f64, by: ThreeCentredBy) -> Result<Arch, ArchError> {
        ThreeCentred { span, rise, by }.arch()
    }

    #[test]
    fn both_constructions_of_a_basket_handle() {
        let least = basket(1520.0, 430.0, ThreeCentredBy::LeastRatio).unwrap();
        let (haunch, crown) = radii(&least);
        assert!((haunch - 312.07).abs() < 0.01 && (crown - 1221.70).abs() < 0.01);
        assert!((least.soffit.length() - 1917.09).abs() < 0.01);
        let sixty = basket(1520.0, 430.0, ThreeCentredBy::Sixty).unwrap();
        let (haunch, crown) = radii(&sixty);
        assert!((haunch - 309.21).abs() < 0.01 && (crown - 1210.79).abs() < 0.01);
        assert!((sixty.soffit.length() - 1915.55).abs() < 0.01);
        assert!(least.notes[0].contains("least ratio") && sixty.notes[0].contains("60 deg"));
    }

    #[test]
    fn no_other_haunch_radius_gives_a_lesser_ratio() {
        let ratio = |by| {
            let (haunch, crown) = radii(&basket(1500.0, 400.0, by).unwrap());
            crown / haunch
        };
        let least = ratio(ThreeCentredBy::LeastRatio);
        for radius in [100.0, 200.0, 250.0, 300.0, 350.0, 399.0] {
            assert!(ratio(ThreeCentredBy::HaunchRadius(radius)) > least);
        }
    }

    #[test]
    fn what_cannot_be_is_refused_with_its_limit() {
        let ArchError::OutOfRange {
            bound: Bound::Over(least),
            ..
        } = basket(1500.0, 200.0, ThreeCentredBy::Sixty).unwrap_err()
        else {
            panic!("a least rise is named")
        };
        assert!((least - 200.96).abs() < 0.01);
        assert!(basket(1500.0, 201.0, ThreeCentredBy::Sixty).is_ok());
        for radius in [0.0, 430.0, 500.0] {
            let refused = basket(1520.0, 430.0, ThreeCentredBy::HaunchRadius(radius)).unwrap_err();
            assert_eq!(refused.size(), Some("haunch-radius"));
        }
        let tall = basket(1000.0, 500.0, ThreeCentredBy::LeastRatio).unwrap_err();
        assert!(matches!(
            tall,
            ArchError::OutOfRange {
                instead: Some("elliptical"),
                ..
            }
        ));
    }
}
