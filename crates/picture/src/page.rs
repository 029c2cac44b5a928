//! How the drawn world comes onto the page.

use crate::number::measured;
use cintre_geometry::{Affine, Circle, Outline, Path, Piece, Point, Rect};
use cintre_work::Unit;
use std::fmt;

/// The width of every page, mm of paper.
pub(crate) const PAGE: f64 = 400.0;

/// Millimetres in an inch.
const INCH: f64 = 25.4;

/// Kept clear along the edges of the page.
pub(crate) const MARGIN: f64 = 10.0;

/// How lengths are written on a picture.
#[derive(Clone, Copy)]
pub struct Lengths<'a> {
    /// The unit that the scale bar counts in.
    pub unit: Unit,
    /// Writes a length given in mm, its unit included.
    pub write: &'a dyn Fn(f64) -> String,
}

impl fmt::Debug for Lengths<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Lengths")
            .field("unit", &self.unit)
            .finish_non_exhaustive()
    }
}

impl Lengths<'_> {
    pub(crate) fn write(&self, mm: f64) -> String {
        (self.write)(mm)
    }

    /// A length that was measured finer than a rule reads, such as a bit's diameter.
    pub(crate) fn measured(&self, mm: f64) -> String {
        match self.unit {
            Unit::Millimetre => format!("{} mm", measured(mm, 3)),
            Unit::Inch => format!("{} in", measured(mm / INCH, 4)),
        }
    }
}

/// The place of the world on the page.
#[derive(Clone, Copy, Debug)]
pub(crate) struct View {
    /// mm of paper for one of the world.
    pub(crate) scale: f64,
    to_page: Affine,
}

/// The largest scale at which a box goes into a space.
fn largest(world: Rect, space: Rect) -> f64 {
    (space.width() / world.width().max(1e-6)).min(space.height() / world.height().max(1e-6))
}

impl View {
    /// Brings `world` as large as it goes into `space` on the page, in the middle across and against its top.
    pub(crate) fn fit(world: Rect, space: Rect) -> Self {
        Self::at(largest(world, space), world, space)
    }

    /// The same at the largest scale that a rule reads once all is multiplied by `hand`.
    pub(crate) fn to_scale(world: Rect, space: Rect, hand: f64, unit: Unit) -> Self {
        let least = 1.0 / (largest(world, space) * hand);
        let (round, decade): (&[f64], f64) = match unit {
            Unit::Millimetre => (&[1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5], 10.0),
            // Inches, halves, quarters and eighths, then 1, 3/4, 1/2 and 3/8 in to the foot.
            Unit::Inch => (&[1.0, 2.0, 4.0, 8.0, 12.0, 16.0, 24.0, 32.0, 48.0, 64.0], 96.0),
        };
        let mut times = 1.0;
        loop {
            if let Some(one_to) = round.iter().map(|r| r * times).find(|one_to| *one_to >= least) {
                return Self::at(1.0 / (one_to * hand), world, space);
            }
            times *= decade;
        }
    }

    fn at(scale: f64, world: Rect, space: Rect) -> Self {
        let left = space.center().x - world.width() * scale / 2.0;
        let to_page = Affine::translate((left, space.y0))
            * Affine::scale_non_uniform(scale, -scale)
            * Affine::translate((-world.x0, -world.y1));
        Self { scale, to_page }
    }

    pub(crate) fn point(&self, p: Point) -> Point {
        self.to_page * p
    }

    pub(crate) fn path(&self, path: &Path) -> Path {
        path.transformed(self.to_page)
    }

    pub(crate) fn piece(&self, piece: &Piece) -> Piece {
        piece.transformed(self.to_page)
    }

    pub(crate) fn outline(&self, outline: &Outline) -> Outline {
        outline.transformed(self.to_page)
    }

    pub(crate) fn circle(&self, circle: Circle) -> Outline {
        Outline::circle(self.point(circle.centre), circle.radius * self.scale)
    }

    pub(crate) fn rect(&self, r: Rect) -> Rect {
        self.to_page.transform_rect_bbox(r)
    }
}
