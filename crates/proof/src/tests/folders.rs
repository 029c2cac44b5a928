//! A made folder, whole and tampered with.

use super::{DISC, disc, prove, said};
use crate::{FolderVerdict, prove_folder, sha256};
use cintre_work::design::Design;
use cintre_work::manifest::{CutFile, FileBit, Format, Manifest, ManifestSheet, OtherFile};
use std::collections::BTreeMap;

type Files = BTreeMap<String, Vec<u8>>;

/// The files of a folder with one disc in it.
fn folder() -> Files {
    let design = serde_json::to_string(&Design {
        sheets: vec![disc()],
        papers: vec![],
    })
    .unwrap();
    let file = CutFile {
        path: "table/sheet-1.nc".to_owned(),
        format: Format::Gcode,
        machine: Some("table".to_owned()),
        bit: Some(FileBit {
            name: "straight-6".to_owned(),
            diameter: 6.0,
        }),
        later_bits: Vec::new(),
        allowance: "bit".to_owned(),
        kerf: 0.0,
        top: Some(0.0),
        floor: Some(-12.0),
        origin: [0.0, 0.0],
        units: "mm".to_owned(),
        sha256: sha256(DISC.as_bytes()),
        proof: prove(&disc(), DISC),
    };
    let manifest = Manifest {
        title: "almshouse".to_owned(),
        made_by: "cintre".to_owned(),
        units: "mm".to_owned(),
        sheets: vec![ManifestSheet {
            id: "sheet-1".to_owned(),
            stock: "ply12".to_owned(),
            size: [300.0, 200.0],
            thickness: 12.0,
            parts: vec!["disc".to_owned()],
            files: vec![file],
        }],
        others: vec![OtherFile {
            path: "design.json".to_owned(),
            sha256: sha256(design.as_bytes()),
        }],
        cautions: Vec::new(),
    };
    let manifest = serde_json::to_string(&manifest).unwrap();
    Files::from([
        ("design.json".to_owned(), design.into_bytes()),
        ("manifest.json".to_owned(), manifest.into_bytes()),
        ("table/sheet-1.nc".to_owned(), DISC.as_bytes().to_vec()),
    ])
}

fn prove_files(files: &Files) -> FolderVerdict {
    let text = |name: &str| String::from_utf8(files[name].clone()).unwrap();
    let present: Vec<&str> = files.keys().map(String::as_str).collect();
    let read = |name: &str| files.get(name).cloned();
    prove_folder(&text("manifest.json"), &text("design.json"), &present, &read).unwrap()
}

fn found(change: impl Fn(&mut Files)) -> String {
    let mut files = folder();
    change(&mut files);
    let verdict = prove_files(&files);
    let folder: String = verdict.findings.iter().map(|f| format!("{f}\n")).collect();
    let each: String = verdict.files.iter().map(|f| said(&f.verdict)).collect();
    assert_eq!(verdict.passed, folder.is_empty() && each.is_empty());
    folder + &each
}

fn replace(files: &mut Files, name: &str, from: &str, to: &str) {
    let old = String::from_utf8(files[name].clone()).unwrap();
    let new = old.replacen(from, to, 1);
    assert_ne!(old, new, "{from} is not in {name}");
    files.insert(name.to_owned(), new.into_bytes());
}

#[test]
fn a_whole_folder_passes() {
    assert_eq!(found(|_| ()), "");
    assert_eq!(prove_files(&folder()).files[0].path, "table/sheet-1.nc");
}

#[test]
fn a_folder_tampered_with_does_not() {
    let nc = "table/sheet-1.nc";
    let altered = "table/sheet-1.nc: altered since it was made";
    assert_eq!(
        found(|f| replace(f, nc, "(DISC)", "(DISK)")).trim(),
        altered,
        "harmless, and said"
    );
    let deep = found(|f| replace(f, nc, "Z-12.3", "Z-19.3"));
    assert!(
        deep.contains(altered) && deep.contains("below the underside"),
        "{deep}"
    );
    let missing = found(|f| drop(f.remove(nc)));
    assert!(missing.starts_with("table/sheet-1.nc: missing"), "{missing}");
    let extra = found(|f| drop(f.insert("table/old.nc".to_owned(), Vec::new())));
    assert!(extra.contains("table/old.nc: not of this job"), "{extra}");
    let design = found(|f| replace(f, "design.json", "\"width\":8.0", "\"width\":7.0"));
    assert!(design.contains("design.json: altered"), "{design}");
    let manifest = |from: &str, to: &str| found(|f| replace(f, "manifest.json", from, to));
    assert!(
        manifest("\"diameter\":6.0", "\"diameter\":5.0").contains("said to be 5 mm, and 6 mm in the design")
    );
    assert!(manifest("\"origin\":[0.0,", "\"origin\":[4.0,").contains("into disc"));
    assert!(manifest("\"thickness\":12.0", "\"thickness\":15.0").contains("the stock of sheet-1 is not"));
    assert!(manifest("[\"disc\"]", "[\"disk\"]").contains("the parts of sheet-1 are not"));
    assert!(manifest("\"passed\":true", "\"passed\":false").contains("does not come out as its proof says"));
    let bit = "{\"name\":\"straight-6\",\"diameter\":6.0}";
    assert!(manifest(bit, "null").contains("sheet-1 is routed and has no program"));
    assert!(manifest("\"floor\":-12.0", "\"floor\":null").contains("lacks what a program must have"));
    assert!(
        manifest("\"units\":\"mm\",\"sha", "\"units\":\"in\",\"sha").contains("its numbers are not in in")
    );
}

#[test]
fn what_is_no_manifest_is_an_error() {
    let none = |_: &str| None;
    assert!(prove_folder("{}", "{\"sheets\":[]}", &[], &none).is_err());
    let manifest = String::from_utf8(folder()["manifest.json"].clone()).unwrap();
    assert!(prove_folder(&manifest, "[]", &[], &none).is_err());
}
