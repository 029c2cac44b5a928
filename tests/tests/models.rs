//! Models for the laser, made whole.

use cintre_tests::{Bench, spoilt};
use cintre_work::Caution;
use serde_json::Value;
use std::sync::OnceLock;

const SHOP: &str = "\
units: mm
stock:
  ply3: { material: plywood, sheet: [600, 400], thickness: 3.05, grain: none, trim: 5 }
bits:
  cutter-6:
    kind: straight
    diameter: 6
    cutting-length: 20
    plunges: true
    feeds:
      plywood: { speed: 16000, feed: 3000, plunge: 900, depth: 5 }
machines:
  table: { kind: router, bed: [700, 500], bits: [cutter-6] }
  beam:
    kind: laser
    bed: [250, 180]
    kerf: { plywood: 0.16 }
    power: { plywood: { cut: [80, 12], mark: [20, 60] } }
    full-power: 1000
    writes: both
    tabs: { width: 0.6, under: 60, every: 60 }
    spacing: 3
";

const JOB: &str = "\
title: Almshouse, model of the wash-house door
units: mm
shop: shop.yaml
effort: quick
arches:
  door: { shape: segmental, span: 900, rise: 240, ring: 215, voussoirs: { count: 9, joint: 10 } }
make:
  - model: { arch: door, wall: 215, scale: 1:12, bridge: 2, ring: flat, comb: none, stock: ply3, machine: beam }
";

/// The model, made once for all tests that only look at it.
fn made() -> &'static Bench {
    static MADE: OnceLock<Bench> = OnceLock::new();
    MADE.get_or_init(|| {
        let bench = Bench::of(JOB, SHOP);
        bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
        bench
    })
}

fn json(bench: &Bench, path: &str) -> Value {
    serde_json::from_str(&bench.text(path)).expect("it is JSON")
}

#[test]
fn a_model_is_made_and_proven_with_its_small_parts_held_by_tabs() {
    let bench = made();
    let proof = bench.run(&["prove", "made"]).ended(0).out;
    for file in ["beam/sheet-1.nc", "beam/sheet-1-mm.svg", "beam/sheet-1-mm.dxf"] {
        assert!(
            proof.contains(&format!("passed  {file}  ")),
            "{file} is not in:\n{proof}"
        );
    }
    let design = json(bench, "made/design.json");
    let sheet = &design["sheets"][0];
    let tabs = sheet["tabs"].as_array().expect("tabs are planned");
    let parts = sheet["parts"].as_array().expect("there are parts");
    for part in parts {
        let places: Vec<[f64; 2]> = part["outline"]
            .as_array()
            .expect("an outline")
            .iter()
            .map(|v| [0, 1].map(|i| v[i].as_f64().expect("a number")))
            .collect();
        let side = |i: usize| {
            let along = places.iter().map(|p| p[i]);
            along.clone().fold(f64::MIN, f64::max) - along.fold(f64::MAX, f64::min)
        };
        let held = tabs.iter().filter(|tab| tab["part"] == part["name"]).count();
        assert!(
            if side(0).max(side(1)) < 60.0 {
                held >= 2
            } else {
                held == 0
            },
            "{} has {held} tabs",
            part["name"]
        );
        // The bed is smaller than the sheet, and nothing is laid off it.
        assert!(places.iter().all(|p| p[0] < 250.0 && p[1] < 180.0));
    }
    // A voussoir for each of the arch's, and what the centre has.
    let count = |name: &str| {
        let named = |part: &&Value| part["name"].as_str().is_some_and(|n| n.contains(name));
        parts.iter().filter(named).count()
    };
    assert_eq!(
        (count("voussoir"), count("rib"), count("springer"), count("base")),
        (9, 2, 2, 1)
    );
}

#[test]
fn a_tab_that_is_burnt_through_is_found() {
    let bench = Bench::default();
    for (path, bytes) in made().tree() {
        if made().path(&path).is_file() {
            bench.write(&path, bytes);
        }
    }
    bench.edit("made/beam/sheet-1.nc", |program| {
        // The first cut that leaves off at a tab is run on to where the next begins.
        let lines: Vec<&str> = program.lines().collect();
        let cuts = |line: &str| line == "M3 S800";
        let from = lines.iter().rposition(|line| cuts(line)).expect("there is a cut");
        let (out, over) = (lines[from - 2], lines[from - 1]);
        assert!(out == "M5 S0" && over.starts_with("G0 "), "{out} {over}");
        let mut burnt = lines.clone();
        burnt.drain(from - 2..=from);
        let on = over.replacen("G0", "G1", 1);
        burnt.insert(from - 2, &on);
        burnt.join("\n") + "\n"
    });
    let proof = bench.run(&["prove", "made"]).ended(5);
    let said = format!("{}{}", proof.out, proof.err);
    assert!(said.contains("altered since it was made"), "{said}");
    assert!(
        said.contains("a planned tab is cut through") || said.contains("mm into door"),
        "{said}"
    );
}

#[test]
fn its_figures_state_the_slot_as_it_is_cut_and_as_it_is_drawn() {
    let figures = made().run(&["figures", "job.yaml", "--json"]).ended(0).json();
    let form = &figures["forms"][0];
    let figure = |name: &str| form[name].as_f64().unwrap_or_else(|| panic!("{name} in {form}"));
    assert!((figure("slot_as_it_is_cut") - 2.99).abs() < 1e-9);
    assert!((figure("slot_as_it_is_drawn") - 2.83).abs() < 1e-9);
    assert!((figure("model_span") - 75.0).abs() < 1e-9 && (figure("model_rise") - 20.0).abs() < 1e-9);
    assert_eq!(form["voussoirs"], 9);
}

#[test]
fn the_pieces_to_try_the_sheet_with_can_be_cut_alone() {
    let bench = Bench::of(&spoilt(JOB, "comb: none", "comb: only"), SHOP);
    let figures = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    let parts = figures["forms"][0]["parts"].as_array().expect("its parts");
    let names: Vec<&str> = parts.iter().filter_map(|part| part["name"].as_str()).collect();
    assert_eq!(names, ["door fit comb", "door fit tongue", "door kerf block"]);
}

#[test]
fn whoever_takes_a_drawing_and_a_pen_may_have_a_model_too() {
    let shop = format!(
        "{SHOP}  drawn: {{ kind: drawing, format: svg, allowance: 0.16 mm }}\n  pen: {{ kind: pen, bed: [600, 400], pen: 0.4 }}\n"
    );
    for machine in ["drawn", "pen"] {
        let job = spoilt(JOB, "machine: beam", &format!("machine: {machine}"));
        Bench::of(&job, &shop).run(&["check", "job.yaml"]).ended(0);
    }
}

#[test]
fn every_output_says_what_the_laser_and_the_model_call_for() {
    let bench = made();
    let plain = |text: &str| {
        let text = text
            .replace("&#39;", "")
            .replace("&apos;", "")
            .replace('\'', "")
            .replace("\r\n", "\n")
            .replace("\n999\n", " ");
        let words = text.split(|c: char| !c.is_ascii_alphanumeric());
        let words = words.filter(|word| !word.is_empty()).map(str::to_ascii_uppercase);
        words.collect::<Vec<_>>().join(" ")
    };
    let figures = bench.run(&["figures", "job.yaml"]).ended(0).out;
    let files = [
        "job-sheet.html",
        "manifest.json",
        "beam/sheet-1.nc",
        "beam/sheet-1-mm.svg",
        "beam/sheet-1-mm.dxf",
    ];
    let texts = files.map(|file| (file, bench.text(&format!("made/{file}"))));
    for (file, text) in texts.into_iter().chain([("figures", figures)]) {
        let text = plain(&text);
        for caution in [Caution::Laser, Caution::Model] {
            for sentence in caution.sentences() {
                assert!(text.contains(&plain(sentence)), "{file} lacks: {sentence}");
            }
        }
    }
}

#[track_caller]
fn refused(from: &str, to: &str, status: i32, words: &[&str]) {
    let bench = Bench::of(&spoilt(JOB, from, to), SHOP);
    bench.run(&["check", "job.yaml"]).ended(status).said(words);
}

#[test]
fn what_cannot_be_made_is_refused_with_what_would_do() {
    refused(
        "scale: 1:12",
        "scale: 1:40",
        4,
        &[
            "make[0].model.scale",
            "at 1:40",
            "is the smallest scale that would do",
        ],
    );
    refused(
        "scale: 1:12",
        "scale: half",
        3,
        &["this is not a scale", "a scale: 1:20"],
    );
    refused("scale: 1:12", "scale: 1:0.5", 3, &["a scale is from 1:1"]);
    refused(
        "bridge: 2",
        "bridge: 1",
        4,
        &["make[0].model.bridge", "it must be 1.5 mm or more"],
    );
    refused(
        "bridge: 2",
        "interference: 2",
        4,
        &["make[0].model.interference", "0.76 mm can be cut"],
    );
    refused(
        "machine: beam",
        "machine: table",
        4,
        &["make[0].model.machine", "a model is cut by a laser"],
    );
    refused(
        "count: 9, joint: 10",
        "count: 99, joint: 1",
        4,
        &["a voussoir (fewer are wider)", "would do"],
    );
    refused(
        ", voussoirs: { count: 9, joint: 10 }",
        "",
        4,
        &["make[0].model.voussoirs", "give their number"],
    );
    refused(
        ", ring: 215, voussoirs: { count: 9, joint: 10 }",
        "",
        4,
        &["make[0].model", "voussoirs"],
    );
    refused(
        "shape: segmental, span: 900, rise: 240, ring: 215, voussoirs: { count: 9, joint: 10 }",
        "shape: round, diameter: 900",
        4,
        &["a form is made for an open one"],
    );
}
