//! Good files spoilt in every way one can think of: each that cuts or shows something else by more than 0.02 mm is caught,
//! and no good file is refused. The tables are printed: `cargo test -p cintre-cli spoilt_files -- --nocapture`.

#![expect(
    clippy::print_stdout,
    reason = "the tables are what whoever runs the trial wants to see"
)]

mod kerf;
mod plots;
mod trial;

use cintre_geometry::{Outline, parallel};
use cintre_proof::prove_paper;
use cintre_tests::{
    Bench, NICHE, SHOP, Spoilt, harmless_programs, lines_change, spoilt, spoilt_beams, spoilt_dxf,
    spoilt_paper, spoilt_plots, spoilt_programs, spoilt_svg,
};
use cintre_work::design::{self, Design};
use kerf::cut_along;
use plots::plot_change;
use trial::{Made, trial, try_each};

/// The shop of [`SHOP`] with a laser, two pens and a drill besides.
const MACHINES: &str = "  beam: { kind: laser, bed: [600, 400], kerf: { mdf: 0.16 }, power: { mdf: { cut: [80, 12], mark: [20, 60] } } }
  plotter: { kind: pen, bed: [900, 1200], pen: 0.4 }
  pen: { kind: pen, bed: [900, 1200], pen: 0.4, writes: gcode }
";

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

#[test]
fn what_a_beam_does() {
    let made = niche_by("beam");
    let path = &made.paths(".nc")[0];
    let good = made.text(path);
    trial("What a beam does", &made, path, spoilt_beams(&good), &always);
}

/// The same cut on the right side of the edge passes, so it is the side that the others fail by.
#[test]
fn a_kerf_on_the_wrong_side() {
    let made = niche_by("beam");
    let path = &made.paths(".nc")[0];
    let good = made.text(path);
    let plan: Design = serde_json::from_str(&made.text("design.json")).expect("it is a design");
    let edge = design::outline(&plan.sheets[0].parts[0].outline).expect("it is an outline");
    let half = 0.16 / 2.0;
    let beside = |off: f64| -> String {
        let roads = parallel(&edge, off).expect("it has a parallel");
        let [road]: &[Outline; 1] = roads.as_slice().try_into().expect("one");
        cut_along(&good, road)
    };
    assert!(made.passes(path, &beside(half)), "the right side is refused");
    let spoils = [
        ("on the wrong side", -half),
        ("left out", 0.0),
        ("taken twice", 2.0 * half),
    ];
    let spoils = spoils.map(|(kind, off)| Spoilt {
        kind,
        text: beside(off),
    });
    trial("The kerf", &made, path, spoils.to_vec(), &always);
}

#[test]
fn drawings_on_paper() {
    let bench = Bench::of(
        &spoilt(NICHE, "machine: table", "machine: drawn"),
        &shop().replace("paper: none", "paper: A4"),
    );
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let plan: Design = serde_json::from_str(&bench.text("made/design.json")).expect("it is a design");
    let paper = plan
        .papers
        .iter()
        .find(|paper| paper.path.contains("inside"))
        .expect("it is on paper");
    let good = bench.text(&format!("made/{}", paper.path));
    let passes = |text: &str| prove_paper(paper, text.as_bytes()).passed;
    try_each("On paper", &good, spoilt_paper(&good), &passes, &always);
}
