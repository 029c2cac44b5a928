//! What is wrong with a file, and where.

use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt;

/// One thing that is wrong with a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fault {
    /// The file, as it was named.
    pub file: String,
    /// Its line, counted from 1.
    pub line: usize,
    /// Its column, counted from 1.
    pub column: usize,
    /// The field: `arches.gate.rise`; empty where the whole file is meant.
    pub field: String,
    /// The value as it was given, shortened if it is long; none for a list, a mapping or what is missing.
    pub value: Option<String>,
    /// What is wrong.
    pub what: String,
    /// What is possible, or the nearest that works.
    pub help: Option<String>,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}:{}", self.file, self.line, self.column)?;
        if !self.field.is_empty() {
            write!(f, "  {}", self.field)?;
        }
        if let Some(value) = &self.value {
            write!(f, ": {value}")?;
        }
        write!(f, "\n    {}", self.what)?;
        if let Some(help) = &self.help {
            write!(f, "\n    {help}")?;
        }
        Ok(())
    }
}

/// Everything that is wrong with a file, in the order of its lines; at least one fault.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Faults(pub Vec<Fault>);

impl Faults {
    /// The faults in the order of their lines, or `Ok` if there are none.
    pub(crate) fn check(mut faults: Vec<Fault>) -> Result<(), Self> {
        if faults.is_empty() {
            return Ok(());
        }
        faults.sort_by_key(|fault| (fault.line, fault.column));
        if faults.len() > MOST_FAULTS {
            let what = format!("{} more faults are not told", faults.len() - MOST_FAULTS);
            let next = &faults[MOST_FAULTS];
            let rest = Fault {
                field: String::new(),
                value: None,
                what,
                help: None,
                ..next.clone()
            };
            faults.truncate(MOST_FAULTS);
            faults.push(rest);
        }
        Err(Self(faults))
    }
}

/// More faults than anyone mends at a time.
const MOST_FAULTS: usize = 200;

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.0.iter().enumerate() {
            let gap = if i == 0 { "" } else { "\n" };
            write!(f, "{gap}{fault}")?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}

/// Where a value was written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Place {
    /// The file, as it was named.
    pub file: String,
    /// Its line, counted from 1.
    pub line: usize,
    /// Its column, counted from 1.
    pub column: usize,
    /// The field: `arches.gate.rise`.
    pub field: String,
    /// The value as it was given; none for a list, a mapping or what was left out.
    pub given: Option<String>,
}

impl Place {
    /// A fault of the value at this place.
    pub fn fault(&self, what: impl Into<String>, help: Option<String>) -> Fault {
        Fault {
            file: self.file.clone(),
            line: self.line,
            column: self.column,
            field: self.field.clone(),
            value: self.given.as_deref().map(shortened),
            what: what.into(),
            help,
        }
    }
}

/// The longest value that a fault shows, characters.
const SHOWN: usize = 60;

/// A value on one line, short enough to show.
fn shortened(text: &str) -> String {
    let mut shown: String = text
        .chars()
        .take(SHOWN)
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    if text.chars().nth(SHOWN).is_some() {
        shown.push('…');
    }
    shown
}

/// Where the fields of one mapping were written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Places {
    /// Where the mapping itself begins.
    pub whole: Place,
    fields: BTreeMap<String, Place>,
}

impl Places {
    pub(crate) const fn new(whole: Place, fields: BTreeMap<String, Place>) -> Self {
        Self { whole, fields }
    }

    /// Where `field` was written; where the mapping begins, under the field's name, if it was left out.
    pub fn at(&self, field: &str) -> Place {
        self.fields.get(field).cloned().unwrap_or_else(|| Place {
            field: joined(&self.whole.field, field),
            given: None,
            ..self.whole.clone()
        })
    }
}

/// The path of a field within `path`.
pub(crate) fn joined(path: &str, field: &str) -> String {
    if path.is_empty() {
        field.to_owned()
    } else {
        format!("{path}.{field}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_is_one_clear_block() {
        let place = Place {
            file: "job.yaml".into(),
            line: 7,
            column: 12,
            field: "arches.gate.rise".into(),
            given: Some("90 0".into()),
        };
        let fault = place.fault("two numbers", Some("write one".into()));
        assert_eq!(
            fault.to_string(),
            "job.yaml:7:12  arches.gate.rise: 90 0\n    two numbers\n    write one"
        );
    }

    #[test]
    fn long_values_are_shortened() {
        let shown = shortened(&"é\n".repeat(100));
        assert_eq!(shown.chars().count(), SHOWN + 1);
        assert!(!shown.contains('\n'));
    }
}
