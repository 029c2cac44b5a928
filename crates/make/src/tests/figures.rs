//! Jobs as they come from the bench, and the figures that their users read.

use super::planned_from;
use crate::{Plan, Shown, Trouble};
use cintre_job::Fault;
use cintre_measure::Unit;
use serde_json::Value;

fn planned(units: &str, arch: &str) -> Result<Plan, Trouble> {
    let text = format!("title: Almshouse\nunits: {units}\nshop: {{}}\narches: {{ head: {{ {arch} }} }}\n");
    planned_from(&text)
}

fn read(units: &str, arch: &str) -> (String, Value) {
    let plan = planned(units, arch).unwrap_or_else(|trouble| panic!("{trouble:?}"));
    let shown = Shown::new(
        &plan,
        if units == "in" {
            Unit::Inch
        } else {
            Unit::Millimetre
        },
    );
    let table = plan.figures_table(shown);
    for line in table.lines() {
        assert!(line.chars().count() <= 80, "over 80 columns: {line}");
    }
    (table, plan.figures_json()["arches"]["head"].clone())
}

fn fault(arch: &str) -> Fault {
    match planned("mm", arch) {
        Err(Trouble::Faults(faults)) => faults[0].clone(),
        other => panic!("{other:?}"),
    }
}

/// The value in the table's row of this name.
fn row<'t>(table: &'t str, name: &str) -> &'t str {
    let mut lines = table.lines();
    let line = lines.find(|line| line.trim_start().starts_with(name));
    let line = line.unwrap_or_else(|| panic!("no row `{name}` in\n{table}"));
    line.trim_start()[name.len()..].trim()
}

fn near(value: &Value, wanted: f64, within: f64) {
    let found = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

#[test]
fn radius_from_width_and_height() {
    let (table, json) = read("mm", "shape: segmental, span: 1180, rise: 165");
    near(&json["arc"]["radius"], 1137.35, 5e-3);
    near(&json["pieces"][0]["centre"][1], -972.35, 5e-3);
    near(&json["developed_length"], 1240.59, 5e-3);
    near(&json["quarter_height"], 126.08, 5e-3);
    assert_eq!(row(&table, "radius 1"), "1137.5 mm − 0.2");
    assert!(!table.contains("1054"), "the short cut drops half the rise");
    let (table, json) = read("in", "shape: segmental, span: 46.5, rise: 6.5");
    near(&json["arc"]["radius"], 44.832 * 25.4, 0.0127);
    assert!(row(&table, "radius 1").starts_with("44 27/32\""), "{table}");
}

#[test]
fn a_radius_too_long_to_swing_is_set_out_by_heights() {
    let (table, json) = read(
        "mm",
        "shape: segmental, span: 3600, rise: 240, ordinates: { step: 300 }",
    );
    near(&json["arc"]["radius"], 6870.0, 1e-6);
    near(&json["arc"]["half_arc_rise"], 60.26, 5e-3);
    assert_eq!(json["arc"]["trammel_practical"], false);
    let heights = json["ordinates"].as_array().unwrap();
    assert_eq!(heights.len(), 13);
    for (point, y) in heights[6..]
        .iter()
        .zip([240.0, 233.4, 213.7, 180.8, 134.4, 74.2, 0.0])
    {
        near(&point[1], y, 0.05);
    }
    assert!(table.contains("too long to swing true"), "{table}");
    let words = |x: &str| {
        let line = table.lines().find(|line| line.trim_start().starts_with(x));
        line.unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert_eq!(words("1200.0 mm"), "1200.0 mm 134.5 mm − 0.1 105.5 mm + 0.1");
    assert_eq!(table.matches("1200.0 mm").count(), 1, "one side is enough");
}

#[test]
fn a_rise_three_off_moves_the_radius_and_not_the_curve() {
    let json = |rise: &str| read("mm", &format!("shape: segmental, span: 1450, rise: {rise}")).1;
    let (low, middle, high) = (json("92"), json("95"), json("98"));
    near(&low["arc"]["radius"], 2902.7, 0.05);
    near(&middle["arc"]["radius"], 2813.9, 0.05);
    near(&high["arc"]["radius"], 2730.8, 0.05);
    near(&middle["arc"]["radius_per_rise"], -28.62, 5e-3);
    let quarter = |json: &Value| json["quarter_height"].as_f64().unwrap();
    assert!((quarter(&high) - quarter(&middle) - 2.28).abs() < 5e-3);
    let (table, _) = read("mm", "shape: segmental, span: 1450, rise: 95");
    assert_eq!(row(&table, "radius, for 1 more of rise"), "28.62 less");
    assert_eq!(row(&table, "quarter height, for 1 more of rise"), "0.76 more");
}

#[test]
fn feet_and_inches() {
    let (table, json) = read("in", "shape: segmental, span: 3'-10 1/2\", rise: 7 5/16\"");
    near(&json["span"], 1181.1, 1e-9);
    near(&json["arc"]["radius"], 40.618 * 25.4, 0.0127);
    assert_eq!(row(&table, "span"), "46 1/2\"");
    assert_eq!(row(&table, "radius 1"), "40 5/8\" − 0.007");
}

#[test]
fn a_very_flat_head() {
    let (table, json) = read("mm", "shape: segmental, span: 1800, rise: 9");
    near(&json["arc"]["radius"], 45004.5, 1e-6);
    near(&json["arc"]["frame_angle_deg"], 178.854, 5e-4);
    near(&json["arc"]["frame_arms_at_least"], 1800.0, 1e-9);
    let note = "set out by the heights below, or use the frame";
    assert!(
        table
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
            .contains(note),
        "{table}"
    );
    assert_eq!(
        row(&table, "frame on pins at both springings"),
        "178.85° between its arms"
    );
}

#[test]
fn the_voussoirs_of_a_gate() {
    let gate = "shape: segmental, span: 1220, rise: 260, ring: 215";
    let (table, json) = read("mm", &format!("{gate}, voussoirs: {{ count: 17, joint: 8 }}"));
    near(&json["voussoirs"]["width"], 71.692_410_180_222_1, 1e-9);
    near(&json["arc"]["skewback_deg"], 43.829_732_654_383_5, 1e-9);
    assert_eq!(json["voussoirs"]["joints"].as_array().unwrap().len(), 18);
    assert_eq!(row(&table, "voussoirs"), "17, one of them on the crown");
    let even = fault(&format!("{gate}, voussoirs: {{ count: 18, joint: 8 }}"));
    assert_eq!(even.field, "arches.head.voussoirs.count");
    assert_eq!(even.help.as_deref(), Some("take 17 or 19"));
    let many = fault(&format!("{gate}, voussoirs: {{ count: 171, joint: 8 }}"));
    assert_eq!(many.help.as_deref(), Some("with this joint 149 is the most"));
}

#[test]
fn uncut_bricks_are_counted() {
    let brick = "shape: segmental, span: 50, rise: 8.5, ring: 3 5/8, voussoirs: { size: 2 1/4, joints: ";
    let (table, json) = read("in", &format!("{brick} [1/4, 17/32] }}"));
    assert_eq!(json["voussoirs"]["count"], 21);
    near(&json["voussoirs"]["share_deg"], 3.577, 5e-4);
    near(&json["voussoirs"]["joint_at_back"], 0.512 * 25.4, 0.0127);
    let verdict = |count: &str| {
        let line = table.lines().find(|line| line.trim_start().starts_with(count));
        line.unwrap_or_else(|| panic!("{table}")).trim_end().to_owned()
    };
    assert!(verdict("20 ").ends_with("even") && verdict("21 ").ends_with("taken"));
    assert!(verdict("24 ").ends_with("too many") && verdict("19 ").ends_with("out of bounds"));
}

#[test]
fn a_pointed_arch_counts_each_half() {
    let arch = "shape: pointed, span: 900, rise: 780, ring: 215, voussoirs: { count: ";
    let (table, json) = read("mm", &format!("{arch} 24, joint: 8 }}"));
    assert_eq!(json["voussoirs"]["pointed"], true);
    assert_eq!(row(&table, "voussoirs"), "24: 12 in each half, a joint over the");
    let odd = fault(&format!("{arch} 23, joint: 8 }}"));
    assert_eq!(odd.help.as_deref(), Some("take 22 or 24"));
}

#[test]
fn a_casing_stands_back_from_its_own_centre() {
    let (table, json) = read(
        "mm",
        "shape: segmental, span: 915, rise: 152, ring: 89, reveal: 6",
    );
    near(&json["casing"]["inner_radius"], 770.51, 5e-3);
    near(&json["casing"]["outer_radius"], 859.51, 5e-3);
    near(&json["casing"]["inner_corner"], 3.00, 5e-3);
    near(&json["casing"]["outer_corner"], 45.90, 5e-3);
    near(&json["ring"]["pieces"][0]["radius"], 859.51, 5e-3);
    assert!(table.contains("do not work the outer radius anew"), "{table}");
}

#[test]
fn more_heights_than_anyone_sets_out_are_refused() {
    let fault = fault("shape: segmental, span: 1220, rise: 260, ordinates: { step: 1 }");
    assert_eq!(fault.field, "arches.head.ordinates");
    assert!(fault.help.unwrap().contains("1.220 mm or more"));
}

/// The comments of the starter job must not lead a beginner into a fault.
#[test]
fn what_the_starter_job_suggests_can_be() {
    let seed = include_str!("../../../../seeds/job.yaml");
    let door = "shape: segmental, span: 915, rise: 150, ring: ";
    for (ring, voussoirs) in [
        ("215", "voussoirs: { count: 13, joint: 10 }"),
        ("102.5", "voussoirs: { size: 65, joints: [6, 19] }"),
    ] {
        assert!(seed.contains(door) && seed.contains(voussoirs));
        let (_, json) = read(
            "mm",
            &format!("{door}{ring}, {voussoirs}, ordinates: {{ step: 100 }}"),
        );
        assert_eq!(json["voussoirs"]["count"], 13);
    }
}
