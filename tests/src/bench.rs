//! A folder of its own for each test, and what is in a folder.

use crate::{Ran, cintre};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use tempfile::TempDir;

/// The files of a folder with their bytes, by their paths inside. An empty folder is a path that ends in `/`.
pub type Tree = BTreeMap<String, Vec<u8>>;

/// A folder to work in. It vanishes with the test.
#[derive(Debug)]
pub struct Bench(TempDir);

impl Default for Bench {
    fn default() -> Self {
        Self(TempDir::with_prefix("cintre-tests-").expect("a temporary folder can be made"))
    }
}

impl Bench {
    /// A bench with one file on it.
    pub fn with(name: &str, text: &str) -> Self {
        let bench = Self::default();
        bench.write(name, text);
        bench
    }

    /// A bench with `job.yaml` on it, and `shop.yaml` beside it.
    pub fn of(job: &str, shop: &str) -> Self {
        let bench = Self::with("job.yaml", job);
        bench.write("shop.yaml", shop);
        bench
    }

    /// A path on the bench.
    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// Writes a file, and the folders that it lies in.
    pub fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().expect("the bench is a folder")).expect("a folder can be made");
        fs::write(&path, text).expect("a file can be written");
    }

    /// Reads a file of text.
    #[track_caller]
    pub fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
    }

    /// Changes a file of text. The change must change something.
    #[track_caller]
    pub fn edit(&self, name: &str, change: impl Fn(&str) -> String) {
        let before = self.text(name);
        let after = change(&before);
        assert_ne!(before, after, "nothing in {name} was changed");
        self.write(name, after);
    }

    /// Everything on the bench.
    pub fn tree(&self) -> Tree {
        tree(self.0.path())
    }

    /// The command with its arguments, to be run on the bench.
    pub fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(cintre());
        command.args(args).current_dir(self.0.path()).stdin(Stdio::null());
        command.env_remove("NO_COLOR");
        command
    }

    /// Runs the command on the bench.
    pub fn run(&self, args: &[&str]) -> Ran {
        self.command(args).output().expect("the command starts").into()
    }
}

/// Everything in a folder.
pub fn tree(folder: &Path) -> Tree {
    let mut found = Tree::new();
    gather(folder, "", &mut found);
    found
}

fn gather(folder: &Path, inside: &str, found: &mut Tree) {
    for entry in fs::read_dir(folder).expect("a folder can be read") {
        let entry = entry.expect("a folder can be read");
        let path = format!("{inside}{}", entry.file_name().to_string_lossy());
        if entry.file_type().expect("a file has a type").is_dir() {
            found.insert(format!("{path}/"), Vec::new());
            gather(&entry.path(), &format!("{path}/"), found);
        } else {
            found.insert(path, fs::read(entry.path()).expect("a file can be read"));
        }
    }
}
