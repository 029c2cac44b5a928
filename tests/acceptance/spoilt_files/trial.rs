//! A made folder of which one file at a time is spoilt.

use cintre_proof::prove_folder;
use cintre_tests::{Bench, Measure, Spoilt, Tree};
use serde_json::Value;
use std::collections::BTreeMap;

/// A cut that differs by less is the same, mm.
const SAME: f64 = 0.02;

/// What becomes of the spoilt files of one kind.
#[derive(Clone, Copy, Debug, Default)]
struct Row {
    tried: usize,
    caught: usize,
    /// Not caught, and cutting the same.
    alike: usize,
    missed: usize,
}

/// A made folder, in memory.
pub(super) struct Made {
    files: Tree,
}

impl Made {
    pub(super) fn of(job: &str, shop: &str) -> Self {
        let bench = Bench::of(job, shop);
        bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
        // What no machine is fed is left out: a cut file is judged without it, and hundreds of them are.
        let fed =
            |path: &str| path.ends_with(".json") || path.contains('/') && !path.starts_with("pictures/");
        let inside = bench.tree().into_iter().filter_map(|(path, bytes)| {
            let path = path.strip_prefix("made/")?.to_owned();
            (fed(&path) && !path.ends_with('/')).then_some((path, bytes))
        });
        Self {
            files: inside.collect(),
        }
    }

    pub(super) fn text(&self, path: &str) -> String {
        String::from_utf8(self.files[path].clone()).expect("cut files are text")
    }

    pub(super) fn paths(&self, ending: &str) -> Vec<String> {
        self.files
            .keys()
            .filter(|path| path.ends_with(ending))
            .cloned()
            .collect()
    }

    /// Whether every file of the folder still passes with one of them replaced.
    pub(super) fn passes(&self, path: &str, text: &str) -> bool {
        let present: Vec<&str> = self.files.keys().map(String::as_str).collect();
        let read = |name: &str| {
            if name == path {
                Some(text.as_bytes().to_vec())
            } else {
                self.files.get(name).cloned()
            }
        };
        let verdict = prove_folder(
            &self.text("manifest.json"),
            &self.text("design.json"),
            &present,
            &read,
        );
        verdict
            .expect("the manifest is whole")
            .files
            .iter()
            .all(|file| file.verdict.passed)
    }

    /// What the manifest says of the file, and the design of its sheet.
    fn sheet_of(&self, path: &str) -> (Value, Value) {
        let read = |name: &str| -> Value { serde_json::from_str(&self.text(name)).expect("it is JSON") };
        let (manifest, design) = (read("manifest.json"), read("design.json"));
        let sheets = manifest["sheets"].as_array().expect("sheets");
        let holds = |sheet: &&Value| {
            sheet["files"]
                .as_array()
                .is_some_and(|f| f.iter().any(|f| f["path"] == path))
        };
        let sheet = sheets.iter().find(holds).expect("the file is listed").clone();
        let plan = design["sheets"]
            .as_array()
            .expect("sheets")
            .iter()
            .find(|s| s["id"] == sheet["id"]);
        (sheet, plan.expect("the sheet is designed").clone())
    }

    /// Measures how far a sheet's cut differs at most with one of its programs replaced.
    pub(super) fn changes<'a>(&'a self, path: &'a str) -> impl Fn(&str) -> f64 + 'a {
        let good = self.figures(path, &self.text(path));
        move |text| {
            let pairs = good.iter().zip(self.figures(path, text));
            pairs.map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
        }
    }

    /// What is measured of a sheet's cut with one of its programs replaced.
    fn figures(&self, path: &str, text: &str) -> Vec<f64> {
        let (sheet, design) = self.sheet_of(path);
        let files = sheet["files"].as_array().expect("files");
        let figure = |v: &Value| v.as_f64().expect("a number");
        let programs: Vec<(String, f64, [f64; 3])> = files
            .iter()
            .filter(|f| f["format"] == "gcode")
            .map(|f| {
                let name = f["path"].as_str().expect("a path");
                let zero = [&f["origin"][0], &f["origin"][1], &f["top"]].map(figure);
                let text = if name == path {
                    text.to_owned()
                } else {
                    self.text(name)
                };
                (text, figure(&f["bit"]["diameter"]) / 2.0, zero)
            })
            .collect();
        let programs: Vec<(&str, f64, [f64; 3])> =
            programs.iter().map(|(t, r, z)| (t.as_str(), *r, *z)).collect();
        Measure::new(&design).figures(&programs)
    }
}

/// Tries spoilt files of a folder and prints what became of them; `change` says by how much one cuts otherwise.
pub(super) fn trial(title: &str, made: &Made, path: &str, spoils: Vec<Spoilt>, change: &dyn Fn(&str) -> f64) {
    let passes = |text: &str| made.passes(path, text);
    try_each(
        &format!("{title} ({path})"),
        &made.text(path),
        spoils,
        &passes,
        change,
    );
}

/// Tries spoilt texts of a good one; `passes` proves one.
pub(super) fn try_each(
    title: &str,
    good: &str,
    spoils: Vec<Spoilt>,
    passes: &dyn Fn(&str) -> bool,
    change: &dyn Fn(&str) -> f64,
) {
    assert!(passes(good), "{title}: the good one is refused");
    let mut table: BTreeMap<&str, Row> = BTreeMap::new();
    let mut missed = Vec::new();
    for Spoilt { kind, text } in spoils {
        let row = table.entry(kind).or_default();
        row.tried += 1;
        if !passes(&text) {
            row.caught += 1;
            continue;
        }
        let by = change(&text);
        if by <= SAME {
            row.alike += 1;
        } else {
            row.missed += 1;
            missed.push(format!("{kind}, {by:.3} mm: {}", difference(good, &text)));
        }
    }
    println!("{title}\n  {:<32} tried  caught  alike  missed", "kind");
    for (kind, row) in &table {
        println!(
            "  {kind:<32} {:5} {:7} {:6} {:7}",
            row.tried, row.caught, row.alike, row.missed
        );
    }
    assert!(missed.is_empty(), "missed in {title}:\n{}", missed.join("\n"));
    let caught: usize = table.values().map(|row| row.caught).sum();
    assert!(caught > 0, "nothing was caught in {title}");
}

/// The first line in which two texts differ.
fn difference(good: &str, bad: &str) -> String {
    let pair = good
        .lines()
        .zip(bad.lines())
        .enumerate()
        .find(|(_, (a, b))| a != b);
    pair.map_or_else(
        || "its end".to_owned(),
        |(i, (a, b))| format!("line {}: {a:?} is {b:?}", i + 1),
    )
}
