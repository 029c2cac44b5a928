//! The crates stand on one another by floor. The table is the design: an arrow that is not in it, or a crate, fails.

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

/// Each crate, and all that it may stand on. Stages share `geometry`, `work` and what writes letters, never one another.
const TABLE: &[(&str, &[&str])] = &[
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
    ("paper", &["geometry", "work", "lettering"]),
    ("write-dxf", &["geometry", "work", "write"]),
    ("write-svg", &["geometry", "work", "write", "lettering"]),
    ("write-gcode", &["geometry", "work", "write"]),
    ("write-pdf", &["geometry", "work", "write"]),
    ("write-hpgl", &["geometry", "work", "write"]),
    (
        "make",
        &[
            "measure",
            "geometry",
            "work",
            "lettering",
            "job",
            "read",
            "forms",
            "layout",
            "toolpath",
            "proof",
            "picture",
            "paper",
            "write",
            "write-dxf",
            "write-svg",
            "write-gcode",
            "write-pdf",
            "write-hpgl",
        ],
    ),
    ("cli", &["make", "job", "proof", "measure"]),
    ("tests", &[]),
];

#[test]
fn every_arrow_between_crates_is_in_the_table() {
    let broken = broken_arrows(&arrows(&workspace()));
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}

#[test]
fn the_table_names_the_crates_of_the_workspace_and_no_other() {
    let there: BTreeSet<String> = arrows(&workspace()).into_keys().collect();
    let listed: BTreeSet<String> = TABLE.iter().map(|&(name, _)| name.to_owned()).collect();
    assert_eq!(there, listed);
}

#[test]
fn no_crate_of_the_table_stands_on_one_that_follows_it() {
    for (at, (name, below)) in TABLE.iter().enumerate() {
        for lower in *below {
            let place = TABLE.iter().position(|(other, _)| other == lower);
            assert!(place.is_some_and(|place| place < at), "{name} stands on {lower}");
        }
    }
}

#[test]
fn a_wrong_arrow_and_an_unknown_crate_are_found() {
    let wrong = BTreeMap::from([
        (
            "layout".to_owned(),
            BTreeSet::from(["toolpath".to_owned(), "work".to_owned()]),
        ),
        ("shed".to_owned(), BTreeSet::new()),
    ]);
    assert_eq!(
        broken_arrows(&wrong),
        ["layout may not stand on toolpath", "shed is not in the table"]
    );
}

#[test]
fn an_arrow_for_tests_alone_is_not_counted() {
    let metadata = serde_json::json!({ "packages": [{ "name": "cintre-a", "dependencies": [
        { "name": "cintre-b", "kind": null }, { "name": "cintre-c", "kind": "dev" },
        { "name": "cintre-d", "kind": "build" }, { "name": "serde", "kind": null }
    ] }] });
    let expected = BTreeSet::from(["b".to_owned(), "d".to_owned()]);
    assert_eq!(arrows(&metadata), BTreeMap::from([("a".to_owned(), expected)]));
}

fn broken_arrows(arrows: &BTreeMap<String, BTreeSet<String>>) -> Vec<String> {
    let mut broken = Vec::new();
    for (name, below) in arrows {
        let Some((_, allowed)) = TABLE.iter().find(|(listed, _)| listed == name) else {
            broken.push(format!("{name} is not in the table"));
            continue;
        };
        for lower in below.iter().filter(|lower| !allowed.contains(&lower.as_str())) {
            broken.push(format!("{name} may not stand on {lower}"));
        }
    }
    broken
}

/// What each crate stands on, dependencies of its tests apart, all without `cintre-`.
fn arrows(metadata: &Value) -> BTreeMap<String, BTreeSet<String>> {
    let packages = metadata["packages"].as_array().expect("cargo lists the packages");
    packages
        .iter()
        .map(|package| (short(&package["name"]), below(package)))
        .collect()
}

fn below(package: &Value) -> BTreeSet<String> {
    let dependencies = package["dependencies"]
        .as_array()
        .expect("cargo lists the dependencies");
    dependencies
        .iter()
        .filter(|d| d["kind"] != "dev")
        .filter(|d| d["name"].as_str().is_some_and(|name| name.starts_with("cintre-")))
        .map(|d| short(&d["name"]))
        .collect()
}

fn short(name: &Value) -> String {
    let name = name.as_str().expect("a package has a name");
    name.strip_prefix("cintre-").unwrap_or(name).to_owned()
}

fn workspace() -> Value {
    let manifest = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../Cargo.toml");
    let output = Command::new(env!("CARGO"))
        .args([
            "metadata",
            "--format-version",
            "1",
            "--no-deps",
            "--offline",
            "--manifest-path",
        ])
        .arg(manifest)
        .output()
        .expect("cargo runs");
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).expect("cargo writes JSON")
}
