//! A made folder, read back from wherever it has been carried to and proven again.

use cintre_work::design::Design;
use cintre_work::manifest::Manifest;
use cintre_work::{Finding, Verdict};
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::fmt::Write as _;

mod at_once;
mod papers;
mod sheets;

/// The manifest's own name.
pub const MANIFEST: &str = "manifest.json";
/// The design's.
pub const DESIGN: &str = "design.json";

/// What proving a folder again found.
#[derive(Clone, Debug, PartialEq)]
pub struct FolderVerdict {
    /// Whether every file is there, is what it was and passes.
    pub passed: bool,
    /// What is wrong with the folder, apart from what single cut files do.
    pub findings: Vec<FolderFinding>,
    /// Every cut file of the manifest, in its order, with what it does now.
    pub files: Vec<FileVerdict>,
}

/// A cut file and what it does now.
#[derive(Clone, Debug, PartialEq)]
pub struct FileVerdict {
    /// Its path in the folder.
    pub path: String,
    /// What the proof finds in it now.
    pub verdict: Verdict,
}

/// Something wrong with a folder.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, thiserror::Error)]
pub enum FolderFinding {
    /// A file that the manifest names is not there.
    #[error("{0}: missing")]
    Missing(String),
    /// A file that the manifest does not name.
    #[error("{0}: not of this job, and not to be cut")]
    Extra(String),
    /// A file that is not what it was.
    #[error("{0}: altered since it was made")]
    Altered(String),
    /// A file that is there and could not be read.
    #[error("{0}: could not be read")]
    Unreadable(String),
    /// The manifest does not agree with the design or with itself.
    #[error("manifest.json: {0}")]
    Disagrees(String),
}

/// Why a folder cannot be proven at all.
#[derive(Debug, thiserror::Error)]
pub enum FolderError {
    /// The manifest is not what this program writes.
    #[error("manifest.json cannot be read: {0}")]
    Manifest(#[source] serde_json::Error),
    /// Nor is the design.
    #[error("design.json cannot be read: {0}")]
    Design(#[source] serde_json::Error),
}

/// Proves a folder again. `manifest` and `design` are the texts of those two files, `present` the paths of every file in
/// the folder (with `/`), and `read` gives the bytes of one.
pub fn prove_folder(
    manifest: &str,
    design: &str,
    present: &[&str],
    read: &dyn Fn(&str) -> Option<Vec<u8>>,
) -> Result<FolderVerdict, FolderError> {
    let manifest: Manifest = serde_json::from_str(manifest).map_err(FolderError::Manifest)?;
    let plan: Design = serde_json::from_str(design).map_err(FolderError::Design)?;
    let mut folder = Folder {
        present: present.iter().copied().collect(),
        read,
        findings: BTreeSet::new(),
        files: Vec::new(),
    };
    folder.names(&manifest);
    folder.design(&manifest, design);
    folder.sheets(&manifest, &plan);
    folder.papers(&manifest, &plan);
    let passed = folder.findings.is_empty() && folder.files.iter().all(|f| f.verdict.passed);
    Ok(FolderVerdict {
        passed,
        findings: folder.findings.into_iter().collect(),
        files: folder.files,
    })
}

/// SHA-256 in hexadecimal, as the manifest holds it.
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes)
        .iter()
        .fold(String::new(), |mut text, byte| {
            // Writing into a string does not fail.
            let _ = write!(text, "{byte:02x}");
            text
        })
}

struct Folder<'a> {
    present: BTreeSet<&'a str>,
    read: &'a dyn Fn(&str) -> Option<Vec<u8>>,
    findings: BTreeSet<FolderFinding>,
    files: Vec<FileVerdict>,
}

impl Folder<'_> {
    fn find(&mut self, finding: FolderFinding) {
        self.findings.insert(finding);
    }

    fn disagrees(&mut self, what: impl Into<String>) {
        self.find(FolderFinding::Disagrees(what.into()));
    }

    /// Files too many, and others too few or altered.
    fn names(&mut self, manifest: &Manifest) {
        let mut named = BTreeSet::from([MANIFEST]);
        let others = manifest.others.iter().map(|f| f.path.as_str());
        let cut = manifest
            .sheets
            .iter()
            .flat_map(|s| &s.files)
            .map(|f| f.path.as_str());
        for path in others.chain(cut) {
            if !named.insert(path) {
                self.disagrees(format!("{path} is named twice"));
            }
        }
        for extra in self.present.clone().difference(&named) {
            self.find(FolderFinding::Extra((*extra).to_owned()));
        }
        for other in &manifest.others {
            self.bytes(&other.path, &other.sha256);
        }
    }

    /// The bytes of a file that the manifest names; what is wrong with them is noted, and they are given even if altered.
    fn bytes(&mut self, path: &str, hash: &str) -> Option<Vec<u8>> {
        if !self.present.contains(path) {
            self.find(FolderFinding::Missing(path.to_owned()));
            return None;
        }
        let Some(bytes) = (self.read)(path) else {
            self.find(FolderFinding::Unreadable(path.to_owned()));
            return None;
        };
        if !sha256(&bytes).eq_ignore_ascii_case(hash) {
            self.find(FolderFinding::Altered(path.to_owned()));
        }
        Some(bytes)
    }

    /// The text that is proven against must be the one that the manifest names.
    fn design(&mut self, manifest: &Manifest, text: &str) {
        match manifest.others.iter().find(|f| f.path == DESIGN) {
            None => self.disagrees("design.json is not named"),
            Some(file) if file.sha256.eq_ignore_ascii_case(&sha256(text.as_bytes())) => {}
            Some(_) => self.find(FolderFinding::Altered(DESIGN.to_owned())),
        }
    }
}

/// The verdict on a file that cannot even be tried.
fn unproven(what: &str) -> Verdict {
    Verdict {
        gouge: 0.0,
        leftover: 0.0,
        uncut_edge: 0.0,
        passed: false,
        findings: vec![Finding {
            what: what.to_owned(),
            part: None,
            at: None,
            line: None,
        }],
    }
}
