//! `cintre prove`: a made folder read back and proven again.

use crate::args::Prove;
use crate::folder::files_in;
use crate::outcome::Failure;
use crate::terminal::Terminal;
use cintre_make::Picture;
use cintre_proof::{DESIGN, FolderFinding, FolderVerdict, MANIFEST, NOTHING, prove_folder};
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

pub(crate) fn run(args: &Prove, terminal: &Terminal) -> Result<(), Failure> {
    let folder = &args.folder;
    let present = files_in(folder)?;
    let present: Vec<&str> = present.iter().map(String::as_str).collect();
    let text = |name: &str| {
        let path = folder.join(name);
        fs::read_to_string(&path).map_err(Failure::io(&path, "read"))
    };
    let manifest = text(MANIFEST)?;
    if !present.contains(&DESIGN) {
        return Err(Failure::Unproven(format!(
            "{} does not pass, cut nothing from it: {DESIGN} is missing",
            folder.display()
        )));
    }
    let design = text(DESIGN)?;
    terminal.progress("reading the files back and proving them");
    let read = |path: &str| fs::read(folder.join(path)).ok();
    let verdict = prove_folder(&manifest, &design, &present, &read)
        .map_err(|error| Failure::Unproven(error.to_string()))?;
    if terminal.json {
        terminal.print_json(&told_json(folder, &verdict))?;
    } else {
        terminal.print(&told(&verdict))?;
    }
    if let Some(out) = &args.pictures {
        let pictures = cintre_make::fault_pictures(&manifest, &design, &verdict)
            .map_err(|error| Failure::Unproven(error.to_string()))?;
        for path in written(&pictures, out)? {
            terminal.say(&format!("{}: what is wrong, at its place", path.display()));
        }
    }
    if verdict.passed {
        terminal.say("Every file is what it was and passes. The proof speaks of shape only.");
        Ok(())
    } else {
        Err(Failure::Unproven(format!(
            "{} does not pass: cut nothing from it",
            folder.display()
        )))
    }
}

/// Writes pictures into a folder, which is made only if there are any; gives their paths.
fn written(pictures: &[Picture], out: &Path) -> Result<Vec<PathBuf>, Failure> {
    if !pictures.is_empty() {
        fs::create_dir_all(out).map_err(Failure::io(out, "made"))?;
    }
    let mut paths = Vec::new();
    for picture in pictures {
        let path = out.join(format!("{}.svg", picture.name));
        fs::write(&path, &picture.svg).map_err(Failure::io(&path, "written"))?;
        paths.push(path);
    }
    Ok(paths)
}

/// What was found, a line a file, with what is wrong under it.
pub(crate) fn told(verdict: &FolderVerdict) -> String {
    let mut text = String::new();
    for finding in &verdict.findings {
        // Writing into a string does not fail.
        let _ = writeln!(text, "{finding}");
    }
    // Of a file that is not there no more can be said than that.
    let missing = |path: &str| {
        verdict
            .findings
            .contains(&FolderFinding::Missing(path.to_owned()))
    };
    for file in verdict.files.iter().filter(|file| !missing(&file.path)) {
        let v = &file.verdict;
        let word = if v.passed { "passed" } else { "FAILED" };
        let _ = writeln!(
            text,
            "{word}  {}  gouge {}, leftover {}, edge left uncut {:.1} mm",
            file.path,
            figure(v.gouge),
            figure(v.leftover),
            v.uncut_edge
        );
        for finding in &v.findings {
            let part = finding.part.as_ref().filter(|part| !finding.what.contains(*part));
            let part = part.map_or_else(String::new, |part| format!(", {part}"));
            let at = finding
                .at
                .map_or_else(String::new, |[x, y]| format!(", at ({x:.3}, {y:.3})"));
            let line = finding
                .line
                .map_or_else(String::new, |line| format!(", line {line}"));
            let _ = writeln!(text, "        {}{part}{at}{line}", finding.what);
        }
    }
    text
}

/// A worst distance; without one where there is nothing at all to measure to.
fn figure(distance: f64) -> String {
    if distance < NOTHING {
        format!("{distance:.4} mm")
    } else {
        "without end".to_owned()
    }
}

/// The same for a program to read.
pub(crate) fn told_json(folder: &Path, verdict: &FolderVerdict) -> Value {
    json!({
        "folder": folder.display().to_string(),
        "passed": verdict.passed,
        "findings": verdict.findings.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "files": verdict.files.iter().map(|file| json!({ "path": file.path, "proof": file.verdict })).collect::<Vec<_>>(),
    })
}
