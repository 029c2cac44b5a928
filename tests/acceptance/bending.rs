//! What a joiner reads of a bending form, through the command.

use cintre_tests::{Bench, near};
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
    bench.form_figures()
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
    let notes = total["notes"].to_string();
    assert!(
        notes.contains("come to 22.00 mm or more with 6 of them, which are 24.00 mm"),
        "{notes}"
    );
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
        bench.form_figures()["kept_of_its_bend"].clone()
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

const SIX: &str = "lamination: 4, laminations: 6, width: 60";

/// A form over a half round that the check refuses with a status, at a field.
#[track_caller]
fn refused(status: i32, form: &str, house: &str, says: &[&str]) {
    job(HALF, form, house)
        .run(&["check", "job.yaml"])
        .ended(status)
        .said(says);
}

#[test]
fn strips_that_do_not_bend_so_are_refused_at_their_field() {
    let one = "lamination: 9, laminations: 1, width: 60";
    refused(4, one, "", &["bending-form.springback", "keeps nothing"]);
    let thick = "lamination: 12, laminations: 3, width: 60";
    refused(4, thick, "", &["bending-form.lamination", "or thinner does"]);
    let uneven = "thicknesses: [12, 4], width: 60";
    refused(4, uneven, "", &["bending-form.thicknesses", "per cent"]);
    let ply = "lamination: 9.5, laminations: 2, wood: ply-along, width: 60";
    refused(4, ply, "", &["bending-form.lamination", "2438 mm along it"]);
    let wide = format!("{SIX}, measured-back: {{ width: 4000 }}");
    refused(4, &wide, "", &["measured-back", "cannot have sprung back"]);
    for (arch, why) in [
        ("shape: pointed, span: 900, rise: 800", "corner"),
        ("shape: round, diameter: 900", "comes back to where it begins"),
    ] {
        let bench = job(arch, SIX, "");
        bench
            .run(&["check", "job.yaml"])
            .ended(4)
            .said(&["bending-form.arch", why]);
    }
}

#[test]
fn a_form_that_cannot_be_clamped_is_refused_at_its_field() {
    let low = format!("{SIX}, body-layers: 3");
    refused(4, &low, "", &["body-layers", "4 layers hold"]);
    let narrow = "clamp: { opening: 80, throat: 90 }";
    refused(4, SIX, narrow, &["ligament", "44.0 mm is the most"]);
    let shallow = "clamp: { opening: 200, throat: 30 }";
    refused(4, SIX, shallow, &["width", "throat of 30.0 mm"]);
    let near = format!("{SIX}, clamp-spacing: 60");
    refused(4, &near, "", &["clamp-spacing", "seats: flats"]);
}

#[test]
fn words_that_do_not_go_together_are_faults() {
    refused(
        3,
        "lamination: 4, width: 60",
        "",
        &["bending-form", "laminations"],
    );
    refused(
        3,
        "laminations: 4, width: 60",
        "",
        &["lamination", "lamination: 4"],
    );
    for (more, says) in [
        ("segments: 3", ["segments", "side: pair"]),
        ("measured-back: { form: 500 }", ["measured-back", "radius"]),
        ("springback: often", ["springback", "a number from 0.2"]),
    ] {
        refused(3, &format!("{SIX}, {more}"), "", &says);
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
