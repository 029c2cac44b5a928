//! The moves of a sheet's programs in the sheet's frame, and what of each lies below a height.

use crate::{ProgramRecord, lines};
use cintre_geometry::{Piece, Point, Rect, Vec2};
use cintre_read::{MoveKind, ReadMove};
use cintre_work::design::DesignBit;
use rstar::RTree;
use rstar::primitives::{GeomWithData, Rectangle};

/// A move of one of the sheet's programs, Z 0 on the face.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Step {
    pub(crate) line: usize,
    pub(crate) rapid: bool,
    pub(crate) piece: Piece,
    /// The box of the bit's middle.
    pub(crate) bounds: Rect,
    pub(crate) z: (f64, f64),
}

/// What of a move lies below a height.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cut {
    pub(crate) line: usize,
    pub(crate) piece: Piece,
    /// The box of the bit's middle.
    pub(crate) bounds: Rect,
    /// Its lowest Z.
    pub(crate) lowest: f64,
    /// How far from its middle it cuts at the face, where it is widest.
    pub(crate) radius: f64,
}

/// The moves of one bit.
#[derive(Clone, Debug)]
pub(crate) struct Run {
    pub(crate) steps: Vec<Step>,
    /// Which of them lies where.
    places: RTree<GeomWithData<Rectangle<[f64; 2]>, usize>>,
    /// How far from its middle the bit cuts, at its widest.
    pub(crate) widest: f64,
    /// Whether its bit may only go straight down.
    pub(crate) drill: bool,
    /// How much wider a pointed bit cuts for each mm that it goes deeper; none where its sides are upright.
    pub(crate) taper: Option<f64>,
}

impl Run {
    /// The moves of one of a program's bits, the `number`th that is put in, counted from 0. `bit` is the design's; none where the
    /// design does not know it.
    pub(crate) fn new(
        record: &ProgramRecord,
        number: usize,
        bit: Option<&DesignBit>,
        moves: &[ReadMove],
    ) -> Self {
        let home = Vec2::new(record.origin[0], record.origin[1]);
        let own = moves.iter().filter(|m| m.bit == number);
        let steps = own.map(|m| {
            let piece = Piece {
                start: m.from.at + home,
                end: m.to.at + home,
                bulge: m.bulge,
            };
            let z = (m.from.z - record.top, m.to.z - record.top);
            Step::new(m.line, m.kind == MoveKind::Rapid, piece, z)
        });
        let widest = record.bits().nth(number).map_or(0.0, |bit| bit.diameter / 2.0);
        Self {
            drill: bit.is_some_and(|b| b.drill),
            taper: bit
                .and_then(|b| b.angle)
                .map(|angle| (angle.to_radians() / 2.0).tan()),
            ..Self::upright(steps.collect(), widest)
        }
    }

    /// Of steps whose cuts are as wide all the way down.
    pub(crate) fn upright(steps: Vec<Step>, widest: f64) -> Self {
        let placed = |(number, step): (usize, &Step)| {
            let b = step.bounds;
            GeomWithData::new(Rectangle::from_corners([b.x0, b.y0], [b.x1, b.y1]), number)
        };
        Self {
            places: RTree::bulk_load(steps.iter().enumerate().map(placed).collect()),
            steps,
            widest,
            drill: false,
            taper: None,
        }
    }

    /// How far from its middle the bit cuts at a height above or below its tip's, mm.
    pub(crate) fn radius(&self, above_tip: f64) -> f64 {
        self.taper
            .map_or(self.widest, |taper| self.widest.min(taper * above_tip.max(0.0)))
    }

    /// What every move leaves below `height`, rapids too: a bit cuts however fast it goes.
    pub(crate) fn below(&self, height: f64) -> impl Iterator<Item = Cut> + '_ {
        self.steps.iter().filter_map(move |step| self.cut(step, height))
    }

    /// Of the moves whose bit comes into a box what each leaves below `height`, in their order.
    pub(crate) fn near(&self, area: Rect, height: f64) -> impl Iterator<Item = Cut> + '_ {
        let reached = lines::envelope(area.inflate(self.widest, self.widest));
        let met = self.places.locate_in_envelope_intersecting(reached);
        let mut numbers: Vec<usize> = met.map(|place| place.data).collect();
        numbers.sort_unstable();
        numbers
            .into_iter()
            .filter_map(move |number| self.cut(&self.steps[number], height))
    }

    fn cut(&self, step: &Step, height: f64) -> Option<Cut> {
        let piece = step.below(height)?;
        Some(Cut {
            line: step.line,
            piece,
            bounds: if piece == step.piece {
                step.bounds
            } else {
                piece.bounds()
            },
            lowest: step.lowest(),
            radius: self.radius(-step.lowest()),
        })
    }
}

impl Step {
    pub(crate) fn new(line: usize, rapid: bool, piece: Piece, z: (f64, f64)) -> Self {
        Self {
            line,
            rapid,
            piece,
            bounds: piece.bounds(),
            z,
        }
    }

    pub(crate) const fn lowest(&self) -> f64 {
        self.z.0.min(self.z.1)
    }

    /// How far it goes sideways: 0 for a plunge.
    pub(crate) fn sideways(&self) -> f64 {
        self.piece.length()
    }

    /// The stretch of it that lies at or below a height; Z changes evenly along it.
    pub(crate) fn below(&self, height: f64) -> Option<Piece> {
        let (from, to) = self.z;
        if from.min(to) > height {
            return None;
        }
        if from.max(to) <= height {
            return Some(self.piece);
        }
        let crossing = ((height - from) / (to - from)).clamp(0.0, 1.0);
        let (start, end) = if from > to {
            (crossing, 1.0)
        } else {
            (0.0, crossing)
        };
        if self.piece.start.distance(self.piece.end) > 0.0 && start < end {
            return Some(self.piece.part(start, end));
        }
        let at: Point = if from > to {
            self.piece.end
        } else {
            self.piece.start
        };
        Some(Piece::line(at, at))
    }
}
