//! The drawings on paper of a made folder.

use super::{FileVerdict, Folder, unproven};
use crate::prove_paper;
use cintre_work::design::Design;
use cintre_work::manifest::Manifest;

/// Where drawings on paper stand.
const PAPER: &str = "paper/";

impl Folder<'_> {
    /// Every drawing on paper, against its lines in the design.
    pub(super) fn papers(&mut self, manifest: &Manifest, plan: &Design) {
        for paper in &plan.papers {
            let Some(file) = manifest.others.iter().find(|other| other.path == paper.path) else {
                self.disagrees(format!("{} is not named", paper.path));
                continue;
            };
            // Whether it was altered has been said already.
            let bytes = self
                .present
                .contains(file.path.as_str())
                .then(|| (self.read)(&file.path));
            let verdict = match bytes.flatten() {
                Some(bytes) => prove_paper(paper, &bytes),
                None => unproven("it is not there"),
            };
            self.files.push(FileVerdict {
                path: file.path.clone(),
                verdict,
            });
        }
        for other in &manifest.others {
            if other.path.starts_with(PAPER) && !plan.papers.iter().any(|paper| paper.path == other.path) {
                self.disagrees(format!("{} is not in the design", other.path));
            }
        }
    }
}
