//! Leaves that stand clear of their openings, and radii set on a measure whose zero lies off its pivot.

use super::planned_from;
use crate::{Plan, Shown, Trouble};
use cintre_measure::Unit;

fn planned(arch: &str, pattern: &str) -> Result<Plan, Trouble> {
    planned_in("", arch, pattern)
}

fn planned_in(house: &str, arch: &str, pattern: &str) -> Result<Plan, Trouble> {
    let text = format!(
        "title: Almshouse\nshop: {{ stock: {{ mdf: {{ material: mdf, sheet: [2440, 1220], thickness: 12 }} }}, \
         machines: {{ taker: {{ kind: drawing }} }}, house: {{ {house} }} }}\narches: {{ door: {{ {arch} }} }}\n\
         make: [pattern: {{ arch: door, {pattern}, stock: mdf, machine: taker }}]\n"
    );
    planned_from(&text)
}

#[test]
fn leaves_of_every_kind_of_soffit_are_two_gaps_narrower() {
    for arch in [
        "shape: segmental, span: 915, rise: 152",
        "shape: semicircular, span: 915",
        "shape: stilted, span: 915, stilt: 200",
        "shape: pointed, span: 915, rise: 700",
        "shape: elliptical, span: 915, rise: 300",
        "shape: elliptical, span: 915, rise: 600",
    ] {
        let plan =
            planned(arch, "piece: inside, gap: 4").unwrap_or_else(|trouble| panic!("{arch}: {trouble:?}"));
        let form = &plan.figures_json()["forms"][0];
        let width = form["leaf_width_at_its_foot"].as_f64().unwrap();
        assert!((width - 907.0).abs() < 1e-6, "{arch}: {width}");
        let leaning = arch.contains("segmental");
        assert_eq!(
            form["foot_below_the_springing"].as_f64().unwrap() > 1.0,
            leaning,
            "{arch}"
        );
        assert_eq!(
            form.get("leaf_radii").is_none(),
            arch.contains("elliptical"),
            "{arch}"
        );
    }
}

#[test]
fn too_wide_a_gap_is_a_fault_of_its_field() {
    let wide = planned("shape: semicircular, span: 915", "piece: inside, gap: 460");
    let Err(Trouble::Impossible(faults)) = wide else {
        panic!("{wide:?}")
    };
    assert_eq!(faults[0].field, "make[0].pattern.gap");
    assert!(faults[0].what.contains("457.50 mm is the most"), "{}", faults[0]);
}

#[test]
fn every_radius_has_its_reading_on_a_measure_that_begins_off_its_pivot() {
    let door = "shape: segmental, span: 915, rise: 152, ring: 89, reveal: 6";
    let figures = |house: &str| {
        let plan =
            planned_in(house, door, "piece: inside, gap: 4").unwrap_or_else(|trouble| panic!("{trouble:?}"));
        (
            plan.figures_table(Shown::new(&plan, Unit::Millimetre)),
            plan.figures_json(),
        )
    };
    // Half the span 457.5: the radius is 457.5² / 304 + 76.
    let radius = 457.5 * 457.5 / 304.0 + 76.0;
    for (house, zero) in [("zero-offset: 25", 25.0), ("zero-offset: -12.5", -12.5)] {
        let (table, json) = figures(house);
        let near = |pointer: &str, radius: f64| {
            let reading = json.pointer(pointer).and_then(serde_json::Value::as_f64);
            let reading = reading.unwrap_or_else(|| panic!("no {pointer}"));
            assert!((reading - radius - zero).abs() < 1e-9, "{pointer}: {reading}");
        };
        near("/arches/door/arc/trammel_reading", radius);
        near("/arches/door/pieces/0/trammel_reading", radius);
        near("/arches/door/reveal/pieces/0/trammel_reading", radius + 6.0);
        near("/arches/door/ring/pieces/0/trammel_reading", radius + 95.0);
        near("/arches/door/casing/inner_trammel_reading", radius + 6.0);
        near("/arches/door/casing/outer_trammel_reading", radius + 95.0);
        assert!((json["forms"][0]["leaf_radii"].as_f64().unwrap() - radius + 4.0).abs() < 1e-9);
        near("/forms/0/leaf_trammel_readings", radius - 4.0);
        let rows: Vec<_> = table
            .lines()
            .filter(|line| line.contains("reading on the measure"))
            .collect();
        // The soffit, the reveal, the back, both edges of the casing, the leaf.
        assert_eq!(rows.len(), 6, "{table}");
        let soffit = if zero > 0.0 { "789.5 mm" } else { "752.0 mm" };
        assert!(rows[0].contains(soffit), "{}", rows[0]);
    }
    let (table, json) = figures("");
    assert!(!table.contains("reading on the measure") && !json.to_string().contains("trammel_reading"));
}
