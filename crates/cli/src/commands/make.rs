//! `cintre make`: everything, each cut file read back from disk and proven before the folder is handed over.

use crate::args::Make;
use crate::commands::planned;
use crate::commands::prove::{told, told_json};
use crate::folder::Underway;
use crate::outcome::Failure;
use crate::terminal::Terminal;
use cintre_proof::{DESIGN, FolderVerdict, MANIFEST, prove_folder};
use std::path::{Path, PathBuf};

pub(crate) fn run(args: &Make, terminal: &Terminal) -> Result<(), Failure> {
    let plan = planned(&args.job, terminal)?;
    let shown = terminal.shown(&plan);
    let target = args.out.clone().unwrap_or_else(|| usual_folder(&args.job));
    let folder = Underway::begin(&target)?;
    terminal.progress("writing the files");
    let draft = plan.draft(shown)?;
    for file in &draft.files {
        folder.write(&file.path, &file.bytes)?;
    }
    folder.write(MANIFEST, draft.manifest()?.as_bytes())?;
    terminal.progress("reading the files back and proving them");
    let found = proven(&folder)?;
    for file in draft.completed(&plan, shown, &found.files)? {
        folder.write(&file.path, &file.bytes)?;
    }
    // Once more as it will stand, with the verdicts in it: what is handed over is what `prove` will pass.
    let verdict = proven(&folder)?;
    if !verdict.passed {
        terminal.print(&told(&verdict))?;
        let what = format!(
            "a file failed its proof: {} was not handed over",
            target.display()
        );
        return Err(Failure::Unproven(what));
    }
    folder.hand_over()?;
    for laid in &plan.layouts {
        terminal.say(&laid.sentence(shown));
    }
    for note in plan.notes() {
        terminal.say(&format!("note: {note}"));
    }
    if terminal.json {
        return terminal.print_json(&told_json(&target, &verdict));
    }
    terminal.print(&told(&verdict))?;
    terminal.print(&format!("{}: made and proven\n", target.display()))?;
    terminal.say(if plan.layouts.is_empty() {
        "The proof speaks of shape only. The cautions are at the top of job-sheet.html."
    } else {
        "The proof speaks of shape only: run a program above the work first, hand on the stop. The cautions are at the \
         top of job-sheet.html and of every cut file."
    });
    Ok(())
}

/// What the proof finds in the files as they stand on disk.
fn proven(folder: &Underway) -> Result<FolderVerdict, Failure> {
    let text = |path: &str| -> Result<String, Failure> {
        let bytes = folder.read(path)?;
        String::from_utf8(bytes)
            .map_err(|error| Failure::Broken(format!("{path} came back from disk spoiled: {error}")))
    };
    let present = folder.files()?;
    let present: Vec<&str> = present.iter().map(String::as_str).collect();
    prove_folder(&text(MANIFEST)?, &text(DESIGN)?, &present, &|path| {
        folder.read(path).ok()
    })
    .map_err(|error| Failure::Unproven(error.to_string()))
}

fn usual_folder(job: &Path) -> PathBuf {
    Path::new("out").join(job.file_stem().unwrap_or_else(|| "job".as_ref()))
}
