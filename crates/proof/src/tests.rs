//! Hand-written programs, drawings and folders, good and spoilt.

mod arrises;
mod beams;
mod discs;
mod drawings;
mod folders;
mod held;
mod plates;
mod recesses;

use crate::{ProgramRecord, prove_sheet};
use cintre_read::LengthUnit;
use cintre_work::Verdict;
use cintre_work::design::{DesignBit, DesignPart, DesignRouter, DesignSheet, DesignTab};
use cintre_work::manifest::FileBit;

/// A disc of 100 mm about (100, 100), cut clockwise from 15 mm outside with a 6 mm bit, in two passes with two tabs in
/// the second, left and right.
pub(super) const DISC: &str = "\
(DISC)
G21 G90 G17 G94 G40 G49
S16000 M3
G4 P4
G0 Z12
G0 X100 Y153
G1 Z-6 F900
G2 X153 Y100 I0 J-53 F3000
G2 X100 Y47 I-53 J0
G2 X47 Y100 I0 J53
G2 X100 Y153 I53 J0
G1 Z-12.3 F900
G2 X152.5359 Y107 I0 J-53 F3000
G1 Z-7 F900
G2 X152.5359 Y93 I-52.5359 J-7 F3000
G1 Z-12.3 F900
G2 X100 Y47 I-52.5359 J7 F3000
G2 X47.4641 Y93 I0 J53
G1 Z-7 F900
G2 X47.4641 Y107 I52.5359 J7 F3000
G1 Z-12.3 F900
G2 X100 Y153 I52.5359 J-7 F3000
G0 Z12
M30
";

pub(super) fn bit(name: &str, diameter: f64, drill: bool) -> DesignBit {
    DesignBit {
        name: name.to_owned(),
        diameter,
        cutting_length: 20.0,
        drill,
        angle: None,
        holder: None,
    }
}

pub(super) fn disc() -> DesignSheet {
    let tab = |x: f64| DesignTab {
        part: "disc".to_owned(),
        at: [x, 100.0],
        width: 8.0,
        height: 5.0,
        flank: 0.0,
    };
    DesignSheet {
        id: "sheet-1".to_owned(),
        size: [300.0, 200.0],
        thickness: 12.0,
        parts: vec![DesignPart {
            name: "disc".to_owned(),
            outline: vec![[150.0, 100.0, 1.0], [50.0, 100.0, 1.0]],
            openings: Vec::new(),
            bores: Vec::new(),
            recesses: Vec::new(),
            marks: Vec::new(),
            arrises: Vec::new(),
            reliefs: Vec::new(),
            fit_error: 0.0,
        }],
        tabs: vec![tab(150.0), tab(50.0)],
        bits: vec![bit("straight-6", 6.0, false), bit("drill-8", 8.0, true)],
        beam: None,
        router: Some(DesignRouter {
            own_lines: Vec::new(),
            machine: "table".to_owned(),
            bed: [2500.0, 1300.0],
            safe_height: 12.0,
            through: 0.3,
            leave_web: 0.0,
            mark_depth: None,
            keep_outs: Vec::new(),
        }),
    }
}

pub(super) fn record(bit: &str, diameter: f64) -> ProgramRecord {
    ProgramRecord {
        bit: FileBit {
            name: bit.to_owned(),
            diameter,
        },
        later_bits: Vec::new(),
        top: 0.0,
        floor: -12.0,
        origin: [0.0, 0.0],
        unit: LengthUnit::Millimetre,
    }
}

pub(super) fn prove(design: &DesignSheet, program: &str) -> Verdict {
    prove_sheet(design, &[(record("straight-6", 6.0), program.as_bytes())]).remove(0)
}

/// Everything a verdict finds, a line each.
pub(super) fn said(verdict: &Verdict) -> String {
    verdict
        .findings
        .iter()
        .map(|f| format!("{} {:?} {:?}\n", f.what, f.line, f.at))
        .collect()
}

/// A plate with a triangular opening that has its sharp corner at the origin, half of its angle to each side of the y axis.
pub(super) fn plate_with_corner(half: f64) -> DesignSheet {
    let (x, y) = (60.0 * half.sin(), 60.0 * half.cos());
    let mut design = disc();
    design.tabs.clear();
    design.parts[0].outline = [[-100.0, -100.0], [100.0, -100.0], [100.0, 100.0], [-100.0, 100.0]]
        .map(|p| [p[0], p[1], 0.0])
        .to_vec();
    design.parts[0].openings = vec![vec![[0.0, 0.0, 0.0], [-x, y, 0.0], [x, y, 0.0]]];
    design
}
