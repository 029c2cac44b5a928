//! Round and oval: whole circles and ellipses, closed. They run from the left end over the top and back underneath.

use super::{Arch, ArchError};
use crate::{Ellipse, Path, Point, Soffit, Vertex};
use std::sync::Arc;

/// What fixes a round opening, mm.
#[derive(Clone, Copy, Debug)]
pub struct Round {
    /// Its diameter.
    pub diameter: f64,
}

impl Round {
    /// Works out the circle; its span is the diameter, its rise the radius.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let radius = self.diameter / 2.0;
        let vertex = |x| Vertex {
            point: Point::new(x, 0.0),
            bulge: -1.0,
        };
        let circle = Path::new(vec![vertex(-radius), vertex(radius), vertex(-radius)]);
        Ok(Arch {
            closed: true,
            ..Arch::new("round", self.diameter, radius, Soffit::Path(circle))
        })
    }
}

/// What fixes an oval opening, a true ellipse, mm.
#[derive(Clone, Copy, Debug)]
pub struct Oval {
    /// Its whole width.
    pub width: f64,
    /// Its whole height.
    pub height: f64,
}

impl Oval {
    /// Works out the ellipse; its span is the width, its rise half the height.
    pub fn arch(self) -> Result<Arch, ArchError> {
        let ellipse = Ellipse {
            half_width: self.width / 2.0,
            half_height: self.height / 2.0,
        };
        Ok(Arch {
            closed: true,
            ..Arch::new(
                "oval",
                self.width,
                ellipse.half_height,
                Soffit::Curve(Arc::new(ellipse)),
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn they_close_and_have_all_of_their_inside() {
        let round = Round { diameter: 600.0 }.arch().unwrap();
        let oval = Oval {
            width: 600.0,
            height: 400.0,
        }
        .arch()
        .unwrap();
        for (arch, area) in [(round, PI * 300.0 * 300.0), (oval, PI * 300.0 * 200.0)] {
            assert!(arch.closed);
            assert_eq!(arch.soffit.start(), arch.soffit.end());
            assert!((arch.figures().area - area).abs() < 1e-6);
            let fit = arch.soffit.fit(0.02);
            assert!(fit.path.start().distance(fit.path.end()) < 1e-12);
            assert!((arch.soffit.height_at(0.0).unwrap() - arch.rise).abs() < 1e-9);
            assert_eq!(arch.soffit.height_at(300.1), None);
        }
    }

    #[test]
    fn a_round_oval_is_as_long_as_the_circle() {
        let round = Round { diameter: 500.0 }.arch().unwrap();
        let oval = Oval {
            width: 500.0,
            height: 500.0,
        };
        assert!((round.soffit.length() - oval.arch().unwrap().soffit.length()).abs() < 1e-9);
    }
}
