//! Good files spoilt in every way one can think of: each that cuts or shows something else by more than 0.02 mm is caught,
//! and no good file is refused. The tables are printed: `cargo test -p cintre-cli spoilt_files -- --nocapture`.

#![expect(
    clippy::print_stdout,
    reason = "the tables are what whoever runs the trial wants to see"
)]

use cintre_geometry::{Piece, Point};
use cintre_proof::prove_folder;
use cintre_tests::{
    Bench, Measure, NICHE, SHOP, Spoilt, Tree, harmless_programs, lines_change, spoilt, spoilt_dxf,
    spoilt_plots, spoilt_programs, spoilt_svg,
};
use serde_json::Value;
use std::collections::BTreeMap;

/// A cut that differs by less is the same, mm.
const SAME: f64 = 0.02;

/// The shop of [`SHOP`] with a laser, two pens and a drill besides.
const MACHINES: &str = "  beam: { kind: laser, bed: [600, 400], kerf: { mdf: 0.16 }, power: { mdf: { cut: [80, 12], mark: [20, 60] } } }
  plotter: { kind: pen, bed: [900, 1200], pen: 0.4 }
  pen: { kind: pen, bed: [900, 1200], pen: 0.4, writes: gcode }
";

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
struct Made {
    files: Tree,
}

impl Made {
    fn of(job: &str, shop: &str) -> Self {
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

    fn text(&self, path: &str) -> String {
        String::from_utf8(self.files[path].clone()).expect("cut files are text")
    }

    fn paths(&self, ending: &str) -> Vec<String> {
        self.files
            .keys()
            .filter(|path| path.ends_with(ending))
            .cloned()
            .collect()
    }

    /// Whether every file of the folder still passes with one of them replaced.
    fn passes(&self, path: &str, text: &str) -> bool {
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
    fn changes<'a>(&'a self, path: &'a str) -> impl Fn(&str) -> f64 + 'a {
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

/// Tries spoilt files and prints what became of them; `change` says by how much one cuts otherwise.
fn trial(title: &str, made: &Made, path: &str, spoils: Vec<Spoilt>, change: &dyn Fn(&str) -> f64) {
    assert!(made.passes(path, &made.text(path)), "the good {path} is refused");
    let mut table: BTreeMap<&str, Row> = BTreeMap::new();
    let mut missed = Vec::new();
    for Spoilt { kind, text } in spoils {
        let row = table.entry(kind).or_default();
        row.tried += 1;
        if !made.passes(path, &text) {
            row.caught += 1;
            continue;
        }
        let by = change(&text);
        if by <= SAME {
            row.alike += 1;
        } else {
            row.missed += 1;
            missed.push(format!(
                "{kind}, {by:.3} mm: {}",
                difference(&made.text(path), &text)
            ));
        }
    }
    println!("{title} ({path})\n  {:<32} tried  caught  alike  missed", "kind");
    for (kind, row) in &table {
        println!(
            "  {kind:<32} {:5} {:7} {:6} {:7}",
            row.tried, row.caught, row.alike, row.missed
        );
    }
    assert!(missed.is_empty(), "missed in {path}:\n{}", missed.join("\n"));
    let caught: usize = table.values().map(|row| row.caught).sum();
    assert!(caught > 0, "nothing was caught in {path}");
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

/// What a plotter's whole steps of 1/40 mm round a place by at most, mm: no plot is truer.
const STEP: f64 = 0.018;

/// How far a plot differs beyond its own rounding at most from another text, mm; without bound where it is not begun and ended as it was.
fn plot_change(good: &str, bad: &str) -> f64 {
    let frame = |text: &str| -> Vec<String> {
        let own = text.split(';').map(str::trim);
        own.filter(|c| !c.contains(',')).map(str::to_owned).collect()
    };
    if frame(good) != frame(bad) {
        return f64::INFINITY;
    }
    let (a, b) = (drawn(good), drawn(bad));
    (farthest(&a, &b).max(farthest(&b, &a)) - STEP).max(0.0)
}

/// The lines that a plot draws, mm.
fn drawn(text: &str) -> Vec<Piece> {
    let (mut at, mut lines) = (Point::ZERO, Vec::new());
    for command in text.split(';').map(str::trim).filter(|c| c.contains(',')) {
        let figures: Vec<f64> = command[2..].split(',').filter_map(|n| n.parse().ok()).collect();
        for place in figures
            .chunks_exact(2)
            .map(|p| Point::new(p[0] / 40.0, p[1] / 40.0))
        {
            if command.starts_with("PD") {
                lines.push(Piece::line(at, place));
            }
            at = place;
        }
    }
    lines
}

/// How far any place of some lines is from the others at most.
fn farthest(these: &[Piece], others: &[Piece]) -> f64 {
    let away = |p: Point| {
        others
            .iter()
            .map(|o| o.nearest(p).distance)
            .fold(f64::INFINITY, f64::min)
    };
    let places = |line: &Piece| {
        let line = *line;
        (0..=8).map(move |i| line.point_at(f64::from(i) / 8.0))
    };
    these.iter().flat_map(places).map(away).fold(0.0, f64::max)
}

/// Where nothing but the shape is in a file, every spoil changes it.
fn always(_: &str) -> f64 {
    f64::INFINITY
}

fn shop() -> String {
    format!("{SHOP}{MACHINES}house: {{ paper: none }}\n").replace("bits: [cutter-6]", "bits: [cutter-6, drill-9]").replace(
        "machines:\n",
        "  drill-9:\n    kind: drill\n    diameter: 9\n    cutting-length: 40\n    feeds:\n      mdf: { speed: 6000, feed: 600, plunge: 300, depth: 6 }\nmachines:\n",
    )
}

fn niche_by(machine: &str) -> Made {
    Made::of(
        &spoilt(NICHE, "machine: table", &format!("machine: {machine}")),
        &shop(),
    )
}

/// Two small ribs with their bolts, and so with a drill.
fn ribs() -> Made {
    let job = spoilt(
        NICHE,
        "pattern: { arch: niche, piece: inside, stock: mdf9, machine: table }",
        "centering: { arch: niche, wall: 100, lagging: 9, stock: mdf9, machine: table }",
    );
    Made::of(&job, &shop().replace("sheets: 1", "sheets: 4"))
}

#[test]
fn a_routers_programs() {
    for (title, made) in [("A pattern", niche_by("table")), ("Ribs with bolts", ribs())] {
        for path in made.paths(".nc") {
            let spoils = spoilt_programs(&made.text(&path));
            trial(title, &made, &path, spoils, &made.changes(&path));
        }
    }
}

#[test]
fn a_routers_programs_in_inches_and_chords() {
    let shop = shop().replace(
        "    cut: climb\n",
        "    cut: climb\n    units: in\n    arcs: false\n    zero: { at: middle, height: stock-back }\n",
    );
    let made = Made::of(NICHE, &shop);
    let path = &made.paths(".nc")[0];
    trial(
        "Inches, chords, from the back",
        &made,
        path,
        spoilt_programs(&made.text(path)),
        &made.changes(path),
    );
}

#[test]
fn programs_written_otherwise_pass() {
    for made in [niche_by("table"), ribs()] {
        for path in made.paths(".nc") {
            for Spoilt { kind, text } in harmless_programs(&made.text(&path)) {
                assert!(made.passes(&path, &text), "{path} with {kind} is refused");
            }
        }
    }
}

#[test]
fn drawings() {
    let dxf = niche_by("drawn");
    let path = &dxf.paths(".dxf")[0];
    trial(
        "A drawing in DXF",
        &dxf,
        path,
        spoilt_dxf(&dxf.text(path)),
        &always,
    );
    let svg = niche_by("traced");
    let path = &svg
        .paths(".svg")
        .into_iter()
        .find(|p| p.starts_with("traced/"))
        .expect("it is drawn");
    trial(
        "A drawing in SVG",
        &svg,
        path,
        spoilt_svg(&svg.text(path)),
        &always,
    );
}

#[test]
fn beams_and_pens() {
    for machine in ["beam", "pen"] {
        let made = niche_by(machine);
        let path = &made.paths(".nc")[0];
        let down = (machine == "pen").then_some(0.001);
        trial(
            &format!("By a {machine}"),
            &made,
            path,
            spoilt_programs(&made.text(path)),
            &|text| lines_change(&made.text(path), text, down),
        );
    }
    let made = niche_by("plotter");
    let path = &made.paths(".plt")[0];
    trial(
        "By a plotter",
        &made,
        path,
        spoilt_plots(&made.text(path)),
        &|text| plot_change(&made.text(path), text),
    );
}
