//! A model's sizes at one scale: where everything stands before it becomes parts.

use super::fit::Fit;
use super::springer::{Springer, springers};
use super::thin::{Thin, least_piece};
use super::{Input, Made};
use crate::centering::{
    Boards, DEEP_WALL, Lagging, RIB_CENTRES, clear_of_jambs, sides as with_sides, stretch,
};
use crate::line::{at_level, heights_at};
use cintre_geometry::{Affine, LineError, Path, parallel_line};

/// The ribs stay this clear of the springers, mm: so that they go in and come out.
const CLEAR: f64 = 0.3;

/// A board of the lagging at full size, and the widest gap between two, mm.
const BOARD: (f64, f64) = (50.0, 20.0);

/// A model at one scale, in the arch's frame made smaller. Lengths in mm.
#[derive(Clone, Debug)]
pub(crate) struct Kit<'a> {
    pub(crate) input: &'a Input,
    pub(crate) scale: f64,
    pub(crate) fit: Fit,
    /// The lower edge of the ring.
    pub(crate) soffit: Path,
    /// The back of the ribs, one sheet inside it.
    pub(crate) back: Path,
    /// The ribs' level bottom.
    pub(crate) bottom: f64,
    /// From face to face of the model's wall.
    pub(crate) depth: f64,
    /// How many slices of sheet the ring has across the wall; 0 without a ring.
    pub(crate) slices: usize,
    /// The middle of each rib across the wall.
    pub(crate) ribs: Vec<f64>,
    /// Where spacers cross the ribs.
    pub(crate) spacers: Vec<f64>,
    /// How high a spacer is.
    pub(crate) spacer: f64,
    pub(crate) boards: Boards,
    pub(crate) springers: Vec<Springer>,
}

impl<'a> Kit<'a> {
    /// The sizes at a scale, or what cannot be at it.
    pub(crate) fn new(input: &'a Input, scale: f64) -> Result<Self, Thin> {
        let fit = Fit::new(input);
        let soffit = input.soffit.transformed(Affine::scale(1.0 / scale));
        let t = input.thickness;
        let line = parallel_line(&soffit, t).map_err(|LineError::TooFar { limit, .. }| Thin {
            what: "the thickest lagging that the soffit's curve allows",
            width: limit,
            least: t,
        })?;
        let back = clear_of_jambs(&soffit, CLEAR, line);
        let feet = back.start().y.min(back.end().y);
        let mut bottom = feet - fit.bridge;
        // The springers stand as deep as leaves wood under both ends of their slanted tops.
        if let Some(ring) = &input.ring {
            let ends = ring.skewbacks.iter().flat_map(|(a, b)| [a.y, b.y]);
            let lowest = ends.fold(f64::INFINITY, f64::min) / scale;
            bottom = bottom.min(lowest - fit.bridge + t);
        }
        let (slices, depth) = slices(input, scale);
        let lagging = Lagging {
            thickness: t,
            skin: 0.0,
            width: (BOARD.0 / scale).max(fit.bridge).max(least_piece(input)),
            gap: BOARD.1 / scale,
        };
        let boards = Boards::along(stretch(&back, &soffit, CLEAR), lagging, depth);
        let mut kit = Self {
            input,
            scale,
            spacer: 2.0 * (fit.bridge + super::fit::SEAT),
            fit,
            soffit,
            back,
            bottom,
            depth,
            slices,
            ribs: Vec::new(),
            spacers: Vec::new(),
            boards,
            springers: Vec::new(),
        };
        kit.ribs = kit.ribs_across()?;
        kit.spacers = kit.spacers_along()?;
        kit.springers = springers(&kit);
        kit.check()?;
        Ok(kit)
    }

    /// The top of the base, one sheet under the ribs: what lies between is drawn out to lower them.
    pub(crate) fn base(&self) -> f64 {
        self.bottom - self.input.thickness
    }

    /// Two ribs, more under a deep wall where they have room, a bridge from each end of the spacers.
    fn ribs_across(&self) -> Result<Vec<f64>, Thin> {
        let (t, bridge) = (self.fit.wider(), self.fit.bridge);
        let wanted = if self.input.wall > DEEP_WALL {
            (self.input.wall / RIB_CENTRES).ceil().max(2.0) + 1.0
        } else {
            2.0
        };
        let most = ((self.depth - bridge) / (t + bridge)).floor();
        let count = wanted.min(most).max(2.0);
        let (first, last) = (bridge + t / 2.0, self.depth - bridge - t / 2.0);
        let pitch = (last - first) / (count - 1.0);
        if pitch < t + bridge {
            return Err(Thin {
                what: "between two ribs' slots a spacer's wood",
                width: pitch - t,
                least: bridge,
            });
        }
        let middles = std::iter::successors(Some(0.0), |n| Some(n + 1.0)).take_while(|n| *n < count);
        Ok(middles.map(|n| first + n * pitch).collect())
    }

    /// As many as three spacers, where the rib is high enough to keep a bridge over their slots and to both sides.
    fn spacers_along(&self) -> Result<Vec<f64>, Thin> {
        let (t, bridge) = (self.fit.wider(), self.fit.bridge);
        let least = self.fit.slot_depth(self.spacer) + bridge;
        let reach = self.fit.slot / 2.0;
        let crossings = at_level(&with_sides(&self.back, self.bottom), self.bottom + least);
        let too_low = || Thin {
            what: "a rib over a spacer's slot",
            width: self.back.bounds().y1 - self.bottom - self.fit.slot_depth(self.spacer),
            least: bridge,
        };
        let (Some(from), Some(to)) = (crossings.first(), crossings.last()) else {
            return Err(too_low());
        };
        let from = from.point.x.max(self.back.start().x + bridge) + reach;
        let to = to.point.x.min(self.back.end().x - bridge) - reach;
        let middle = f64::midpoint(from, to);
        let places = match (to - from) / (t + bridge) {
            room if room >= 2.0 => vec![from, middle, to],
            room if room >= 1.0 => vec![from, to],
            room if room >= 0.0 => vec![middle],
            room => {
                return Err(Thin {
                    what: "the length of rib that is high enough for a spacer",
                    width: room * (t + bridge) + self.fit.slot,
                    least: self.fit.slot,
                });
            }
        };
        let high = |x: f64| {
            let heights = heights_at(&self.back, x);
            heights.into_iter().reduce(f64::max).unwrap_or(self.bottom) - self.bottom
        };
        let edges = places.iter().flat_map(|x| [x - reach, *x, x + reach]);
        let lowest = edges.map(high).fold(f64::INFINITY, f64::min);
        // What rounding takes off a place that is exactly high enough.
        if lowest < least - 1e-6 {
            return Err(Thin {
                width: lowest - self.fit.slot_depth(self.spacer),
                ..too_low()
            });
        }
        Ok(places)
    }
}

/// How many sheets make the wall's depth, and the depth of the model.
fn slices(input: &Input, scale: f64) -> (usize, f64) {
    let wall = input.wall / scale;
    match input.ring.as_ref().map(|ring| ring.made) {
        None => (0, wall),
        Some(Made::Flat) => (1, wall),
        Some(Made::Stacked) => {
            let count = (wall / input.thickness).round().max(1.0);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a whole number of sheets"
            )]
            let slices = count as usize;
            (slices, count * input.thickness)
        }
    }
}
