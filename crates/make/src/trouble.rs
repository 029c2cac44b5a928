//! Why a job cannot be made, in words that point into the user's files.

use cintre_job::{Fault, Faults, Place};
use std::fmt;

/// Why a job cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub enum Trouble {
    /// The job or shop file has faults: words that are wrong, sizes that cannot be.
    Faults(Vec<Fault>),
    /// The files are right, and still it cannot be made: of this stock, with these bits, on this machine.
    Impossible(Vec<Fault>),
    /// A file that the job names could not be read.
    Unread {
        /// Where the job names it.
        place: Place,
        /// The file, as the job names it.
        file: String,
        /// Why, in the words of whoever should have read it.
        why: String,
    },
    /// A fault of this program, told rather than hidden.
    Broken(String),
}

impl Trouble {
    /// One thing that cannot be made.
    pub(crate) fn impossible(fault: Fault) -> Self {
        Self::Impossible(vec![fault])
    }
}

impl From<Faults> for Trouble {
    fn from(faults: Faults) -> Self {
        Self::Faults(faults.0)
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Faults(faults) | Self::Impossible(faults) => {
                let blocks: Vec<String> = faults.iter().map(ToString::to_string).collect();
                f.write_str(&blocks.join("\n"))
            }
            Self::Unread { place, file, why } => {
                let Place {
                    file: job,
                    line,
                    column,
                    field,
                    ..
                } = place;
                write!(f, "{job}:{line}:{column}  {field}: {file} cannot be read: {why}")
            }
            Self::Broken(what) => write!(f, "a fault of cintre itself: {what}"),
        }
    }
}

impl std::error::Error for Trouble {}

/// Gathers what several attempts came to: all that went well, or every fault of those that did not.
pub(crate) fn gathered<T>(
    attempts: impl IntoIterator<Item = Result<T, Fault>>,
) -> Result<Vec<T>, Vec<Fault>> {
    let (mut made, mut faults) = (Vec::new(), Vec::new());
    for attempt in attempts {
        match attempt {
            Ok(value) => made.push(value),
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() { Ok(made) } else { Err(faults) }
}
