//! Where the clamps stand, what they take hold of, and how far they must open.

use super::lines::{Lines, Place, place, station};
use super::{BendingError, Input, Seat, Side, tried};
use crate::Error;
use crate::centering::as_length;
use cintre_geometry::{Path, Point};

/// From one clamp to the next along the outermost line if the job says nothing: twice what presses, but no less and no more, mm.
const SPACING: (f64, f64) = (75.0, 125.0);

/// The wood behind a clamp hole, and between two, mm.
pub(super) const BEHIND: f64 = 40.0;
const BETWEEN: f64 = 20.0;

/// A count may be over a whole number by so much before it takes one more.
const OVER: f64 = 1e-9;

/// The clamps of a form.
#[derive(Clone, Debug)]
pub(super) struct Clamping {
    /// Where each stands.
    pub(super) clamps: Vec<Place>,
    /// The ends of the form, and half way between every two clamps.
    pub(super) gaps: Vec<Place>,
    /// From one to the next along the outermost line.
    pub(super) spacing: f64,
    /// How far a clamp must open.
    pub(super) opening: f64,
}

/// How many clamps stand along `length`, no farther than `spacing` apart.
pub(super) fn clamps_along(length: f64, spacing: f64) -> usize {
    super::whole((length / spacing - OVER).ceil()).max(2)
}

impl Clamping {
    pub(super) fn new(input: &Input, lines: &Lines) -> Result<Self, Error> {
        let clamps = &input.clamps;
        let opening = opening(input);
        if let Some(own) = clamps.own
            && own.opening < opening
        {
            let share = if input.side == Side::Pair { 2.0 } else { 1.0 };
            return Err(tried(BendingError::Opening {
                opening: own.opening,
                needed: opening,
                limit: clamps.ligament - (opening - own.opening) / share,
            }));
        }
        let outermost = outermost(input, lines)?;
        let pressed = input.strips.stack() + input.caul;
        let usual = (2.0 * pressed).clamp(SPACING.0, SPACING.1);
        let found = Self::along(&outermost, clamps.spacing.unwrap_or(usual), opening);
        let Seat::Holes(hole) = clamps.seat else {
            return Ok(found);
        };
        let left = found.nearest_holes(input, lines, hole)? - hole;
        if left >= BETWEEN {
            return Ok(found);
        }
        let fewer = (2..found.clamps.len())
            .rev()
            .map(|n| Self::so_many(&outermost, n, opening));
        let mut roomy = None;
        for clamping in fewer {
            if clamping.nearest_holes(input, lines, hole)? - hole >= BETWEEN {
                roomy = Some(clamping);
                break;
            }
        }
        match roomy {
            Some(roomy) if clamps.spacing.is_none() => Ok(roomy),
            roomy => Err(tried(BendingError::Crowded {
                given: found.spacing,
                left,
                least: roomy.map(|roomy| roomy.spacing),
            })),
        }
    }

    /// Clamps evenly along the outermost line, from half a spacing inside each end.
    fn along(outermost: &Path, spacing: f64, opening: f64) -> Self {
        Self::so_many(outermost, clamps_along(outermost.length(), spacing), opening)
    }

    fn so_many(outermost: &Path, count: usize, opening: f64) -> Self {
        let spacing = outermost.length() / as_length(count);
        let at = |share: f64| place(outermost, spacing * share);
        Self {
            clamps: (0..count).map(|i| at(as_length(i) + 0.5)).collect(),
            gaps: (0..=count).map(|i| at(as_length(i))).collect(),
            spacing,
            opening,
        }
    }

    /// How near two holes of one body come, from middle to middle.
    fn nearest_holes(&self, input: &Input, lines: &Lines, hole: f64) -> Result<f64, Error> {
        let side = if input.side == Side::Female {
            Side::Female
        } else {
            Side::Male
        };
        let deep = input.clamps.ligament + hole / 2.0;
        let row = inside(input, lines, side, deep)?;
        let centres: Vec<Point> = self.clamps.iter().map(|&at| station(&row, at).0).collect();
        let apart = centres.windows(2).map(|pair| pair[0].distance(pair[1]));
        Ok(apart.fold(f64::INFINITY, f64::min))
    }
}

/// The parallel `deep` mm inside the wood of a male or a female.
pub(super) fn inside(input: &Input, lines: &Lines, side: Side, deep: f64) -> Result<Path, Error> {
    let outwards = if side == Side::Female { 1.0 } else { -1.0 };
    lines.line(outwards * (lines.off + deep)).map_err(|reached| {
        let most = reached.abs() - lines.off;
        tried(BendingError::Ligament {
            given: input.clamps.ligament,
            deep,
            limit: input.clamps.ligament - (deep - most),
            instead: match input.clamps.seat {
                Seat::Holes(_) => "; smaller holes, or `seats: flats`, need less depth",
                Seat::Flats => "",
            },
        })
    })
}

/// The longest line that is pressed: the caul's back, or the face that the strips lie in.
fn outermost(input: &Input, lines: &Lines) -> Result<Path, Error> {
    match input.side {
        Side::Male => {
            let back = lines.off - input.liner + input.caul;
            lines.line(back).or_else(|_| lines.face(Side::Male))
        }
        Side::Female | Side::Pair => lines.face(Side::Female),
    }
}

/// What a clamp spans: ligament, liner, strips, and the caul or the other half.
fn opening(input: &Input) -> f64 {
    let ligament = input.clamps.ligament;
    let across = ligament + input.liner + input.strips.stack();
    match input.side {
        Side::Male | Side::Female => across + input.caul,
        Side::Pair => across + input.liner + ligament,
    }
}
