//! Moves: where each begins and ends, and what it may not be.

use super::block::{Block, Motion};
use super::state::{SAME_HEIGHT, State};
use super::{Controls, MoveKind, ProgramRead, ReadMove, Spot};
use crate::LengthUnit;
use cintre_geometry::{Piece, Point};

/// How far the radii of an arc at its two ends may differ by the standard, mm.
const RADIUS_MISMATCH: f64 = 0.002;
/// The same in a program in inches: 0.0002 in.
const RADIUS_MISMATCH_INCH: f64 = 0.0002 * 25.4;
/// Places nearer than this are the same, mm: far below the last digit that a program prints.
const SAME_PLACE: f64 = 1e-6;

impl State<'_> {
    pub(super) fn rapid(&self, line: usize, to: Place, program: &mut ProgramRead) -> Result<(), String> {
        let (from, spot) = (spot((self.x, self.y, self.z)), spot(to));
        if let (Some(from), Some(to)) = (from, spot) {
            program.moves.push(ReadMove {
                line,
                kind: MoveKind::Rapid,
                from,
                to,
                bulge: 0.0,
                feed: 0.0,
                spindle: self.turns(),
                bit: self.bits,
            });
        }
        let moved = |old: Option<f64>, new: Option<f64>| match (old, new) {
            (Some(old), Some(new)) => (old - new).abs() > SAME_PLACE,
            (None, Some(_)) => true,
            _ => false,
        };
        let sideways = moved(self.x, to.0) || moved(self.y, to.1);
        let Some(safe) = self.controls.safe() else {
            return match self.lit {
                Some(false) => Ok(()),
                _ if !sideways => Ok(()),
                Some(true) => Err(format!("a rapid with the {} on", self.controls.noun())),
                None => Err(format!("a rapid before the {} is off", self.controls.noun())),
            };
        };
        if sideways {
            let (Some(before), Some(after)) = (self.z, to.2) else {
                return Err("a rapid in X or Y before the height is known".to_owned());
            };
            let lowest = before.min(after);
            if lowest < safe - SAME_HEIGHT {
                // Reported here and not as an error, so that the move still counts.
                program.fault(
                    line,
                    format!("a rapid in X or Y at Z {lowest:.3}, below the safe height of {safe:.3}"),
                );
            }
        }
        Ok(())
    }

    pub(super) fn cut(
        &self,
        line: usize,
        motion: Motion,
        to: Place,
        block: &Block,
        program: &mut ProgramRead,
    ) -> Result<(), String> {
        let from = spot((self.x, self.y, self.z)).ok_or("a feed move from an unknown place")?;
        let to = spot(to).ok_or("a feed move to an unknown place")?;
        let feed = self.feed.ok_or("a feed move without a feed")?;
        if self.turns() <= 0.0 && matches!(self.controls, Controls::Spindle { .. }) {
            return Err("a feed move with the spindle standing still".to_owned());
        }
        let straight = motion == Motion::Straight;
        program.moves.push(ReadMove {
            line,
            kind: if straight {
                MoveKind::Straight
            } else {
                MoveKind::Arc
            },
            from,
            to,
            bulge: if straight {
                0.0
            } else {
                self.bulge(motion, from.at, to.at, block)?
            },
            feed,
            spindle: self.turns(),
            bit: self.bits,
        });
        Ok(())
    }

    /// The bulge of an arc given by its centre, seen from its start.
    fn bulge(&self, motion: Motion, from: Point, to: Point, block: &Block) -> Result<f64, String> {
        let unit = self.unit.map_or(1.0, LengthUnit::millimetres);
        let v = block.values;
        if v.x.is_none() && v.y.is_none() || v.i.is_none() && v.j.is_none() {
            return Err("an arc without an end or without a centre".to_owned());
        }
        let centre = Point::new(
            from.x + v.i.unwrap_or(0.0) * unit,
            from.y + v.j.unwrap_or(0.0) * unit,
        );
        let (first, last) = (centre.distance(from), centre.distance(to));
        let limit = if self.unit == Some(LengthUnit::Inch) {
            RADIUS_MISMATCH_INCH
        } else {
            RADIUS_MISMATCH
        };
        if from.distance(to) < SAME_PLACE {
            return Err("a full circle in one block, which some controllers leave out".to_owned());
        }
        if (first - last).abs() > limit {
            return Err(format!(
                "an arc whose radius is {first:.4} at its start and {last:.4} at its end"
            ));
        }
        if first < SAME_PLACE {
            return Err("an arc without a radius".to_owned());
        }
        Ok(Piece::arc_between(centre, from, to, motion == Motion::CounterClockwise).bulge)
    }
}

/// A place of which some may not be known yet.
pub(super) type Place = (Option<f64>, Option<f64>, Option<f64>);

fn spot(place: Place) -> Option<Spot> {
    let (x, y, z) = place;
    Some(Spot {
        at: Point::new(x?, y?),
        z: z?,
    })
}
