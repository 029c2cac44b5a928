//! Which crate may stand on which: a table from the ground up, held against what the manifests say.
//!
//! A row may name only rows above it, so no two crates can come to need each other. Dependencies for tests are free.

use serde_json::Value;
use std::process::Command;

/// What the crates of the workspace are called before their own names.
const PREFIX: &str = "cintre-";

/// Every crate (folder name) with the crates of the workspace that it may use.
const FLOORS: &[(&str, &[&str])] = &[
    ("measure", &[]),
    ("geometry", &[]),
    ("write", &[]),
    ("work", &["geometry"]),
    ("lettering", &["geometry"]),
    ("job", &["measure"]),
    ("read", &["geometry"]),
    ("forms", &["geometry", "work", "lettering"]),
    ("layout", &["geometry", "work"]),
    ("toolpath", &["geometry", "work"]),
    ("proof", &["geometry", "work", "read"]),
    ("picture", &["geometry", "work", "lettering", "write"]),
    ("write-dxf", &["geometry", "work", "write"]),
    ("write-svg", &["geometry", "work", "write", "lettering"]),
    ("write-gcode", &["geometry", "work", "write"]),
    (
        "make",
        &[
            "measure",
            "geometry",
            "write",
            "work",
            "lettering",
            "job",
            "read",
            "forms",
            "layout",
            "toolpath",
            "proof",
            "picture",
            "write-dxf",
            "write-svg",
            "write-gcode",
        ],
    ),
    ("cli", &["make", "job", "proof", "measure", "work"]),
    ("tests", &[]),
];

#[test]
fn every_crate_stands_only_on_its_floor() {
    let faults = faults(&metadata());
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn no_row_names_one_that_is_not_above_it() {
    for (i, (name, below)) in FLOORS.iter().enumerate() {
        for lower in *below {
            assert!(
                FLOORS[..i].iter().any(|(above, _)| above == lower),
                "{name} stands on {lower}, which is not above it in the table"
            );
        }
    }
}

#[test]
fn the_table_names_no_crate_that_is_gone() {
    let metadata = metadata();
    let present: Vec<_> = packages(&metadata).map(|package| short(name(package))).collect();
    for (name, _) in FLOORS {
        assert!(
            present.contains(name),
            "{name} is in the table and not in the workspace"
        );
    }
}

#[test]
fn a_wrong_arrow_and_a_new_crate_are_found() {
    let arrow = |kind: Value| {
        serde_json::json!({ "packages": [
            { "name": "cintre-forms", "dependencies": [{ "name": "cintre-layout", "kind": kind }, { "name": "kurbo", "kind": null }] },
        ] })
    };
    assert_eq!(faults(&arrow(Value::Null)), ["forms may not stand on layout"]);
    assert_eq!(faults(&arrow("build".into())), ["forms may not stand on layout"]);
    assert!(faults(&arrow("dev".into())).is_empty());
    let stranger = serde_json::json!({ "packages": [{ "name": "cintre-cellar", "dependencies": [] }] });
    assert_eq!(faults(&stranger), ["cellar is not in the table"]);
}

/// What the manifests say against the table.
fn faults(metadata: &Value) -> Vec<String> {
    let mut faults = Vec::new();
    for package in packages(metadata) {
        let name = short(name(package));
        let Some((_, allowed)) = FLOORS.iter().find(|(row, _)| *row == name) else {
            faults.push(format!("{name} is not in the table"));
            continue;
        };
        for lower in stands_on(package).filter(|lower| !allowed.contains(lower)) {
            faults.push(format!("{name} may not stand on {lower}"));
        }
    }
    faults
}

/// The crates of the workspace that one needs to be built, those for its tests apart.
fn stands_on(package: &Value) -> impl Iterator<Item = &str> {
    let needed = list(package, "dependencies").filter(|dependency| dependency["kind"] != "dev");
    needed.filter_map(|dependency| name(dependency).strip_prefix(PREFIX))
}

fn packages(metadata: &Value) -> impl Iterator<Item = &Value> {
    list(metadata, "packages")
}

fn list<'a>(value: &'a Value, key: &str) -> impl Iterator<Item = &'a Value> {
    value[key].as_array().expect("a list").iter()
}

fn name(value: &Value) -> &str {
    value["name"].as_str().expect("a name")
}

fn short(name: &str) -> &str {
    name.strip_prefix(PREFIX).unwrap_or(name)
}

fn metadata() -> Value {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--no-deps", "--offline"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo runs");
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).expect("cargo metadata is JSON")
}
