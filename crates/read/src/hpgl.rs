//! A strict reader of HP-GL as a pen plotter takes it: IN, SP, PU, PD, PA and VS, absolute places in whole units.
//!
//! It gives the pen's moves as those of a program: a rapid with the pen up, straight with it down. A file with a fault is not
//! to be drawn, whatever its moves show.

use crate::{LengthUnit, MoveKind, ProgramFault, ProgramRead, ReadMove, Spot};
use cintre_geometry::Point;

/// No plotter's numbers go beyond this, units: two and a half kilometres at 40 to the millimetre would be a slip.
const LARGEST: i64 = 99_999_999;
/// A file with more faults than this is no HP-GL at all.
const MOST_FAULTS: usize = 100;

/// Reads a file whose units are `steps_per_mm` to the millimetre: 40 by the standard.
pub fn read(bytes: &[u8], steps_per_mm: f64) -> ProgramRead {
    let mut plotter = Plotter {
        program: ProgramRead {
            unit: Some(LengthUnit::Millimetre),
            ..ProgramRead::default()
        },
        steps_per_mm,
        begun: false,
        pen: 0,
        down: false,
        at: None,
    };
    let mut line = 1;
    let text: String = bytes.iter().copied().map(char::from).collect();
    let mut rest = text.as_str();
    while let Some(end) = rest.find(';') {
        let (word, after) = rest.split_at(end);
        let leading = &word[..word.len() - word.trim_start().len()];
        let here = line + leading.matches('\n').count();
        if let Err(what) = plotter.instruction(here, word.trim()) {
            plotter.fault(here, what);
        }
        line += word.matches('\n').count();
        rest = &after[1..];
        if plotter.program.faults.len() > MOST_FAULTS {
            return plotter.program;
        }
    }
    if !rest.trim().is_empty() {
        plotter.fault(
            line,
            "an instruction that is not ended by a semicolon: it may have been cut short".to_owned(),
        );
    }
    plotter.end();
    plotter.program
}

struct Plotter {
    program: ProgramRead,
    steps_per_mm: f64,
    begun: bool,
    pen: i64,
    down: bool,
    at: Option<Point>,
}

impl Plotter {
    fn fault(&mut self, line: usize, what: String) {
        self.program.faults.push(ProgramFault { line, what });
    }

    fn instruction(&mut self, line: usize, text: &str) -> Result<(), String> {
        let (word, rest) = text
            .split_at_checked(2)
            .ok_or_else(|| format!("{text:?} is no instruction"))?;
        if !self.begun && word != "IN" {
            return Err(
                "it does not begin with IN, and what the last file left behind is not known".to_owned(),
            );
        }
        match word {
            "IN" if rest.is_empty() && !self.begun => {
                self.begun = true;
                Ok(())
            }
            "IN" => Err("IN anywhere but first".to_owned()),
            "SP" => self.select(rest),
            "VS" => numbers(rest).map(|_| ()),
            "PU" => self.travel(line, false, rest),
            "PD" => self.travel(line, true, rest),
            "PA" => {
                let down = self.down;
                self.travel(line, down, rest)
            }
            _ => Err(format!("{word} is an instruction that is not taken")),
        }
    }

    fn select(&mut self, rest: &str) -> Result<(), String> {
        if self.down {
            return Err("a change of pen with the pen down".to_owned());
        }
        match numbers(rest)?[..] {
            [] => self.pen = 0,
            [pen] if pen >= 0 => self.pen = pen,
            _ => return Err("SP with something else than one pen".to_owned()),
        }
        Ok(())
    }

    fn travel(&mut self, line: usize, down: bool, rest: &str) -> Result<(), String> {
        let numbers = numbers(rest)?;
        if numbers.len() % 2 != 0 {
            return Err("an X without its Y".to_owned());
        }
        if down && self.pen == 0 {
            return Err("drawing without a pen".to_owned());
        }
        if down && self.at.is_none() {
            return Err("the pen down at a place that is not known".to_owned());
        }
        self.down = down;
        for pair in numbers.chunks_exact(2) {
            #[expect(clippy::cast_precision_loss, reason = "numbers are below a hundred million")]
            let to = Point::new(
                pair[0] as f64 / self.steps_per_mm,
                pair[1] as f64 / self.steps_per_mm,
            );
            if let Some(from) = self.at {
                self.program.moves.push(ReadMove {
                    line,
                    kind: if down { MoveKind::Straight } else { MoveKind::Rapid },
                    from: Spot { at: from, z: 0.0 },
                    to: Spot { at: to, z: 0.0 },
                    bulge: 0.0,
                    feed: 0.0,
                    spindle: if down { 1.0 } else { 0.0 },
                    bit: 0,
                });
            }
            self.at = Some(to);
        }
        Ok(())
    }

    fn end(&mut self) {
        if !self.begun {
            self.fault(0, "it does not begin with IN".to_owned());
        }
        if self.down {
            self.fault(0, "it ends with the pen down".to_owned());
        } else if self.pen != 0 {
            self.fault(
                0,
                "it does not end with the pen put away (SP0): it may have been cut short".to_owned(),
            );
        }
    }
}

/// Whole numbers, parted by commas.
fn numbers(text: &str) -> Result<Vec<i64>, String> {
    if text.trim().is_empty() {
        return Ok(Vec::new());
    }
    let number = |word: &str| {
        let word = word.trim();
        let digits = word.strip_prefix('-').unwrap_or(word);
        let plain = !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit());
        let value: Option<i64> = if plain { word.parse().ok() } else { None };
        value
            .filter(|v| v.abs() <= LARGEST)
            .ok_or_else(|| format!("{word:?} is not a whole number that a plotter takes"))
    };
    text.split(',').map(number).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const GOOD: &str = "IN;\nSP1;\nPU400,800;\nPD800,800,800,400;\nPU;\nPU0,0;\nSP0;\n";

    fn faults(text: &str) -> String {
        let read = read(text.as_bytes(), 40.0);
        read.faults
            .iter()
            .map(|f| format!("{}: {}\n", f.line, f.what))
            .collect()
    }

    #[test]
    fn the_pen_comes_out_as_its_moves_in_millimetres() {
        let read = read(GOOD.as_bytes(), 40.0);
        assert_eq!(faults(GOOD), "");
        let moves: Vec<_> = read
            .moves
            .iter()
            .map(|m| (m.line, m.kind, m.to.at.x, m.to.at.y))
            .collect();
        assert_eq!(
            moves,
            [
                (4, MoveKind::Straight, 20.0, 20.0),
                (4, MoveKind::Straight, 20.0, 10.0),
                (6, MoveKind::Rapid, 0.0, 0.0)
            ]
        );
    }

    #[test]
    fn each_trouble_is_named() {
        for (from, to, expected) in [
            ("IN;\n", "", "0: it does not begin with IN"),
            ("SP1;\n", "", "3: drawing without a pen"),
            ("PU400,800;\n", "", "3: the pen down at a place that is not known"),
            ("PD800,800,800,400", "PD800,800,800", "4: an X without its Y"),
            ("PD800,800", "PD800.5,800", "4: \"800.5\" is not a whole number"),
            ("PD800,800", "PD+800,800", "4: \"+800\" is not a whole number"),
            ("PD800,800", "PD1e3,800", "4: \"1e3\" is not a whole number"),
            (
                "PD800,800",
                "PD999999999,800",
                "4: \"999999999\" is not a whole number",
            ),
            (
                "PD800,800",
                "PR800,800",
                "4: PR is an instruction that is not taken",
            ),
            (
                "PD800,800",
                "AA800,800",
                "4: AA is an instruction that is not taken",
            ),
            ("PU;\nPU0,0;\n", "", "5: a change of pen with the pen down"),
            ("PU;\nPU0,0;\nSP0;\n", "", "0: it ends with the pen down"),
            ("SP0;\n", "", "0: it does not end with the pen put away"),
            (
                "SP0;\n",
                "SP0",
                "6: an instruction that is not ended by a semicolon",
            ),
            ("SP1;", "SP1;IN;", "2: IN anywhere but first"),
        ] {
            let text = GOOD.replacen(from, to, 1);
            assert_ne!(text, GOOD, "{from} is not in it");
            assert!(
                faults(&text).contains(expected),
                "{from}: {expected} is not in {}",
                faults(&text)
            );
        }
    }

    proptest! {
        #[test]
        fn no_bytes_make_it_panic(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
            let _ = read(&bytes, 40.0);
        }

        #[test]
        fn nor_do_instructions_in_any_order(words in prop::collection::vec("(IN|SP|PU|PD|PA|VS)?[-0-9,\n ]{0,6};?", 0..40)) {
            for m in read(words.concat().as_bytes(), 40.0).moves {
                prop_assert!(m.to.at.is_finite());
            }
        }
    }
}
