//! What a mason reads of a centre, through the command.

use cintre_tests::{Bench, example, near};
use serde_json::Value;

/// A job of one arch and one centering for a fabricator.
fn job(units: &str, arch: &str, centering: &str) -> Bench {
    Bench::with(
        "job.yaml",
        &format!(
            "title: Trial\nunits: {units}\nshop: {{ units: mm, stock: {{ ply: {{ material: plywood, sheet: [2440, 1220], \
             thickness: 18, grain: long, trim: 8 }} }}, machines: {{ drawn: {{ kind: drawing, format: dxf }} }} }}\n\
             arches:\n  a: {{ {arch} }}\nmake:\n  - centering: {{ arch: a, stock: ply, machine: drawn, {centering} }}\n"
        ),
    )
}

#[track_caller]
fn figures(units: &str, arch: &str, centering: &str) -> Value {
    let bench = job(units, arch, centering);
    bench.form_figures()
}

#[test]
fn the_lagging_is_never_forgotten() {
    let half = figures(
        "mm",
        "shape: semicircular, span: 1050",
        "wall: 225, lagging: 20, skin: 4",
    );
    near(&half["rib_radii"], 501.0, 1e-9);
    let flat = figures(
        "mm",
        "shape: segmental, span: 1300, rise: 210",
        "wall: 225, lagging: 18, skin: 4",
    );
    near(&flat["rib_radii"], 1088.95, 5e-3);
    near(&flat["rib_rise"], 188.0, 1e-9);
    near(&flat["right_foot"][0], 637.13, 5e-3);
    near(&flat["right_foot"][1], -17.84, 5e-3);
    near(&flat["left_foot"][0], -637.13, 5e-3);
    near(&flat["rib_half_width_at_springing_line"], 611.64, 5e-3);
}

#[test]
fn a_flat_batten_stands_proud() {
    for (span, batten, proud) in [(936.0, 50, 0.69), (936.0, 38, 0.40), (1236.0, 75, 1.17)] {
        let arch = format!("shape: semicircular, span: {span}");
        let said = figures("mm", &arch, &format!("wall: 225, lagging: 18, batten: {batten}"));
        near(&said["flat_board_stands_proud"], proud, 5e-3);
    }
}

#[test]
fn how_many_bricks_and_must_it_be_odd() {
    let arch = "shape: segmental, span: 50, rise: 8 1/2, ring: 3 5/8, voussoirs: { size: 2 1/4, joints: [1/4, 3/4] }";
    let bench = job("in", arch, "wall: 9, lagging: 3/4");
    let said = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    let arch = &said["arches"]["a"];
    assert_eq!(arch["voussoirs"]["count"], 21, "{}", arch["voussoirs"]);
    near(&arch["voussoirs"]["joint"], 0.296 * 25.4, 0.02);
    near(
        &said["forms"][0]["joints_along_the_soffit"][21],
        53.768 * 25.4 - 0.296 * 25.4 / 2.0,
        0.02,
    );
}

#[test]
fn what_the_centre_carries_is_told_and_is_no_permission() {
    let arch = "shape: semicircular, span: 1200, ring: 215";
    let two = figures("mm", arch, "wall: 330, lagging: 18, ribs: 2");
    near(&two["ring_weight_kn"], 3.154, 5e-4);
    near(&two["ring_weight_on_an_outer_rib_kn"], 1.577, 5e-4);
    near(&two["downward_push_by_friction_alone_kn"], 1.016, 5e-4);
    let three = figures("mm", arch, "wall: 330, lagging: 18, ribs: 3");
    near(&three["ring_weight_on_an_inner_rib_kn"], 1.577, 5e-4);
    near(&three["ring_weight_on_an_outer_rib_kn"], 0.788, 1e-3);
    let bench = job(
        "in",
        "shape: semicircular, span: 48, ring: 7 1/2",
        "wall: 9, lagging: 3/4, density: 120 lb/ft3",
    );
    let table = bench.run(&["figures", "job.yaml", "--units", "in"]).ended(0).out;
    assert!(table.contains("(409 lb)"), "{table}");
    assert!(
        table.contains("information for whoever designs the props"),
        "{table}"
    );
}

#[test]
fn a_form_is_lowered_before_anything_else() {
    let arch = "shape: semicircular, span: 1200, ring: 215";
    let said = figures(
        "mm",
        arch,
        "wall: 225, lagging: 18, wedge-slope: 1:8, wedge-drive: 80",
    );
    near(&said["wedge_drop"], 10.0, 1e-9);
    let bench = job(
        "mm",
        arch,
        "wall: 225, lagging: 18, wedge-slope: 1:8, wedge-drive: 80, lip: 8",
    );
    bench.run(&["check", "job.yaml"]).ended(4).said(&[
        "centering.wedge-drive",
        "10.0 mm",
        "lip of 8 mm",
        "more than 104.0 mm",
    ]);
}

#[test]
fn a_horseshoe_is_trapped_until_it_is_split() {
    let arch = "shape: horseshoe, span: 900, rise: 620, ring: 215";
    let whole = job("mm", arch, "wall: 225, lagging: 18");
    whole
        .run(&["check", "job.yaml"])
        .ended(4)
        .said(&["23.3", "split: true"]);
    let bench = job("mm", arch, "wall: 225, lagging: 18, split: true");
    let table = bench.run(&["figures", "job.yaml"]).ended(0).out;
    assert!(
        table.contains("946.61 mm") && table.contains("must be made in parts"),
        "{table}"
    );
    bench.run(&["make", "job.yaml", "--out", "out"]).ended(0);
    assert!(
        bench
            .text("out/pictures/form-1-a-assembly.svg")
            .starts_with("<svg")
    );
}

#[test]
fn over_a_point_there_is_no_key() {
    let arch = "shape: pointed, span: 900, rise: 800, ring: 150, voussoirs: { count: 22, joint: 6 }";
    let said = figures("mm", arch, "wall: 225, lagging: 18");
    let joints = said["joints_along_the_soffit"].as_array().unwrap();
    assert_eq!(joints.len(), 23);
    let middle = joints[11].as_f64().unwrap();
    let length = joints[0].as_f64().unwrap() + joints[22].as_f64().unwrap();
    assert!(
        (middle - length / 2.0).abs() < 1e-6,
        "the middle joint stands over the point"
    );
    let odd = job("mm", &arch.replace("22", "21"), "wall: 225, lagging: 18");
    odd.run(&["check", "job.yaml"])
        .ended(3)
        .said(&["voussoirs.count"]);
}

#[test]
fn what_cannot_be_had_is_refused_at_its_field() {
    let arch = "shape: semicircular, span: 180, ring: 60";
    let bench = job("mm", arch, "wall: 225, lagging: 95");
    let ran = bench.run(&["check", "job.yaml"]).ended(4);
    ran.said(&["make[0].centering.lagging: 95", "90.00 mm"]);
    let arch = "shape: semicircular, span: 1000, ring: 215";
    for (centering, field, words) in [
        ("wall: 60, lagging: 18", "centering.wall", "room for two ribs"),
        (
            "wall: 225, lagging: 18, notch: [50, 40]",
            "centering.notch",
            "is the deepest",
        ),
    ] {
        let bench = job("mm", arch, centering);
        bench.run(&["check", "job.yaml"]).ended(4).said(&[field, words]);
    }
    let wide = "shape: three-centred, span: 3000, rise: 950, ring: 225";
    let bench = job("mm", wide, "wall: 225, lagging: 18, build: two-layers, lap: 1200");
    bench
        .run(&["check", "job.yaml"])
        .ended(4)
        .said(&["centering.lap", "lap of 1200 mm cannot be had"]);
}

#[test]
fn a_wide_span_has_its_caution_everywhere_and_is_drawn_all_the_same() {
    let path = example("carriage-arch");
    let path = path.to_str().unwrap();
    let bench = Bench::default();
    bench.run(&["make", path, "--out", "out"]).ended(0);
    bench.run(&["prove", "out"]).ended(0);
    let caution = "Have an engineer design its strength";
    for file in ["out/job-sheet.html", "out/manifest.json"] {
        assert!(bench.text(file).contains(caution), "{file}");
    }
    let table = bench.run(&["figures", path]).ended(0).out.replace("\n    ", " ");
    assert!(table.contains(caution), "{table}");
    for word in ["props", "strike"] {
        assert!(table.contains(word), "{word}");
    }
    // Nothing that anyone could take for leave to strike or for a size of prop.
    for word in ["days", "hours", "prop size", "safe load"] {
        assert!(!table.contains(word), "{word} in:\n{table}");
    }
    let manifest: Value = serde_json::from_str(&bench.text("out/manifest.json")).unwrap();
    let sheets = manifest["sheets"].as_array().unwrap();
    let parts = sheets.iter().flat_map(|sheet| sheet["parts"].as_array().unwrap());
    assert!(parts.count() >= 20, "two ribs of eleven pieces");
}

#[test]
fn a_casing_that_stands_back_from_its_soffit_is_carried_by_no_centre() {
    let arch = "shape: semicircular, span: 820, ring: 90, reveal: 60";
    let bench = job("mm", arch, "wall: 225, lagging: 18");
    let ran = bench.run(&["check", "job.yaml"]).ended(4);
    ran.said(&["arches.a.reveal: 60", "is a casing", "without a `reveal`"]);
    let flush = job(
        "mm",
        &arch.replace("reveal: 60", "reveal: 0"),
        "wall: 225, lagging: 18",
    );
    flush.run(&["check", "job.yaml"]).ended(0);
}
