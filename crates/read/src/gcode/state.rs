//! The machine as the program has left it, block after block.

use super::block::{Block, Motion, Stop, Values};
use super::{Controls, ProgramRead, words};
use crate::LengthUnit;

/// The longest line that the standard has, characters.
const LONGEST_LINE: usize = 256;
/// A height that stands under the safe one by no more than this is the safe one, mm: what turning inches into millimetres loses.
pub(super) const SAME_HEIGHT: f64 = 1e-6;

pub(super) struct State<'a> {
    pub(super) controls: Controls<'a>,
    /// Whether the beam or the pen is on; none before the program says so.
    pub(super) lit: Option<bool>,
    pub(super) bits: usize,
    pub(super) moved: bool,
    pub(super) unit: Option<LengthUnit>,
    pub(super) motion: Option<Motion>,
    pub(super) said: Vec<&'static str>,
    pub(super) feed: Option<f64>,
    pub(super) speed: f64,
    pub(super) turning: bool,
    pub(super) x: Option<f64>,
    pub(super) y: Option<f64>,
    pub(super) z: Option<f64>,
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

impl<'a> State<'a> {
    pub(super) fn new(controls: Controls<'a>) -> Self {
        Self {
            controls,
            lit: None,
            bits: 0,
            moved: false,
            unit: None,
            motion: None,
            said: Vec::new(),
            feed: None,
            speed: 0.0,
            turning: false,
            x: None,
            y: None,
            // Without heights all of it is done at one.
            z: controls.safe().is_none().then_some(0.0),
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
        if let Some((on, rest)) = self.controls.switch(text) {
            return self.switch(on, rest);
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
        if block.says("M6") || block.stop == Some(Stop::Change) {
            self.change()?;
        }
        if let Some(on) = block.spindle {
            if !matches!(self.controls, Controls::Spindle { .. }) {
                return Err(format!(
                    "a spindle's word in the program of a {}",
                    self.controls.noun()
                ));
            }
            if on && self.speed <= 0.0 {
                return Err("the spindle is started without a speed".to_owned());
            }
            self.turning = on;
        }
        Ok(())
    }

    /// The bit is changed, by the machine or by hand: only standing still, at the safe height.
    fn change(&mut self) -> Result<(), String> {
        if self.turning {
            return Err("a change of bit with the spindle turning".to_owned());
        }
        if self.moved {
            self.bits += 1;
            self.moved = false;
            if let (Some(safe), Some(z)) = (self.controls.safe(), self.z)
                && z < safe - SAME_HEIGHT
            {
                return Err(format!("a change of bit at Z {z:.3}, below the safe height"));
            }
        }
        Ok(())
    }

    /// The beam or the pen is switched, its power beside it.
    fn switch(&mut self, on: bool, rest: &str) -> Result<(), String> {
        let block = Block::of(&words::split(rest)?.words)?;
        let power = Block {
            values: Values {
                s: block.values.s,
                ..Values::default()
            },
            ..Block::default()
        };
        if block != power {
            return Err(format!(
                "something else on a line that switches the {}",
                self.controls.noun()
            ));
        }
        self.speed = block.values.s.unwrap_or(if on { 1.0 } else { 0.0 });
        self.lit = Some(on);
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
        if v.z.is_some() && self.controls.safe().is_none() {
            return Err(format!("a height in the program of a {}", self.controls.noun()));
        }
        let to = (at(v.x, self.x), at(v.y, self.y), at(v.z, self.z));
        match self.motion {
            None | Some(Motion::None) => return Err("a place to go to without a motion".to_owned()),
            Some(Motion::Rapid) => self.rapid(number, to, program)?,
            Some(motion) => self.cut(number, motion, to, block, program)?,
        }
        (self.x, self.y, self.z) = to;
        self.moved |= v.x.is_some() || v.y.is_some();
        Ok(())
    }

    fn stop(&mut self, block: &Block) -> Result<(), String> {
        if block.stop != Some(Stop::End) {
            return Ok(());
        }
        self.stage = Stage::Ended;
        if self.controls.safe().is_none() && self.lit != Some(false) {
            return Err(format!("it ends with the {} on", self.controls.noun()));
        }
        match (self.z, self.controls.safe()) {
            (Some(z), Some(safe)) if z < safe - SAME_HEIGHT => {
                Err(format!("it ends with the bit at Z {z:.3}, below the safe height"))
            }
            _ => Ok(()),
        }
    }

    pub(super) const fn turns(&self) -> f64 {
        if self.turning || matches!(self.lit, Some(true)) {
            self.speed
        } else {
            0.0
        }
    }
}
