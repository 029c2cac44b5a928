//! A made folder, read back from wherever it has been carried to and proven again.

use crate::{BeamRecord, DrawingRecord, ProgramRecord, prove_beam, prove_drawing, prove_sheet};
use cintre_work::design::{Design, DesignSheet};
use cintre_work::manifest::{CutFile, Format, Manifest, ManifestSheet};
use cintre_work::{Finding, Verdict};
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::fmt::Write as _;

mod papers;

/// The manifest's own name.
pub const MANIFEST: &str = "manifest.json";
/// The design's.
pub const DESIGN: &str = "design.json";

/// Figures nearer than this are the same, mm: what reading them back from JSON can change.
const SAME_FIGURE: f64 = 1e-6;

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

    fn sheets(&mut self, manifest: &Manifest, plan: &Design) {
        let ids = |sheets: Vec<&str>| sheets.into_iter().map(str::to_owned).collect::<Vec<_>>();
        let listed = ids(manifest.sheets.iter().map(|s| s.id.as_str()).collect());
        let designed = ids(plan.sheets.iter().map(|s| s.id.as_str()).collect());
        if listed != designed {
            self.disagrees("its sheets are not those of the design");
        }
        for sheet in &manifest.sheets {
            match plan.sheets.iter().find(|s| s.id == sheet.id) {
                Some(design) => self.sheet(sheet, design),
                None => self.disagrees(format!("{} is not in the design", sheet.id)),
            }
        }
    }

    fn sheet(&mut self, sheet: &ManifestSheet, design: &DesignSheet) {
        let id = &sheet.id;
        let same = |a: f64, b: f64| (a - b).abs() < 1e-6;
        if !same(sheet.thickness, design.thickness)
            || !same(sheet.size[0], design.size[0])
            || !same(sheet.size[1], design.size[1])
        {
            self.disagrees(format!("the stock of {id} is not that of the design"));
        }
        if !sheet.parts.iter().eq(design.parts.iter().map(|p| &p.name)) {
            self.disagrees(format!("the parts of {id} are not those of the design"));
        }
        let held: Vec<(&CutFile, Option<Vec<u8>>)> = sheet
            .files
            .iter()
            .map(|f| (f, self.bytes(&f.path, &f.sha256)))
            .collect();
        let mut programs = Vec::new();
        for (file, bytes) in held.iter().filter(|(f, _)| is_routed(f)) {
            match (ProgramRecord::of(file), bytes) {
                (Some(record), Some(bytes)) => programs.push((record, bytes.as_slice())),
                (None, _) => self.disagrees(format!("{} lacks what a program must have", file.path)),
                (_, None) => {}
            }
        }
        if design.router.is_some() && programs.is_empty() {
            self.disagrees(format!("{id} is routed and has no program"));
        }
        let drawn = |f: &CutFile| matches!(f.format, Format::Gcode | Format::Hpgl) || f.allowance == "kerf";
        if design.beam.is_some() && !sheet.files.iter().any(drawn) {
            self.disagrees(format!(
                "{id} is cut by a beam or drawn by a pen and has no file for it"
            ));
        }
        let mut proven = prove_sheet(design, &programs).into_iter();
        for (file, bytes) in &held {
            let verdict = match (file.format, bytes) {
                (_, None) => unproven("it is not there"),
                (Format::Gcode | Format::Hpgl, Some(bytes)) if !is_routed(file) => BeamRecord::of(file)
                    .map_or_else(
                        || unproven("its unit is neither mm nor in"),
                        |record| prove_beam(design, &record, bytes),
                    ),
                (Format::Gcode, _) if ProgramRecord::of(file).is_some() => {
                    proven.next().unwrap_or_else(|| unproven("it was not proven"))
                }
                (Format::Gcode, _) => unproven("the manifest lacks what a program must have"),
                (_, Some(bytes)) => DrawingRecord::of(file).map_or_else(
                    || unproven("its unit is neither mm nor in"),
                    |record| prove_drawing(design, &record, bytes),
                ),
            };
            self.record(file, &verdict);
            self.files.push(FileVerdict {
                path: file.path.clone(),
                verdict,
            });
        }
    }
}

impl Folder<'_> {
    /// A file that is what it was must come out as the manifest says it did.
    fn record(&mut self, file: &CutFile, verdict: &Verdict) {
        let same = |a: f64, b: f64| (a - b).abs() < SAME_FIGURE;
        let (then, path) = (&file.proof, file.path.clone());
        let alike = same(then.gouge, verdict.gouge)
            && same(then.leftover, verdict.leftover)
            && same(then.uncut_edge, verdict.uncut_edge)
            && then.passed == verdict.passed;
        let changed = [
            FolderFinding::Altered(path.clone()),
            FolderFinding::Missing(path.clone()),
        ];
        if !alike && !changed.iter().any(|f| self.findings.contains(f)) {
            self.disagrees(format!("{path} does not come out as its proof says"));
        }
    }
}

/// Whether a file is run by bits: a beam's or a pen's program has none.
fn is_routed(file: &CutFile) -> bool {
    file.format == Format::Gcode && file.bit.is_some()
}

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
