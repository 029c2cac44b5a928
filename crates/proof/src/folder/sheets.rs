//! The cut files of a made folder, sheet by sheet.

use super::at_once::at_once;
use super::{DESIGN, FileVerdict, Folder, FolderFinding, unproven};
use crate::{BeamRecord, DrawingRecord, ProgramRecord, prove_beam, prove_drawing, prove_sheet};
use cintre_work::Verdict;
use cintre_work::design::{Design, DesignSheet};
use cintre_work::manifest::{CutFile, Format, Manifest, ManifestSheet};

/// Figures nearer than this are the same, mm: what reading them back from JSON can change.
const SAME_FIGURE: f64 = 1e-6;

/// A sheet of the manifest with its design and the bytes of its files.
struct Held<'a> {
    design: &'a DesignSheet,
    files: Vec<(&'a CutFile, Option<Vec<u8>>)>,
}

impl Folder<'_> {
    /// Every cut file of every sheet, against its design.
    pub(super) fn sheets(&mut self, manifest: &Manifest, plan: &Design) {
        let listed = manifest.sheets.iter().map(|s| &s.id);
        if !listed.eq(plan.sheets.iter().map(|s| &s.id)) {
            self.disagrees("its sheets are not those of the design");
        }
        let mut held = Vec::new();
        for sheet in &manifest.sheets {
            match plan.sheets.iter().find(|s| s.id == sheet.id) {
                Some(design) => held.push(self.held(sheet, design)),
                None => self.disagrees(format!("{} is not in the design", sheet.id)),
            }
        }
        for (sheet, verdicts) in held.iter().zip(at_once(&held, Held::verdicts)) {
            // What a file leaves is judged with the sheet's others, so one that was changed changes the figures of them all.
            let paths = sheet.files.iter().map(|(file, _)| file.path.as_str());
            let as_made = !paths.chain([DESIGN]).any(|path| self.changed(path));
            for ((file, _), verdict) in sheet.files.iter().zip(verdicts) {
                if as_made {
                    self.record(file, &verdict);
                }
                self.files.push(FileVerdict {
                    path: file.path.clone(),
                    verdict,
                });
            }
        }
    }

    /// A sheet's files; where manifest and design disagree on it is noted.
    fn held<'a>(&mut self, sheet: &'a ManifestSheet, design: &'a DesignSheet) -> Held<'a> {
        let id = &sheet.id;
        if !same(sheet.thickness, design.thickness)
            || !same(sheet.size[0], design.size[0])
            || !same(sheet.size[1], design.size[1])
        {
            self.disagrees(format!("the stock of {id} is not that of the design"));
        }
        if !sheet.parts.iter().eq(design.parts.iter().map(|p| &p.name)) {
            self.disagrees(format!("the parts of {id} are not those of the design"));
        }
        let routed = || sheet.files.iter().filter(|f| is_routed(f));
        for file in routed().filter(|f| ProgramRecord::of(f).is_none()) {
            self.disagrees(format!("{} lacks what a program must have", file.path));
        }
        if design.router.is_some() && routed().next().is_none() {
            self.disagrees(format!("{id} is routed and has no program"));
        }
        let drawn = |f: &CutFile| matches!(f.format, Format::Gcode | Format::Hpgl) || f.allowance == "kerf";
        if design.beam.is_some() && !sheet.files.iter().any(drawn) {
            self.disagrees(format!(
                "{id} is cut by a beam or drawn by a pen and has no file for it"
            ));
        }
        let files = sheet.files.iter();
        Held {
            design,
            files: files.map(|f| (f, self.bytes(&f.path, &f.sha256))).collect(),
        }
    }

    /// Whether a file is known not to be what it was.
    fn changed(&self, path: &str) -> bool {
        let kinds = [
            FolderFinding::Altered,
            FolderFinding::Missing,
            FolderFinding::Unreadable,
        ];
        kinds
            .iter()
            .any(|of| self.findings.contains(&of(path.to_owned())))
    }

    /// A file that is what it was must come out as the manifest says it did.
    fn record(&mut self, file: &CutFile, verdict: &Verdict) {
        let (then, path) = (&file.proof, &file.path);
        let alike = same(then.gouge, verdict.gouge)
            && same(then.leftover, verdict.leftover)
            && same(then.uncut_edge, verdict.uncut_edge)
            && then.passed == verdict.passed;
        if !alike {
            self.disagrees(format!("{path} does not come out as its proof says"));
        }
    }
}

impl Held<'_> {
    /// What is found in each file, in their order.
    fn verdicts(&self) -> Vec<Verdict> {
        let mut programs = Vec::new();
        for (file, bytes) in self.files.iter().filter(|(file, _)| is_routed(file)) {
            if let (Some(record), Some(bytes)) = (ProgramRecord::of(file), bytes) {
                programs.push((record, bytes.as_slice()));
            }
        }
        let mut routed = prove_sheet(self.design, &programs).into_iter();
        let each = self.files.iter().map(|(file, bytes)| match bytes {
            None => unproven("it is not there"),
            Some(_) if is_routed(file) && ProgramRecord::of(file).is_some() => {
                routed.next().unwrap_or_else(|| unproven("it was not proven"))
            }
            Some(_) if is_routed(file) => unproven("the manifest lacks what a program must have"),
            Some(bytes) => self.alone(file, bytes),
        });
        each.collect()
    }

    /// What is found in a file that is proven by itself: a drawing, or the program of a beam or a pen.
    fn alone(&self, file: &CutFile, bytes: &[u8]) -> Verdict {
        let verdict = match file.format {
            Format::Gcode | Format::Hpgl => {
                BeamRecord::of(file).map(|record| prove_beam(self.design, &record, bytes))
            }
            Format::Dxf | Format::Svg => {
                DrawingRecord::of(file).map(|record| prove_drawing(self.design, &record, bytes))
            }
        };
        verdict.unwrap_or_else(|| unproven("its unit is neither mm nor in"))
    }
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < SAME_FIGURE
}

/// Whether a file is run by bits: a beam's or a pen's program has none.
fn is_routed(file: &CutFile) -> bool {
    file.format == Format::Gcode && file.bit.is_some()
}
