//! Measured openings: points taken on site, and the circle, ellipse or smooth curve laid through them.
//!
//! Points stand in whatever frame they were taken in, millimetres, x to the right and y up, in order over the arch from the
//! left springing to the right one. The springing line of the arch is the level through the lower of the first and last point:
//! the line through the points is cut there, so that the arch covers the whole opening, and its origin is the middle of that cut.

pub use advice::{Advice, JOINERY_OFF, Likely, MASONRY_OFF, Making, QUARTER_READING, Quarter, WEAVE};
pub use circle::{ByThree, CircleFit, Clearing, best_circle, by_springings_and_crown, radius_change};
pub use ellipse::{EllipseFit, LevelAxis, best_ellipse};
pub use error::{FitError, LONGEST_RADIUS, SAME_POINT};
pub use least_squares::Residuals;
pub use part_ellipse::PartEllipse;
pub use spline::{SmoothCurve, curve_through};

mod advice;
mod circle;
mod ellipse;
mod error;
mod least_squares;
mod part_ellipse;
mod roots;
mod spline;

use crate::arch::{Arch, arc_over};
use crate::{HalfEllipse, Point, Soffit};
use error::clockwise;
use std::sync::Arc;

/// What is laid through measured points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum As {
    /// The best circle.
    Circle,
    /// The best ellipse with level axes: half of one on the springing if no point stands more than [`JOINERY_OFF`] off it, else the
    /// part of one that the points give.
    Ellipse,
    /// A smooth curve through every point.
    Curve,
}

/// Points taken on site, and what is laid through them.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// The points, from the left springing over the arch to the right one.
    pub points: Vec<Point>,
    /// What is laid through them.
    pub laid: As,
}

/// A measured arch, and how well its line keeps to the points.
#[derive(Clone, Debug)]
pub struct Survey {
    /// The arch, about its own origin.
    pub arch: Arch,
    /// Where that origin stands in the frame of the points.
    pub origin: Point,
    /// The line itself, in the frame of the points.
    pub line: Line,
    /// The points, as they were taken.
    pub points: Vec<Point>,
    /// How far each of them stands off the line.
    pub residuals: Residuals,
    /// The circle through both springings and the crown alone, which is often taken in its place.
    pub by_three: Option<ByThree>,
    /// What is advised.
    pub advice: Advice,
}

/// The line laid through measured points.
#[derive(Clone, Debug, PartialEq)]
pub enum Line {
    /// The best circle.
    Circle(CircleFit),
    /// The best ellipse.
    Ellipse(EllipseFit),
    /// A smooth curve through every point.
    Curve,
}

impl Measured {
    /// The arch that the points give.
    pub fn arch(&self) -> Result<Arch, FitError> {
        self.survey().map(|survey| survey.arch)
    }

    /// The arch that the points give, with how well it keeps to them.
    pub fn survey(&self) -> Result<Survey, FitError> {
        match self.laid {
            As::Circle => self.circle(),
            As::Ellipse => self.ellipse(),
            As::Curve => self.curve(),
        }
    }

    /// The height of the lower of the first and last point.
    fn springing(&self) -> f64 {
        let ends = [self.points.first(), self.points.last()];
        ends.into_iter()
            .flatten()
            .map(|p| p.y)
            .fold(f64::INFINITY, f64::min)
    }

    fn circle(&self) -> Result<Survey, FitError> {
        let fit = best_circle(&self.points)?;
        let circle = fit.circle;
        clockwise(&self.points, circle.centre)?;
        let height = circle.centre.y - self.springing();
        let across = circle.radius * circle.radius - height * height;
        if across <= 0.0 {
            return Err(self.no_springing());
        }
        let (half, rise) = (across.sqrt(), circle.radius + height);
        let soffit = Soffit::Path(arc_over(half, 0.0, rise));
        Ok(self.surveyed(
            arch(2.0 * half, rise, soffit),
            circle.centre.x,
            fit.residuals.clone(),
            Making::of(fit.residuals.worst),
            Line::Circle(fit),
        ))
    }

    fn ellipse(&self) -> Result<Survey, FitError> {
        let springing = self.springing();
        let on_springing = best_ellipse(&self.points, LevelAxis::At(springing));
        let fit = match on_springing {
            Ok(fit) if fit.residuals.worst <= JOINERY_OFF => fit,
            Err(error @ (FitError::TooFew { .. } | FitError::NotFinite { .. })) => return Err(error),
            _ => best_ellipse(&self.points, LevelAxis::Free)?,
        };
        clockwise(&self.points, fit.centre)?;
        let half = HalfEllipse {
            half_span: fit.half_width,
            rise: fit.half_height,
        };
        let centre_height = fit.centre.y - springing;
        if centre_height.abs() >= fit.half_height {
            return Err(self.no_springing());
        }
        let curve = PartEllipse { half, centre_height };
        let (span, rise) = (2.0 * curve.half_span(), fit.half_height + centre_height);
        Ok(self.surveyed(
            arch(span, rise, Soffit::Curve(Arc::new(curve))),
            fit.centre.x,
            fit.residuals.clone(),
            Making::of(fit.residuals.worst),
            Line::Ellipse(fit),
        ))
    }

    fn curve(&self) -> Result<Survey, FitError> {
        let cut = curve_through(&self.points)?.cut()?;
        // The curve keeps to every point; whether they are an arc, only the best circle can say.
        let making =
            best_circle(&self.points).map_or(Making::Template, |fit| Making::of(fit.residuals.worst));
        Ok(self.surveyed(
            arch(cut.span, cut.rise, Soffit::Curve(Arc::new(cut.curve))),
            cut.origin.x,
            Residuals::new(vec![0.0; self.points.len()]),
            making,
            Line::Curve,
        ))
    }

    fn surveyed(&self, arch: Arch, x: f64, residuals: Residuals, making: Making, line: Line) -> Survey {
        let quarter = advice::quarter(&self.points);
        Survey {
            arch,
            origin: Point::new(x, self.springing()),
            line,
            points: self.points.clone(),
            residuals,
            by_three: by_springings_and_crown(&self.points),
            advice: Advice { quarter, making },
        }
    }

    fn no_springing(&self) -> FitError {
        let ends = [self.points.first(), self.points.last()];
        let highest = ends
            .into_iter()
            .flatten()
            .map(|p| p.y)
            .fold(f64::NEG_INFINITY, f64::max);
        FitError::NoSpringing {
            below: highest - self.springing(),
        }
    }
}

const fn arch(span: f64, rise: f64, soffit: Soffit) -> Arch {
    Arch::new("measured", span, rise, soffit)
}

#[cfg(test)]
mod tests;
