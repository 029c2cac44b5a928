//! The files of a laser.

use super::{File, broken, dxf, entry, head, noted, plain_drawing, svg, unit_of, with_file};
use crate::plan::{Plan, PlannedSheet};
use crate::trouble::Trouble;
use cintre_work::manifest::{CutFile, Format};
use cintre_work::{Laser, LaserFile};
use cintre_write_dxf::DxfVersion;

/// The files of a laser, and the drawing that anyone can hold them against.
pub(super) fn files(
    plan: &Plan,
    planned: &PlannedSheet,
    laser: &Laser,
) -> Result<Vec<(CutFile, File)>, Trouble> {
    let formats: &[Format] = match laser.writes {
        LaserFile::Gcode => &[Format::Gcode],
        LaserFile::Svg => &[Format::Svg],
        LaserFile::Dxf => &[Format::Dxf],
        LaserFile::Both => &[Format::Gcode, Format::Svg],
    };
    let files = formats
        .iter()
        .map(|format| beam_file(plan, planned, laser, *format));
    files.chain([plain_drawing(plan, planned, &laser.name)]).collect()
}

fn beam_file(
    plan: &Plan,
    planned: &PlannedSheet,
    laser: &Laser,
    format: Format,
) -> Result<(CutFile, File), Trouble> {
    let sheet = &planned.sheet.id;
    let unplanned = || Trouble::Broken(format!("{sheet} has no lines for {}", laser.name));
    let lines = planned.lines.as_ref().ok_or_else(unplanned)?;
    let (kerf, power) = cintre_toolpath::beam_of(laser, &planned.sheet.stock.material)
        .map_err(|error| broken(sheet, &error))?;
    let units = laser.dialect.units;
    let drawing = noted(plan, planned, lines.drawing.clone(), units);
    let folder = crate::pictures::file_name(&laser.name);
    let (path, bytes) = match format {
        Format::Svg => svg(planned, &drawing, &folder)?,
        Format::Dxf => dxf(planned, &drawing, &folder, DxfVersion::R12, units)?,
        Format::Gcode | Format::Hpgl => {
            let bytes = cintre_write_gcode::write_beam(&lines.drawing, laser, power, &head(plan, planned, 1))
                .map_err(|error| broken(sheet, &error))?;
            (format!("{folder}/{sheet}.nc"), bytes)
        }
    };
    let mut entry = entry(format, path, &bytes);
    entry.machine = Some(laser.name.clone());
    "kerf".clone_into(&mut entry.allowance);
    entry.kerf = kerf;
    unit_of(&mut entry, units);
    if format == Format::Gcode {
        entry.origin = laser.dialect.zero.into();
    }
    Ok(with_file(entry, bytes))
}
