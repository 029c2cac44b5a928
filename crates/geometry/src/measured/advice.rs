//! What measured points speak for: which shape was once struck, and whether a true arc or a template serves.

use super::spline::curve_through;
use crate::Point;
use crate::Soffit;
use crate::arch::{Elliptical, Pointed, Segmental};
use std::sync::Arc;

/// Joinery is made to a true arc where no point stands farther off it than this, mm: the custom of the trade.
pub const JOINERY_OFF: f64 = 3.0;

/// And masonry, whose joints take up more, mm.
pub const MASONRY_OFF: f64 = 6.0;

/// Shapes whose quarter heights come as near as the nearest one but for this are spoken for too, mm: the quarter height and the rise are each read to 3.
pub const QUARTER_READING: f64 = 6.0;

/// Old arches weave by as much as half an inch: a shape whose quarter height is farther off than this is not the one, mm.
pub const WEAVE: f64 = 12.7;

/// What is advised of a measured arch.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What the heights at the quarters of the span speak for; none where no curve runs through the points.
    pub quarter: Option<Quarter>,
    /// How the work is best made.
    pub making: Making,
}

/// What the heights at the quarters of the span speak for.
#[derive(Clone, Debug, PartialEq)]
pub struct Quarter {
    /// The mean height of the soffit at both quarters of the span, mm.
    pub height: f64,
    /// That height as a share of the rise.
    pub share_of_rise: f64,
    /// The shapes it speaks for, the nearest first; none if no common shape comes near.
    pub shapes: Vec<&'static str>,
}

/// How the work is best made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Making {
    /// No point stands off the line by more than [`JOINERY_OFF`].
    TrueLine,
    /// None by more than [`MASONRY_OFF`].
    TrueLineInMasonry,
    /// It is neither a true arc nor a true ellipse: the work is scribed to a template of the points themselves.
    Template,
}

impl Making {
    /// The advice for points that stand `worst` mm off their line.
    pub fn of(worst: f64) -> Self {
        if worst <= JOINERY_OFF {
            Self::TrueLine
        } else if worst <= MASONRY_OFF {
            Self::TrueLineInMasonry
        } else {
            Self::Template
        }
    }

    /// It in words.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::TrueLine => "a true line serves, for joinery and masonry alike",
            Self::TrueLineInMasonry => "a true line serves masonry; joinery is scribed to a template",
            Self::Template => "no true line: cut from a template of the points and scribe",
        }
    }
}

/// What the quarter heights of the curve through the points speak for.
///
/// Of span and rise alone, half an ellipse (and a basket of three centres) stands at 0.866 of the rise over the quarter, a parabola
/// at 0.750, and one arc at 0.752 to 0.866 by its own formula. A catenary lies between parabola and arc.
pub(super) fn quarter(points: &[Point]) -> Option<Quarter> {
    let cut = curve_through(points).and_then(|curve| curve.cut()).ok()?;
    let (span, rise) = (cut.span, cut.rise);
    let soffit = Soffit::Curve(Arc::new(cut.curve));
    let height = f64::midpoint(soffit.height_at(-span / 4.0)?, soffit.height_at(span / 4.0)?);
    let arches = [
        Segmental {
            span: Some(span),
            rise: Some(rise),
            radius: None,
        }
        .arch(),
        Elliptical { span, rise }.arch(),
        Pointed {
            span: Some(span),
            rise: Some(rise),
            radius: None,
        }
        .arch(),
    ];
    // A shape that cannot have this rise does not stand to choose.
    let mut shapes: Vec<(&'static str, f64)> = arches
        .into_iter()
        .flatten()
        .map(|arch| (arch.shape, (arch.figures().quarter_height - height).abs()))
        .chain([("parabolic", (0.75 * rise - height).abs())])
        .filter(|&(_, off)| off <= WEAVE)
        .collect();
    shapes.sort_by(|a, b| a.1.total_cmp(&b.1));
    let nearest = shapes.first().map_or(0.0, |shape| shape.1);
    shapes.retain(|&(_, off)| off - nearest <= QUARTER_READING);
    Some(Quarter {
        height,
        share_of_rise: height / rise,
        shapes: shapes.into_iter().map(|(shape, _)| shape).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arch::{Arch, ArchError};
    use crate::measured::tests::close;

    /// Eleven points of an arch, as they would be taken at even steps across.
    fn taken(arch: Result<Arch, ArchError>) -> Vec<Point> {
        let arch = arch.unwrap();
        let at = |x: f64| Point::new(x, arch.soffit.height_at(x).unwrap());
        (0..=20)
            .map(|i| at(arch.span * (f64::from(i) / 20.0 - 0.5)))
            .collect()
    }

    #[test]
    fn the_quarter_height_tells_a_segment_from_half_an_ellipse() {
        let (span, rise) = (1220.0, 305.0);
        let segment = Segmental {
            span: Some(span),
            rise: Some(rise),
            radius: None,
        };
        let found = quarter(&taken(segment.arch())).unwrap();
        close(found.height, 241.34, 0.05);
        assert_eq!(found.shapes, ["segmental"]);
        let found = quarter(&taken(Elliptical { span, rise }.arch())).unwrap();
        close(found.height, 264.14, 0.5);
        assert_eq!(found.shapes, ["elliptical"]);
    }

    #[test]
    fn a_flat_arch_cannot_be_told_from_a_parabola() {
        let flat = Segmental {
            span: Some(1450.0),
            rise: Some(95.0),
            radius: None,
        };
        let found = quarter(&taken(flat.arch())).unwrap();
        assert_eq!(found.shapes, ["segmental", "parabolic"]);
    }

    #[test]
    fn what_weaves_is_scribed() {
        assert_eq!(Making::of(2.9), Making::TrueLine);
        assert_eq!(Making::of(5.3), Making::TrueLineInMasonry);
        assert_eq!(Making::of(9.9), Making::Template);
    }
}
