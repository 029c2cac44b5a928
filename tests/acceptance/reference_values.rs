//! The figures against values that were worked apart from the program, with many more digits.

use cintre_tests::Bench;
use serde_json::{Value, json};
use std::collections::BTreeSet;

const REFERENCE: &str = include_str!("../../crates/geometry/tests/reference/arches.json");

/// How far a length may be off, as a part of the span.
const CLOSE: f64 = 1e-9;

/// How far an angle may be off, degrees: what [`CLOSE`] is on a circle as large as the span.
const CLOSE_ANGLE: f64 = 1e-7;

const SHOP: &str = "\
shop:
  stock: { board: { material: mdf, sheet: [4000, 2000], thickness: 9 } }
  machines: { drawn: { kind: drawing } }
";

/// Shapes that the reference has no entry for: held by unit tests of their own.
const APART: [&str; 5] = ["measured", "oval", "round", "traced", "trefoil"];

/// The shapes that can be made, by the schema.
fn shapes(schema: &Value, found: &mut BTreeSet<String>) {
    match schema {
        Value::Object(fields) => {
            if let Some(shape) = fields.get("shape").and_then(|shape| shape["const"].as_str()) {
                found.insert(shape.to_owned());
            }
            fields.values().for_each(|value| shapes(value, found));
        }
        Value::Array(items) => items.iter().for_each(|item| shapes(item, found)),
        _ => {}
    }
}

/// The arch of a reference entry as a job says it.
fn arch(entry: &Value) -> String {
    let given = entry["given"].as_object().expect("each entry says what is given");
    let mut arch = format!(
        "shape: {}, size-meant: true",
        entry["shape"].as_str().expect("a shape")
    );
    for (name, value) in given {
        let word = match name.as_str() {
            "rise_of_arc" => "arc-rise",
            "rise_above_lower_springing" => "rise",
            "haunch_radius" => "haunch-radius",
            "haunch_turn_deg" => "haunch-turn",
            "middle_turn_deg" => "middle-turn",
            "lower_radius" => "lower-radius",
            "springing_difference" => "springing-difference",
            "span" | "rise" | "stilt" | "radius" | "camber" | "construction" => name,
            other => panic!("{other} is not known to this test"),
        };
        let value = match value.as_str() {
            Some("least ratio of radii") => "least-ratio".into(),
            Some("every arc turns sixty degrees") => "sixty".into(),
            Some("mean radius") => "mean-radius".into(),
            Some("two thirds") => "two-thirds".into(),
            _ => value.to_string(),
        };
        arch = format!("{arch}, {word}: {value}");
    }
    if entry["shape"] == "camber" {
        // Its back has no part in the reference, and every job says where it is.
        arch += ", depth: 250";
    }
    format!("{{ {arch} }}")
}

fn close(ours: &Value, theirs: &Value, within: f64, what: &str) {
    match (ours, theirs) {
        (Value::Array(ours), Value::Array(theirs)) => {
            assert_eq!(ours.len(), theirs.len(), "{what}");
            for (ours, theirs) in ours.iter().zip(theirs) {
                close(ours, theirs, within, what);
            }
        }
        _ => {
            let (ours, theirs) = (ours.as_f64(), theirs.as_f64());
            let off = ours.zip(theirs).map(|(ours, theirs)| (ours - theirs).abs());
            assert!(
                off.is_some_and(|off| off <= within),
                "{what}: {ours:?}, not {theirs:?}"
            );
        }
    }
}

fn compare(name: &str, ours: &Value, theirs: &Value) {
    let span = theirs["given"]["span"].as_f64().expect("a span is given");
    let length = span * CLOSE;
    close(&ours["span"], &theirs["given"]["span"], length, name);
    for (figure, within) in [
        ("developed_length", length),
        ("area_above_springing", length * span),
        ("ordinates", length),
    ] {
        close(
            &ours[figure],
            &theirs[figure],
            within,
            &format!("{name}, {figure}"),
        );
    }
    // A curve that is no arc has none.
    let Some(pieces) = theirs["pieces"].as_array() else {
        return;
    };
    assert_eq!(
        ours["pieces"].as_array().map(Vec::len),
        Some(pieces.len()),
        "{name}"
    );
    for (i, piece) in pieces.iter().enumerate() {
        let ours = &ours["pieces"][i];
        let line = piece["line"].as_array();
        let kind = if line.is_some() { "line" } else { "arc" };
        assert_eq!(ours["kind"], kind, "{name}, piece {i}");
        let piece = match line {
            Some(ends) => &json!({ "start": ends[0], "end": ends[1] }),
            None => piece,
        };
        for (figure, value) in piece.as_object().expect("a piece has figures") {
            let within = if figure == "sweep_deg" {
                CLOSE_ANGLE
            } else {
                length
            };
            close(
                &ours[figure],
                value,
                within,
                &format!("{name}, piece {i}, {figure}"),
            );
        }
    }
}

#[test]
fn the_figures_of_every_arch_that_can_be_made_are_right() {
    let reference: Value = serde_json::from_str(REFERENCE).expect("the reference is JSON");
    let entries = reference["arches"]
        .as_array()
        .expect("the reference lists arches");
    let bench = Bench::default();
    let mut can = BTreeSet::new();
    shapes(&bench.run(&["schema", "job"]).ended(0).json(), &mut can);
    let entries: Vec<&Value> = entries
        .iter()
        .filter(|entry| entry["shape"].as_str().is_some_and(|shape| can.contains(shape)))
        .collect();
    let covered: BTreeSet<&str> = entries
        .iter()
        .filter_map(|entry| entry["shape"].as_str())
        .collect();
    assert!(
        can.iter()
            .all(|shape| covered.contains(shape.as_str()) || APART.contains(&shape.as_str())),
        "{can:?} {covered:?}"
    );

    let mut job = format!("title: Reference arches\nunits: mm\n{SHOP}arches:\n");
    for (i, entry) in entries.iter().enumerate() {
        job = format!("{job}  arch-{i}: {}\n", arch(entry));
    }
    job += "  small: { shape: semicircular, span: 600 }\n";
    job += "make:\n  - pattern: { arch: small, piece: inside, stock: board, machine: drawn }\n";
    bench.write("job.yaml", &job);
    let figures = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    for (i, entry) in entries.iter().enumerate() {
        compare(
            entry["name"].as_str().expect("an entry has a name"),
            &figures["arches"][format!("arch-{i}")],
            entry,
        );
    }
}
