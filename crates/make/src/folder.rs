//! Everything in a made folder, but for what only the proof can say, and then that too.

use crate::cut_files::{File, cut_files};
use crate::figures::Shown;
use crate::job_sheet::{JobSheet, Listed};
use crate::trouble::Trouble;
use crate::{Plan, design};
use cintre_proof::{DESIGN, FileVerdict, sha256};
use cintre_work::manifest::{Manifest, OtherFile};
use std::collections::BTreeSet;

/// A made folder before its proof.
#[derive(Debug)]
pub struct Draft {
    /// Every file so far: cut files, the design, pictures.
    pub files: Vec<File>,
    manifest: Manifest,
}

impl Draft {
    /// The manifest as it stands: before the proof, no file has passed.
    pub fn manifest(&self) -> Result<String, Trouble> {
        json(&self.manifest)
    }

    /// The files that the proof's verdicts complete: the job sheet and, last of all, the manifest.
    pub fn completed(
        mut self,
        plan: &Plan,
        shown: Shown,
        verdicts: &[FileVerdict],
    ) -> Result<Vec<File>, Trouble> {
        for file in self.manifest.sheets.iter_mut().flat_map(|sheet| &mut sheet.files) {
            let proven = verdicts.iter().find(|proven| proven.path == file.path);
            let proven = proven.ok_or_else(|| Trouble::Broken(format!("{} was not proven", file.path)))?;
            file.proof = proven.verdict.clone();
        }
        let sheet = JobSheet {
            plan,
            manifest: &self.manifest,
            files: self.files.iter().map(in_full).collect(),
            shown,
        };
        let job_sheet = File {
            path: "job-sheet.html".to_owned(),
            bytes: sheet.html().into_bytes(),
        };
        self.manifest.others.push(listed(&job_sheet));
        self.manifest.others.sort_by(|a, b| a.path.cmp(&b.path));
        let manifest = File {
            path: cintre_proof::MANIFEST.to_owned(),
            bytes: json(&self.manifest)?.into_bytes(),
        };
        Ok(vec![job_sheet, manifest])
    }
}

impl Plan {
    /// Writes the plan's files, as bytes.
    pub fn draft(&self, shown: Shown) -> Result<Draft, Trouble> {
        let (mut files, sheets) = cut_files(self)?;
        let (printed, papers) = self.printed(shown)?;
        let mut others = vec![
            File {
                path: DESIGN.to_owned(),
                bytes: json(&design::design(&self.sheets, papers))?.into_bytes(),
            },
            self.setting_out_sheet(shown)?,
            self.cutting_list(shown),
        ];
        others.extend(printed);
        others.extend(self.pictures(shown).into_iter().map(|picture| File {
            path: format!("pictures/{}.svg", picture.name),
            bytes: picture.svg.into_bytes(),
        }));
        let manifest = Manifest {
            title: self.title.clone(),
            made_by: format!("cintre {}", env!("CARGO_PKG_VERSION")),
            units: "mm".to_owned(),
            sheets,
            others: others.iter().map(listed).collect(),
            cautions: self.cautions.clone(),
        };
        files.append(&mut others);
        Ok(Draft { files, manifest })
    }
}

/// The paths of every file that a manifest lists; none where the text is no manifest of ours.
pub fn files_listed(manifest: &str) -> Option<BTreeSet<String>> {
    let manifest: Manifest = serde_json::from_str(manifest).ok()?;
    let cut = manifest
        .sheets
        .into_iter()
        .flat_map(|sheet| sheet.files)
        .map(|file| file.path);
    Some(
        cut.chain(manifest.others.into_iter().map(|file| file.path))
            .collect(),
    )
}

/// A file with its size, for the job sheet.
fn in_full(file: &File) -> Listed {
    Listed {
        path: file.path.clone(),
        bytes: file.bytes.len(),
        sha256: sha256(&file.bytes),
    }
}

fn listed(file: &File) -> OtherFile {
    OtherFile {
        path: file.path.clone(),
        sha256: sha256(&file.bytes),
    }
}

fn json(value: &impl serde::Serialize) -> Result<String, Trouble> {
    let text = serde_json::to_string_pretty(value).map_err(|error| Trouble::Broken(error.to_string()))?;
    Ok(text + "\n")
}
