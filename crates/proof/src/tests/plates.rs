//! A plate with an opening, two bores and a mark, by a drill and a router bit.

use super::{bit, disc, record, said};
use crate::prove_sheet;
use cintre_work::Verdict;
use cintre_work::design::{DesignBore, DesignPart, DesignRelief, DesignRouter, DesignSheet};
use proptest::prelude::*;

const DRILL: &str = "\
G21 G90 G17 G94 G40 G49
S3000 M3
G0 Z12
G0 X40 Y70
G1 Z-12.3 F300
G0 Z12
G0 X160
G1 Z-5
G0 Z12
M30
";

const PLATE: &str = "\
G21 G90 G17 G94 G40 G49
S16000 M3
G0 Z12
(MARK)
G0 X60 Y100
G1 Z-0.5 F900
G1 X140 F3000
G0 Z12
(OPENING)
G0 X83 Y53
G1 Z-12.3 F900
G1 X117 F3000
G1 Y77
G1 X83
G1 Y53
G0 Z12
(OUTLINE)
G0 X100 Y17
G1 Z-12.3 F900
G1 X180 F3000
G3 X183 Y20 I0 J3
G1 Y120
G3 X180 Y123 I-3 J0
G1 X20
G3 X17 Y120 I0 J-3
G1 Y20
G3 X20 Y17 I3 J0
G1 X100
G0 Z12
M30
";

pub(super) fn plate() -> DesignSheet {
    let bore = |x: f64, depth| DesignBore {
        centre: [x, 70.0],
        diameter: 8.0,
        depth,
    };
    let corners = |points: &[[f64; 2]]| points.iter().map(|p| [p[0], p[1], 0.0]).collect();
    DesignSheet {
        parts: vec![DesignPart {
            name: "plate".to_owned(),
            outline: corners(&[[20.0, 20.0], [180.0, 20.0], [180.0, 120.0], [20.0, 120.0]]),
            openings: vec![corners(&[
                [80.0, 50.0],
                [80.0, 80.0],
                [120.0, 80.0],
                [120.0, 50.0],
            ])],
            bores: vec![bore(40.0, None), bore(160.0, Some(5.0))],
            recesses: Vec::new(),
            marks: vec![corners(&[[60.0, 100.0], [140.0, 100.0]])],
            arrises: Vec::new(),
            reliefs: Vec::new(),
            fit_error: 0.0,
        }],
        tabs: Vec::new(),
        bits: vec![bit("straight-6", 6.0, false), bit("drill-8", 8.0, true)],
        router: disc().router.map(|router| DesignRouter {
            mark_depth: Some(0.5),
            ..router
        }),
        ..disc()
    }
}

fn proven(drill: &str, plate_program: &str) -> Vec<Verdict> {
    let programs = [
        (record("drill-8", 8.0), drill.as_bytes()),
        (record("straight-6", 6.0), plate_program.as_bytes()),
    ];
    prove_sheet(&plate(), &programs)
}

#[test]
fn the_plate_passes_with_its_corners_counted() {
    for verdict in proven(DRILL, PLATE) {
        assert!(verdict.passed, "{}", said(&verdict));
        assert!(verdict.gouge < 0.001 && verdict.leftover < 0.001, "{verdict:?}");
        // By each wall of each corner, a bit of 3 mm stays more than 0.02 mm off from here to the corner.
        let off = 3.0 - (3.02f64 * 3.02 - 9.0).sqrt();
        assert!(
            (verdict.uncut_edge - 8.0 * off).abs() < 0.8,
            "{} for {}",
            verdict.uncut_edge,
            8.0 * off
        );
    }
}

#[test]
fn each_way_to_spoil_the_plate_is_found() {
    for (from, to, expected) in [
        (
            "G1 X117 F3000\nG1 Y77",
            "G1 X116 F3000\nG1 X117 Y54\nG1 Y77",
            "is left standing at an edge of plate",
        ),
        (
            "G1 X117 F3000\nG1 Y77",
            "G1 X117.01 F3000\nG1 Y77",
            "it cuts 0.010 mm into plate",
        ),
        (
            "G1 X117 F3000\nG1 Y77",
            "G1 X116.97 F3000\nG1 Y77",
            "0.030 mm is left standing",
        ),
        ("G1 X140 F3000", "G1 X140 Y100.1 F3000", "mm into plate"),
        ("G1 Z-0.5 F900", "G1 Z-0.6 F900", "mm into plate"),
        (
            "G1 Z-0.5 F900",
            "G1 Z-0.4 F900",
            "no mark is scribed on plate to its depth of 0.50 mm",
        ),
        (
            "G1 X140 F3000",
            "G1 X139 F3000",
            "a mark of plate is scribed 0.99",
        ),
        (
            "G0 X60 Y100\nG1 Z-0.5 F900\nG1 X140 F3000\n",
            "",
            "no mark is scribed",
        ),
        ("G1 X20\n", "G0 X20\n", "a rapid in X or Y"),
    ] {
        let program = PLATE.replacen(from, to, 1);
        assert_ne!(program, PLATE, "{from} is not in it");
        let verdict = &proven(DRILL, &program)[1];
        assert!(
            said(verdict).contains(expected),
            "{from}: {expected} is not in {}",
            said(verdict)
        );
    }
    for (from, to, expected) in [
        ("G1 Z-5", "G1 Z-4.9", "a bore is not cut to its depth of 5.00 mm"),
        ("G1 Z-5", "G1 Z-5.1", "it cuts 0.100 mm below a floor of plate"),
        ("G1 Z-12.3", "G1 Z-11", "is left standing at an edge of plate"),
        ("X160", "X160.1", "it cuts 0.100 mm into plate"),
        ("X40", "X39.9", "it cuts 0.100 mm into plate"),
        ("G1 Z-5\n", "G1 Z-5\nG1 X161\n", "a drill moves sideways"),
    ] {
        let program = DRILL.replacen(from, to, 1);
        assert_ne!(program, DRILL, "{from} is not in it");
        let verdict = &proven(&program, PLATE)[0];
        assert!(
            said(verdict).contains(expected),
            "{from}: {expected} is not in {}",
            said(verdict)
        );
    }
}

#[test]
fn a_corner_is_relieved_where_that_is_planned_and_nowhere_else() {
    let into = |by: f64| {
        let corner = format!(
            "G1 Y53\nG1 X{:.4} Y{:.4}\nG1 X83 Y53\nG0 Z12",
            83.0 - by,
            53.0 - by
        );
        PLATE.replacen("G1 Y53\nG0 Z12", &corner, 1)
    };
    let mut design = plate();
    let told = |design: &DesignSheet, by: f64| {
        let text = into(by);
        assert_ne!(text, PLATE);
        let programs = [
            (record("drill-8", 8.0), DRILL.as_bytes()),
            (record("straight-6", 6.0), text.as_bytes()),
        ];
        said(&prove_sheet(design, &programs)[1])
    };
    assert!(told(&design, 0.8787).contains("mm into plate"));
    design.parts[0].reliefs = vec![DesignRelief {
        from: [83.0, 53.0],
        to: [82.1213, 52.1213],
        diameter: 6.0,
    }];
    assert_eq!(told(&design, 0.8787), "");
    assert!(told(&design, 0.93).contains("mm into plate"), "too far");
    assert!(told(&design, 0.83).contains("a corner of plate is not relieved as planned"));
}

#[test]
fn a_mirrored_drill_program_is_found() {
    let mirrored = DRILL
        .replace("X160", "X_")
        .replace("X40", "X160")
        .replace("X_", "X40");
    let text = said(&proven(&mirrored, PLATE)[0]);
    assert!(
        text.contains("mm below a floor of plate") && text.contains("left standing"),
        "{text}"
    );
}

#[test]
fn a_part_is_not_cut_after_it_is_free() {
    let programs = [
        (record("straight-6", 6.0), PLATE.as_bytes()),
        (record("drill-8", 8.0), DRILL.as_bytes()),
    ];
    let text = said(&prove_sheet(&plate(), &programs)[0]);
    assert!(
        text.contains("plate is still cut after its outline, without a tab, is cut through in line"),
        "{text}"
    );
}

#[test]
fn a_program_that_is_missing_leaves_its_holes() {
    let verdict = &prove_sheet(&plate(), &[(record("straight-6", 6.0), PLATE.as_bytes())])[0];
    let text = said(verdict);
    assert!(
        text.contains("is left standing at an edge of plate") && text.contains("a bore is not cut"),
        "{text}"
    );
    assert!(verdict.leftover > 20.0, "{verdict:?}");
}

#[test]
fn a_bore_wider_than_the_bit_is_covered_all_over() {
    // A blind bore of 16 mm: plunged in the middle, then circled with the 6 mm bit at 5 mm.
    let mut design = plate();
    design.parts[0].bores = vec![DesignBore {
        centre: [160.0, 70.0],
        diameter: 16.0,
        depth: Some(5.0),
    }];
    let round = |r: f64| {
        let (a, b) = (160.0 + r, 160.0 - r);
        format!("G1 X{a} Y70\nG3 X{b} Y70 I-{r} J0\nG3 X{a} Y70 I{r} J0\n")
    };
    let with = |circles: &str| {
        let pocket = format!("G0 Z12\nG0 X160 Y70\nG1 Z-5 F900\n{circles}G0 Z12\n(OPENING)");
        let program = PLATE.replace("G0 Z12\n(OPENING)", &pocket);
        said(&prove_sheet(&design, &[(record("straight-6", 6.0), program.as_bytes())])[0])
    };
    assert_eq!(
        with(&round(5.0)),
        "",
        "the way out from the middle has cut it already"
    );
    assert!(with(&round(4.8)).contains("of a bore's floor or wall is left standing"));
    assert!(with(&round(5.1)).contains("it cuts 0.100 mm into plate"));
    assert!(
        with("G1 X160.1\n").contains("of a bore's floor or wall is left standing"),
        "a plunge alone"
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]
    #[test]
    fn a_wall_moved_is_found(which in 0..3usize, off in 0.025..8.0f64, out: bool) {
        let sign = if out { 1.0 } else { -1.0 };
        let word = ["G1 X117 ", "G1 Y77\n", "G1 X83\n"][which];
        let value: f64 = word[4..].trim().parse().unwrap();
        let moved = word.replacen(word[4..].trim(), &format!("{:.4}", value + sign * off), 1);
        let verdict = &proven(DRILL, &PLATE.replacen(word, &moved, 1))[1];
        prop_assert!(!verdict.passed, "{word} by {off} passes");
    }
}
