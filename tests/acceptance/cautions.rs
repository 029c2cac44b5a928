//! Every caution that applies is in every output that someone may work from.

use cintre_tests::{Bench, SHOP, spoilt};
use cintre_work::Caution;

/// Ribs on every kind of machine that there is.
const JOB: &str = "\
title: Almshouse, coal hole
units: mm
shop: shop.yaml
arches:
  hole: { shape: segmental, span: 400, rise: 90 }
make:
  - centering: { arch: hole, wall: 60, lagging: 10, bolt: 9, stock: mdf9, machine: table }
  - centering: { arch: hole, wall: 60, lagging: 10, bolt: 9, stock: mdf9, machine: drawn }
  - centering: { arch: hole, wall: 60, lagging: 10, bolt: 9, stock: mdf9, machine: traced }
";

const ALL: [Caution; 4] = [
    Caution::Centering,
    Caution::Router,
    Caution::Drawing,
    Caution::Saws,
];

fn bench() -> Bench {
    Bench::of(JOB, &spoilt(SHOP, "sheets: 1", "sheets: 9"))
}

/// A text as its words alone, whatever letters, marks and breaks a format has for them.
fn words(text: &str) -> String {
    let text = text
        .replace("&#39;", "'")
        .replace("&apos;", "'")
        .replace('\'', "");
    let words = text
        .split(|c: char| !c.is_ascii_alphanumeric())
        .filter(|word| !word.is_empty());
    words.map(str::to_ascii_uppercase).collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn holds(what: &str, text: &str, cautions: &[Caution]) {
    let text = words(text);
    for sentence in cautions.iter().flat_map(|caution| caution.sentences()) {
        assert!(
            text.contains(&words(sentence)),
            "{what} lacks: {sentence}\n{text:.3000}"
        );
    }
}

/// That the job, made, says them on its job sheet before any table, and in its manifest.
#[track_caller]
fn folder_says(bench: &Bench, cautions: &[Caution]) {
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let sheet = bench.text("made/job-sheet.html");
    let first_table = sheet.find("<table").expect("the job sheet has tables");
    holds("the head of the job sheet", &sheet[..first_table], cautions);
    let manifest = serde_json::from_str::<serde_json::Value>(&bench.text("made/manifest.json"));
    let manifest = manifest.expect("the manifest is JSON");
    holds("the manifest", &manifest["cautions"].to_string(), cautions);
}

/// The comments at the head of a program, before its first block.
fn head(program: &str) -> String {
    let lines = program.lines().take_while(|line| line.starts_with('('));
    lines.map(|line| format!("{line}\n")).collect()
}

/// The comments of a DXF, without the codes between them.
fn comments(dxf: &str) -> String {
    let lines: Vec<&str> = dxf.lines().map(str::trim).collect();
    let pairs = lines.chunks_exact(2).take_while(|pair| pair[0] == "999");
    pairs.map(|pair| format!("{}\n", pair[1])).collect()
}

#[test]
fn figures_say_them_before_any_figure() {
    let bench = bench();
    let table = bench.run(&["figures", "job.yaml"]).ended(0).out;
    holds("the table", &table, &ALL);
    let first_figure = table.find("span ").expect("the table has figures");
    holds("the head of the table", &table[..first_figure], &ALL);
    let json = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    holds("the figures as JSON", &json["cautions"].to_string(), &ALL);
}

#[test]
fn everything_that_is_made_says_them() {
    let bench = bench();
    folder_says(&bench, &ALL);
    let kinds = every_file_says(&bench, Caution::Centering, &ALL);
    assert_eq!(
        kinds,
        [
            "dxf",
            "dxf of the router",
            "nc",
            "pdf",
            "pdf of the setting out",
            "svg"
        ]
    );
}

/// Sees to it that every file made says the form's caution and its machine's, the setting-out sheet `all`; what kinds there were.
#[track_caller]
fn every_file_says(bench: &Bench, form: Caution, all: &[Caution]) -> Vec<&'static str> {
    let routed = [form, Caution::Router];
    let drawn = [form, Caution::Drawing];
    let mut seen = Vec::new();
    for path in bench
        .tree()
        .into_keys()
        .filter(|path| path.starts_with("made/") && !path.contains("/pictures/"))
    {
        let file = || bench.text(&path);
        let kind = match path.rsplit_once('.') {
            Some((_, "nc")) => {
                holds(&path, &head(&file()), &routed);
                "nc"
            }
            Some((folder, "dxf")) if folder.contains("/table/") => {
                holds(&path, &comments(&file()), &routed);
                "dxf of the router"
            }
            Some((_, "dxf")) => {
                holds(&path, &comments(&file()), &drawn);
                "dxf"
            }
            Some((_, "svg")) => {
                holds(&path, &description(&file()), &drawn);
                "svg"
            }
            Some((folder, "pdf")) => {
                let subject = subject(&bench.tree()[&path]);
                if folder.contains("/paper/") {
                    // Whoever saws by the paper has no machine running.
                    let sawn = [Caution::Saws, form];
                    holds(&path, &subject, &sawn);
                    "pdf"
                } else {
                    holds(&path, &subject, all);
                    "pdf of the setting out"
                }
            }
            _ => continue,
        };
        seen.push(kind);
    }
    seen.sort_unstable();
    seen.dedup();
    seen
}

/// A head on a router and as a drawing.
const HEAD: &str = "\
title: Almshouse, coal hole
units: mm
shop: shop.yaml
arches:
  hole: { shape: segmental, span: 300, rise: 60, ring: 60 }
make:
  - curved-head: { arch: hole, piece: casing, glue-up: mdf9, stock: slats, machine: table }
  - curved-head: { arch: hole, piece: casing, stock: slats, machine: traced }
";

#[test]
fn a_head_says_saws_routers_and_glue_everywhere() {
    let slats = "stock:\n  slats: { material: mdf, board: [900, 120], thickness: 9, clean-up: 24 }";
    let bed = spoilt(SHOP, "bed: [700, 500]", "bed: [1000, 500]");
    let bench = Bench::of(HEAD, &spoilt(&bed, "stock:", slats));
    let all = [Caution::Heads, Caution::Router, Caution::Drawing, Caution::Saws];
    let table = bench.run(&["figures", "job.yaml"]).ended(0).out;
    let first_figure = table.find("span ").expect("the table has figures");
    holds("the head of the table", &table[..first_figure], &all);
    for word in ["saw", "climb cut", "glue", "licensed engineer"] {
        assert!(
            words(&table[..first_figure]).contains(&words(word)),
            "{word} is missing"
        );
    }
    let json = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    holds("the figures as JSON", &json["cautions"].to_string(), &all);
    folder_says(&bench, &all);
    let kinds = every_file_says(&bench, Caution::Heads, &all);
    assert_eq!(
        kinds,
        ["dxf of the router", "nc", "pdf", "pdf of the setting out", "svg"]
    );
}

/// The subject in the document information of a PDF.
fn subject(pdf: &[u8]) -> String {
    let text = String::from_utf8_lossy(pdf);
    let from = text.find("/Subject (").expect("a PDF has a subject");
    let to = text[from..].find(")\n").expect("the subject ends");
    text[from..from + to].to_owned()
}

/// The words in the `desc` of an SVG.
fn description(svg: &str) -> String {
    let document = roxmltree::Document::parse(svg).expect("a drawing is XML");
    let text = document
        .descendants()
        .filter(|node| node.tag_name().name() == "desc");
    text.filter_map(|node| node.text()).collect()
}

/// What guides a router by hand has the words for that, whoever cuts it.
#[test]
fn templates_and_trammels_say_how_a_router_is_held_whoever_cuts_them() {
    let template = |machine: &str| {
        format!(
            "  - template: {{ arch: hole, edge: soffit, guide: bush, bush: 30, bit: hand-12, margin: 30, clamps: 20, stock: mdf9, \
             machine: {machine} }}\n"
        )
    };
    let (arches, _) = JOB.split_once("  - centering").expect("the job makes centerings");
    let trammel =
        "  - trammel: { arch: hole, bit: hand-12, mount: opening, pin: 8, stock: mdf9, machine: drawn }\n";
    let job = format!(
        "{arches}{}{trammel}{}{}",
        template("table"),
        template("drawn"),
        template("traced")
    );
    let shop = spoilt(SHOP, "sheets: 1", "sheets: 9");
    let base = "bushes: [16, 30]\nrouter-base: { diameter: 100 }\n";
    let bits = "bits:\n  hand-12: { kind: straight, diameter: 12.7, cutting-length: 30 }\n";
    let bench = Bench::of(&job, &(spoilt(&shop, "bits:\n", bits) + base));
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let hand = [Caution::HandRouter];
    let table = bench.run(&["figures", "job.yaml"]).ended(0).out;
    let first_figure = table.find("span ").expect("the table has figures");
    holds("the head of the table", &table[..first_figure], &hand);
    let sheet = bench.text("made/job-sheet.html");
    let first_table = sheet.find("<table").expect("the job sheet has tables");
    holds("the head of the job sheet", &sheet[..first_table], &hand);
    holds("the manifest", &bench.text("made/manifest.json"), &hand);
    let mut seen = 0;
    for path in bench.tree().into_keys() {
        let text = match path.rsplit_once('.') {
            Some((folder, _)) if folder.contains("/pictures/") => continue,
            Some((_, "nc")) => head(&bench.text(&path)),
            Some((_, "dxf")) => comments(&bench.text(&path)),
            Some((_, "svg")) => description(&bench.text(&path)),
            Some((_, "pdf")) => subject(&bench.tree()[&path]),
            _ => continue,
        };
        holds(&path, &text, &hand);
        seen += 1;
    }
    assert!(seen >= 6, "{seen} files were looked at");
}

#[test]
fn a_job_says_none_that_do_not_apply() {
    let bench = bench();
    bench.edit("job.yaml", |job| {
        job.lines()
            .filter(|line| !line.contains("centering"))
            .map(|line| format!("{line}\n"))
            .collect::<String>()
            + "  - pattern: { arch: hole, piece: inside, stock: mdf9, machine: drawn }\n"
    });
    let table = bench.run(&["figures", "job.yaml"]).ended(0).out;
    holds("the table", &table, &[Caution::Drawing, Caution::Saws]);
    for other in [Caution::Centering, Caution::Router] {
        for sentence in other.sentences() {
            assert!(!words(&table).contains(&words(sentence)), "{sentence}");
        }
    }
}

#[test]
fn whoever_bends_strips_is_told_in_everything_that_is_made() {
    let job = "\
title: Almshouse, coal hole
units: mm
shop: shop.yaml
arches:
  hole: { shape: segmental, span: 400, rise: 90 }
make:
  - bending-form: { arch: hole, lamination: 2, laminations: 4, width: 19, stock: mdf9, machine: table }
  - bending-form: { arch: hole, lamination: 15, laminations: 2, wood: steamed, width: 19, base: false, stock: mdf9, machine: drawn }
";
    let bench = Bench::of(job, &spoilt(SHOP, "sheets: 1", "sheets: 9"));
    let bent = [Caution::Bending, Caution::Saws];
    let all = [Caution::Bending, Caution::Steam, Caution::Saws, Caution::Router];
    let table = bench.run(&["figures", "job.yaml"]).ended(0).out;
    let first_figure = table.find("span ").expect("the table has figures");
    holds("the head of the table", &table[..first_figure], &all);
    let json = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    holds("the figures as JSON", &json["cautions"].to_string(), &all);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    holds("the job sheet", &bench.text("made/job-sheet.html"), &all);
    let manifest = serde_json::from_str::<serde_json::Value>(&bench.text("made/manifest.json"));
    let manifest = manifest.expect("the manifest is JSON");
    holds("the manifest", &manifest["cautions"].to_string(), &all);
    let mut heads = 0;
    for path in bench.tree().into_keys().filter(|path| path.starts_with("made/")) {
        let steam = path.contains("/drawn/");
        match path.rsplit_once('.') {
            Some((_, "nc")) => holds(&path, &head(&bench.text(&path)), &bent),
            Some((_, "dxf")) => holds(&path, &comments(&bench.text(&path)), &bent),
            Some((folder, "pdf")) if folder.contains("/paper/form") || !folder.contains("/paper/") => {
                holds(&path, &subject(&bench.tree()[&path]), &bent);
            }
            _ => continue,
        }
        if steam {
            holds(&path, &comments(&bench.text(&path)), &[Caution::Steam]);
        }
        heads += 1;
    }
    assert!(heads >= 5, "programs, drawings and paper: {heads}");
}
