//! The machine as the program has left it, block after block.

use super::block::{Block, Motion, Stop};
use super::{MoveKind, ProgramRead, ReadMove, Spot, words};
use crate::LengthUnit;
use cintre_geometry::{Piece, Point};

/// The longest line that the standard has, characters.
const LONGEST_LINE: usize = 256;
/// How far the radii of an arc at its two ends may differ by the standard, mm.
const RADIUS_MISMATCH: f64 = 0.002;
/// The same in a program in inches: 0.0002 in.
const RADIUS_MISMATCH_INCH: f64 = 0.0002 * 25.4;
/// Places nearer than this are the same, mm: far below the last digit that a program prints.
const SAME_PLACE: f64 = 1e-6;
/// A height may stand this far under the safe one by the rounding of its figures, mm: half a step of four decimals of an inch
/// is 0.0013.
const ROUNDED: f64 = 0.002;

pub(super) struct State {
    safe: f64,
    unit: Option<LengthUnit>,
    motion: Option<Motion>,
    said: Vec<&'static str>,
    feed: Option<f64>,
    speed: f64,
    turning: bool,
    x: Option<f64>,
    y: Option<f64>,
    z: Option<f64>,
    stage: Stage,
}

/// How far the program has come.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stage {
    Before,
    Running,
    Ended,
}

/// The modes that a program has to state before it moves, since what the last one left behind is not known.
const STATED: [&str; 5] = ["G90", "G17", "G40", "G49", "G94"];

impl State {
    pub(super) fn new(safe: f64) -> Self {
        Self {
            safe,
            unit: None,
            motion: None,
            said: Vec::new(),
            feed: None,
            speed: 0.0,
            turning: false,
            x: None,
            y: None,
            z: None,
            stage: Stage::Before,
        }
    }

    pub(super) const fn unit(&self) -> Option<LengthUnit> {
        self.unit
    }

    pub(super) fn begun(&self) -> bool {
        self.stage != Stage::Before
    }

    pub(super) fn ended(&self) -> bool {
        self.stage == Stage::Ended
    }

    /// Runs one line.
    pub(super) fn line(
        &mut self,
        number: usize,
        text: &str,
        program: &mut ProgramRead,
    ) -> Result<(), String> {
        if text.trim().is_empty() {
            return Ok(());
        }
        if self.ended() {
            return Err("something after the end of the program".to_owned());
        }
        self.stage = Stage::Running;
        if text.len() > LONGEST_LINE {
            return Err(format!(
                "a line of {} characters; the standard has 256",
                text.len()
            ));
        }
        if let Some(odd) = text.chars().find(|c| !(' '..='~').contains(c) && *c != '\t') {
            return Err(format!("{odd:?} is not a character of the standard"));
        }
        let line = words::split(text)?;
        program
            .comments
            .extend(line.comments.into_iter().map(|c| (number, c)));
        let block = Block::of(&line.words)?;
        // In the standard's own order: feed, speed, tool, spindle, dwell, modes, motion, stop.
        self.settings(&block)?;
        self.spindle(&block)?;
        self.said.extend(&block.said);
        self.motion(number, &block, program)?;
        self.stop(&block)
    }

    fn settings(&mut self, block: &Block) -> Result<(), String> {
        if let Some(unit) = block.unit {
            if self.unit.is_some_and(|old| old != unit) {
                return Err("the unit changes half way".to_owned());
            }
            self.unit = Some(unit);
        }
        if let Some(feed) = block.values.f {
            let unit = self.unit.ok_or("a feed before the unit is stated")?;
            if feed <= 0.0 {
                return Err(format!("a feed of {feed}"));
            }
            self.feed = Some(feed * unit.millimetres());
        }
        if let Some(speed) = block.values.s {
            if speed < 0.0 {
                return Err(format!("a spindle speed of {speed}"));
            }
            self.speed = speed;
        }
        Ok(())
    }

    fn spindle(&mut self, block: &Block) -> Result<(), String> {
        if block.says("M6") && (self.x.is_some() || self.z.is_some()) {
            return Err("a change of bit half way; each bit has its own program".to_owned());
        }
        if let Some(on) = block.spindle {
            if on && self.speed <= 0.0 {
                return Err("the spindle is started without a speed".to_owned());
            }
            self.turning = on;
        }
        Ok(())
    }

    fn motion(&mut self, number: usize, block: &Block, program: &mut ProgramRead) -> Result<(), String> {
        if block.says("G4") {
            let plain =
                block.values.p.is_some_and(|p| p >= 0.0) && !block.has_axes() && block.motion.is_none();
            return if plain {
                Ok(())
            } else {
                Err("a dwell without a time, or with a move".to_owned())
            };
        }
        if block.values.p.is_some() {
            return Err("P without a dwell".to_owned());
        }
        if block.motion.is_some() {
            self.motion = block.motion;
        }
        let offsets = block.values.i.is_some() || block.values.j.is_some();
        if !block.has_axes() {
            let bare = offsets || block.motion.is_some_and(|m| m != Motion::None);
            return if bare {
                Err("a motion without a place to go to".to_owned())
            } else {
                Ok(())
            };
        }
        let unit = self.unit.ok_or("a move before the unit is stated")?.millimetres();
        if let Some(missing) = STATED.iter().find(|word| !self.said.contains(word)) {
            return Err(format!("a move before {missing} is stated"));
        }
        let arc = matches!(self.motion, Some(Motion::Clockwise | Motion::CounterClockwise));
        if offsets && !arc {
            return Err("I or J without an arc".to_owned());
        }
        let at = |value: Option<f64>, old: Option<f64>| value.map(|v| v * unit).or(old);
        let v = block.values;
        let to = (at(v.x, self.x), at(v.y, self.y), at(v.z, self.z));
        match self.motion {
            None | Some(Motion::None) => return Err("a place to go to without a motion".to_owned()),
            Some(Motion::Rapid) => self.rapid(number, to, program)?,
            Some(motion) => self.cut(number, motion, to, block, program)?,
        }
        (self.x, self.y, self.z) = to;
        Ok(())
    }

    fn rapid(&self, line: usize, to: Place, program: &mut ProgramRead) -> Result<(), String> {
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
            });
        }
        let moved = |old: Option<f64>, new: Option<f64>| match (old, new) {
            (Some(old), Some(new)) => (old - new).abs() > SAME_PLACE,
            (None, Some(_)) => true,
            _ => false,
        };
        if moved(self.x, to.0) || moved(self.y, to.1) {
            let (Some(before), Some(after)) = (self.z, to.2) else {
                return Err("a rapid in X or Y before the height is known".to_owned());
            };
            let lowest = before.min(after);
            if lowest < self.safe - ROUNDED {
                // Reported here and not as an error, so that the move still counts.
                let safe = self.safe;
                program.fault(
                    line,
                    format!("a rapid in X or Y at Z {lowest:.3}, below the safe height of {safe:.3}"),
                );
            }
        }
        Ok(())
    }

    fn cut(
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
        if self.turns() <= 0.0 {
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

    fn stop(&mut self, block: &Block) -> Result<(), String> {
        if block.stop != Some(Stop::End) {
            return Ok(());
        }
        self.stage = Stage::Ended;
        match self.z {
            Some(z) if z < self.safe - ROUNDED => {
                Err(format!("it ends with the bit at Z {z:.3}, below the safe height"))
            }
            _ => Ok(()),
        }
    }

    const fn turns(&self) -> f64 {
        if self.turning { self.speed } else { 0.0 }
    }
}

type Place = (Option<f64>, Option<f64>, Option<f64>);

fn spot(place: Place) -> Option<Spot> {
    let (x, y, z) = place;
    Some(Spot {
        at: Point::new(x?, y?),
        z: z?,
    })
}
