//! A plate by a laser, by a pen's program, by a plotter, and as a drawing with the kerf taken.

use super::plates::plate;
use super::said;
use crate::{BeamRecord, DrawingRecord, prove_beam, prove_drawing};
use cintre_read::LengthUnit;
use cintre_work::Verdict;
use cintre_work::design::{DesignBeam, DesignLift, DesignLight, DesignSheet};
use cintre_work::manifest::Format;

pub(super) const LASER: &str = "\
G21 G90 G17 G94 G40 G49
M5 S0
G0 X60 Y100
M3 S200
G1 X140 F3600
M5 S0
G0 X43.9 Y70
M3 S800
G3 X36.1 Y70 I-3.9 J0 F720
G3 X43.9 Y70 I3.9 J0
M5 S0
G0 X80.1 Y50.1
M3 S800
G1 X119.9
G1 Y79.9
G1 X80.1
G1 Y50.1
M5 S0
G0 X20 Y19.9
M3 S800
G1 X180
G3 X180.1 Y20 I0 J0.1
G1 Y120
G3 X180 Y120.1 I-0.1 J0
G1 X20
G3 X19.9 Y120 I0 J-0.1
G1 Y20
G3 X20 Y19.9 I0.1 J0
M5 S0
M30
";

const PEN: &str = "\
G21 G90 G17 G94 G40 G49
G0 Z5
G0 X60 Y100
G1 Z0 F3000
G1 X140
G0 Z5
G0 X44 Y70
G1 Z0
G3 X36 Y70 I-4 J0
G3 X44 Y70 I4 J0
G0 Z5
G0 X80 Y50
G1 Z0
G1 X120
G1 Y80
G1 X80
G1 Y50
G0 Z5
G0 X20 Y20
G1 Z0
G1 X180
G1 Y120
G1 X20
G1 Y20
G0 Z5
M30
";

/// The plate without its blind bore, for a beam of 0.2 mm or a pen.
pub(super) fn sheet(light: bool, lift: Option<DesignLift>) -> DesignSheet {
    let mut design = plate();
    design.parts[0].bores.truncate(1);
    design.router = None;
    design.bits.clear();
    design.beam = Some(DesignBeam {
        machine: "beam".to_owned(),
        bed: [600.0, 400.0],
        kerf: if light { 0.2 } else { 0.0 },
        line: if light { 0.0 } else { 0.4 },
        light: light.then(|| DesignLight {
            on: "M3".to_owned(),
            off: "M5".to_owned(),
            cut: 800.0,
            mark: 200.0,
        }),
        lift,
        steps_per_mm: Some(40.0),
        own_lines: Vec::new(),
    });
    design
}

pub(super) fn record(format: Format, kerf: f64) -> BeamRecord {
    BeamRecord {
        format,
        unit: LengthUnit::Millimetre,
        origin: [0.0, 0.0],
        kerf,
    }
}

pub(super) fn lasered(text: &str) -> Verdict {
    prove_beam(&sheet(true, None), &record(Format::Gcode, 0.2), text.as_bytes())
}

fn penned(text: &str) -> Verdict {
    let lift = Some(DesignLift::Height([5.0, 0.0]));
    prove_beam(&sheet(false, lift), &record(Format::Gcode, 0.0), text.as_bytes())
}

fn plotted(text: &str) -> Verdict {
    prove_beam(&sheet(false, None), &record(Format::Hpgl, 0.0), text.as_bytes())
}

#[track_caller]
pub(super) fn each_is_found(good: &str, prove: impl Fn(&str) -> Verdict, spoils: &[(&str, &str, &str)]) {
    let verdict = prove(good);
    assert!(verdict.passed, "{}", said(&verdict));
    for (from, to, expected) in spoils {
        let text = good.replacen(from, to, 1);
        assert_ne!(text, good, "{from} is not in it");
        let verdict = prove(&text);
        let found = said(&verdict);
        assert!(
            !verdict.passed && found.contains(expected),
            "{from}: {expected} is not in {found}"
        );
    }
}

#[test]
fn each_way_to_spoil_a_lasers_program_is_found() {
    each_is_found(
        LASER,
        lasered,
        &[
            ("G1 X119.9", "G1 X119.94", "it cuts 0.040 mm into plate"),
            ("G1 X119.9", "G1 X119.86", "is left standing at an edge of plate"),
            ("M5 S0\nG0 X20", "G0 X20", "a rapid with the beam on"),
            (
                "M3 S800\nG1 X180",
                "M3 S700\nG1 X180",
                "the beam at S700, where S800 cuts and S200 marks",
            ),
            (
                "M3 S800\nG1 X180",
                "M3 S200\nG1 X180",
                "is left standing at an edge of plate",
            ),
            ("M3 S200", "M3 S800", "mm into plate"),
            (
                "G0 X60 Y100\nM3 S200\nG1 X140 F3600\nM5 S0\n",
                "",
                "no mark is scribed on plate",
            ),
            ("G1 X140 F3600", "G1 X140 Y100.1 F3600", "mm into plate"),
            (
                "G3 X36.1 Y70 I-3.9",
                "G2 X36.1 Y70 I-3.9",
                "is left standing at an edge of plate",
            ),
            ("G1 X180\n", "", "an arc whose radius"),
        ],
    );
    let (head, rest) = LASER.split_at(LASER.find("G0 X60").unwrap());
    let (mark, rest) = rest.split_at(rest.find("G0 X43.9").unwrap());
    let late = format!(
        "{head}{}",
        rest.replace("M5 S0\nM30", &format!("M5 S0\n{mark}M30"))
    );
    assert!(
        said(&lasered(&late)).contains("plate is still cut after its outline"),
        "{}",
        said(&lasered(&late))
    );
    let wide = prove_beam(&sheet(true, None), &record(Format::Gcode, 0.3), LASER.as_bytes());
    assert!(said(&wide).contains("its kerf is said to be 0.3 mm, and 0.2 mm in the design"));
    let mut small = sheet(true, None);
    small.beam.as_mut().unwrap().bed = [150.0, 400.0];
    assert!(
        said(&prove_beam(&small, &record(Format::Gcode, 0.2), LASER.as_bytes()))
            .contains("it leaves the bed by 30.10 mm")
    );
    let mut deep = sheet(true, None);
    deep.parts[0].bores = plate().parts[0].bores.clone();
    assert!(
        said(&prove_beam(&deep, &record(Format::Gcode, 0.2), LASER.as_bytes()))
            .contains("neither a recess nor a blind bore")
    );
}

#[test]
fn the_kerf_on_the_wrong_side_is_found() {
    let wrong = LASER
        .replace("119.9", "120.1")
        .replace("79.9", "80.1")
        .replace("80.1\nG1 Y50.1", "79.9\nG1 Y49.9");
    assert!(!lasered(&wrong).passed);
}

#[test]
fn each_way_to_spoil_a_pens_program_is_found() {
    each_is_found(
        PEN,
        penned,
        &[
            ("G1 X120", "G1 X120.01", "that the design does not have"),
            ("G1 X180\n", "G1 X180\nG0 Z5\nG1 Z0.5\n", "its line is drawn"),
            (
                "G0 Z5\nG0 X20",
                "G0 X20",
                "a rapid in X or Y at Z 0.000, below the safe height",
            ),
            (
                "G0 X60 Y100\nG1 Z0 F3000\nG1 X140\n",
                "G1 Z5 F3000\n",
                "its line is drawn",
            ),
            ("G3 X36", "G2 X36", "its line is drawn"),
        ],
    );
}

/// The plate's lines for a plotter, its bore in chords.
fn plot() -> String {
    let chords: Vec<String> = (1..=120)
        .map(|i| {
            let turn = std::f64::consts::TAU * f64::from(i) / 120.0;
            format!(
                "{:.0},{:.0}",
                1600.0 + 160.0 * turn.cos(),
                2800.0 + 160.0 * turn.sin()
            )
        })
        .collect();
    format!(
        "IN;\nSP1;\nPU2400,4000;\nPD5600,4000;\nPU1760,2800;\nPD{};\nPU3200,2000;\nPD4800,2000,4800,3200,3200,3200,3200,2000;\n\
         PU800,800;\nPD7200,800,7200,4800,800,4800,800,800;\nPU;\nSP0;\n",
        chords.join(",")
    )
}

#[test]
fn each_way_to_spoil_a_plotters_file_is_found() {
    each_is_found(
        &plot(),
        plotted,
        &[
            ("PD4800,2000", "PD4802,2000", "that the design does not have"),
            ("PU2400,4000;\nPD5600,4000;\n", "", "its line is drawn"),
            (
                "PU800,800;\nPD7200",
                "PD800,800;\nPD7200",
                "that the design does not have",
            ),
            ("7200,4800", "7200,4080", "its line is drawn"),
            ("SP0;\n", "", "does not end with the pen put away"),
        ],
    );
    let mut coarse = sheet(false, None);
    coarse.beam.as_mut().unwrap().steps_per_mm = Some(1016.0 / 25.0);
    assert!(!prove_beam(&coarse, &record(Format::Hpgl, 0.0), plot().as_bytes()).passed);
}

#[test]
fn a_drawing_with_the_kerf_taken_is_proven_as_its_beam_cuts() {
    let drawn = |opening: &str, kerf: f64| {
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300mm\" height=\"200mm\" viewBox=\"0 0 300 200\">\
             <g id=\"mark\"><path d=\"M 60 100 H 140\"/></g><g id=\"bore\"><circle cx=\"40\" cy=\"130\" r=\"3.9\"/></g>\
             <g id=\"opening\"><path d=\"{opening}\"/></g>\
             <g id=\"outline\"><path d=\"M 20 180.1 H 180 A 0.1 0.1 0 0 0 180.1 180 V 80 A 0.1 0.1 0 0 0 180 79.9 H 20 A 0.1 0.1 0 0 0 19.9 80 V 180 A 0.1 0.1 0 0 0 20 180.1 Z\"/></g></svg>"
        );
        let record = DrawingRecord {
            format: Format::Svg,
            unit: LengthUnit::Millimetre,
            origin: [0.0, 0.0],
            allowance: "kerf".to_owned(),
            kerf,
        };
        said(&prove_drawing(&sheet(true, None), &record, svg.as_bytes()))
    };
    let inside = "M 80.1 120.1 V 149.9 H 119.9 V 120.1 Z";
    assert_eq!(drawn(inside, 0.2), "");
    assert!(drawn("M 79.9 119.9 V 150.1 H 120.1 V 119.9 Z", 0.2).contains("mm into plate"));
    assert!(drawn("M 80 120 V 150 H 120 V 120 Z", 0.2).contains("it cuts 0.100 mm into plate"));
    assert!(drawn(inside, 0.1).contains("its kerf is said to be 0.1 mm"));
    assert!(drawn("M 80.1 120.1 V 149.9 H 119.9 V 120.1", 0.2).contains("that is not closed"));
}
