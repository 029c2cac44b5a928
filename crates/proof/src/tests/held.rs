//! A plate held by tabs that a beam leaves.

use super::beams::{LASER, each_is_found, lasered, record, sheet};
use super::said;
use crate::{DrawingRecord, prove_beam, prove_drawing};
use cintre_read::LengthUnit;
use cintre_work::design::{DesignSheet, DesignTab};
use cintre_work::manifest::Format;

/// The plate's outline in two strokes: the beam, of 0.2 mm, is out for 1.2 mm on its lower and its upper side.
fn tabbed() -> (DesignSheet, String) {
    let mut design = sheet(true, None);
    let tab = |y: f64| DesignTab {
        part: "plate".to_owned(),
        at: [100.0, y],
        width: 1.0,
        height: design.thickness,
        flank: 0.0,
    };
    design.tabs = vec![tab(20.0), tab(120.0)];
    let text = LASER
        .replace(
            "G0 X20 Y19.9\nM3 S800\nG1 X180\n",
            "G0 X100.6 Y19.9\nM3 S800\nG1 X180\n",
        )
        .replace(
            "G3 X180 Y120.1 I-0.1 J0\nG1 X20\n",
            "G3 X180 Y120.1 I-0.1 J0\nG1 X100.6\nM5 S0\nG0 X99.4 Y120.1\nM3 S800\nG1 X20\n",
        )
        .replace("G3 X20 Y19.9 I0.1 J0\n", "G3 X20 Y19.9 I0.1 J0\nG1 X99.4\n");
    (design, text)
}

#[test]
fn a_beams_tabs_are_found_again_and_each_way_to_spoil_them_is_found() {
    let (design, good) = tabbed();
    let prove = |text: &str| prove_beam(&design, &record(Format::Gcode, 0.2), text.as_bytes());
    let held = prove(&good);
    assert!(
        held.passed && (held.uncut_edge - 2.0).abs() < 0.5,
        "{} {}",
        held.uncut_edge,
        said(&held)
    );
    each_is_found(
        &good,
        prove,
        &[
            ("G1 X99.4", "G1 X99.6", "a tab 0.60 mm wide or less"),
            ("G1 X99.4", "G1 X100.6", "a planned tab is cut through"),
            ("G1 X99.4", "G1 X99", "a tab reaches 0.90 mm to one side"),
            (
                "G1 X100.6\nM5 S0\nG0 X99.4 Y120.1",
                "G1 X104\nM5 S0\nG0 X99.4 Y120.1",
                "is left standing at an edge of plate",
            ),
        ],
    );
    let whole = prove(LASER);
    assert!(
        !whole.passed && said(&whole).contains("a planned tab is cut through"),
        "{}",
        said(&whole)
    );
    let unplanned = lasered(&good);
    assert!(said(&unplanned).contains("is left standing at an edge of plate"));
    let mut strange = design.clone();
    strange.tabs[0].part = "another".to_owned();
    let verdict = prove_beam(&strange, &record(Format::Gcode, 0.2), good.as_bytes());
    assert!(said(&verdict).contains("a tab of a part that is not on the sheet"));
}

#[test]
fn a_drawing_may_be_open_at_planned_tabs_alone() {
    let svg = |outline: &str| {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300mm\" height=\"200mm\" viewBox=\"0 0 300 200\">\
             <g id=\"mark\"><path d=\"M 60 100 H 140\"/></g><g id=\"bore\"><circle cx=\"40\" cy=\"130\" r=\"3.9\"/></g>\
             <g id=\"opening\"><path d=\"M 80.1 120.1 V 149.9 H 119.9 V 120.1 Z\"/></g><g id=\"outline\">{outline}</g></svg>"
        )
    };
    let record = DrawingRecord {
        format: Format::Svg,
        unit: LengthUnit::Millimetre,
        origin: [0.0, 0.0],
        allowance: "kerf".to_owned(),
        kerf: 0.2,
    };
    let right =
        "<path d=\"M 100.6 180.1 H 180 A 0.1 0.1 0 0 0 180.1 180 V 80 A 0.1 0.1 0 0 0 180 79.9 H 100.6\"/>";
    let left = "<path d=\"M 99.4 79.9 H 20 A 0.1 0.1 0 0 0 19.9 80 V 180 A 0.1 0.1 0 0 0 20 180.1 H 99.4\"/>";
    let both = svg(&format!("{right}{left}"));
    let (held, loose) = (tabbed().0, sheet(true, None));
    let verdict = prove_drawing(&held, &record, both.as_bytes());
    assert!(verdict.passed && verdict.uncut_edge > 1.0, "{}", said(&verdict));
    assert!(said(&prove_drawing(&loose, &record, both.as_bytes())).contains("that is not closed"));
    let short = svg(&format!("{right}{}", left.replace("H 99.4", "H 97")));
    assert!(said(&prove_drawing(&held, &record, short.as_bytes())).contains("that is not closed"));
}
