//! A plate with a recess round an island, cleared to and fro and then lapped.

use super::{DISC, disc, prove, said};
use cintre_work::design::{DesignRecess, DesignSheet};
use std::fmt::Write as _;

/// The wall of the recess, in a square disc of wood.
const WALL: [f64; 4] = [110.0, 70.0, 150.0, 130.0];
const ISLAND: [f64; 4] = [120.0, 90.0, 130.0, 110.0];

fn corners([x0, y0, x1, y1]: [f64; 4]) -> Vec<[f64; 3]> {
    [[x0, y0], [x0, y1], [x1, y1], [x1, y0]]
        .map(|p| [p[0], p[1], 0.0])
        .to_vec()
}

fn plate() -> DesignSheet {
    let mut design = disc();
    design.tabs.clear();
    design.parts[0].outline = corners([20.0, 20.0, 180.0, 180.0]);
    design.parts[0].outline.reverse();
    design.parts[0].recesses = vec![DesignRecess {
        outline: corners(WALL),
        islands: vec![corners(ISLAND)],
        depth: 4.0,
    }];
    design
}

/// A lap round a box, `by` wider than it.
fn lap([x0, y0, x1, y1]: [f64; 4], by: f64) -> String {
    let (x0, y0, x1, y1) = (x0 - by, y0 - by, x1 + by, y1 + by);
    format!("G1 X{x0} Y{y0} F3000\nG1 Y{y1}\nG1 X{x1}\nG1 Y{y0}\nG1 X{x0}\n")
}

/// The recess in laps from its wall inward as far as the island, then the outline.
fn program(wall: f64, island: f64, step: f64, z: f64) -> String {
    let mut text = String::from("G21 G90 G17 G94 G40 G49\nS16000 M3\nG0 Z12\nG0 X113 Y73\n");
    let _ = writeln!(text, "G1 Z{z} F900");
    let mut by = wall;
    while by < 40.0 / 2.0 {
        let [x0, y0, x1, y1] = WALL;
        if by > 7.0 {
            // Between the island and the walls above and below it.
            for [y0, y1] in [[y0, 90.0], [110.0, y1]] {
                let _ = write!(text, "G0 Z12\nG0 X{} Y{}\nG1 Z{z}\n", x0 + by, y0 + 3.0);
                text += &lap([x0, y0, x1, y1], -by.min((y1 - y0) / 2.0 - 2.0));
            }
        } else {
            text += &lap([x0, y0, x1, y1], -by);
        }
        by += step;
    }
    let [x0, y0, ..] = ISLAND;
    let _ = write!(text, "G0 Z12\nG0 X{} Y{}\nG1 Z{z}\n", x0 - island, y0 - island);
    text += &lap(ISLAND, island);
    // What lies right of the island.
    text += "G0 Z12\nG0 X135 Y80\n";
    let _ = write!(text, "G1 Z{z}\nG1 Y120\nG1 X138\nG1 Y80\nG1 X142\nG1 Y120\n");
    text += "G0 Z12\nG0 X17 Y17\nG1 Z-12.3 F900\n";
    text += &lap([20.0, 20.0, 180.0, 180.0], 3.0);
    text + "G0 Z12\nM30\n"
}

fn told(design: &DesignSheet, program: &str) -> String {
    said(&prove(design, program))
}

#[test]
fn a_recess_round_an_island_passes() {
    let verdict = prove(&plate(), &program(3.0, 3.0, 4.0, -4.0));
    assert!(verdict.passed, "{}", said(&verdict));
    assert!(verdict.gouge < 0.001, "{verdict:?}");
}

#[test]
fn each_way_to_spoil_it_is_found() {
    for (text, expected) in [
        (program(2.97, 3.0, 4.0, -4.0), "it cuts 0.030 mm into disc"),
        (program(3.0, 2.97, 4.0, -4.0), "it cuts 0.030 mm into disc"),
        (
            program(3.03, 3.0, 4.0, -4.0),
            "mm of a recess's floor or wall is left standing",
        ),
        (
            program(3.0, 3.03, 4.0, -4.0),
            "mm of a recess's floor or wall is left standing",
        ),
        (
            program(3.0, 3.0, 4.0, -4.03),
            "it cuts 0.030 mm below a floor of disc",
        ),
        (
            program(3.0, 3.0, 4.0, -3.97),
            "a recess is not cut to its depth of 4.00 mm",
        ),
        (
            program(3.0, 3.0, 4.0, -4.0).replacen("G1 Y127\n", "G1 Y127 Z-3.9\nG1 Z-4\n", 1),
            "left standing",
        ),
        (
            program(3.0, 3.0, 4.0, -4.0).replacen("G1 Y127\n", "G1 Y127 Z-4.1\nG1 Z-4\n", 1),
            "below a floor",
        ),
    ] {
        let found = told(&plate(), &text);
        assert!(found.contains(expected), "{expected} is not in {found}");
    }
}

#[test]
fn a_ridge_in_the_floor_is_found_wherever_it_stands() {
    let thin = program(3.0, 3.0, 4.0, -4.0).replace("G1 X138\nG1 Y80\nG1 X142\nG1 Y120\n", "");
    let found = told(&plate(), &thin);
    assert!(
        found.contains("of a recess's floor or wall is left standing"),
        "{found}"
    );
}

#[test]
fn a_recess_may_run_out_over_the_edge_of_its_part() {
    // A housing across the whole disc, 12 mm wide, run out 5 mm past the edge on both sides.
    let mut design = disc();
    design.parts[0].recesses = vec![DesignRecess {
        outline: corners([45.0, 94.0, 155.0, 106.0]),
        islands: Vec::new(),
        depth: 4.0,
    }];
    let housing = "G0 Z12\nG0 X42 Y97\nG1 Z-4 F900\nG1 X158 F3000\nG1 Y100\nG1 X42\nG1 Y103\nG1 X158\nG0 Z12\nG0 X100 Y153";
    let with = DISC.replacen("G0 Z12\nG0 X100 Y153", housing, 1);
    assert_eq!(told(&design, &with), "");
    assert!(
        told(&design, DISC).contains("is left standing"),
        "its ends are cut by the outline's pass"
    );
    assert!(
        told(&disc(), &with).contains("mm into disc"),
        "no housing is planned"
    );
}

#[test]
fn a_bore_in_the_floor_of_a_recess() {
    let mut design = plate();
    design.parts[0].recesses[0].islands.clear();
    design.parts[0].bores = vec![cintre_work::design::DesignBore {
        centre: [125.0, 100.0],
        diameter: 10.0,
        depth: Some(8.0),
    }];
    let rows: String = (0..=17)
        .map(|i| {
            let (y, ends) = (
                73.0 + 3.0 * f64::from(i),
                if i % 2 == 0 {
                    ["X113", "X147"]
                } else {
                    ["X147", "X113"]
                },
            );
            format!("G1 Y{y} {}\nG1 {}\n", ends[0], ends[1])
        })
        .collect();
    let round = "G0 Z12\nG0 X127 Y100\nG1 Z-8\nG3 X123 Y100 I-2 J0\nG3 X127 Y100 I2 J0\n";
    let head = "G21 G90 G17 G94 G40 G49\nS16000 M3\nG0 Z12\nG0 X113 Y73\nG1 Z-4 F900\n";
    let tail = format!(
        "G0 Z12\nG0 X17 Y17\nG1 Z-12.3\n{}G0 Z12\nM30\n",
        lap([20.0, 20.0, 180.0, 180.0], 3.0)
    );
    let program = |rows: &str, round: &str| format!("{head}{rows}{}{round}{tail}", lap(WALL, -3.0));
    assert_eq!(told(&design, &program(&rows, round)), "");
    let shallow = told(&design, &program(&rows, &round.replace("Z-8", "Z-7.9")));
    assert!(
        shallow.contains("a bore is not cut to its depth of 8.00 mm"),
        "{shallow}"
    );
    let wide = told(
        &design,
        &program(
            &rows,
            &round
                .replace("X127", "X127.1")
                .replace("I-2", "I-2.05")
                .replace("I2 ", "I2.05 "),
        ),
    );
    assert!(wide.contains("it cuts 0.100 mm into disc"), "{wide}");
    let deep = told(
        &design,
        &program(&rows.replacen("Y100 ", "Y100 Z-4.5 ", 1), round),
    );
    assert!(deep.contains("below a floor"), "{deep}");
}
