//! The built command.

use serde_json::Value;
use std::env;
use std::path::PathBuf;
use std::process::Output;

/// How a run of the command ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ran {
    /// Its exit status, none where it was killed.
    pub status: Option<i32>,
    /// What it printed as its results.
    pub out: String,
    /// What it said besides.
    pub err: String,
}

impl From<Output> for Ran {
    fn from(output: Output) -> Self {
        Self {
            status: output.status.code(),
            out: String::from_utf8_lossy(&output.stdout).into_owned(),
            err: String::from_utf8_lossy(&output.stderr).into_owned(),
        }
    }
}

impl Ran {
    /// The run itself, once it is sure that it ended with `status`.
    #[track_caller]
    pub fn ended(self, status: i32) -> Self {
        assert_eq!(self.status, Some(status), "\n{}\n{}", self.out, self.err);
        self
    }

    /// The run itself, once it is sure that it said each of `words` on standard error.
    #[track_caller]
    pub fn said(self, words: &[&str]) -> Self {
        for word in words {
            assert!(self.err.contains(word), "`{word}` is missing in:\n{}", self.err);
        }
        self
    }

    /// Its results, read as JSON.
    #[track_caller]
    pub fn json(&self) -> Value {
        serde_json::from_str(&self.out).unwrap_or_else(|error| panic!("{error} in:\n{}", self.out))
    }
}

/// The path of the command. Cargo builds it before it runs the tests of its package, in the profile of the tests.
///
/// # Panics
/// If it is not there.
pub fn cintre() -> PathBuf {
    // TARGET/PROFILE/deps/TEST
    let test = env::current_exe().expect("a test knows where it is");
    let profile = test.ancestors().nth(2).expect("tests lie two folders deep");
    let command = profile.join("cintre").with_extension(env::consts::EXE_EXTENSION);
    assert!(command.is_file(), "{} is not built", command.display());
    command
}
