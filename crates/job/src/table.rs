//! What the tables of fields are made of. The reader and the schema both come from them.

/// One field of a mapping.
#[derive(Debug)]
pub(crate) struct Field {
    pub(crate) name: &'static str,
    pub(crate) kind: Kind,
    pub(crate) need: Need,
    /// One line: what it is.
    pub(crate) help: &'static str,
}

/// Whether a field must be given.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Need {
    Required,
    Optional,
    /// What is taken if it is left out, as it would be written.
    Default(&'static str),
    /// The unit that a bare number has where it stands, for a field of the kind [`Kind::Unit`].
    Surrounding,
}

/// What a field holds.
#[derive(Debug)]
pub(crate) enum Kind {
    /// One line of text.
    Text,
    /// A length.
    Length(Sign),
    /// A length from nothing to this, mm.
    LengthTo(f64),
    /// A length a minute.
    Feed,
    /// An angle between two, degrees.
    Angle { least: f64, most: f64 },
    /// An angle, or one of a few words.
    AngleOr(&'static [Word]),
    /// A length that is not negative, or one of a few words.
    LengthOr(&'static [Word]),
    /// A plain number.
    Number { least: f64, most: f64 },
    /// A plain number, or one of a few words.
    NumberOr {
        least: f64,
        most: f64,
        words: &'static [Word],
    },
    /// What a volume weighs: kN/m3, kg/m3 or lb/ft3.
    Density,
    /// How much smaller a model is: `1:20`.
    Scale,
    /// A whole number.
    Whole { least: u32, most: u32 },
    /// `true` or `false`.
    YesNo,
    /// One of a few words.
    Word(&'static [Word]),
    /// `mm` or `in`.
    Unit,
    /// The marks of a rule.
    Rule,
    /// A length between parts, or `margin` and a length.
    Spacing,
    /// The name of something that stands elsewhere.
    Name(Of),
    /// So many of the same.
    Tuple(usize, &'static Self),
    /// Any number of the same.
    List(&'static Self),
    /// A mapping of fields.
    Group(&'static [Field]),
    /// A mapping of fields, or the word `none`.
    GroupOrNone(&'static [Field]),
    /// A length that is not negative, or a mapping of fields.
    LengthOrGroup(&'static [Field]),
    /// A mapping of names, each with the same.
    Named(Of, &'static Self),
    /// A mapping of fields, of which one says which of several cases it is.
    Cases(&'static Cases),
    /// A mapping with one name, that of the case, which holds its fields.
    OneCase(&'static Cases),
    /// The name of a file, or the mapping that would be in it.
    FileOr(&'static [Field]),
}

/// Which lengths make sense.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sign {
    /// Sizes.
    Positive,
    /// Sizes that may be nothing.
    NotNegative,
    /// Coordinates.
    Any,
}

/// A word that a field may be.
#[derive(Debug)]
pub(crate) struct Word {
    pub(crate) word: &'static str,
    pub(crate) help: &'static str,
}

/// What names stand for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Of {
    Arch,
    Stock,
    Bit,
    Machine,
    Material,
}

impl Of {
    /// The field that holds them by their names.
    pub(crate) const fn list(self) -> &'static str {
        match self {
            Self::Arch => "arches",
            Self::Stock => "stock",
            Self::Bit => "bits",
            Self::Machine => "machines",
            Self::Material => "feeds",
        }
    }

    pub(crate) const fn noun(self) -> &'static str {
        match self {
            Self::Arch => "arch",
            Self::Stock => "stock",
            Self::Bit => "bit",
            Self::Machine => "machine",
            Self::Material => "material",
        }
    }
}

/// Several kinds of one thing, each with its fields.
#[derive(Debug)]
pub(crate) struct Cases {
    /// What they are: `shape`, `form`; also the name of the field that tells, for [`Kind::Cases`].
    pub(crate) tag: &'static str,
    /// The case if none is told; none if it must be.
    pub(crate) default: Option<&'static str>,
    pub(crate) help: &'static str,
    /// The fields of every case.
    pub(crate) common: &'static [Field],
    pub(crate) cases: &'static [Case],
}

/// One of several kinds.
#[derive(Debug)]
pub(crate) struct Case {
    pub(crate) name: &'static str,
    pub(crate) help: &'static str,
    pub(crate) fields: &'static [Field],
    /// How many of some fields must be given.
    pub(crate) exactly: Option<(usize, &'static [&'static str])>,
}

impl Case {
    pub(crate) const fn made(name: &'static str, help: &'static str, fields: &'static [Field]) -> Self {
        Self {
            name,
            help,
            fields,
            exactly: None,
        }
    }

    pub(crate) const fn exactly(self, count: usize, of: &'static [&'static str]) -> Self {
        Self {
            exactly: Some((count, of)),
            ..self
        }
    }
}

pub(crate) const fn required(name: &'static str, kind: Kind, help: &'static str) -> Field {
    Field {
        name,
        kind,
        need: Need::Required,
        help,
    }
}

pub(crate) const fn optional(name: &'static str, kind: Kind, help: &'static str) -> Field {
    Field {
        name,
        kind,
        need: Need::Optional,
        help,
    }
}

pub(crate) const fn default(
    name: &'static str,
    kind: Kind,
    value: &'static str,
    help: &'static str,
) -> Field {
    Field {
        name,
        kind,
        need: Need::Default(value),
        help,
    }
}

/// A unit that is that of the surroundings if it is left out.
pub(crate) const fn surrounding(name: &'static str, help: &'static str) -> Field {
    Field {
        name,
        kind: Kind::Unit,
        need: Need::Surrounding,
        help,
    }
}

/// A word that a field may be.
pub(crate) const fn word(word: &'static str, help: &'static str) -> Word {
    Word { word, help }
}

/// How angles are written.
const AN_ANGLE: &str = "an angle: 60, 60 deg, or a slope 1:8";

pub(crate) const LENGTH: Kind = Kind::Length(Sign::Positive);
pub(crate) const LENGTH_OR_0: Kind = Kind::Length(Sign::NotNegative);

impl Kind {
    /// What is wanted, with an example.
    pub(crate) fn wanted(&self) -> String {
        match self {
            Self::Text => "one line of text".to_owned(),
            Self::Length(_) => "a length: 1220, 1220 mm, 54 1/2 in, 4' 6 1/2\"".to_owned(),
            Self::LengthTo(most) => format!("{}; {most} mm at most", LENGTH.wanted()),
            Self::Feed => "a feed, as a length a minute: 3200, 126 in/min".to_owned(),
            Self::Angle { least, most } => format!("{AN_ANGLE}; from {least} to {most} degrees"),
            Self::AngleOr(words) => {
                let words: Vec<_> = words.iter().map(|w| w.word).collect();
                format!("{AN_ANGLE}, or {}", words.join(" or "))
            }
            Self::LengthOr(words) => {
                let words: Vec<_> = words.iter().map(|w| w.word).collect();
                format!("{}, or {}", LENGTH.wanted(), words.join(" or "))
            }
            Self::Number { least, most } => format!("a number from {least} to {most}"),
            Self::NumberOr { least, most, words } => {
                let words: Vec<_> = words.iter().map(|w| w.word).collect();
                format!("a number from {least} to {most}, or {}", words.join(" or "))
            }
            Self::Density => "what a volume weighs: 20, 20 kN/m3, 2000 kg/m3, 120 lb/ft3".to_owned(),
            Self::Scale => "a scale: 1:20".to_owned(),
            Self::Whole { least, most } => format!("a whole number from {least} to {most}"),
            Self::YesNo => "true or false".to_owned(),
            Self::Word(words) => {
                let words: Vec<_> = words.iter().map(|w| w.word).collect();
                words.join(" or ")
            }
            Self::Unit => "mm or in".to_owned(),
            Self::Rule => "1/8, 1/16, 1/32, 1/64, 1 mm or 0.5 mm".to_owned(),
            Self::Spacing => "a length, or `margin 12` for the bit's diameter and 12 more".to_owned(),
            Self::Name(of) => format!("the name of one {}", of.noun()),
            Self::Tuple(count, kind) => format!("{count} in brackets, each {}", kind.wanted()),
            Self::List(kind) => format!("a list in brackets or under dashes, each {}", kind.wanted()),
            Self::Group(_) => "a mapping of fields".to_owned(),
            Self::GroupOrNone(_) => "a mapping of fields, or none".to_owned(),
            Self::LengthOrGroup(fields) => {
                let names: Vec<_> = fields.iter().map(|f| f.name).collect();
                format!("{}, or a mapping of {}", LENGTH.wanted(), names.join(", "))
            }
            Self::Named(of, _) => format!("a mapping from the name of each {} to its fields", of.noun()),
            Self::Cases(cases) => format!("a mapping with its {}", cases.tag),
            Self::OneCase(cases) => format!("the name of a {} with its fields set under it", cases.tag),
            Self::FileOr(_) => "the name of a file, or the mapping itself".to_owned(),
        }
    }
}
