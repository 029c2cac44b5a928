//! The boards on the ribs: how many, how far apart, how proud a flat one stands, and the sum of how one bends.

use super::figures::as_length;
use super::rib::Rib;
use super::{Input, Lagging, Load};
use crate::line::{at_plumb, left_of, length_to};
use cintre_geometry::{Outline, Path, Piece};

/// What stands on the boards besides the ring, for the sum of how one bends: people and mortar, kN/m².
const PEOPLE: f64 = 1.5;

/// Lines nearer to plumb than this carry no boards, as the sine of the angle: a stilt's legs stand beside walling.
const PLUMB: f64 = 1e-9;

/// The boards of one centre. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Boards {
    /// From where to where they lie along the ribs' back.
    pub(crate) stretch: (f64, f64),
    /// How many.
    pub(crate) count: usize,
    /// How wide each.
    pub(crate) width: f64,
    /// The gap between two; 0 for close boards, of which the last is ripped to what is left.
    pub(crate) gap: f64,
    /// How long each.
    pub(crate) length: f64,
}

impl Boards {
    /// The boards; none where the ribs bear nothing, or a skin alone.
    pub(crate) fn new(rib: &Rib, input: &Input) -> Option<Self> {
        let lagging = input.lagging;
        if lagging.thickness <= 0.0 {
            return None;
        }
        let stretch = stretch(&rib.back, &input.soffit, input.clear.jambs);
        Some(Self::along(
            stretch,
            lagging,
            input.wall - 2.0 * input.clear.faces,
        ))
    }

    /// As many as cover a stretch of back with no gap wider than the widest.
    pub(crate) fn along(stretch: (f64, f64), lagging: Lagging, length: f64) -> Self {
        let along = stretch.1 - stretch.0;
        let (width, asked) = (lagging.width, lagging.gap);
        let count = ((along + asked) / (width + asked) - 1e-9).ceil().max(1.0);
        let gap = if asked > 0.0 && count > 1.0 {
            ((along - count * width) / (count - 1.0)).max(0.0)
        } else {
            0.0
        };
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a whole number of boards"
        )]
        let count = count as usize;
        Self {
            stretch,
            count,
            width,
            gap,
            length,
        }
    }

    /// From the middle of one to the middle of the next.
    pub(crate) fn pitch(&self) -> f64 {
        self.width + self.gap
    }

    /// Each board's end, as it stands on a rib, for a picture.
    pub(crate) fn ends(&self, back: &Path, thickness: f64) -> Vec<Outline> {
        let last = self.stretch.1;
        (0..self.count)
            .map(|i| {
                let from = self.stretch.0 + as_length(i) * self.pitch();
                let to = (from + self.width).min(last);
                let middle = f64::midpoint(from, to);
                let near = back.part(middle - 0.5, middle + 0.5);
                let piece = Piece::line(near.start(), near.end());
                let (at, out) = (piece.point_at(0.5), left_of(&piece, 0.5));
                let along = piece.tangent_at(0.5) * (to - from) / 2.0;
                Outline::polygon(&[
                    at - along,
                    at + along,
                    at + along + out * thickness,
                    at - along + out * thickness,
                ])
            })
            .collect()
    }

    /// The sum of how a board bends between two ribs, every step shown; geometry and arithmetic, and no verdict.
    pub(crate) fn bending(&self, input: &Input, between: f64) -> Option<Vec<String>> {
        let ring = input.ring.as_ref()?;
        let Load {
            density, stiffness, ..
        } = input.load;
        let (d, s) = (ring.depth / 1000.0, between);
        let (b, t) = (self.width, input.lagging.thickness);
        let p = density * d + PEOPLE;
        // 1 kN/m² is a thousandth of a N/mm².
        let w = p * self.pitch() / 1000.0;
        let m = w * s * s / 8.0;
        let (z, i) = (b * t * t / 6.0, b * t.powi(3) / 12.0);
        let sag = 5.0 * w * s.powi(4) / (384.0 * stiffness * i);
        Some(vec![
            format!(
                "lagging, arithmetic only: p = density × ring depth + people and mortar = {density} × {d:.3} + {PEOPLE} = {p:.2} kN/m²"
            ),
            format!(
                "a board carries a strip {:.1} mm wide: w = {p:.2} × {:.1} / 1000 = {w:.4} N/mm",
                self.pitch(),
                self.pitch()
            ),
            format!(
                "between ribs s = {s:.1} mm, centre to centre: M = w s² / 8 = {w:.4} × {s:.1}² / 8 = {m:.0} N mm"
            ),
            format!(
                "board {b} × {t} mm laid flat: Z = b t² / 6 = {z:.0} mm³, bending stress M / Z = {:.2} N/mm²",
                m / z
            ),
            format!(
                "I = b t³ / 12 = {i:.0} mm⁴, with E = {stiffness} N/mm² (taken for the sum; the maker's figure may differ): sag = 5 w s⁴ / (384 E I) = {sag:.2} mm"
            ),
        ])
    }
}

/// Where boards lie along the back: not beside plumb legs, and not nearer to a jamb than the centre is to stay.
pub(crate) fn stretch(back: &Path, soffit: &Path, jambs: f64) -> (f64, f64) {
    let plumb = |piece: &Piece| piece.is_line() && piece.tangent_at(0.5).x.abs() < PLUMB;
    let legs = |pieces: Vec<Piece>| -> f64 {
        pieces
            .iter()
            .take_while(|piece| plumb(piece))
            .map(Piece::length)
            .sum()
    };
    let mut from = legs(back.pieces().collect());
    let mut to = back.length() - legs(back.pieces().rev().collect());
    let station = |point| length_to(back, &back.nearest(point).into());
    let leans_in = |piece: Option<Piece>, at: f64| piece.is_some_and(|p| p.tangent_at(at).x > -PLUMB);
    if leans_in(soffit.pieces().next(), 0.0)
        && let Some(near) = at_plumb(soffit, soffit.start().x + jambs).first()
    {
        from = from.max(station(near.point));
    }
    if leans_in(soffit.pieces().last(), 1.0)
        && let Some(near) = at_plumb(soffit, soffit.end().x - jambs).last()
    {
        to = to.min(station(near.point));
    }
    (from, to.max(from + 1.0))
}
