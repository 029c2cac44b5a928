//! The members of one rib, where they stand in the arch's frame.

use cintre_geometry::{Affine, Outline, Path, Piece, Point, Vec2};
use cintre_work::{Bore, Grain, Part};

/// Members nearer to one another than this meet, mm.
const MEETS: f64 = 1e-6;

/// Which layer of a rib a member belongs to, from the near face to the far one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// The near layer, or the only one.
    A,
    /// The layer behind it.
    B,
    /// On the face of the rib that is turned to the other ribs.
    OnInner,
    /// On both faces.
    OnBoth,
}

/// One member of a rib.
#[derive(Clone, Debug, PartialEq)]
pub struct Member {
    /// Its name, without the arch's: `rib A1`, `tie B2`, `king post`.
    pub name: String,
    /// Its layer.
    pub layer: Layer,
    /// Its edge in the arch's frame, counter-clockwise.
    pub outline: Outline,
    /// Openings through it, clockwise.
    pub openings: Vec<Outline>,
    /// Holes through it.
    pub bores: Vec<Bore>,
    /// The direction of its grain, radians.
    pub grain: f64,
}

impl Member {
    /// The member where it stands, as a part to be drawn.
    pub fn standing(&self) -> Part {
        Part {
            name: self.name.clone(),
            outline: self.outline.clone(),
            openings: self.openings.clone(),
            bores: self.bores.clone(),
            recesses: Vec::new(),
            marks: Vec::new(),
            clean: Vec::new(),
            stock: String::new(),
            thickness: 0.0,
            grain: Grain::Along(self.grain),
            count: 1,
            fit_error: 0.0,
        }
    }

    pub(crate) const fn new(name: String, layer: Layer, outline: Outline, grain: f64) -> Self {
        Self {
            name,
            layer,
            outline,
            openings: Vec::new(),
            bores: Vec::new(),
            grain,
        }
    }

    /// The stretches of its edge where another member of its layer meets it.
    pub(crate) fn joints(&self, members: &[Self]) -> Vec<Path> {
        let others = || {
            members
                .iter()
                .filter(|m| m.layer == self.layer && m.name != self.name)
        };
        let meets = |piece: &Piece| {
            let on = |share| others().any(|m| m.outline.nearest(piece.point_at(share)).distance < MEETS);
            [0.25, 0.5, 0.75].into_iter().all(on)
        };
        let pieces = self.outline.pieces().filter(meets);
        pieces.map(|piece| Path::from_pieces(&[piece])).collect()
    }

    /// Turned so that its grain lies along x, as it lies on its stock.
    pub fn lying(&self) -> Affine {
        Affine::rotate(-self.grain)
    }

    /// Its length along the grain and its width across it.
    pub fn size(&self) -> (f64, f64) {
        let lying = self.outline.transformed(self.lying()).bounds();
        (lying.width(), lying.height())
    }

    /// How far a point stands from its nearest edge, inside or out.
    pub(crate) fn off_edges(&self, p: Point) -> f64 {
        let openings = self.openings.iter().map(|o| o.nearest(p).distance);
        openings.fold(self.outline.nearest(p).distance, f64::min)
    }

    /// Whether a point lies in its wood.
    pub(crate) fn holds(&self, p: Point) -> bool {
        self.outline.contains(p) && !self.openings.iter().any(|o| o.contains(p))
    }
}

/// The direction from the start of a line to its end, radians in -π/2..=π/2.
pub(crate) fn chord(line: &Path) -> f64 {
    let chord: Vec2 = line.end() - line.start();
    let angle = chord.atan2();
    if angle > std::f64::consts::FRAC_PI_2 {
        angle - std::f64::consts::PI
    } else if angle < -std::f64::consts::FRAC_PI_2 {
        angle + std::f64::consts::PI
    } else {
        angle
    }
}
