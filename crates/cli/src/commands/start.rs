//! `cintre start`: plants a starter job and shop file.

use crate::args::Start;
use crate::outcome::Failure;
use crate::terminal::Terminal;
use std::fs::{self, File};
use std::io::Write;

const SEEDS: [(&str, &str); 2] = [
    ("job.yaml", include_str!("../../../../seeds/job.yaml")),
    ("shop.yaml", include_str!("../../../../seeds/shop.yaml")),
];

pub(crate) fn run(args: &Start, terminal: &Terminal) -> Result<(), Failure> {
    let folder = &args.folder;
    if let Some((name, _)) = SEEDS.iter().find(|(name, _)| folder.join(name).exists()) {
        return Err(Failure::InTheWay {
            path: folder.join(name),
        });
    }
    fs::create_dir_all(folder).map_err(Failure::io(folder, "made"))?;
    for (name, text) in SEEDS {
        let path = folder.join(name);
        // Created anew or not at all, whatever has come there since the look above.
        let mut file = File::create_new(&path).map_err(Failure::io(&path, "written"))?;
        file.write_all(text.as_bytes())
            .map_err(Failure::io(&path, "written"))?;
        terminal.print(&format!("{}\n", path.display()))?;
    }
    let job = folder.join("job.yaml");
    terminal.say(&format!(
        "Put your own sizes into both files, then:\n  cintre check {job}\n  cintre make {job}",
        job = job.display()
    ));
    Ok(())
}
