//! How a command ends when it does not end well.

use crate::folder::FolderError;
use cintre_job::{Fault, Place};
use cintre_make::Trouble;
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Why a command failed. Each kind has its exit status.
#[derive(Debug, Error)]
pub(crate) enum Failure {
    /// The job or shop file has faults (3).
    #[error("the job or shop file has faults")]
    Faults(Vec<Fault>),
    /// It cannot be made (4).
    #[error("it cannot be made")]
    Impossible(Vec<Fault>),
    /// This program is at fault: nothing is handed over (4).
    #[error("{0}")]
    Broken(String),
    /// A file failed its proof, or a folder is not what it was (5).
    #[error("{0}")]
    Unproven(String),
    /// A file could not be read or written (6).
    #[error("{path} cannot be {what}: {error}")]
    Io {
        path: PathBuf,
        what: &'static str,
        error: io::Error,
    },
    /// A file that another one names could not be read (6).
    #[error("{file}:{line}:{column}  {field}: {failure}")]
    Named {
        file: String,
        line: usize,
        column: usize,
        field: String,
        failure: Box<Self>,
    },
    /// A folder could not be written (6).
    #[error(transparent)]
    Folder(#[from] FolderError),
    /// Something is in the way (6).
    #[error("{path} is there already; nothing was written")]
    InTheWay { path: PathBuf },
    /// Whoever read our output has stopped reading: no failure.
    #[error("the reader of the output went away")]
    ClosedPipe,
}

impl Failure {
    pub(crate) const fn exit_code(&self) -> u8 {
        match self {
            Self::ClosedPipe => 0,
            Self::Faults(_) => 3,
            Self::Impossible(_) | Self::Broken(_) => 4,
            Self::Unproven(_) => 5,
            Self::Io { .. } | Self::Named { .. } | Self::Folder(_) | Self::InTheWay { .. } => 6,
        }
    }

    /// What is wrong in the user's files, if that is why.
    pub(crate) fn faults(&self) -> &[Fault] {
        match self {
            Self::Faults(faults) | Self::Impossible(faults) => faults,
            _ => &[],
        }
    }

    /// This failure, told where the user's file asks for what failed.
    pub(crate) fn asked_for_at(self, place: &Place) -> Self {
        let Place {
            file,
            line,
            column,
            field,
            ..
        } = place.clone();
        Self::Named {
            file,
            line,
            column,
            field,
            failure: Box::new(self),
        }
    }

    /// A file that the operating system refused.
    pub(crate) fn io(path: &Path, what: &'static str) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_owned();
        move |error| Self::Io { path, what, error }
    }
}

impl From<Trouble> for Failure {
    fn from(trouble: Trouble) -> Self {
        match trouble {
            Trouble::Faults(faults) => Self::Faults(faults),
            Trouble::Impossible(faults) => Self::Impossible(faults),
            Trouble::Unread { place, file, why } => {
                let refused = Self::io(file.as_ref(), "read")(io::Error::other(why));
                refused.asked_for_at(&place)
            }
            Trouble::Broken(_) => Self::Broken(trouble.to_string()),
        }
    }
}

impl From<cintre_job::Faults> for Failure {
    fn from(faults: cintre_job::Faults) -> Self {
        Self::Faults(faults.0)
    }
}
