//! What the ring on a centre weighs, for whoever designs its props: information, and no permission.

use super::figures::as_length;
use super::{Input, Ring};
use cintre_geometry::{Outline, Path, Piece, Point, Vec2};

/// The angle above the horizontal below which a voussoir's bed holds it by friction alone, degrees: the middle of what is measured.
const FRICTION: f64 = 32.0;

/// Each piece of the soffit is summed in so many steps.
const STEPS: u32 = 400;

/// mm³ of a kN/m³ in kN.
const PER_MM3: f64 = 1e-9;

/// The weight of a ring, kN.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Weight {
    /// All of it.
    pub(crate) whole: f64,
    /// Laid evenly from both springings to a quarter, a half and three quarters of each side.
    pub(crate) stages: [f64; 3],
    /// One side laid to the crown and the other not begun.
    pub(crate) one_sided: f64,
    /// What presses downwards on the centre by friction on the beds alone, of the whole ring.
    pub(crate) by_friction: f64,
}

impl Weight {
    pub(crate) fn new(input: &Input) -> Option<Self> {
        let ring = input.ring.as_ref()?;
        let per_mm2 = input.wall * input.load.density * PER_MM3;
        let whole = area(&input.soffit, ring) * per_mm2;
        let share = |from: f64, to: f64| {
            swept(&input.soffit, ring.depth, from, to)
                / swept(&input.soffit, ring.depth, 0.0, input.soffit.length())
        };
        let (length, crown) = (input.soffit.length(), crown(&input.soffit));
        let laid = |part: f64| share(0.0, crown * part) + share(length - (length - crown) * part, length);
        Some(Self {
            whole,
            stages: [0.25, 0.5, 0.75].map(|part| whole * laid(part)),
            one_sided: whole * share(0.0, crown).max(share(crown, length)),
            by_friction: whole * pressing(&input.soffit, ring.depth),
        })
    }

    /// What falls to an outer rib and to an inner one, each bay shared by the two ribs beside it.
    pub(crate) fn by_rib(&self, ribs: usize) -> (f64, Option<f64>) {
        let bay = self.whole / as_length(ribs.saturating_sub(1).max(1));
        (bay / 2.0, (ribs > 2).then_some(bay))
    }
}

/// The area of a ring's face, mm².
fn area(soffit: &Path, ring: &Ring) -> f64 {
    let up = Path::from_pieces(&[Piece::line(soffit.end(), ring.back.end())]);
    Outline::closing(&soffit.then(&up).then(&ring.back.reversed()))
        .area()
        .abs()
}

/// The length along the soffit to its highest point.
fn crown(soffit: &Path) -> f64 {
    let top = soffit.bounds().y1;
    let mut passed = 0.0;
    let mut found: Vec<f64> = Vec::new();
    for piece in soffit.pieces() {
        let highest = piece.bounds().y1;
        if top - highest < 1e-6 {
            let near = piece
                .circle()
                .map_or(piece.start, |c| c.centre + Vec2::new(0.0, c.radius));
            let ends = [piece.start, piece.end].into_iter().find(|p| top - p.y < 1e-6);
            let at: Point = ends.unwrap_or(near);
            found.push(passed + piece.length() * piece.nearest(at).fraction);
        }
        passed += piece.length();
    }
    let (first, last) = (found.first(), found.last());
    first
        .zip(last)
        .map_or(passed / 2.0, |(a, b)| f64::midpoint(*a, *b))
}

/// The area of the ring over a stretch of the soffit, square to it: each length s of radius R has s d (1 + d / 2R).
fn swept(soffit: &Path, depth: f64, from: f64, to: f64) -> f64 {
    if to - from < 1e-6 {
        return 0.0;
    }
    soffit
        .part(from, to)
        .pieces()
        .map(|piece| over(&piece, depth))
        .sum()
}

fn over(piece: &Piece, depth: f64) -> f64 {
    // Over the opening a soffit runs clockwise, of negative curvature.
    piece.length() * depth * (1.0 - piece.curvature() * depth / 2.0)
}

/// The share of the ring's weight that presses down on a centre: a bed at the angle A above the horizontal lets
/// sin A - tan 32° cos A of what lies on it press square to the soffit, and sin A of that presses downwards.
fn pressing(soffit: &Path, depth: f64) -> f64 {
    let mu = FRICTION.to_radians().tan();
    let whole: f64 = soffit.pieces().map(|piece| over(&piece, depth)).sum();
    let down: f64 = soffit
        .pieces()
        .map(|piece| {
            let each = over(&piece, depth) / f64::from(STEPS);
            let steps = (0..STEPS).map(|i| {
                let along = piece.tangent_at((f64::from(i) + 0.5) / f64::from(STEPS));
                let (sin, cos) = (along.x.abs(), along.y.abs());
                (sin - mu * cos).max(0.0) * sin
            });
            steps.sum::<f64>() * each
        })
        .sum();
    down / whole
}
