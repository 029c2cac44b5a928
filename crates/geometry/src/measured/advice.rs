//! What measured points speak for: which shape was once struck, and whether a true arc or a template serves.

use super::spline::curve_through;
use crate::arch::of_span_and_rise;
use crate::{Point, Soffit};
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
    /// The shapes it speaks for, the nearest first, those with a point after the others; none if no common shape comes near.
    pub shapes: Vec<&'static str>,
    /// Every shape that could have this span and this rise, the nearest first.
    pub compared: Vec<Likely>,
}

/// A shape that an opening could be by its span and rise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Likely {
    /// Its name.
    pub shape: &'static str,
    /// Its own height at a quarter of the span, mm.
    pub height: f64,
    /// Whether its crown is a point.
    pub pointed: bool,
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

/// What the quarter heights of the curve through the points speak for, among all shapes that its span and rise could be.
///
/// Half an ellipse stands at 0.866 of the rise over the quarter and a basket of three or five centres near it, a parabola at 0.750,
/// one arc at 0.752 to 0.866, a catenary between parabola and arc.
pub(super) fn quarter(points: &[Point]) -> Option<Quarter> {
    let cut = curve_through(points).and_then(|curve| curve.cut()).ok()?;
    let (span, rise) = (cut.span, cut.rise);
    let soffit = Soffit::Curve(Arc::new(cut.curve));
    let height = f64::midpoint(soffit.height_at(-span / 4.0)?, soffit.height_at(span / 4.0)?);
    let compared = of_span_and_rise(span, rise);
    let mut compared: Vec<Likely> = compared
        .iter()
        .filter_map(|arch| {
            Some(Likely {
                shape: arch.shape,
                height: arch.soffit.height_at(span / 4.0)?,
                pointed: arch.figures().apex_slope.is_some(),
            })
        })
        .collect();
    let off = |likely: &Likely| (likely.height - height).abs();
    compared.sort_by(|a, b| off(a).total_cmp(&off(b)));
    // Whether its crown is a point is seen without measuring: shapes of the one kind do not put those of the other out.
    let nearest = |pointed: bool| {
        let kind = compared.iter().find(|likely| likely.pointed == pointed);
        kind.map_or(0.0, off)
    };
    let near =
        |likely: &&Likely| off(likely) <= WEAVE && off(likely) - nearest(likely.pointed) <= QUARTER_READING;
    let mut spoken_for: Vec<&Likely> = compared.iter().filter(near).collect();
    spoken_for.sort_by_key(|likely| likely.pointed);
    let shapes = spoken_for.iter().map(|likely| likely.shape).collect();
    Some(Quarter {
        height,
        share_of_rise: height / rise,
        shapes,
        compared,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arch::{Arch, ArchError, Elliptical, Segmental};
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
        assert_eq!(found.shapes[0], "segmental");
        assert!(
            !found.shapes.contains(&"elliptical") && !found.shapes.contains(&"three-centred"),
            "{found:?}"
        );
        let found = quarter(&taken(Elliptical { span, rise }.arch())).unwrap();
        close(found.height, 264.14, 0.5);
        assert!(
            found.shapes.contains(&"elliptical") && !found.shapes.contains(&"segmental"),
            "{found:?}"
        );
        assert!(
            found
                .compared
                .iter()
                .any(|own| own.shape == "segmental" && (own.height - 241.34).abs() < 0.05)
        );
    }

    #[test]
    fn a_flat_arch_cannot_be_told_from_a_parabola() {
        let flat = Segmental {
            span: Some(1450.0),
            rise: Some(95.0),
            radius: None,
        };
        let found = quarter(&taken(flat.arch())).unwrap();
        assert_eq!(
            found.shapes,
            ["segmental", "catenary", "parabolic", "four-centred"]
        );
    }

    #[test]
    fn what_weaves_is_scribed() {
        assert_eq!(Making::of(2.9), Making::TrueLine);
        assert_eq!(Making::of(5.3), Making::TrueLineInMasonry);
        assert_eq!(Making::of(9.9), Making::Template);
    }
}
