//! What a joiner reads of a bending form, through the command.

use cintre_tests::Bench;
use serde_json::Value;

/// A job of one arch and one bending form for a fabricator.
fn job(arch: &str, form: &str, house: &str) -> Bench {
    Bench::with(
        "job.yaml",
        &format!(
            "title: Trial\nunits: mm\neffort: quick\nshop: {{ units: mm, stock: {{ mdf: {{ material: mdf, sheet: [2440, 1220], thickness: 17.6, trim: 8 }} }}, \
             machines: {{ drawn: {{ kind: drawing, format: dxf }} }}, house: {{ {house} }} }}\n\
             arches:\n  a: {{ {arch} }}\nmake:\n  - bending-form: {{ arch: a, stock: mdf, machine: drawn, {form} }}\n"
        ),
    )
}

#[track_caller]
fn figures(arch: &str, form: &str) -> Value {
    let bench = job(arch, form, "");
    bench.run(&["figures", "job.yaml", "--json"]).ended(0).json()["forms"][0].clone()
}

#[track_caller]
fn near(value: &Value, wanted: f64, within: f64) {
    let given = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
    assert!((given - wanted).abs() <= within, "{given} is not {wanted}");
}

const HALF: &str = "shape: semicircular, span: 1200";

#[test]
fn what_form_radius_gives_the_finished_radius() {
    let said = figures(HALF, "lamination: 4, laminations: 6, width: 60, over-length: 0");
    near(&said["male_face_radii"], 583.0, 1e-6);
    near(&said["opens_without_it_to_radii"], 617.485_714_285_714, 1e-6);
    near(&said["form_turns_deg"], 185.142_857, 1e-5);
    near(&said["strips_between_the_springings"][0], 1890.3, 0.05);
    near(&said["strips_between_the_springings"][5], 1955.0, 0.05);
    // The same by its total, and by its outside line.
    let total = figures(HALF, "lamination: 4, total: 22, width: 60");
    near(&total["male_face_radii"], 583.0, 1e-6);
    let outside = figures(
        "shape: semicircular, span: 1248",
        "line: outside, thicknesses: [4, 4, 4, 4, 4, 4], width: 60",
    );
    near(&outside["male_face_radii"], 583.0, 1e-6);
}

#[test]
fn the_house_says_what_springs_back_unless_the_job_does() {
    let form = "lamination: 4, laminations: 6, width: 60";
    let kept = |form: &str, house: &str| {
        let bench = job(HALF, form, house);
        bench.run(&["figures", "job.yaml", "--json"]).ended(0).json()["forms"][0]["kept_of_its_bend"].clone()
    };
    near(&kept(form, ""), 35.0 / 36.0, 1e-12);
    near(&kept(form, "springback: none"), 1.0, 1e-12);
    near(&kept(form, "springback: 0.9"), 0.9, 1e-12);
    near(
        &kept(&format!("{form}, springback: layers"), "springback: 0.9"),
        35.0 / 36.0,
        1e-12,
    );
}

#[test]
fn a_second_try_from_a_test_piece() {
    let said = figures(
        "shape: semicircular, span: 1240",
        "line: middle, lamination: 4, laminations: 6, width: 60, measured-back: { form: 500, radius: 540 }",
    );
    near(&said["kept_of_its_bend"], 500.0 / 540.0, 1e-12);
    near(&said["male_face_radii"], 574.07 - 12.0, 0.005);
}

#[test]
fn copies_multiply_the_cutting_list() {
    let form = "lamination: 4, laminations: 6, width: 90, clean-up: 6, clamp-spacing: 100";
    let one = figures(HALF, form);
    let three = figures(HALF, &format!("{form}, copies: 3"));
    assert_eq!(one["layers_of_the_body"], 6);
    let counts = |said: &Value| -> Vec<u64> {
        let of = |list: &str| said[list].as_array().unwrap().clone();
        let all = [of("cutting_list"), of("parts")].concat();
        all.iter().map(|item| item["count"].as_u64().unwrap()).collect()
    };
    let tripled: Vec<u64> = counts(&one).into_iter().map(|n| 3 * n).collect();
    assert!(tripled.len() > 8);
    assert_eq!(counts(&three), tripled);
    // So it is of every form.
    let bench = job(HALF, form, "");
    bench.edit("job.yaml", |job| {
        let at = job.find("  - bending-form").expect("the form");
        job[..at].to_owned()
            + "  - centering: { arch: a, wall: 225, lagging: 18, copies: 2, stock: mdf, machine: drawn }\n"
    });
    let said = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    let spacers = said["forms"][0]["cutting_list"].as_array().unwrap().iter();
    let spacers: Vec<_> = spacers.filter(|item| item["name"] == "spacer").collect();
    assert_eq!(spacers[0]["count"], 12, "{spacers:?}");
}

#[test]
fn what_cannot_be_bent_is_refused_at_its_field() {
    let good = "lamination: 4, laminations: 6, width: 60";
    for (arch, form, house, field, words) in [
        (
            HALF,
            "lamination: 9, laminations: 1, width: 60",
            "",
            "springback",
            "keeps nothing",
        ),
        (
            HALF,
            "lamination: 12, laminations: 3, width: 60",
            "",
            "lamination",
            "or thinner does",
        ),
        (
            HALF,
            "thicknesses: [12, 4], width: 60",
            "",
            "thicknesses",
            "per cent",
        ),
        (
            HALF,
            "lamination: 4, laminations: 6, width: 60, body-layers: 3",
            "",
            "body-layers",
            "4 layers hold",
        ),
        (
            HALF,
            good,
            "clamp: { opening: 80, throat: 90 }",
            "ligament",
            "44.0 mm is the most",
        ),
        (
            HALF,
            good,
            "clamp: { opening: 200, throat: 30 }",
            "width",
            "throat of 30.0 mm",
        ),
        (
            HALF,
            "lamination: 4, laminations: 6, width: 60, measured-back: { width: 4000 }",
            "",
            "measured-back",
            "cannot have sprung back",
        ),
        (
            HALF,
            "lamination: 9.5, laminations: 2, wood: ply-along, width: 60",
            "",
            "lamination",
            "2438 mm along it",
        ),
        (
            "shape: pointed, span: 900, rise: 800",
            good,
            "",
            "bending-form.arch",
            "corner",
        ),
        (
            "shape: round, diameter: 900",
            good,
            "",
            "bending-form.arch",
            "comes back to where it begins",
        ),
    ] {
        job(arch, form, house)
            .run(&["check", "job.yaml"])
            .ended(4)
            .said(&[field, words]);
    }
    for (form, field, words) in [
        ("lamination: 4, width: 60", "bending-form", "laminations"),
        ("laminations: 4, width: 60", "lamination", "lamination: 4"),
        (
            "lamination: 4, laminations: 6, width: 60, segments: 3",
            "segments",
            "side: pair",
        ),
        (
            "lamination: 4, laminations: 6, width: 60, measured-back: { form: 500 }",
            "measured-back",
            "radius",
        ),
        (
            "lamination: 4, laminations: 6, width: 60, springback: often",
            "springback",
            "a number from 0.2",
        ),
    ] {
        job(HALF, form, "")
            .run(&["check", "job.yaml"])
            .ended(3)
            .said(&[field, words]);
    }
}

#[test]
fn a_pair_is_made_drawn_and_proven() {
    let bench = job(
        "shape: elliptical, span: 900, rise: 300",
        "line: outside, lamination: 2, laminations: 5, width: 40, side: pair, liner: 3, over-length: 30",
        "paper: none",
    );
    bench.run(&["make", "job.yaml", "--out", "out"]).ended(0);
    bench.run(&["prove", "out"]).ended(0);
    assert!(
        bench
            .text("out/pictures/form-1-a-assembly.svg")
            .starts_with("<svg")
    );
    let said = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    near(&said["forms"][0]["slot_between_the_faces"], 16.0, 1e-9);
    let notes = said["forms"][0]["notes"].to_string();
    assert!(
        notes.contains("one saw line between them is not enough"),
        "{notes}"
    );
}
