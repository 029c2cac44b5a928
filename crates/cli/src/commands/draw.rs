//! `cintre draw`: pictures of the arches, the forms and the sheets.

use crate::args::{Draw, PictureFormat};
use crate::commands::planned;
use crate::outcome::Failure;
use crate::terminal::Terminal;
use std::fs;

pub(crate) fn run(args: &Draw, terminal: &Terminal) -> Result<(), Failure> {
    let plan = planned(&args.job, terminal)?;
    let pictures = plan.pictures(terminal.shown(&plan));
    fs::create_dir_all(&args.out).map_err(Failure::io(&args.out, "made"))?;
    for picture in pictures {
        let (ending, bytes) = match args.format {
            PictureFormat::Svg => ("svg", picture.svg.into_bytes()),
            PictureFormat::Png => ("png", cintre_make::png(&picture.svg, args.width)?),
        };
        let path = args.out.join(format!("{}.{ending}", picture.name));
        fs::write(&path, bytes).map_err(Failure::io(&path, "written"))?;
        terminal.print(&format!("{}\n", path.display()))?;
    }
    Ok(())
}
