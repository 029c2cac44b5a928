//! The files that cut the sheets, and what the manifest says of each.

use crate::duration::minutes;
use crate::plan::{Plan, PlannedSheet};
use crate::trouble::Trouble;
use cintre_proof::sha256;
use cintre_toolpath::drawing;
use cintre_work::manifest::{CutFile, FileBit, Format, ManifestSheet};
use cintre_work::{
    BitChange, Drawing, DrawingFormat, DrawingMachine, Machine, Pen, PenFile, Program, Router, Unit, Verdict,
    ZeroHeight,
};
use cintre_write_dxf::DxfVersion;
use cintre_write_svg::Palette;

mod beam;

/// A file of a made folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct File {
    /// Its path in the folder, with `/`.
    pub path: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// The cut files of every sheet, and the sheets' entries in the manifest, their verdicts still open.
pub(crate) fn cut_files(plan: &Plan) -> Result<(Vec<File>, Vec<ManifestSheet>), Trouble> {
    let (mut files, mut sheets) = (Vec::new(), Vec::new());
    for planned in &plan.sheets {
        let made = match &planned.machine {
            Machine::Router(router) => routed(plan, planned, router)?,
            Machine::Laser(laser) => beam::files(plan, planned, laser)?,
            Machine::Pen(pen) => penned(plan, planned, pen)?,
            Machine::Drawing(machine) => vec![drawn(plan, planned, machine)?],
        };
        let sheet = &planned.sheet;
        let (mut entry, mut bytes): (Vec<CutFile>, Vec<File>) = made.into_iter().unzip();
        files.append(&mut bytes);
        sheets.push(ManifestSheet {
            id: sheet.id.clone(),
            stock: sheet.stock.name.clone(),
            size: [sheet.stock.size.0, sheet.stock.size.1],
            thickness: sheet.stock.thickness,
            parts: sheet.parts.iter().map(|placed| placed.name.clone()).collect(),
            files: std::mem::take(&mut entry),
        });
    }
    Ok((files, sheets))
}

/// A program for each bit, or one for all, and the drawing that anyone can hold them against.
fn routed(plan: &Plan, planned: &PlannedSheet, router: &Router) -> Result<Vec<(CutFile, File)>, Trouble> {
    let programs = planned.road.as_ref().map_or(&[][..], |road| &road.programs);
    let in_file = match router.bit_change {
        BitChange::File => 1,
        BitChange::Pause | BitChange::M6 => programs.len().max(1),
    };
    let mut made = Vec::new();
    for (number, programs) in programs.chunks(in_file).enumerate() {
        made.push(routed_program(plan, planned, router, number + 1, programs)?);
    }
    made.push(plain_drawing(plan, planned, &router.name)?);
    Ok(made)
}

/// The drawing of a sheet without allowance, whoever cuts it.
fn plain_drawing(plan: &Plan, planned: &PlannedSheet, machine: &str) -> Result<(CutFile, File), Trouble> {
    let plain = DrawingMachine {
        name: machine.to_owned(),
        format: DrawingFormat::DxfR12,
        units: Unit::Millimetre,
        allowance: 0.0,
    };
    let (mut entry, file) = drawn(plan, planned, &plain)?;
    entry.machine = None;
    Ok((entry, file))
}

fn routed_program(
    plan: &Plan,
    planned: &PlannedSheet,
    router: &Router,
    number: usize,
    programs: &[Program],
) -> Result<(CutFile, File), Trouble> {
    let thickness = planned.sheet.stock.thickness;
    let bytes = cintre_write_gcode::write(programs, router, thickness, &head(plan, planned, number))
        .map_err(|error| broken(&planned.sheet.id, &error))?;
    let top = match router.zero.height {
        ZeroHeight::StockFace => 0.0,
        ZeroHeight::StockBack => thickness,
    };
    let bits: Vec<FileBit> = programs
        .iter()
        .map(|program| FileBit {
            name: program.bit.clone(),
            diameter: program.diameter,
        })
        .collect();
    let name = if let [only] = programs {
        crate::pictures::file_name(&only.bit)
    } else {
        "all-bits".to_owned()
    };
    let entry = CutFile {
        machine: Some(router.name.clone()),
        bit: bits.first().cloned(),
        later_bits: bits.into_iter().skip(1).collect(),
        allowance: "bit".to_owned(),
        top: Some(top),
        floor: Some(top - thickness),
        origin: [router.zero.at.0, router.zero.at.1],
        units: unit_word(router.units).to_owned(),
        ..entry(
            Format::Gcode,
            format!(
                "{}/{}-{number}-{name}.nc",
                crate::pictures::file_name(&router.name),
                planned.sheet.id
            ),
            &bytes,
        )
    };
    Ok(with_file(entry, bytes))
}

/// The file of a pen, and the drawing that anyone can hold it against.
fn penned(plan: &Plan, planned: &PlannedSheet, pen: &Pen) -> Result<Vec<(CutFile, File)>, Trouble> {
    let sheet = &planned.sheet.id;
    let unplanned = || Trouble::Broken(format!("{sheet} has no lines for {}", pen.name));
    let lines = planned.lines.as_ref().ok_or_else(unplanned)?;
    let folder = crate::pictures::file_name(&pen.name);
    let (mut entry, bytes) = match pen.writes {
        PenFile::HpGl => {
            let bytes =
                cintre_write_hpgl::write(&lines.drawing, pen).map_err(|error| broken(sheet, &error))?;
            (
                entry(Format::Hpgl, format!("{folder}/{sheet}.plt"), &bytes),
                bytes,
            )
        }
        PenFile::Gcode => {
            let bytes = cintre_write_gcode::write_pen(&lines.drawing, pen, &head(plan, planned, 1))
                .map_err(|error| broken(sheet, &error))?;
            (
                entry(Format::Gcode, format!("{folder}/{sheet}.nc"), &bytes),
                bytes,
            )
        }
    };
    entry.machine = Some(pen.name.clone());
    entry.origin = pen.dialect.zero.into();
    if pen.writes == PenFile::Gcode {
        unit_of(&mut entry, pen.dialect.units);
    }
    Ok(vec![
        with_file(entry, bytes),
        plain_drawing(plan, planned, &pen.name)?,
    ])
}

/// What whoever runs a program reads first.
fn head(plan: &Plan, planned: &PlannedSheet, number: usize) -> Vec<String> {
    let stock = &planned.sheet.stock;
    let programs = match (&planned.machine, &planned.road) {
        (Machine::Router(router), Some(road)) if router.bit_change == BitChange::File => road.programs.len(),
        _ => 1,
    };
    let mut head = vec![
        format!("job {}", plan.title),
        format!("program {number} of {programs} on this sheet, to be run in their order"),
        format!(
            "stock {}, {}, {} × {} mm, {} mm thick as measured",
            stock.name, stock.material, stock.size.0, stock.size.1, stock.thickness
        ),
    ];
    head.extend(planned.program_seconds(number).map(minutes));
    let zero = match &planned.machine {
        Machine::Router(router) => Some(router.zero.at),
        Machine::Laser(laser) => Some(laser.dialect.zero),
        Machine::Pen(pen) => Some(pen.dialect.zero),
        Machine::Drawing(_) => None,
    };
    if let Some((x, y)) = zero {
        head.push(if x.abs() + y.abs() > 0.0 {
            let round = stock.outline.as_ref().map_or("", |_| "the box round ");
            format!(
                "X 0 Y 0 is {x} mm right of the near left corner of {round}the stock and {y} mm beyond it"
            )
        } else {
            "X 0 Y 0 is the near left corner of the stock".to_owned()
        });
    }
    head.extend(planned.cautions.iter().cloned());
    head
}

fn drawn(plan: &Plan, planned: &PlannedSheet, machine: &DrawingMachine) -> Result<(CutFile, File), Trouble> {
    let beside = if machine.allowance > 0.0 {
        let beam = cintre_toolpath::Beamed {
            machine: &machine.name,
            bed: planned.sheet.stock.size,
            kerf: machine.allowance,
            least_bridge: 0.0,
            tabs: None,
        };
        let lines = cintre_toolpath::allowed(&planned.sheet, &beam);
        lines.map_err(|error| broken(&planned.sheet.id, &error))?
    } else {
        drawing(&planned.sheet)
    };
    let drawing = noted(plan, planned, beside, machine.units);
    let folder = crate::pictures::file_name(&machine.name);
    let (format, (path, bytes)) = match machine.format {
        DrawingFormat::DxfR12 => (
            Format::Dxf,
            dxf(planned, &drawing, &folder, DxfVersion::R12, machine.units)?,
        ),
        DrawingFormat::DxfR2010 => (
            Format::Dxf,
            dxf(planned, &drawing, &folder, DxfVersion::R2010, machine.units)?,
        ),
        DrawingFormat::Svg => (Format::Svg, svg(planned, &drawing, &folder)?),
    };
    let mut entry = CutFile {
        machine: Some(machine.name.clone()),
        ..entry(format, path, &bytes)
    };
    if machine.allowance > 0.0 {
        "kerf".clone_into(&mut entry.allowance);
        entry.kerf = machine.allowance;
    }
    unit_of(&mut entry, machine.units);
    Ok(with_file(entry, bytes))
}

/// A drawing with its title, its unit and its cautions.
fn noted(plan: &Plan, planned: &PlannedSheet, mut drawing: Drawing, units: Unit) -> Drawing {
    drawing.title = format!("{}: {}", plan.title, drawing.title);
    drawing.notes.push(format!("Lengths in {}.", unit_word(units)));
    drawing.notes.extend(planned.cautions.iter().cloned());
    drawing
}

/// A DXF's path and bytes. The unit in the name reaches whoever opens a file whose numbers do not say it.
fn dxf(
    planned: &PlannedSheet,
    drawing: &Drawing,
    folder: &str,
    version: DxfVersion,
    units: Unit,
) -> Result<(String, Vec<u8>), Trouble> {
    let sheet = &planned.sheet.id;
    let bytes = cintre_write_dxf::write(drawing, version, units).map_err(|error| broken(sheet, &error))?;
    Ok((format!("{folder}/{sheet}-{}.dxf", unit_word(units)), bytes))
}

/// An SVG's path and bytes; it is in mm whatever the shop's unit.
fn svg(planned: &PlannedSheet, drawing: &Drawing, folder: &str) -> Result<(String, Vec<u8>), Trouble> {
    let sheet = &planned.sheet.id;
    let bytes =
        cintre_write_svg::write(drawing, &Palette::default()).map_err(|error| broken(sheet, &error))?;
    Ok((format!("{folder}/{sheet}-mm.svg"), bytes))
}

/// An entry of lines on the finished edges, in mm, its verdict open: before the proof nothing has passed.
fn entry(format: Format, path: String, bytes: &[u8]) -> CutFile {
    CutFile {
        path,
        format,
        machine: None,
        bit: None,
        later_bits: Vec::new(),
        allowance: "none".to_owned(),
        kerf: 0.0,
        top: None,
        floor: None,
        origin: [0.0, 0.0],
        units: unit_word(Unit::Millimetre).to_owned(),
        sha256: sha256(bytes),
        proof: Verdict {
            gouge: 0.0,
            leftover: 0.0,
            uncut_edge: 0.0,
            passed: false,
            findings: Vec::new(),
        },
    }
}

/// States the unit of an entry's numbers; an SVG's stay in mm.
fn unit_of(entry: &mut CutFile, units: Unit) {
    if entry.format != Format::Svg {
        unit_word(units).clone_into(&mut entry.units);
    }
}

fn with_file(entry: CutFile, bytes: Vec<u8>) -> (CutFile, File) {
    let file = File {
        path: entry.path.clone(),
        bytes,
    };
    (entry, file)
}

const fn unit_word(unit: Unit) -> &'static str {
    match unit {
        Unit::Millimetre => "mm",
        Unit::Inch => "in",
    }
}

fn broken(sheet: &str, error: &dyn std::error::Error) -> Trouble {
    Trouble::Broken(format!("{sheet} could not be written: {error}"))
}
