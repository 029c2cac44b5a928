//! The figures by which an arch is set out by hand.

use super::Arch;
use crate::{Piece, Point, Soffit};

/// Centres and radii that differ by less than this are one, mm.
const SAME: f64 = 1e-9;

/// Directions that differ by more than this make a corner, radians.
const CORNER: f64 = 1e-7;

/// A corner as near as this to the centre line stands on it, mm.
const AT_CROWN: f64 = 1e-6;

/// Setting-out figures of an arch. Lengths in mm, areas in mm², angles in radians.
#[derive(Clone, Debug)]
pub struct Figures {
    /// The centres from which its arcs are struck, from the left; none for a curve.
    pub centres: Vec<Centre>,
    /// The length along the soffit.
    pub developed_length: f64,
    /// The area between the soffit and the level line through the left springing; all of the inside of a closed one.
    pub area: f64,
    /// Points of the soffit at every tenth of the span, the springings left out.
    pub ordinates: Vec<Point>,
    /// The height of the soffit at a quarter of the span.
    pub quarter_height: f64,
    /// The straight distance from the left springing to the crown.
    pub crown_chord: f64,
    /// The angle of the soffit with the plumb line at the left springing, 0 where it leaves the jamb plumb.
    pub springing_lean: f64,
    /// How the soffit falls on the right of a pointed crown, from the horizontal; none where the crown is no point.
    pub apex_slope: Option<f64>,
}

/// A centre from which an arc is struck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Centre {
    /// Where it is.
    pub at: Point,
    /// The radius.
    pub radius: f64,
    /// The arc's ends.
    pub arc: Piece,
}

impl Arch {
    /// Its setting-out figures.
    pub fn figures(&self) -> Figures {
        let ordinate = |x: f64| self.soffit.height_at(x).map(|y| Point::new(x, y));
        let tenth = |i: i32| self.span * (f64::from(i) / 10.0 - 0.5);
        let tangent = match &self.soffit {
            Soffit::Path(path) => path
                .pieces()
                .next()
                .map_or(crate::Vec2::ZERO, |p| p.tangent_at(0.0)),
            Soffit::Curve(curve) => curve.tangent(curve.domain().0),
        };
        Figures {
            centres: self.centres(),
            developed_length: self.soffit.length(),
            area: self.soffit.area(),
            ordinates: (1..10).filter_map(|i| ordinate(tenth(i))).collect(),
            quarter_height: self.soffit.height_at(-self.span / 4.0).unwrap_or(0.0),
            crown_chord: (self.span / 2.0 + self.crown).hypot(self.rise),
            springing_lean: tangent.x.atan2(tangent.y),
            apex_slope: self.apex_slope(),
        }
    }

    fn apex_slope(&self) -> Option<f64> {
        let Soffit::Path(path) = &self.soffit else {
            return None;
        };
        let pieces: Vec<Piece> = path.pieces().collect();
        let apex = pieces.windows(2).find(|pair| {
            let (before, after) = (pair[0].tangent_at(1.0), pair[1].tangent_at(0.0));
            let corner = before.cross(after).abs() > CORNER || before.dot(after) < 0.0;
            corner && (pair[0].end.x - self.crown).abs() < AT_CROWN
        })?;
        let falls = apex[1].tangent_at(0.0);
        Some((-falls.y).atan2(falls.x))
    }

    fn centres(&self) -> Vec<Centre> {
        let Soffit::Path(path) = &self.soffit else {
            return Vec::new();
        };
        if self.drawn_as_curve {
            return Vec::new();
        }
        let mut centres: Vec<_> = path
            .pieces()
            .filter_map(|arc| {
                arc.circle().map(|c| Centre {
                    at: c.centre,
                    radius: c.radius,
                    arc,
                })
            })
            .collect();
        // A whole circle is two arcs, and struck from one centre once.
        centres.dedup_by(|next: &mut Centre, one| {
            next.at.distance(one.at) < SAME && (next.radius - one.radius).abs() < SAME
        });
        centres
    }
}
