//! A disc on two tabs.

use super::{DISC, disc, prove, said};
use cintre_geometry::Point;
use cintre_work::design::DesignSheet;
use proptest::prelude::*;

#[test]
fn a_disc_on_two_tabs_passes() {
    let verdict = prove(&disc(), DISC);
    assert!(verdict.passed, "{verdict:#?}");
    assert!(verdict.gouge < 0.001 && verdict.leftover < 0.001, "{verdict:?}");
    // Half a tab and a bit's radius to each side: 7 mm on the centre's path, brought in from radius 53 to 50.
    let uncut = 4.0 * 50.0 * (7.0f64 / 53.0).asin();
    assert!(
        (verdict.uncut_edge - uncut).abs() < 1.5,
        "{} for {uncut}",
        verdict.uncut_edge
    );
}

fn spoilt(program: &str, expected: &str) {
    let verdict = prove(&disc(), program);
    assert!(
        !verdict.passed && said(&verdict).contains(expected),
        "{expected:?} is not in {}",
        said(&verdict)
    );
}

#[test]
fn each_way_to_spoil_the_program_is_found() {
    for (from, to, expected) in [
        (
            "Y100 I0 J-53",
            "Y100 I0 J-52",
            "an arc whose radius is 52.0000 at its start",
        ),
        (
            "G2 X153 Y100 I0 J-53 F3000",
            "G1 X153 Y100 F3000",
            "mm into disc Some(8)",
        ),
        (
            "G2 X152.5359 Y107 I0 J-53",
            "G3 X152.5359 Y107 I0 J-53",
            "a planned tab is cut through",
        ),
        ("G21", "G20", "its numbers are not in mm"),
        ("Z-12.3", "Z-11.8", "nothing is cut through along disc"),
        ("Z-12.3", "Z-13", "it cuts 1.00 mm below the underside; 0.30 mm"),
        (" F3000", "", ""),
        ("S16000 M3", "", "with the spindle standing still"),
        (
            "G0 Z12\nG0 X100",
            "G0 Z2\nG0 X100",
            "below the safe height of 12.000",
        ),
        ("G1 Z-6 F900", "G0 Z-6", "a rapid down to 6.00 mm below the face"),
        (
            "G1 Z-7 F900",
            "G1 Z-12.3 F900",
            "a planned tab is cut through or too low",
        ),
        (
            "G1 Z-7 F900",
            "G1 Z-8 F900",
            "a planned tab is cut through or too low",
        ),
        ("Y153\nG1 Z-6", "Y153.5\nG1 Z-6", "an arc whose radius"),
        ("G0 Z12\nM30", "M30", "it ends with the bit at Z -12.300"),
    ] {
        let program = DISC.replace(from, to);
        assert_ne!(program, DISC, "{from} is not in it");
        if !expected.is_empty() {
            spoilt(&program, expected);
        }
    }
    spoilt(
        &DISC.replace(" F3000", "").replace(" F900", ""),
        "a feed move without a feed",
    );
}

#[test]
fn a_tab_thinner_than_planned_is_found() {
    let thin = DISC
        .replace("X152.5359 Y107", "X152.7636 Y105")
        .replace("I-52.5359 J-7 F3000\nG1 Z-12.3", "I-52.7636 J-5 F3000\nG1 Z-12.3");
    assert_ne!(thin, DISC);
    let verdict = prove(&disc(), &thin);
    let text = said(&verdict);
    assert!(
        text.contains("a tab 4.0") && text.contains("or less is left where 8.00 mm are planned"),
        "{text}"
    );
    assert_eq!(verdict.findings.len(), 1, "{text}");
}

#[test]
fn uncut_edge_where_no_tab_is_planned_is_found() {
    let mut design = disc();
    design.tabs.pop();
    let verdict = prove(&design, DISC);
    assert!(
        said(&verdict).contains("is left standing at an edge of disc"),
        "{}",
        said(&verdict)
    );
    // In the middle of the tab the edge is farthest from the nearest through cut.
    let far = Point::new(50.0, 100.0).distance(Point::new(47.4641, 107.0)) - 3.0;
    assert!(
        (verdict.leftover - far).abs() < 0.1,
        "{} for {far}",
        verdict.leftover
    );
}

#[test]
fn a_block_left_out_is_found() {
    let lines: Vec<&str> = DISC.lines().collect();
    for out in 0..lines.len() {
        // The comment, the dwell and the depth of the first pass do not change the shape.
        if ["(DISC)", "G4 P4", "G1 Z-6 F900"].contains(&lines[out]) {
            continue;
        }
        let kept: Vec<&str> = lines
            .iter()
            .enumerate()
            .filter(|(i, _)| *i != out)
            .map(|(_, l)| *l)
            .collect();
        let verdict = prove(&disc(), &(kept.join("\n") + "\n"));
        assert!(
            !verdict.passed,
            "without {:?} in line {} it passes",
            lines[out],
            out + 1
        );
    }
}

#[test]
fn a_file_cut_short_is_found() {
    for end in (0..DISC.len() - 2).step_by(29).chain([DISC.len() - 2]) {
        assert!(
            !prove(&disc(), &DISC[..end]).passed,
            "cut short after {end} bytes it passes"
        );
    }
}

#[test]
fn a_tab_stands_as_high_as_planned() {
    spoilt(
        &DISC.replacen("G1 Z-7 F900", "G1 Z-6.97 F900", 1),
        "a tab of disc stands higher than planned",
    );
    spoilt(
        &DISC.replacen("G1 Z-7 F900", "G1 Z-7.03 F900", 1),
        "cut through or too low",
    );
}

#[test]
fn a_tab_with_sloping_sides_passes_where_it_is_planned_so() {
    // Down and up again over 1.2 mm on both sides of the tabs' tops.
    let sloping = DISC
        .replace("X152.5359 Y107 I0 J-53 F3000", "X152.3618 Y108.2 I0 J-53 F3000")
        .replace(
            "G1 Z-7 F900\nG2 X152.5359 Y93",
            "G1 X152.5359 Y107 Z-7 F900\nG2 X152.5359 Y93",
        )
        .replace(
            "G1 Z-12.3 F900\nG2 X100 Y47 I-52.5359 J7",
            "G1 X152.3618 Y91.8 Z-12.3 F900\nG2 X100 Y47 I-52.3618 J8.2",
        );
    assert_eq!(
        sloping.matches("Y108.2").count() + sloping.matches("X152.3618 Y91.8").count(),
        2
    );
    let proven = |flank: f64| {
        let mut design = disc();
        design.tabs[0].flank = flank;
        said(&prove(&design, &sloping))
    };
    assert_eq!(proven(1.22), "");
    assert!(
        proven(0.0).contains("is left standing at an edge of disc"),
        "{}",
        proven(0.0)
    );
}

#[test]
fn a_web_is_left_as_thick_as_planned() {
    let mut design = disc();
    design.tabs.clear();
    design.router.as_mut().unwrap().leave_web = 0.5;
    let round = DISC.replace("G1 Z-7 F900", "G1 Z-11.5 F900");
    let at = |z: &str| said(&prove(&design, &round.replace("Z-12.3", z)));
    assert_eq!(at("Z-11.5"), "");
    assert!(at("Z-11.55").contains("it leaves 0.45 mm of wood below it, where a web of 0.50 mm is to stay"));
    assert!(at("Z-12.3").contains("where a web of 0.50 mm is to stay"));
    assert!(at("Z-11.4").contains("is left standing at an edge of disc"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn a_stray_cut_bites_as_deep_as_sampling_says(x0 in 30.0..170.0f64, y0 in 30.0..170.0f64, x1 in 30.0..170.0f64, y1 in 30.0..170.0f64) {
        let stray = format!("G0 Z12\nG0 X{x0:.6} Y{y0:.6}\nG1 Z-3 F900\nG1 X{x1:.6} Y{y1:.6}\nG0 Z12\nM30\n");
        let verdict = prove(&disc(), &DISC.replace("G0 Z12\nM30\n", &stray));
        let sampled = (0..=4000).map(|i| {
            let p = Point::new(x0, y0).lerp(Point::new(x1, y1), f64::from(i) / 4000.0);
            3.0 - (p.distance(Point::new(100.0, 100.0)) - 50.0)
        });
        let bite = sampled.fold(0.0, f64::max);
        // Inside the wood its size is only found to a tenth; up to the bit's radius it is exact.
        let slack = if bite < 3.0 { 0.001 } else { 0.1 * bite };
        prop_assert!((verdict.gouge - bite).abs() <= slack, "{} for {bite}", verdict.gouge);
        prop_assert_eq!(verdict.passed, verdict.gouge <= crate::GOUGE);
    }

    #[test]
    fn a_mutated_program_never_makes_it_panic(at in 0..700usize, with in "[GXYZIJF0-9.\n -]{0,4}", cut in 0..5usize) {
        let at = at.min(DISC.len());
        let end = (at + cut).min(DISC.len());
        let program = format!("{}{with}{}", &DISC[..at], &DISC[end..]);
        let _ = prove(&disc(), &program);
    }
}

/// A disc of 1 m cut round in `n` chords, which stand at most 0.0019 mm off the arc.
fn in_chords(n: u32) -> (DesignSheet, String) {
    use std::fmt::Write as _;
    let mut design = disc();
    design.size = [1200.0, 1200.0];
    design.parts[0].outline = vec![[1100.0, 600.0, 1.0], [100.0, 600.0, 1.0]];
    design.tabs.clear();
    let mut text =
        String::from("G21 G90 G17 G94 G40 G49\nS16000 M3\nG0 Z12\nG0 X1103 Y600\nG1 Z-12.3 F900\n");
    for i in 1..=n {
        let turn = std::f64::consts::TAU * f64::from(i) / f64::from(n);
        let (x, y) = (600.0 + 503.0 * turn.cos(), 600.0 + 503.0 * turn.sin());
        writeln!(text, "G1 X{x:.4} Y{y:.4} F3000").unwrap();
    }
    text.push_str("G0 Z12\nM30\n");
    (design, text)
}

#[test]
fn an_arc_in_chords_is_held_against_the_arc() {
    let n = 1200;
    let (design, text) = in_chords(n);
    let verdict = prove(&design, &text);
    assert!(verdict.passed, "{}", said(&verdict));
    let sagitta = 503.0 * (1.0 - (std::f64::consts::PI / f64::from(n)).cos());
    assert!(
        (verdict.gouge - sagitta).abs() < 1e-4,
        "{} for {sagitta}",
        verdict.gouge
    );
    let (_, coarse) = in_chords(700);
    assert!(said(&prove(&design, &coarse)).contains("it cuts 0.005 mm into disc"));
}
