//! The shapes that the benches take, each with sizes that it can have.

use cintre_geometry::arch::{
    Arch, ArchError, Camber, Catenary, Elliptical, Equilateral, FiveCentred, FiveCentredBy, FourCentred,
    FourCentredBy, Horseshoe, Ogee, Oval, Parabolic, Pointed, Rampant, Round, Segmental, Semicircular,
    Skewback, Stilted, ThreeCentred, ThreeCentredBy, Trefoil,
};

/// A shape of arch.
#[derive(Clone, Copy)]
pub(crate) enum Shape {
    Camber,
    Catenary,
    Elliptical,
    Equilateral,
    FiveCentred,
    FourCentred,
    Horseshoe,
    Ogee,
    Oval,
    Parabolic,
    Pointed,
    Rampant,
    Round,
    Segmental,
    Semicircular,
    Stilted,
    ThreeCentred,
    Trefoil,
}

/// Every shape, by name.
pub(crate) const SHAPES: [Shape; 18] = [
    Shape::Camber,
    Shape::Catenary,
    Shape::Elliptical,
    Shape::Equilateral,
    Shape::FiveCentred,
    Shape::FourCentred,
    Shape::Horseshoe,
    Shape::Ogee,
    Shape::Oval,
    Shape::Parabolic,
    Shape::Pointed,
    Shape::Rampant,
    Shape::Round,
    Shape::Segmental,
    Shape::Semicircular,
    Shape::Stilted,
    Shape::ThreeCentred,
    Shape::Trefoil,
];

impl Shape {
    /// One of this shape, its rise at `share` (0 to 1) of those that are usual.
    #[expect(clippy::too_many_lines, reason = "a list: one arm for each shape")]
    pub(crate) fn arch(self, span: f64, share: f64) -> Result<Arch, ArchError> {
        let rise = |least: f64, most: f64| span * (least + share * (most - least));
        match self {
            Self::Camber => {
                let (camber, skewback) = (None, Skewback::Sixty);
                let depth = rise(0.1, 0.3);
                Camber {
                    span,
                    camber,
                    depth,
                    skewback,
                }
                .arch()
            }
            Self::Catenary => Catenary {
                span,
                rise: rise(0.25, 0.8),
            }
            .arch(),
            Self::Elliptical => Elliptical {
                span,
                rise: rise(0.2, 0.45),
            }
            .arch(),
            Self::Equilateral => Equilateral { span }.arch(),
            Self::FiveCentred => {
                let by = FiveCentredBy::MeanRadius;
                FiveCentred {
                    span,
                    rise: rise(0.25, 0.45),
                    by,
                }
                .arch()
            }
            Self::FourCentred => {
                let by = FourCentredBy::TwoThirds;
                FourCentred {
                    span,
                    rise: rise(0.35, 0.45),
                    by,
                }
                .arch()
            }
            Self::Horseshoe => Horseshoe {
                span,
                rise: rise(0.55, 0.8),
            }
            .arch(),
            Self::Ogee => {
                let lower_radius = 0.3 * span;
                Ogee {
                    span,
                    rise: rise(0.6, 1.0),
                    lower_radius,
                }
                .arch()
            }
            Self::Oval => Oval {
                width: span,
                height: rise(0.5, 0.9),
            }
            .arch(),
            Self::Parabolic => Parabolic {
                span,
                rise: rise(0.25, 0.8),
            }
            .arch(),
            Self::Pointed => {
                let (span, rise) = (Some(span), Some(rise(0.55, 1.0)));
                Pointed {
                    span,
                    rise,
                    radius: None,
                }
                .arch()
            }
            Self::Rampant => {
                let springing_difference = rise(0.1, 0.4);
                Rampant {
                    span,
                    springing_difference,
                    rise: None,
                }
                .arch()
            }
            Self::Round => Round { diameter: span }.arch(),
            Self::Segmental => {
                let (span, rise) = (Some(span), Some(rise(0.08, 0.45)));
                Segmental {
                    span,
                    rise,
                    radius: None,
                }
                .arch()
            }
            Self::Semicircular => Semicircular { span }.arch(),
            Self::Stilted => Stilted {
                span,
                stilt: rise(0.1, 0.5),
                arc_rise: None,
            }
            .arch(),
            Self::ThreeCentred => {
                let by = ThreeCentredBy::LeastRatio;
                ThreeCentred {
                    span,
                    rise: rise(0.2, 0.45),
                    by,
                }
                .arch()
            }
            Self::Trefoil => {
                let lobe_height = rise(0.1, 0.4);
                let (rise, lobe_radius) = (lobe_height + 0.75 * span, 0.3 * span);
                Trefoil {
                    span,
                    rise,
                    lobe_radius,
                    lobe_height,
                }
                .arch()
            }
        }
    }

    /// Whether it can have a ring: a camber arch has a level back, and none closes over an ogee's cusp.
    pub(crate) const fn has_ring(self) -> bool {
        !matches!(self, Self::Camber | Self::Ogee)
    }

    /// Whether its ring can be divided: not where it is closed, or has corners beside the crown.
    pub(crate) const fn is_divided(self) -> bool {
        self.has_ring() && !matches!(self, Self::Round | Self::Oval | Self::Trefoil)
    }

    /// Whether its crown is a point, with a joint over it.
    pub(crate) const fn is_pointed(self) -> bool {
        matches!(self, Self::Equilateral | Self::FourCentred | Self::Pointed)
    }
}
