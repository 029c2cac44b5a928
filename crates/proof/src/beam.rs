//! The program of a laser or a pen against its sheet.

use crate::limits::{PAST_EDGE, past};
use crate::report::{Report, spot};
use crate::sheet::faults;
use crate::strokes::{self, Does, Stroke};
use crate::{GOUGE, drawing};
use cintre_geometry::{Piece, Rect, Vec2};
use cintre_read::gcode::{self, Controls};
use cintre_read::{LengthUnit, MoveKind, ProgramRead, ReadMove, hpgl};
use cintre_work::Verdict;
use cintre_work::design::{DesignBeam, DesignLift, DesignLight, DesignSheet};
use cintre_work::manifest::{CutFile, Format};

/// How far an S word may be off the planned one: its last digit.
const SAME_POWER: f64 = 0.06;
/// How far a plotter's chords may stand off their arcs, mm, besides the rounding of its places to whole units.
const CHORDS: f64 = 0.007;
/// A pen this little above where it draws is down, mm.
const DOWN: f64 = 0.002;

/// What must be known of such a program besides its bytes.
#[derive(Clone, Debug, PartialEq)]
pub struct BeamRecord {
    /// What kind of file it is.
    pub format: Format,
    /// The unit of its numbers.
    pub unit: LengthUnit,
    /// Its zero in the sheet's frame, mm.
    pub origin: [f64; 2],
    /// The whole width of the cut that is allowed for in it, 0 for a pen.
    pub kerf: f64,
}

impl BeamRecord {
    /// The record of a program in a manifest; none where its unit is unknown.
    pub fn of(file: &CutFile) -> Option<Self> {
        Some(Self {
            format: file.format,
            unit: LengthUnit::named(&file.units)?,
            origin: file.origin,
            kerf: file.kerf,
        })
    }
}

/// Proves the program of a laser or a pen. Of a laser `gouge` and `leftover` are what its beam takes and leaves; of a pen how
/// far a drawn line stands off the design at worst, and how far a line of the design stands off what is drawn.
pub fn prove_beam(design: &DesignSheet, record: &BeamRecord, bytes: &[u8]) -> Verdict {
    let mut report = Report::default();
    let Some(beam) = &design.beam else {
        report.refuse("no laser or pen is designed for this sheet");
        return report.verdict();
    };
    strokes::kerf(beam, record.kerf, &mut report);
    let mut program = match read(beam, record, bytes) {
        Ok(program) => program,
        Err(what) => {
            report.refuse(what);
            return report.verdict();
        }
    };
    faults(&program, record.unit, &mut report);
    let home = Vec2::new(record.origin[0], record.origin[1]);
    for m in &mut program.moves {
        m.from.at += home;
        m.to.at += home;
    }
    on_bed(&program, design, beam, &mut report);
    match &beam.light {
        Some(light) => laser(&program, design, beam, light, &mut report),
        None => pen(&program, design, beam, record, &mut report),
    }
    report.verdict()
}

fn read(beam: &DesignBeam, record: &BeamRecord, bytes: &[u8]) -> Result<ProgramRead, &'static str> {
    let controls = match (record.format, &beam.light, &beam.lift) {
        (Format::Hpgl, None, _) => {
            let steps = beam.steps_per_mm.filter(|steps| *steps > 0.0);
            return Ok(hpgl::read(
                bytes,
                steps.ok_or("the design does not say how long a plotter's unit is")?,
            ));
        }
        (Format::Gcode, Some(light), _) => Controls::Beam {
            on: &light.on,
            off: &light.off,
        },
        (Format::Gcode, None, Some(DesignLift::Height([up, _]))) => Controls::PenByHeight { up: *up },
        (Format::Gcode, None, Some(DesignLift::Words([up, down]))) => Controls::PenByWords { down, up },
        _ => return Err("a program of a kind that the design does not have"),
    };
    Ok(gcode::read_for(bytes, controls, &beam.own_lines))
}

/// Nothing leaves the bed, and nothing is cut or drawn beyond the stock.
fn on_bed(program: &ProgramRead, design: &DesignSheet, beam: &DesignBeam, report: &mut Report) {
    let bed = Rect::new(0.0, 0.0, beam.bed[0], beam.bed[1]);
    let stock = Rect::new(0.0, 0.0, design.size[0], design.size[1]);
    for (what, area, all) in [
        ("leaves the bed", bed, true),
        ("cuts or draws beyond the stock", stock, false),
    ] {
        let counted = program.moves.iter().filter(|m| all || m.kind != MoveKind::Rapid);
        let past = counted.map(|m| (past(m.piece().bounds(), area), m));
        let worst = past.max_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((by, m)) = worst.filter(|(by, _)| *by > PAST_EDGE + beam.kerf) {
            let finding = report.find(by, format!("it {what} by {by:.2} mm"));
            finding.line = Some(m.line);
            finding.at = spot(m.to.at);
        }
    }
}

fn laser(
    program: &ProgramRead,
    design: &DesignSheet,
    beam: &DesignBeam,
    light: &DesignLight,
    report: &mut Report,
) {
    let mut strokes = Vec::new();
    for m in &program.moves {
        let does = match power(m, light) {
            Ok(does) => does,
            Err(what) => {
                report.refuse(what).line = Some(m.line);
                Does::Cut
            }
        };
        strokes.push(Stroke {
            line: m.line,
            piece: m.piece(),
            does,
        });
    }
    if strokes.is_empty() {
        report.refuse("it moves nowhere");
    }
    strokes::judge(design, &strokes, beam.kerf, true, report);
}

/// What a move does by its power, which must be one of the two planned.
fn power(m: &ReadMove, light: &DesignLight) -> Result<Does, String> {
    let is = |planned: f64| (m.spindle - planned).abs() <= SAME_POWER;
    if m.kind == MoveKind::Rapid || m.spindle <= 0.0 {
        Ok(Does::Travel)
    } else if is(light.cut) {
        Ok(Does::Cut)
    } else if is(light.mark) {
        Ok(Does::Mark)
    } else {
        let (s, cut, mark) = (m.spindle, light.cut, light.mark);
        Err(format!("the beam at S{s}, where S{cut} cuts and S{mark} marks"))
    }
}

fn pen(
    program: &ProgramRead,
    design: &DesignSheet,
    beam: &DesignBeam,
    record: &BeamRecord,
    report: &mut Report,
) {
    let down = |m: &&ReadMove| match beam.lift {
        Some(DesignLift::Height([_, down])) if record.format == Format::Gcode => {
            m.from.z.max(m.to.z) <= down + DOWN
        }
        _ => m.kind != MoveKind::Rapid && m.spindle > 0.0,
    };
    let drawn: Vec<Piece> = program.moves.iter().filter(down).map(ReadMove::piece).collect();
    let off = match (record.format, beam.steps_per_mm) {
        // Half a unit in x and in y.
        (Format::Hpgl, Some(steps)) => CHORDS + std::f64::consts::FRAC_1_SQRT_2 / steps,
        _ => GOUGE,
    };
    drawing::lines(design, &drawn, off, report);
}
