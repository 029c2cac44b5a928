//! A made folder is proven again from what is on disk, wherever it lies and whatever became of it.

use cintre_tests::{Bench, NICHE, Ran, SHOP};

const PROGRAM: &str = "made/table/sheet-1-1-cutter-6.nc";
const DRAWING: &str = "made/table/sheet-1-mm.dxf";

/// A bench with the niche made on it.
fn made() -> Bench {
    let bench = Bench::of(NICHE, SHOP);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    bench
}

#[track_caller]
fn unproven(bench: &Bench, says: &[&str]) -> Ran {
    let before = bench.tree();
    let ran = bench
        .run(&["prove", "made"])
        .ended(5)
        .said(&["made does not pass"]);
    for word in says {
        assert!(ran.out.contains(word), "`{word}` is missing in:\n{}", ran.out);
    }
    assert_eq!(bench.tree(), before, "prove changes nothing");
    ran
}

/// `text` with its last digit made another.
fn one_digit_off(text: &str) -> String {
    let at = text
        .rfind(|c: char| c.is_ascii_digit())
        .expect("a file has figures");
    let digit = if &text[at..=at] == "3" { "4" } else { "3" };
    format!("{}{digit}{}", &text[..at], &text[at + 1..])
}

/// The program with words put in where its last cut ends, the bit still down.
fn with_a_last_cut(program: &str, words: &str) -> String {
    let end = program.rfind("G0 Z").expect("the bit goes up at the end");
    format!("{}{words}\n{}", &program[..end], &program[end..])
}

#[test]
fn a_folder_that_was_copied_elsewhere() {
    let bench = made();
    for (path, bytes) in bench.tree() {
        if let Some(inside) = path.strip_prefix("made/")
            && !path.ends_with('/')
        {
            bench.write(&format!("stick/in the shop/{inside}"), bytes);
        }
    }
    let here = bench.run(&["prove", "made"]).ended(0);
    let there = bench.run(&["prove", "stick/in the shop"]).ended(0);
    assert_eq!(here.out, there.out);
    assert!(
        here.out.contains("passed  table/sheet-1-1-cutter-6.nc"),
        "{}",
        here.out
    );
}

#[test]
fn a_file_with_one_digit_altered_is_named() {
    let bench = made();
    let files = bench.tree();
    let listed = files
        .keys()
        .filter(|path| path.starts_with("made/") && !path.ends_with('/') && !path.ends_with("manifest.json"));
    for path in listed {
        bench.edit(path, one_digit_off);
        unproven(&bench, &[&format!("{}: altered", &path["made/".len()..])]);
        bench.write(path, &files[path]);
    }
    bench.run(&["prove", "made"]).ended(0);
}

#[test]
fn a_manifest_with_another_checksum_in_it_does_not_pass() {
    let bench = made();
    bench.edit("made/manifest.json", |text| {
        let at = text.find("\"sha256\": \"").expect("files have checksums") + "\"sha256\": \"".len();
        let digit = if &text[at..=at] == "0" { "1" } else { "0" };
        format!("{}{digit}{}", &text[..at], &text[at + 1..])
    });
    unproven(&bench, &["altered"]);
}

#[test]
fn a_file_that_is_missing_is_named() {
    let bench = made();
    let files = bench.tree();
    let listed = files
        .keys()
        .filter(|path| path.starts_with("made/") && !path.ends_with('/') && !path.ends_with("manifest.json"));
    for path in listed {
        std::fs::remove_file(bench.path(path)).expect("a file can be removed");
        let ran = bench.run(&["prove", "made"]).ended(5);
        let name = &path["made/".len()..];
        assert!(
            format!("{}{}", ran.out, ran.err).contains(name),
            "{name}: {ran:?}"
        );
        bench.write(path, &files[path]);
    }
    bench.run(&["prove", "made"]).ended(0);
}

#[test]
fn a_folder_without_a_manifest_was_not_made() {
    let bench = Bench::with("made/letter.txt", "mine\n");
    bench
        .run(&["prove", "made"])
        .ended(6)
        .said(&["manifest.json cannot be read"]);
}

#[test]
fn a_file_too_many_is_named() {
    for name in ["letter.txt", "table/sheet-1-2-cutter-6.nc", "deep/er/thing"] {
        let bench = made();
        bench.write(&format!("made/{name}"), "");
        unproven(&bench, &[name]);
    }
}

#[test]
fn an_edited_program_that_cuts_the_part_is_judged_for_what_it_does() {
    let bench = made();
    bench.edit(PROGRAM, |text| with_a_last_cut(text, "G1 X60.0000"));
    // The bit's edge was at the part's, 3 mm left of its middle: from x 101 it goes on to 60, far into the part.
    let ran = unproven(
        &bench,
        &[
            "altered",
            "FAILED  table/sheet-1-1-cutter-6.nc",
            "into niche inside",
        ],
    );
    let gouge = ran
        .out
        .split("gouge ")
        .nth(1)
        .and_then(|rest| rest.split(' ').next());
    let gouge: f64 = gouge
        .and_then(|gouge| gouge.parse().ok())
        .expect("the gouge is told");
    assert!((10.0..=60.0).contains(&gouge), "{gouge}");
    let verdict = bench.run(&["prove", "made", "--json"]).ended(5).json();
    let finding = verdict["files"][0]["proof"]["findings"].to_string();
    assert!(finding.contains("\"line\":"), "{finding}");
}

#[test]
fn what_is_wrong_is_marked_in_a_picture() {
    let bench = made();
    bench.run(&["prove", "made", "--pictures", "faults"]).ended(0);
    assert!(
        !bench.path("faults").exists(),
        "a good folder has nothing to mark"
    );
    bench.edit(PROGRAM, |text| with_a_last_cut(text, "G1 X60.0000"));
    bench
        .run(&["prove", "made", "--pictures", "faults"])
        .ended(5)
        .said(&["faults/sheet-1.svg"]);
    let picture = bench.text("faults/sheet-1.svg");
    assert!(
        picture.starts_with("<svg") || picture.starts_with("<?xml"),
        "{picture:.80}"
    );
    bench
        .run(&["prove", "made"])
        .ended(5)
        .said(&["made does not pass"]);
}

#[test]
fn an_edited_program_that_leaves_an_edge_standing_is_judged_for_it() {
    let bench = made();
    // Only the head and the end are left: nothing is cut.
    bench.edit(PROGRAM, |text| {
        let words = text
            .lines()
            .filter(|line| !line.starts_with("G2") && !line.starts_with('Y'));
        words.map(|line| format!("{line}\n")).collect()
    });
    unproven(
        &bench,
        &["altered", "FAILED  table/sheet-1-1-cutter-6.nc", "left"],
    );
}

#[test]
fn an_edited_program_that_travels_through_the_stock_is_judged_for_it() {
    let bench = made();
    bench.edit(PROGRAM, |text| with_a_last_cut(text, "G0 X150.0000"));
    unproven(
        &bench,
        &["altered", "FAILED  table/sheet-1-1-cutter-6.nc", "rapid"],
    );
}

#[test]
fn an_edited_program_with_a_harmless_change_is_still_altered() {
    let bench = made();
    bench.edit(PROGRAM, |text| text.replacen("(SHEET", "(MY SHEET", 1));
    unproven(&bench, &["altered", "passed  table/sheet-1-1-cutter-6.nc"]);
}

#[test]
fn an_edited_drawing_is_judged_for_what_it_shows() {
    let bench = made();
    bench.edit(DRAWING, |text| text.replace("\n98.000000\r\n", "\n97.000000\r\n"));
    unproven(&bench, &["altered", "FAILED  table/sheet-1-mm.dxf"]);
}
