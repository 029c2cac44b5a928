//! Heads, jamb heads and casings from straight boards, through the command.

use cintre_tests::{Bench, near};
use serde_json::Value;

/// A shop with oak boards, who takes drawings, and a small router.
const SHOP: &str = "\
units: mm
stock:
  oak: { material: oak, board: [2400, 145], thickness: 20, boards: 8, clean-up: 6 }
  ply: { material: plywood, sheet: [2440, 1220], thickness: 18, grain: long }
bits:
  cutter-6: { kind: straight, diameter: 6, cutting-length: 25, plunges: true,
              feeds: { oak: { speed: 16000, feed: 2400, plunge: 600, depth: 4 } } }
machines:
  drawn: { kind: drawing, format: dxf }
  table: { kind: router, bed: [2500, 1300], bits: [cutter-6] }
";

fn job(units: &str, arch: &str, head: &str) -> Bench {
    let job = format!(
        "title: Trial\nunits: {units}\nshop: shop.yaml\narches:\n  door: {{ {arch} }}\nmake:\n  - curved-head: {{ arch: door, \
         stock: oak, machine: drawn, {head} }}\n"
    );
    Bench::of(&job, SHOP)
}

#[test]
fn how_many_segments_from_my_boards() {
    let bench = job("mm", "shape: semicircular, span: 1920, ring: 100", "piece: head");
    let said = bench.form_figures();
    assert_eq!(said["segments"], 6);
    near(&said["board_width"], 132.71, 5e-3);
    near(&said["mitre_deg"], 15.0, 1e-9);
    near(&said["long_edge"], 568.05, 5e-3);
    near(&said["board_length"], 548.70, 5e-3);
    near(&said["short_edge"], 496.93, 5e-3);
    near(&said["cross_grain_at_worst_deg"], 15.0, 1e-9);
    let table = bench.run(&["figures", "job.yaml"]).ended(0).out;
    assert!(
        table.contains("15.00 deg") && table.contains("loose tongue"),
        "{table}"
    );
    let round = job("mm", "shape: round, diameter: 680, ring: 90", "piece: head");
    round.edit("shop.yaml", |shop| {
        shop.replace("[2400, 145]", "[2400, 140]")
            .replace("clean-up: 6", "clean-up: 5")
    });
    let said = round.form_figures();
    assert_eq!(said["segments"], 7);
    near(&said["board_width"], 123.67, 5e-3);
    near(&said["mitre_deg"], 25.714, 5e-4);
    near(&said["long_edge"], 414.15, 5e-3);
}

#[test]
fn a_casing_stands_back_by_its_reveal_and_its_legs_are_longer() {
    let arch = "shape: segmental, span: 915, rise: 152, ring: 89, reveal: 6";
    let said = job("mm", arch, "piece: casing, legs: 2000").form_figures();
    near(&said["inner_radii"], 770.51, 5e-3);
    near(&said["outer_radii"], 859.51, 5e-3);
    near(&said["inner_corner_above_springing"], 3.0, 5e-3);
    near(&said["outer_corner_above_springing"], 45.9, 5e-3);
    near(&said["leg_outer_edge"][1], 2045.9, 5e-3);
    let flush = job("mm", &arch.replace(", reveal: 6", ""), "piece: casing").form_figures();
    near(&flush["mitre_by_tangents_from_level_deg"], 26.62, 5e-3);
    near(&flush["straight_mitre_from_level_deg"], 25.84, 5e-3);
    near(&flush["true_mitre_bows_from_straight_at_mid_width"], 0.37, 5e-3);
}

#[test]
fn a_casing_round_an_ellipse_is_of_one_width() {
    // Cut as another ellipse it would be 97.25 at its narrowest.
    let bench = job(
        "mm",
        "shape: elliptical, span: 1280, rise: 380, ring: 100",
        "piece: casing",
    );
    bench.edit("shop.yaml", |shop| shop.replace("[2400, 145]", "[2400, 200]"));
    let said = bench.form_figures();
    for joint in [&said["joint_length"]].into_iter().flat_map(|v| match v {
        Value::Array(all) => all.clone(),
        one => vec![one.clone()],
    }) {
        near(&joint, 100.0, 1e-6);
    }
}

#[test]
fn what_is_made_is_boards_and_a_glue_up_board_on_its_sheet() {
    let arch = "shape: segmental, span: 915, rise: 152, ring: 89, reveal: 6";
    let head = "piece: casing, glue-up: ply, cross-grain: 15 deg, joint: finger";
    let bench = job("mm", arch, head);
    bench.run(&["make", "job.yaml", "--out", "out"]).ended(0);
    bench.run(&["prove", "out"]).ended(0);
    let manifest: Value = serde_json::from_str(&bench.text("out/manifest.json")).unwrap();
    let sheets = manifest["sheets"].as_array().unwrap();
    let of = |stock: &str| {
        let on_it = sheets.iter().filter(|sheet| sheet["stock"] == stock);
        on_it
            .flat_map(|sheet| sheet["parts"].as_array().unwrap().clone())
            .count()
    };
    assert_eq!((of("oak"), of("ply")), (3, 1));
    assert!(
        sheets
            .iter()
            .any(|sheet| sheet["size"] == serde_json::json!([2400.0, 145.0]))
    );
    let list = bench.text("out/cutting-list.csv");
    assert!(
        list.contains("door casing A") && list.contains("door casing glue-up board"),
        "{list}"
    );
    let sheet = bench.text("out/job-sheet.html");
    assert!(
        sheet.contains("blank for segment B") && sheet.contains("board, as bought"),
        "{sheet}"
    );
}

#[test]
fn what_no_boards_can_give_is_refused_at_its_field() {
    let half = "shape: semicircular, span: 1920, ring: 100";
    for (arch, head, field, words) in [
        (
            half,
            "piece: head, segments: 5",
            "curved-head.segments",
            "147.0 mm",
        ),
        (
            half,
            "piece: head, segments: 40",
            "curved-head.segments",
            "31 are the most",
        ),
        (half, "piece: head, width: 138", "curved-head.stock", "140.2 mm"),
        (
            half,
            "piece: head, cross-grain: 1",
            "curved-head.cross-grain",
            "3 degrees or more would do",
        ),
        (
            half,
            "piece: head, layers: 2, joint: dowel",
            "curved-head.joint",
            "face to face",
        ),
        (
            "shape: semicircular, span: 2300, ring: 100",
            "piece: head, glue-up: ply",
            "curved-head.glue-up",
            "2424.0 × 1204.0 mm",
        ),
        (
            "shape: segmental, span: 915, rise: 152, ring: 89, reveal: 95",
            "piece: casing",
            "arches.door.reveal",
            "less than 89 mm",
        ),
        (
            "shape: segmental, span: 915, rise: 152",
            "piece: head",
            "curved-head.piece",
            "`ring`",
        ),
        (
            "shape: camber, span: 900, depth: 200",
            "piece: head",
            "curved-head.arch",
            "segmental",
        ),
    ] {
        let bench = job("mm", arch, head);
        bench.run(&["check", "job.yaml"]).ended(4).said(&[field, words]);
    }
}

#[test]
fn boards_too_narrow_too_few_or_too_neat_are_refused() {
    let half = "shape: semicircular, span: 1920, ring: 100";
    let narrow = job("mm", half, "piece: head");
    narrow.edit("shop.yaml", |shop| shop.replace("[2400, 145]", "[2400, 104]"));
    narrow.run(&["check", "job.yaml"]).ended(4).said(&[
        "curved-head.stock",
        "leave 98.0 mm",
        "107.2 mm wide would do",
    ]);
    let few = job("mm", half, "piece: head");
    few.edit("shop.yaml", |shop| shop.replace("boards: 8", "boards: 1"));
    few.run(&["check", "job.yaml"])
        .ended(4)
        .said(&["shop.yaml", "stock.oak.boards", "the shop has 1"]);
    let routed = job("mm", half, "piece: head");
    routed.edit("job.yaml", |job| job.replace("machine: drawn", "machine: table"));
    routed
        .run(&["check", "job.yaml"])
        .ended(4)
        .said(&["stock.oak.clean-up", "a clean-up of 12 mm or more"]);
}

#[test]
fn words_that_do_not_go_together_are_faults() {
    let arch = "shape: semicircular, span: 900, ring: 100";
    for (head, field, words) in [
        ("piece: jamb-head", "curved-head", "has a `depth`"),
        (
            "piece: jamb-head, depth: 110, layers: 3",
            "curved-head.layers",
            "its `depth`",
        ),
        (
            "piece: head, depth: 110",
            "curved-head.depth",
            "only `piece: jamb-head`",
        ),
        (
            "piece: head, mitre: straight",
            "curved-head.mitre",
            "only `piece: casing`",
        ),
        (
            "piece: head, glue-up: pine",
            "curved-head.glue-up",
            "no stock of this name",
        ),
    ] {
        job("mm", arch, head)
            .run(&["check", "job.yaml"])
            .ended(3)
            .said(&[field, words]);
    }
    for (from, to, field, words) in [
        (
            "[2400, 145]",
            "[145, 2400]",
            "oak.board",
            "longer than it is wide",
        ),
        ("boards: 8", "sheets: 8", "oak.sheets", "`boards`"),
        ("clean-up: 6", "trim: 6", "oak.trim", "`clean-up`"),
        ("clean-up: 6", "clean-up: 150", "oak.clean-up", "under 145 mm"),
        ("clean-up: 6", "grain: short", "oak.grain", "runs along it"),
        ("grain: long", "boards: 2", "ply.boards", "`sheets`"),
        (
            "board: [2400, 145]",
            "sheet: [9, 8], board: [2400, 145]",
            "stock.oak",
            "one of them alone",
        ),
    ] {
        let bench = job("mm", arch, "piece: head");
        bench.edit("shop.yaml", |shop| shop.replace(from, to));
        bench.run(&["check", "job.yaml"]).ended(3).said(&[field, words]);
    }
}
