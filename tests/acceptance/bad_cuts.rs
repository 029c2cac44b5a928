//! Bits, tabs and rooms that will not do: refused with the field, the figures and what would; or done otherwise, and said.

use crate::bad_input::{fault_of_the_shop, impossible};
use cintre_tests::{Bench, NICHE, SHOP, spoilt};

#[test]
fn a_bit_too_long_for_the_safe_height() {
    let shop = spoilt(SHOP, "bed: [700, 500]", "bed: [700, 500]\n    travel-z: 45");
    impossible(
        NICHE,
        &shop,
        &[
            "shop.yaml:10:",
            "bits.cutter-6.holder",
            "stands 30.00 mm out of its collet",
            "table raises 45.00 mm above the bed",
            "24.00 mm out would do",
            "safe height of 6.00 mm would",
        ],
    );
    let enough = spoilt(&shop, "travel-z: 45", "travel-z: 51");
    Bench::of(NICHE, &enough).run(&["check", "job.yaml"]).ended(0);
}

#[test]
fn a_bit_that_stands_out_less_than_the_stock_is_thick() {
    let shop = spoilt(SHOP, "above: 30", "above: 8");
    impossible(
        NICHE,
        &shop,
        &[
            "shop.yaml:10:",
            "bits.cutter-6.holder",
            "cutter-6 cuts 8.00 mm deep",
            "needs 9.30 mm",
        ],
    );
}

#[test]
fn a_spindle_that_turns_too_fast_or_too_slowly_for_a_bit() {
    for speeds in ["[18000, 24000]", "[6000, 12000]"] {
        let shop = spoilt(SHOP, "cut: climb", &format!("cut: climb\n    speeds: {speeds}"));
        let turns = speeds.trim_matches(['[', ']']).replace(", ", " to ");
        impossible(
            NICHE,
            &shop,
            &[
                "shop.yaml:12:",
                "cutter-6",
                "16000 turns a minute",
                &format!("table turns from {turns}"),
            ],
        );
    }
}

#[test]
fn passes_without_depth() {
    fault_of_the_shop("depth: 5", "depth: 0", &["bits.cutter-6.feeds.mdf.depth: 0"]);
}

#[test]
fn a_tab_wider_than_the_part_that_it_holds() {
    let shop = spoilt(SHOP, "width: 8", "width: 95");
    impossible(
        NICHE,
        &shop,
        &[
            "machines.table.tabs",
            "niche inside",
            "95.0 mm wide are wider than the part",
            "mm is the most",
        ],
    );
}

#[test]
fn an_edge_with_no_room_for_a_lead_is_gone_into_by_a_ramp() {
    let shop = spoilt(SHOP, "[600, 400]", "[336, 106], trim: 5");
    let shop = spoilt(
        &shop,
        "cut: climb",
        "cut: climb\n    keep-outs: [[0, 15, 4, 18], [332, 15, 336, 18]]",
    );
    let said = "no room for an arc in the waste; the bit goes in by a ramp along the edge";
    let bench = Bench::of(NICHE, &shop);
    bench
        .run(&["make", "job.yaml", "--out", "made"])
        .ended(0)
        .said(&[said]);
    assert!(bench.text("made/job-sheet.html").contains(said));
}

#[test]
fn a_bit_too_wide_for_a_web_opening() {
    let job = spoilt(NICHE, "span: 320, rise: 90", "span: 1220, rise: 260");
    let rib = "centering: { arch: niche, wall: 225, lagging: 18, rib-depth: 100, bolt: 14";
    let job = spoilt(&job, "pattern: { arch: niche, piece: inside", rib);
    let shop = spoilt(SHOP, "[600, 400]", "[2440, 1220]");
    let shop = spoilt(&shop, "bed: [700, 500]", "bed: [2500, 1300]");
    let shop = spoilt(&shop, "sheets: 1", "sheets: 4");
    let narrow = spoilt(&shop, "diameter: 6\n", "diameter: 10\n");
    Bench::of(&job, &narrow).run(&["check", "job.yaml"]).ended(0);
    // Round corners of so wide a bit leave nothing of the opening.
    let wide = spoilt(&shop, "diameter: 6\n", "diameter: 160\n");
    impossible(
        &job,
        &wide,
        &[
            "job.yaml:7:",
            "rib-depth: 100",
            "corners of 80 mm",
            "94.39 mm is the most",
        ],
    );
}

#[test]
fn a_bit_too_wide_for_a_bolt_hole() {
    let job = spoilt(
        NICHE,
        "pattern: { arch: niche, piece: inside",
        "centering: { arch: niche, wall: 60, lagging: 10, bolt: 9",
    );
    let shop = spoilt(SHOP, "diameter: 6\n", "diameter: 20\n");
    impossible(
        &job,
        &shop,
        &["job.yaml:7:", "9.00 mm bore of niche rib", "at most"],
    );
}

#[test]
fn a_material_that_the_bit_has_no_feeds_for() {
    let shop = spoilt(SHOP, "mdf: { speed", "plywood: { speed");
    impossible(
        NICHE,
        &shop,
        &["shop.yaml:", "cutter-6 has no feeds for mdf", "plywood"],
    );
}

#[test]
fn a_bed_smaller_than_the_sheet() {
    let shop = spoilt(SHOP, "bed: [700, 500]", "bed: [300, 250]");
    impossible(
        NICHE,
        &shop,
        &[
            "make[0].pattern.stock: mdf9",
            "niche inside is",
            "table reaches 300.0 × 250.0 mm of the sheet",
        ],
    );
}

#[test]
fn a_bed_smaller_than_the_sheet_that_holds_the_part_all_the_same() {
    let shop = spoilt(SHOP, "bed: [700, 500]", "bed: [520, 300]");
    let bench = Bench::of(NICHE, &shop);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
}

#[test]
fn stock_thicker_than_the_bit_is_long() {
    let shop = spoilt(SHOP, "thickness: 9", "thickness: 30");
    impossible(NICHE, &shop, &["cutter-6", "20.00 mm deep", "niche inside"]);
}

#[test]
fn an_arris_without_a_vee_bit_to_take_it_off() {
    let job = spoilt(NICHE, "piece: inside", "piece: inside, chamfer: 2");
    impossible(
        &job,
        SHOP,
        &[
            "job.yaml:7:",
            "niche inside",
            "needs a vee bit with feeds for mdf",
            "table has none",
        ],
    );
}
