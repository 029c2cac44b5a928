//! What cannot be read, meant or made: refused by name, with nothing written and nothing of the user's touched.

use cintre_tests::{Bench, NICHE, Ran, SHOP, line_of, spoilt};

/// Makes a job that must be refused with `status`, and makes sure that nothing came of it.
#[track_caller]
fn refused(job: &str, shop: &str, status: i32) -> Ran {
    let bench = Bench::of(job, shop);
    let before = bench.tree();
    let ran = bench.run(&["make", "job.yaml", "--out", "made"]).ended(status);
    assert_eq!(ran.out, "", "a refusal is no result");
    assert_eq!(bench.tree(), before, "something was written");
    let check = bench.run(&["check", "job.yaml"]).ended(status);
    assert_eq!(check.err, ran.err, "check and make refuse alike");
    ran
}

/// [`NICHE`] with one word written otherwise: a fault (3) on the line of that word, told with all of `says`.
#[track_caller]
fn fault(from: &str, to: &str, says: &[&str]) {
    let job = spoilt(NICHE, from, to);
    let line = format!("job.yaml:{}:", line_of(&job, to));
    refused(&job, SHOP, 3).said(&[&line]).said(says);
}

/// [`SHOP`] with one word written otherwise: a fault (3) on the line of that word, told with all of `says`.
#[track_caller]
pub(crate) fn fault_of_the_shop(from: &str, to: &str, says: &[&str]) {
    let shop = spoilt(SHOP, from, to);
    let line = format!("shop.yaml:{}:", line_of(&shop, to));
    refused(NICHE, &shop, 3).said(&[&line]).said(says);
}

/// A job and shop that are right, and still cannot be made (4).
#[track_caller]
pub(crate) fn impossible(job: &str, shop: &str, says: &[&str]) {
    refused(job, shop, 4).said(says);
}

#[test]
fn the_job_that_is_spoilt_here_is_right_before() {
    let bench = Bench::of(NICHE, SHOP);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
}

#[test]
fn a_job_file_that_is_not_there() {
    let bench = Bench::default();
    for command in ["check", "figures", "draw", "make"] {
        bench
            .run(&[command, "none.yaml"])
            .ended(6)
            .said(&["none.yaml cannot be read"]);
        assert!(bench.tree().is_empty(), "{command} wrote something");
    }
    bench
        .run(&["prove", "none"])
        .ended(6)
        .said(&["none cannot be read"]);
}

#[test]
fn a_shop_file_that_is_not_there() {
    let job = spoilt(NICHE, "shop.yaml", "barn.yaml");
    refused(&job, SHOP, 6).said(&["barn.yaml cannot be read"]);
}

#[test]
fn a_folder_or_bytes_that_are_no_text_in_the_place_of_a_job() {
    let bench = Bench::with("job.yaml/inside", "");
    bench
        .run(&["check", "job.yaml"])
        .ended(6)
        .said(&["job.yaml cannot be read"]);
    let bench = Bench::with("job.yaml", "");
    bench.write("job.yaml", b"title: \xff\xfe\n");
    bench
        .run(&["check", "job.yaml"])
        .ended(6)
        .said(&["job.yaml cannot be read"]);
}

#[test]
fn words_that_are_no_yaml() {
    for (from, to) in [
        ("make:", "make: ["),
        ("{ arch: niche", "{ arch: niche }}"),
        ("title: ", "title: \""),
    ] {
        let ran = refused(&spoilt(NICHE, from, to), SHOP, 3);
        ran.said(&["job.yaml:", "not YAML"]);
    }
    refused(NICHE, &spoilt(SHOP, "bits:\n", "bits: }\n"), 3).said(&["shop.yaml:", "not YAML"]);
    refused("", SHOP, 3).said(&["job.yaml"]);
}

#[test]
fn a_field_that_is_not_known_with_the_nearest_that_is() {
    fault(
        "rise: 90",
        "rize: 90",
        &["arches.niche.rize", "did you mean `rise`"],
    );
    fault("title:", "titel:", &["titel", "did you mean `title`"]);
    let shop = spoilt(SHOP, "cutting-length", "cuting-length");
    refused(NICHE, &shop, 3).said(&["shop.yaml:8:", "cuting-length", "did you mean `cutting-length`"]);
}

#[test]
fn stock_arch_or_machine_that_is_not_known() {
    fault(
        "stock: mdf9",
        "stock: mdf6",
        &["make[0].pattern.stock: mdf6", "did you mean `mdf9`"],
    );
    fault(
        "arch: niche",
        "arch: nitch",
        &["make[0].pattern.arch: nitch", "did you mean `niche`"],
    );
    fault(
        "machine: table",
        "machine: tabel",
        &["make[0].pattern.machine", "did you mean `table`"],
    );
}

#[test]
fn a_rise_of_nothing() {
    fault(
        "rise: 90",
        "rise: 0",
        &["arches.niche.rise: 0", "more than nothing"],
    );
}

#[test]
fn a_rise_that_no_such_arch_has() {
    fault(
        "rise: 90",
        "rise: 161",
        &[
            "arches.niche.rise: 161",
            "over half the span",
            "160.000 mm or less",
        ],
    );
}

#[test]
fn a_form_that_is_not_known() {
    let job = spoilt(NICHE, "- pattern:", "- patern:");
    refused(&job, SHOP, 3).said(&["make[0].patern", "did you mean `pattern`", "trammel"]);
}

#[test]
fn a_span_in_the_wrong_unit_is_shown_in_both_readings() {
    let job = spoilt(NICHE, "units: mm", "units: in");
    let job = spoilt(&job, "span: 320", "span: 1180");
    let line = format!("job.yaml:{}:", line_of(&job, "1180"));
    refused(&job, SHOP, 3).said(&[
        &line,
        "arches.niche.span: 1180",
        "29.97 m",
        "1180 mm",
        "size-meant",
    ]);
}

#[test]
fn a_part_larger_than_its_sheet() {
    let job = spoilt(NICHE, "span: 320, rise: 90", "span: 900, rise: 120");
    impossible(
        &job,
        SHOP,
        &[
            "job.yaml:7:",
            "make[0].pattern.stock: mdf9",
            "niche inside is 900.0 × 120.0 mm",
        ],
    );
}

#[test]
fn too_few_sheets() {
    let job = spoilt(NICHE, "machine: table", "machine: table, copies: 40");
    impossible(
        &job,
        SHOP,
        &[
            "shop.yaml:3:",
            "stock.mdf9.sheets: 1",
            "sheets are needed of mdf9",
        ],
    );
    let shop = spoilt(SHOP, "sheets: 1", "sheets: 0");
    impossible(
        NICHE,
        &shop,
        &["stock.mdf9.sheets: 0", "1 sheet is needed of mdf9"],
    );
}

#[test]
fn a_title_of_ten_thousand_characters() {
    let title = "x".repeat(10_000);
    let job = spoilt(NICHE, "Washhouse, soap niche", &title);
    let ran = refused(&job, SHOP, 3).said(&["job.yaml:1:", "title", "10000 characters", "at most 200"]);
    assert!(ran.err.len() < 2_000, "the message is as long as the title");
}

#[test]
fn several_faults_are_told_at_once() {
    let job = spoilt(NICHE, "rise: 90", "rise: 0");
    let job = spoilt(&job, "title", "titel");
    let job = spoilt(&job, "piece: inside", "piece: outside");
    refused(&job, SHOP, 3).said(&["titel", "arches.niche.rise: 0", "make[0].pattern.piece: outside"]);
    let shop = spoilt(SHOP, "cut: climb", "cut: clamb");
    let shop = spoilt(&shop, "thickness: 9", "thickness: -9");
    refused(NICHE, &shop, 3).said(&["cut: clamb", "thickness: -9"]);
    // Shapes and sizes that the words allow and the arch does not.
    let second = "ring: 40 }\n  low: { shape: pointed, span: 500, rise: 10 }";
    let job = spoilt(&spoilt(NICHE, "rise: 90", "rise: 161"), "ring: 40 }", second);
    refused(&job, SHOP, 3).said(&["arches.niche.rise: 161", "arches.low.rise: 10"]);
}

#[test]
fn faults_of_job_and_shop_are_told_at_once() {
    let job = spoilt(NICHE, "rise: 90", "rise: 0");
    let job = spoilt(&job, "stock: mdf9", "stock: mdf6");
    let inline: String = SHOP.lines().map(|line| format!("  {line}\n")).collect();
    let inline = spoilt(&inline, "cut: climb", "cut: clamb");
    let job = spoilt(&job, " shop.yaml\n", &format!("\n{inline}"));
    refused(&job, SHOP, 3).said(&[
        "arches.niche.rise: 0",
        "make[0].pattern.stock: mdf6",
        "shop.machines.table.cut: clamb",
    ]);
}

#[test]
fn faults_of_both_files_are_told_at_once() {
    let job = spoilt(NICHE, "rise: 90", "rise: 0");
    let job = spoilt(&job, "stock: mdf9", "stock: mdf6");
    let shop = spoilt(SHOP, "cut: climb", "cut: clamb");
    refused(&job, &shop, 3).said(&[
        "job.yaml:5:",
        "arches.niche.rise: 0",
        "make[0].pattern.stock: mdf6",
        "shop.yaml:",
        "cut: clamb",
    ]);
}
