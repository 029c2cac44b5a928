//! The commands, a file each.

pub(crate) mod check;
pub(crate) mod draw;
pub(crate) mod figures;
pub(crate) mod make;
pub(crate) mod prove;
pub(crate) mod schema;
pub(crate) mod start;

use crate::outcome::Failure;
use crate::patience::Patience;
use crate::terminal::Terminal;
use cintre_job::read_job_and_shop;
use cintre_make::{Conduct, Plan, plan};
use std::path::Path;
use std::{fs, io};

/// Files longer than this are not what they are taken for; bytes. The readers refuse them too, but by then they are read.
const LONGEST: u64 = 1 << 20;
/// A drawing that an arch is traced from may be longer, bytes.
const LONGEST_DRAWING: u64 = 16 << 20;

/// Reads a job and its shop and plans it.
fn planned(job_file: &Path, terminal: &Terminal) -> Result<Plan, Failure> {
    let (job, shop) = read_job_and_shop(
        &job_file.display().to_string(),
        &text(job_file)?,
        |place, name| {
            let file = job_file.parent().unwrap_or_else(|| Path::new("")).join(name);
            let read = text(&file).map_err(|failure| failure.asked_for_at(place))?;
            Ok::<_, Failure>((file.display().to_string(), read))
        },
    )?;
    let patience = Patience::begin(terminal.waits).map_err(Failure::io("Ctrl-C".as_ref(), "listened for"))?;
    let conduct = Conduct {
        say: &|text| terminal.progress(text),
        stop: &|| patience.is_over(),
        read: &|name| {
            let file = job_file.parent().unwrap_or_else(|| Path::new("")).join(name);
            bytes(&file, LONGEST_DRAWING).map_err(|error| error.to_string())
        },
    };
    Ok(plan(&job, &shop, conduct)?)
}

fn text(file: &Path) -> Result<String, Failure> {
    let bytes = bytes(file, LONGEST).map_err(Failure::io(file, "read"))?;
    String::from_utf8(bytes).map_err(|error| Failure::io(file, "read")(io::Error::other(error)))
}

/// A file's bytes, unless there are more than `most`.
fn bytes(file: &Path, most: u64) -> io::Result<Vec<u8>> {
    let size = fs::metadata(file)?.len();
    if size > most {
        return Err(io::Error::other(format!(
            "it is {size} bytes long, and {most} is the most that is taken"
        )));
    }
    fs::read(file)
}
