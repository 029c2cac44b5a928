//! One block of a program: its words sorted into what they ask for, at most one of each modal group.

use super::words::Word;
use crate::LengthUnit;

/// What one block asks for.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Block {
    pub(super) motion: Option<Motion>,
    pub(super) unit: Option<LengthUnit>,
    /// The words that only say that something holds or happens, each alone in its modal group here.
    pub(super) said: Vec<&'static str>,
    pub(super) stop: Option<Stop>,
    pub(super) spindle: Option<bool>,
    pub(super) values: Values,
}

/// The numbers of a block, by letter.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Values {
    pub(super) x: Option<f64>,
    pub(super) y: Option<f64>,
    pub(super) z: Option<f64>,
    pub(super) i: Option<f64>,
    pub(super) j: Option<f64>,
    pub(super) f: Option<f64>,
    pub(super) s: Option<f64>,
    pub(super) p: Option<f64>,
    pub(super) t: Option<f64>,
    pub(super) n: Option<f64>,
}

/// The motion group.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Motion {
    Rapid,
    Straight,
    Clockwise,
    CounterClockwise,
    None,
}

/// The stopping group.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stop {
    Change,
    Pause,
    End,
}

impl Block {
    pub(super) fn of(words: &[Word]) -> Result<Self, String> {
        let mut block = Self::default();
        for (place, word) in words.iter().enumerate() {
            match word.letter {
                'G' => block.general(tenths(word)?)?,
                'M' => block.miscellaneous(tenths(word)?)?,
                'N' if place > 0 => return Err("a line number that is not first on its line".to_owned()),
                _ => block.values.set(word)?,
            }
        }
        Ok(block)
    }

    fn general(&mut self, tenths: i64) -> Result<(), String> {
        match tenths {
            0 => once(&mut self.motion, Motion::Rapid),
            10 => once(&mut self.motion, Motion::Straight),
            20 => once(&mut self.motion, Motion::Clockwise),
            30 => once(&mut self.motion, Motion::CounterClockwise),
            800 => once(&mut self.motion, Motion::None),
            40 => self.say("G4"),
            170 => self.say("G17"),
            200 => once(&mut self.unit, LengthUnit::Inch),
            210 => once(&mut self.unit, LengthUnit::Millimetre),
            400 => self.say("G40"),
            490 => self.say("G49"),
            540 => self.say("G54"),
            900 => self.say("G90"),
            940 => self.say("G94"),
            910 => Err("incremental distances (G91)".to_owned()),
            _ => Err(format!("G{} is not taken", spelled(tenths))),
        }
    }

    fn miscellaneous(&mut self, tenths: i64) -> Result<(), String> {
        match tenths {
            0 => once(&mut self.stop, Stop::Change),
            10 => once(&mut self.stop, Stop::Pause),
            20 | 300 => once(&mut self.stop, Stop::End),
            30 => once(&mut self.spindle, true),
            50 => once(&mut self.spindle, false),
            40 => Err("the spindle turned backwards (M4)".to_owned()),
            60 => self.say("M6"),
            70 | 80 | 90 => self.say("coolant"),
            _ => Err(format!("M{} is not taken", spelled(tenths))),
        }
    }

    fn say(&mut self, word: &'static str) -> Result<(), String> {
        if self.says(word) {
            return Err("two words of one modal group on a line".to_owned());
        }
        self.said.push(word);
        Ok(())
    }

    /// Whether it has the word.
    pub(super) fn says(&self, word: &str) -> bool {
        self.said.contains(&word)
    }

    /// Whether it names a place to go to.
    pub(super) const fn has_axes(&self) -> bool {
        self.values.x.is_some() || self.values.y.is_some() || self.values.z.is_some()
    }
}

impl Values {
    fn set(&mut self, word: &Word) -> Result<(), String> {
        let place = match word.letter {
            'X' => &mut self.x,
            'Y' => &mut self.y,
            'Z' => &mut self.z,
            'I' => &mut self.i,
            'J' => &mut self.j,
            'F' => &mut self.f,
            'S' => &mut self.s,
            'P' => &mut self.p,
            'T' => &mut self.t,
            'N' => &mut self.n,
            'R' => return Err("an arc by its radius (R), which has two answers".to_owned()),
            other => return Err(format!("{other} is a word that is not taken")),
        };
        if place.replace(word.value).is_some() {
            return Err(format!("{} twice on a line", word.letter));
        }
        Ok(())
    }
}

fn once<T>(place: &mut Option<T>, value: T) -> Result<(), String> {
    match place.replace(value) {
        None => Ok(()),
        Some(_) => Err("two words of one modal group on a line".to_owned()),
    }
}

/// A code in tenths, as G61.1 has them.
fn tenths(word: &Word) -> Result<i64, String> {
    let tenths = word.value * 10.0;
    let whole = tenths.round();
    if (tenths - whole).abs() > 1e-6 || !(0.0..10_000.0).contains(&whole) {
        return Err(format!("{}{} is not taken", word.letter, word.value));
    }
    #[expect(clippy::cast_possible_truncation, reason = "a whole number below 10 000")]
    Ok(whole as i64)
}

fn spelled(tenths: i64) -> String {
    match tenths % 10 {
        0 => format!("{}", tenths / 10),
        rest => format!("{}.{rest}", tenths / 10),
    }
}
