//! The built command.

use serde_json::Value;
use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

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

/// The path of the command, built first where it is not there or not up to date.
///
/// Cargo shows a package's binary to that package's own tests alone, and holds no lock while it runs tests: so it is asked
/// to build once more, into the same folder and in the same profile as the test that is running.
pub fn cintre() -> &'static Path {
    static PATH: OnceLock<PathBuf> = OnceLock::new();
    PATH.get_or_init(build)
}

fn build() -> PathBuf {
    // TARGET/PROFILE/deps/TEST
    let test = env::current_exe().expect("a test knows where it is");
    let profile = test.ancestors().nth(2).expect("tests lie two folders deep");
    let target = profile.parent().expect("profiles lie in the target folder");
    let profile = match profile.file_name().and_then(|name| name.to_str()) {
        Some("debug") => "dev",
        Some(other) => other,
        None => panic!("the profile of {} is not known", test.display()),
    };
    let output = Command::new(env!("CARGO"))
        .args(["build", "--quiet", "--package", "cintre-cli", "--bin", "cintre"])
        .args([
            "--message-format",
            "json-render-diagnostics",
            "--profile",
            profile,
            "--target-dir",
        ])
        .arg(target)
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
        .output()
        .expect("cargo runs");
    let messages = String::from_utf8_lossy(&output.stdout);
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let mut messages = messages
        .lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).ok());
    let executable = messages.find_map(|message| message["executable"].as_str().map(PathBuf::from));
    executable.expect("cargo tells where it put the command")
}
