//! The files that cut the sheets, and what the manifest says of each.

use crate::plan::{Plan, PlannedSheet};
use crate::trouble::Trouble;
use cintre_proof::sha256;
use cintre_toolpath::drawing;
use cintre_work::manifest::{CutFile, FileBit, Format, ManifestSheet};
use cintre_work::{DrawingFormat, DrawingMachine, Machine, Program, Router, Unit, Verdict, ZeroHeight};
use cintre_write_dxf::DxfVersion;
use cintre_write_svg::Palette;

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

/// A program for each bit, and the drawing that anyone can hold them against.
fn routed(plan: &Plan, planned: &PlannedSheet, router: &Router) -> Result<Vec<(CutFile, File)>, Trouble> {
    let programs = planned.road.as_ref().map_or(&[][..], |road| &road.programs);
    let mut made = Vec::new();
    for (number, program) in programs.iter().enumerate() {
        made.push(routed_program(plan, planned, router, number + 1, program)?);
    }
    let plain = DrawingMachine {
        name: router.name.clone(),
        format: DrawingFormat::DxfR12,
        units: Unit::Millimetre,
    };
    let (mut entry, file) = drawn(plan, planned, &plain)?;
    entry.machine = None;
    made.push((entry, file));
    Ok(made)
}

fn routed_program(
    plan: &Plan,
    planned: &PlannedSheet,
    router: &Router,
    number: usize,
    program: &Program,
) -> Result<(CutFile, File), Trouble> {
    let thickness = planned.sheet.stock.thickness;
    let bytes = cintre_write_gcode::write(program, router, thickness, &head(plan, planned, number))
        .map_err(|error| broken(&planned.sheet.id, &error))?;
    let top = match router.zero.height {
        ZeroHeight::StockFace => 0.0,
        ZeroHeight::StockBack => thickness,
    };
    let bit = crate::pictures::file_name(&program.bit);
    let entry = CutFile {
        path: format!(
            "{}/{}-{number}-{bit}.nc",
            crate::pictures::file_name(&router.name),
            planned.sheet.id
        ),
        format: Format::Gcode,
        machine: Some(router.name.clone()),
        bit: Some(FileBit {
            name: program.bit.clone(),
            diameter: program.diameter,
        }),
        allowance: "bit".to_owned(),
        kerf: 0.0,
        top: Some(top),
        floor: Some(top - thickness),
        origin: [router.zero.at.0, router.zero.at.1],
        units: unit_word(router.units).to_owned(),
        sha256: sha256(&bytes),
        proof: open_verdict(),
    };
    Ok(with_file(entry, bytes))
}

/// What whoever runs a program reads first.
fn head(plan: &Plan, planned: &PlannedSheet, number: usize) -> Vec<String> {
    let stock = &planned.sheet.stock;
    let programs = planned.road.as_ref().map_or(0, |road| road.programs.len());
    let mut head = vec![
        format!("job {}", plan.title),
        format!("program {number} of {programs} on this sheet, to be run in their order"),
        format!(
            "stock {}, {}, {} x {} mm, {} mm thick as measured",
            stock.name, stock.material, stock.size.0, stock.size.1, stock.thickness
        ),
    ];
    let seconds = planned
        .road
        .as_ref()
        .and_then(|road| road.program_seconds.get(number - 1));
    head.extend(seconds.map(|s| format!("about {:.0} min", (s / 60.0).ceil())));
    if let Machine::Router(router) = &planned.machine {
        let (x, y) = router.zero.at;
        head.push(if x.abs() + y.abs() > 0.0 {
            format!("X 0 Y 0 is {x} mm right of the near left corner of the stock and {y} mm beyond it")
        } else {
            "X 0 Y 0 is the near left corner of the stock".to_owned()
        });
    }
    head.extend(planned.cautions.iter().cloned());
    head
}

fn drawn(plan: &Plan, planned: &PlannedSheet, machine: &DrawingMachine) -> Result<(CutFile, File), Trouble> {
    let mut drawing = drawing(&planned.sheet);
    drawing.title = format!("{}: {}", plan.title, drawing.title);
    let word = unit_word(machine.units);
    drawing.notes.push(format!("Lengths in {word}."));
    drawing.notes.extend(planned.cautions.iter().cloned());
    let (format, ending, bytes) = match machine.format {
        DrawingFormat::DxfR12 => (
            Format::Dxf,
            "dxf",
            cintre_write_dxf::write(&drawing, DxfVersion::R12, machine.units),
        ),
        DrawingFormat::DxfR2010 => (
            Format::Dxf,
            "dxf",
            cintre_write_dxf::write(&drawing, DxfVersion::R2010, machine.units),
        ),
        DrawingFormat::Svg => {
            let bytes = cintre_write_svg::write(&drawing, &Palette::default())
                .map_err(|e| broken(&planned.sheet.id, &e))?;
            (Format::Svg, "svg", Ok(bytes))
        }
    };
    let bytes = bytes.map_err(|error| broken(&planned.sheet.id, &error))?;
    // The unit in the name reaches whoever opens a file whose numbers do not say it.
    let entry = CutFile {
        path: format!(
            "{}/{}-{word}.{ending}",
            crate::pictures::file_name(&machine.name),
            planned.sheet.id
        ),
        format,
        machine: Some(machine.name.clone()),
        bit: None,
        allowance: "none".to_owned(),
        kerf: 0.0,
        top: None,
        floor: None,
        origin: [0.0, 0.0],
        units: word.to_owned(),
        sha256: sha256(&bytes),
        proof: open_verdict(),
    };
    Ok(with_file(entry, bytes))
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

/// Before the proof nothing has passed.
const fn open_verdict() -> Verdict {
    Verdict {
        gouge: 0.0,
        leftover: 0.0,
        uncut_edge: 0.0,
        passed: false,
        findings: Vec::new(),
    }
}

fn broken(sheet: &str, error: &dyn std::error::Error) -> Trouble {
    Trouble::Broken(format!("{sheet} could not be written: {error}"))
}
