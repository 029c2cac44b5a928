//! Layouts through the command: what is left over, searches that are ended, stock that cannot be.

use cintre_tests::{Bench, NICHE, SHOP, example, spoilt, tree};
use std::process::Stdio;
use std::thread::sleep;
use std::time::Duration;

fn made(bench: &Bench, job: &str, folder: &str) {
    let job = example(job);
    let job = job.to_str().expect("the examples' path is plain");
    bench.run(&["make", job, "--out", folder, "--quiet"]).ended(0);
}

#[test]
fn what_one_job_leaves_over_the_next_is_cut_from() {
    // That the whole job leaves this over is checked where every example is made.
    let kept = include_str!("../../examples/almshouse/whole-job-left-over.yaml");
    let bench = Bench::default();
    made(&bench, "porch-pattern", "made");
    let manifest = bench.text("made/manifest.json");
    let manifest: serde_json::Value = serde_json::from_str(&manifest).expect("a manifest is JSON");
    let sheets = manifest["sheets"].as_array().expect("it has sheets");
    assert_eq!(sheets.len(), 1);
    let stock = sheets[0]["stock"].as_str().expect("a stock has a name");
    assert!(
        stock.starts_with("mdf18-left-") && kept.contains(stock),
        "{stock}"
    );
    // Its lower left is gone: zero is where there is wood.
    assert_eq!(sheets[0]["files"][0]["origin"], serde_json::json!([745.0, 0.0]));
    let page = bench.text("made/job-sheet.html");
    assert!(page.contains("X 0, Y 0 is the leftmost corner of the near edge, 745 mm along and 0 mm across"));
}

/// Small plates by the dozen, so that there is something to search for.
fn many(effort: &str) -> String {
    spoilt(NICHE, "machine: table }", "machine: table, copies: 24 }")
        .replace("units: mm", &format!("units: mm\neffort: {effort}"))
}

fn roomy() -> String {
    spoilt(SHOP, "sheets: 1", "sheets: 40")
}

#[test]
fn a_search_that_is_ended_hands_over_the_best_so_far_and_says_so() {
    let bench = Bench::of(&many("patient"), &roomy());
    bench
        .run(&["check", "job.yaml", "--search-at-most", "1"])
        .ended(0)
        .said(&["ended early"]);
    let mut command = bench.command(&["make", "job.yaml", "--out", "made"]);
    let run = command
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the command starts");
    sleep(Duration::from_millis(1500));
    let pid = run.id().to_string();
    let told = std::process::Command::new("kill").args(["-INT", &pid]).status();
    assert!(told.expect("a run can be told").success());
    let ended = run.wait_with_output().expect("it ends");
    let said = String::from_utf8_lossy(&ended.stderr);
    assert!(ended.status.success() && said.contains("ended early"), "{said}");
    assert!(tree(&bench.path("made")).contains_key("manifest.json"));
}

#[test]
fn kits_lie_apart_where_the_job_wants_it() {
    let twice = NICHE.replace(
        "machine: table }\n",
        "machine: table, kit: a }\n  - pattern: { arch: niche, piece: ring, stock: mdf9, machine: table, kit: b }\n",
    );
    let bench = Bench::of(&twice, &roomy());
    bench.write("apart.yaml", twice.replace("units: mm", "units: mm\nkits: apart"));
    let on = |job: &str| bench.run(&["check", job]).ended(0).out;
    assert!(on("job.yaml").contains("on 1 sheet\n"), "{}", on("job.yaml"));
    assert!(on("apart.yaml").contains("on 2 sheets\n"), "{}", on("apart.yaml"));
}

#[test]
fn each_edge_is_trimmed_as_its_sheet_says() {
    let trimmed = spoilt(
        SHOP,
        "sheets: 1",
        "sheets: 1, trim: { left: 60, right: 5, top: 0 }",
    );
    let bench = Bench::of(NICHE, &trimmed);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let page = bench.text("made/job-sheet.html");
    assert!(
        page.contains(
            "trimmed by 60 mm on the left, 5 mm on the right, 8 mm at the bottom and 0 mm at the top"
        )
    );
}

#[test]
fn stock_that_cannot_be_laid_on_is_refused_with_the_sizes() {
    let stock = "{ material: mdf, sheet: [600, 400], thickness: 9, sheets: 1 }";
    let of = |with: &str| format!("{{ material: mdf, {with}, thickness: 9 }}");
    let cases = [
        (of("sheet: [600, 400], sheets: 0"), 4, "the shop has 0"),
        (of("sheet: [600, 400], trim: 200"), 3, "must be under 200"),
        (
            of("sheet: [600, 400], trim: { left: 300, right: 310 }"),
            3,
            "under 300 mm with that",
        ),
        (of("sheet: [600, 400], trim: { top: -3 }"), 3, "trim.top"),
        (
            of("sheet: [600, 400], grain: diagonal"),
            3,
            "known are: long, short, none",
        ),
        (of("sheet: [-600, 400]"), 3, "sheet"),
        (of("sheet: [600, 400], sheets: -2"), 3, "from 0 to 10000"),
        (
            of("outline: [[0, 0], [500, 400], [500, 0], [0, 400]]"),
            4,
            "in their order round it",
        ),
        (of("outline: [[0, 0], [20, 0], [0, 20]], trim: 0"), 4, "could be"),
    ];
    for (entry, code, said) in cases {
        let bench = Bench::of(NICHE, &spoilt(SHOP, stock, &entry));
        bench.run(&["check", "job.yaml"]).ended(code).said(&[said]);
    }
    let bench = Bench::of(
        &spoilt(NICHE, "machine: table }", "machine: table, copies: 1000000 }"),
        SHOP,
    );
    bench
        .run(&["check", "job.yaml"])
        .ended(3)
        .said(&["from 1 to 1000"]);
    let bench = Bench::of(
        &spoilt(NICHE, "machine: table }", "machine: table, copies: 2 }"),
        &format!("{SHOP}house: {{ spacing: 500 }}\n"),
    );
    bench
        .run(&["check", "job.yaml"])
        .ended(4)
        .said(&["2 sheets are needed of mdf9", "`sheets: 2`"]);
}
