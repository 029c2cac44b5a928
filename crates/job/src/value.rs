//! Single values: each kind read from its text.

use crate::marks::Mark;
use crate::nearest::suggestion;
use crate::reader::Reader;
use crate::record::{Datum, Placed};
use crate::table::{Kind, LENGTH_OR_0, Sign, Word};
use crate::tree::{Content, Node};
use cintre_measure::{LengthError, not_negative, parse_angle, parse_length, positive};

/// The longest text that is taken, characters.
pub(crate) const LONGEST_TEXT: usize = 200;

/// How far parts stand from one another on a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spacing {
    /// The diameter of the bit that cuts them and this much more, mm.
    Margin(f64),
    /// This far, mm.
    Length(f64),
}

/// The most values of one list and names of one mapping: far more than any shop has.
pub(crate) const MOST: usize = 1000;

/// Characters that break a line or turn the direction of the text after them, which no cut file or sheet should hold.
const TURNS: &[char] = &[
    '\u{2028}', '\u{2029}', '\u{202a}', '\u{202b}', '\u{202c}', '\u{202d}', '\u{202e}', '\u{2066}',
    '\u{2067}', '\u{2068}', '\u{2069}',
];

type Read<T> = Result<T, Trouble>;

/// Why a text does not fit its field.
struct Trouble {
    what: String,
    help: Option<String>,
    /// The byte of the text at which the trouble begins.
    at: usize,
}

fn trouble<T>(what: impl Into<String>, help: Option<String>) -> Read<T> {
    let what = what.into();
    Err(Trouble { what, help, at: 0 })
}

impl Reader<'_> {
    /// A value held against its kind; none, with a fault, if it does not fit.
    pub(crate) fn datum(&mut self, node: &Node, path: &str, kind: &'static Kind) -> Option<Placed> {
        let datum = match kind {
            Kind::Tuple(count, kind) => self.tuple(node, path, *count, kind)?,
            Kind::List(kind) => Datum::List(self.list(node, path, kind)?),
            Kind::GroupOrNone(_) if node.mark.text.as_deref() == Some("none") => Datum::None,
            Kind::Group(fields) | Kind::GroupOrNone(fields) => {
                Datum::Record(self.mapping(node, path, &[fields], None)?)
            }
            Kind::LengthOrGroup(_) if node.mark.text.is_some() => self.scalar(node, path, &LENGTH_OR_0)?,
            Kind::LengthOrGroup(fields) => Datum::Record(self.mapping(node, path, &[fields], None)?),
            Kind::FileOr(fields) if node.mark.text.is_none() => {
                Datum::Record(self.document(node, path, fields)?)
            }
            Kind::Named(of, kind) => self.named(node, path, *of, kind)?,
            Kind::Cases(cases) => Datum::Record(self.cases(node, path, cases)?),
            Kind::OneCase(cases) => Datum::Record(self.one_case(node, path, cases)?),
            _ => self.scalar(node, path, kind)?,
        };
        let place = node.mark.place(self.file, path);
        match kind {
            Kind::Name(of) => self.names.asked.push((*of, place.clone())),
            Kind::FileOr(_) if matches!(datum, Datum::Text(_)) => self.names.elsewhere = true,
            _ => {}
        }
        Some(Placed { place, datum })
    }

    fn list(&mut self, node: &Node, path: &str, kind: &'static Kind) -> Option<Vec<Placed>> {
        let Content::List(items) = &node.content else {
            let help = "put it in brackets: [ … ]".to_owned();
            self.fault(&node.mark, path, "a list is wanted here", Some(help));
            return None;
        };
        if items.len() > MOST {
            let what = format!("this holds {} values", items.len());
            self.fault(&node.mark, path, what, Some(format!("take at most {MOST}")));
            return None;
        }
        let mut read = Vec::new();
        for (i, item) in items.iter().enumerate() {
            read.extend(self.datum(item, &format!("{path}[{i}]"), kind));
        }
        (read.len() == items.len()).then_some(read)
    }

    fn tuple(&mut self, node: &Node, path: &str, count: usize, kind: &'static Kind) -> Option<Datum> {
        let read = self.list(node, path, kind)?;
        if read.len() != count {
            let what = format!("{count} values are wanted here, not {}", read.len());
            self.fault(&node.mark, path, what, Some(format!("each {}", kind.wanted())));
            return None;
        }
        Some(Datum::List(read))
    }

    fn scalar(&mut self, node: &Node, path: &str, kind: &'static Kind) -> Option<Datum> {
        let Some(text) = node.mark.text.as_deref() else {
            self.fault(
                &node.mark,
                path,
                "a single value is wanted here",
                Some(kind.wanted()),
            );
            return None;
        };
        match self.read(text, node, kind) {
            Ok(datum) => Some(datum),
            Err(trouble) => {
                let help = trouble.help.or_else(|| Some(kind.wanted()));
                let mark = moved(&node.mark, text, trouble.at);
                self.fault(&mark, path, trouble.what, help);
                None
            }
        }
    }

    fn read(&self, text: &str, node: &Node, kind: &'static Kind) -> Read<Datum> {
        match kind {
            Kind::Length(sign) => self.length(text, *sign).map(Datum::Length),
            Kind::LengthTo(most) => match self.length(text, Sign::NotNegative)? {
                mm if mm <= *most => Ok(Datum::Length(mm)),
                _ => trouble(format!("this is more than {most} mm"), None),
            },
            Kind::Feed => {
                let length = text.trim_end().strip_suffix("/min").unwrap_or(text);
                self.length(length, Sign::Positive).map(Datum::Length)
            }
            Kind::Spacing => match text.trim_start().strip_prefix("margin") {
                Some(margin) => self.length(margin, Sign::NotNegative).map(Spacing::Margin),
                None => self.length(text, Sign::Positive).map(Spacing::Length),
            }
            .map(Datum::Spacing),
            Kind::Angle { least, most } => angle_between(text, *least, *most).map(Datum::Angle),
            Kind::AngleOr(words) => match words.iter().find(|w| w.word == text) {
                Some(found) => Ok(Datum::Word(found.word)),
                None => angle(text).map(Datum::Angle),
            },
            Kind::LengthOr(words) => match words.iter().find(|w| w.word == text) {
                Some(found) => Ok(Datum::Word(found.word)),
                None => self.length(text, Sign::Positive).map(Datum::Length),
            },
            Kind::Number { least, most } => number(text, *least, *most).map(Datum::Number),
            Kind::NumberOr { least, most, words } => match words.iter().find(|w| w.word == text) {
                Some(found) => Ok(Datum::Word(found.word)),
                None => number(text, *least, *most).map(Datum::Number),
            },
            Kind::Density => density(text).map(Datum::Number),
            Kind::Scale => scale(text).map(Datum::Number),
            Kind::Whole { least, most } => whole(text, *least, *most).map(Datum::Whole),
            Kind::YesNo => match &node.content {
                Content::YesNo(yes) => Ok(Datum::YesNo(*yes)),
                _ => trouble("this is neither true nor false", None),
            },
            Kind::Word(words) => word(text, words).map(Datum::Word),
            Kind::Unit => unit(text).map(Datum::Unit),
            Kind::Rule => match text.parse() {
                Ok(rule) => Ok(Datum::Rule(rule)),
                Err(_) => trouble("no such rule is known", None),
            },
            Kind::Text | Kind::FileOr(_) | Kind::Name(_) => line(text).map(Datum::Text),
            _ => trouble("a list or a mapping is wanted here", None),
        }
    }

    fn length(&self, text: &str, sign: Sign) -> Read<f64> {
        let mm = parse_length(text, self.unit).map_err(|LengthError { fault, at }| Trouble {
            what: fault.to_string(),
            help: None,
            at: at.start,
        })?;
        let ranged = match sign {
            Sign::Any => Ok(mm),
            Sign::NotNegative => not_negative(mm),
            Sign::Positive => positive(mm),
        };
        ranged.or_else(|error| trouble(error.to_string(), None))
    }
}

/// A mark moved along its text, where the text stands in the file as it is.
fn moved(mark: &Mark, text: &str, at: usize) -> Mark {
    let before = text.get(..at).unwrap_or_default();
    let along = if mark.plain && !text.contains('\n') {
        before.chars().count()
    } else {
        0
    };
    Mark {
        column: mark.column + along,
        ..mark.clone()
    }
}

fn angle(text: &str) -> Read<f64> {
    parse_angle(text).map_err(|error| Trouble {
        what: error.fault.to_string(),
        help: None,
        at: error.at.start,
    })
}

/// An angle in radians that is from `least` to `most` degrees.
fn angle_between(text: &str, least: f64, most: f64) -> Read<f64> {
    let angle = angle(text)?;
    let degrees = angle.to_degrees();
    if (least - ANGLE_ROUNDING..=most + ANGLE_ROUNDING).contains(&degrees) {
        Ok(angle)
    } else {
        trouble(format!("this is not from {least} to {most} degrees"), None)
    }
}

/// What turning degrees into radians and back may add, degrees.
const ANGLE_ROUNDING: f64 = 1e-9;

/// A density in kN/m³, which a bare number is in too; its cube may be written `³` or `3`.
fn density(text: &str) -> Read<f64> {
    let text = text.trim().replace('³', "3");
    let (figure, scale) = DENSITIES
        .iter()
        .find_map(|(unit, scale)| text.strip_suffix(unit).map(|figure| (figure, *scale)))
        .unwrap_or((&text, 1.0));
    match figure.trim().parse::<f64>().map(|figure| figure * scale) {
        Ok(density) if (LIGHTEST..=HEAVIEST).contains(&density) => Ok(density),
        Ok(density) => trouble(
            format!("{density:.2} kN/m³ is not from {LIGHTEST} to {HEAVIEST} kN/m³"),
            None,
        ),
        Err(_) => trouble("this is not a density", None),
    }
}

/// Units of density, each in kN/m³: by the standard gravity of 9.80665 m/s², the pound of 0.45359237 kg and the foot of 0.3048 m.
const DENSITIES: &[(&str, f64)] = &[
    ("kN/m3", 1.0),
    ("kg/m3", 9.80665e-3),
    ("lb/ft3", 9.80665e-3 * 0.453_592_37 / (0.3048 * 0.3048 * 0.3048)),
];

/// Anything lighter or heavier is no masonry, kN/m³.
const LIGHTEST: f64 = 1.0;
const HEAVIEST: f64 = 80.0;

/// How many times smaller than the real thing: `1:20` is 20.
fn scale(text: &str) -> Read<f64> {
    let times = text.trim().strip_prefix("1:").unwrap_or(text).trim();
    match times.parse::<f64>() {
        Ok(times) if (1.0..=SMALLEST).contains(&times) => Ok(times),
        Ok(_) => trouble(format!("a scale is from 1:1 to 1:{SMALLEST}"), None),
        Err(_) => trouble("this is not a scale", None),
    }
}

/// Smaller than this nothing of an arch is left, as 1 to so many.
const SMALLEST: f64 = 500.0;

fn number(text: &str, least: f64, most: f64) -> Read<f64> {
    match text.trim().parse::<f64>() {
        Ok(number) if (least..=most).contains(&number) => Ok(number),
        Ok(_) => trouble(format!("this is not from {least} to {most}"), None),
        Err(_) => trouble("this is not a number", None),
    }
}

fn whole(text: &str, least: u32, most: u32) -> Read<u32> {
    match text.trim().parse::<u32>() {
        Ok(whole) if (least..=most).contains(&whole) => Ok(whole),
        _ => trouble(format!("this is not a whole number from {least} to {most}"), None),
    }
}

fn word(text: &str, words: &'static [Word]) -> Read<&'static str> {
    match words.iter().find(|w| w.word == text) {
        Some(found) => Ok(found.word),
        None => {
            let known = words.iter().map(|w| w.word);
            trouble("no such word is known here", Some(suggestion(text, known)))
        }
    }
}

fn unit(text: &str) -> Read<cintre_measure::Unit> {
    match text {
        "mm" => Ok(cintre_measure::Unit::Millimetre),
        "in" => Ok(cintre_measure::Unit::Inch),
        _ => trouble("no such unit is known here", None),
    }
}

fn line(text: &str) -> Read<String> {
    let count = text.chars().count();
    if text.trim().is_empty() {
        trouble("this is empty", None)
    } else if count > LONGEST_TEXT {
        let help = format!("take at most {LONGEST_TEXT}");
        trouble(format!("this has {count} characters"), Some(help))
    } else if text.chars().any(|c| c.is_control() || TURNS.contains(&c)) {
        trouble(
            "this holds a line break or another character that cannot be written",
            None,
        )
    } else {
        Ok(text.to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::density;

    #[test]
    fn a_density_is_read_in_each_of_its_units() {
        for text in [
            "20",
            "20 kN/m3",
            "20 kN/m³",
            "2039.43243 kg/m³",
            "127.317611 lb/ft3",
        ] {
            let read = density(text).unwrap_or_else(|_| panic!("{text} is a density"));
            assert!((read - 20.0).abs() < 1e-5, "{text} is read as {read}");
        }
        assert!(density("2000").is_err());
        assert!(density("heavy").is_err());
    }
}
