use super::{JOB, spoilt};
use crate::*;
use proptest::prelude::*;

pub(super) fn faults(text: &str) -> Vec<Fault> {
    let faults = read_job("job.yaml", text).expect_err("the job has a fault").0;
    assert!(!faults.is_empty());
    faults
}

/// The one fault of [`JOB`] with a text replaced.
pub(super) fn fault(from: &str, to: &str) -> Fault {
    let mut faults = faults(&spoilt(from, to));
    assert_eq!(faults.len(), 1, "{}", Faults(faults));
    faults.remove(0)
}

/// Checks a fault's field, and that what it says and helps with holds some words.
pub(super) fn says(fault: &Fault, field: &str, words: &[&str]) {
    assert_eq!(fault.field, field, "{fault}");
    let shown = fault.to_string();
    for word in words {
        assert!(shown.contains(word), "`{word}` is missing in:\n{shown}");
    }
}

#[test]
fn unknown_and_missing_fields() {
    let unknown = fault("rise: 260", "rize: 260, radius: 900");
    says(
        &unknown,
        "arches.gate.rize",
        &["did you mean `rise`", "span", "radius"],
    );
    assert_eq!((unknown.line, unknown.column), (11, 41));
    says(
        &fault("title: Walled garden, north gate\n", ""),
        "title",
        &["missing", "one line of text"],
    );
    says(
        &fault("wall: 225, ", ""),
        "make[0].centering.wall",
        &["missing", "thickness of the wall"],
    );
    says(
        &fault("wall: 225", "wall: ~"),
        "make[0].centering.wall",
        &["nothing is given"],
    );
    says(
        &fault("shape: segmental, ", ""),
        "arches.gate.shape",
        &["missing", "segmental", "elliptical"],
    );
    says(
        &fault("rise: 260, ", ""),
        "arches.gate",
        &["2 of span, rise, radius", "given: span"],
    );
    says(
        &fault("rise: 260", "rise: 260, radius: 900"),
        "arches.gate",
        &["neither more nor fewer"],
    );
    says(&fault("units: mm", "units: cm"), "units", &["cm", "mm or in"]);
    says(
        &fault("units: mm", "units: mm\nunits: in"),
        "units",
        &["given twice"],
    );
}

#[test]
fn words_that_are_not_known_are_refused_with_those_that_are() {
    says(
        &fault("kind: router", "kind: router, bit-change: m6"),
        "shop.machines.table.bit-change",
        &["M6"],
    );
    says(
        &fault("segmental, span", "segmentel, span"),
        "arches.gate.shape",
        &["did you mean `segmental`"],
    );
    says(
        &fault("- centering:", "- centring:"),
        "make[0].centring",
        &["did you mean `centering`"],
    );
}

#[test]
fn what_is_wrong_already_is_no_second_fault() {
    for sheet in ["[2440, -1220]", "[2440]", "2440 x 1220"] {
        let found = fault("sheet: [2440, 1220]", &format!("sheet: {sheet}"));
        assert!(found.field.starts_with("shop.stock.ply18.sheet"), "{found}");
    }
    let parked = "kind: router, park: [0, 0], bed: [2500, -1]";
    let found = fault("kind: router, bed: [2500, 1300]", parked);
    assert!(found.field.starts_with("shop.machines.table.bed"), "{found}");
}

#[test]
fn boards_thicker_than_any_lagging_are_taken_for_a_mistake() {
    says(
        &fault("lagging: 18", "lagging: 245"),
        "make[0].centering.lagging",
        &["more than 100 mm", "100 mm at most"],
    );
    says(
        &fault("lagging: 18", "lagging: -5"),
        "make[0].centering.lagging",
        &["nothing or more"],
    );
}

#[test]
fn voussoirs_are_counted_or_sized() {
    let ring = |more: &str| fault("ring: 215", more);
    says(
        &ring("ring: 215, voussoirs: { count: 17 }"),
        "arches.gate.voussoirs",
        &["`count` and `joint`, or `size` and `joints`", "given: count"],
    );
    says(
        &ring("ring: 215, voussoirs: { count: 17, joint: 8, size: 65 }"),
        "arches.gate.voussoirs",
        &["given: count, joint, size"],
    );
    says(
        &ring("voussoirs: { count: 17, joint: 8 }"),
        "arches.gate.ring",
        &["missing", "depth of the ring"],
    );
    says(
        &ring("ring: 215, voussoirs: { size: 65, joints: [19, 6] }"),
        "arches.gate.voussoirs.joints",
        &["thinnest joint comes first"],
    );
    says(
        &ring("ring: 215, voussoirs: { count: 0, joint: 8 }"),
        "arches.gate.voussoirs.count",
        &["whole number from 1"],
    );
    says(
        &ring("ring: 215, voussoirs: { count: 17, joint: -8 }"),
        "arches.gate.voussoirs.joint",
        &["-8"],
    );
    says(
        &ring("ring: 215, ordinates: { step: 0 }"),
        "arches.gate.ordinates.step",
        &["more than nothing"],
    );
}

#[test]
fn sizes_that_nothing_can_have() {
    let span = |to: &str| fault("span: 1220", &format!("span: {to}"));
    says(
        &span("-1220"),
        "arches.gate.span",
        &["-1220", "more than nothing"],
    );
    says(&span("0"), "arches.gate.span", &["more than nothing"]);
    says(&span(".nan"), "arches.gate.span", &["finite"]);
    says(&span("-.inf"), "arches.gate.span", &["finite"]);
    says(&span("2 km"), "arches.gate.span", &["`km` is no unit"]);
    says(&span("1001 m"), "arches.gate.span", &["kilometre"]);
    says(&span("0.0001"), "arches.gate.span", &["thousandth"]);
    says(&span("\"122,0\""), "arches.gate.span", &["comma"]);
    says(&span("true"), "arches.gate.span", &["a length: 1220"]);
    says(&span("[1220]"), "arches.gate.span", &["single value"]);
    says(&span("48 1/0 in"), "arches.gate.span", &["0 below the line"]);
    // The column is that of the fraction.
    assert_eq!(span("48 1/0 in").column, 35 + 3);
    says(
        &fault("units: mm", "units: mm\ntolerance: 2"),
        "tolerance",
        &["0.001 mm to 1 mm"],
    );
    says(
        &fault("units: mm", "units: mm\nrule: 1/3"),
        "rule",
        &["1/32", "0.5 mm"],
    );
    says(
        &fault("lagging: 18", "lagging: -1"),
        "make[0].centering.lagging",
        &["nothing or more"],
    );
    assert!(read_job("job.yaml", &spoilt("lagging: 18", "lagging: 0")).is_ok());
}

#[test]
fn a_doubtful_span_shows_both_readings() {
    let span = |to: &str| fault("span: 1220", &format!("span: {to}"));
    says(
        &span("1180 in"),
        "arches.gate.span",
        &["1180 in is 29.97 m", "write `1180 mm`", "size-meant: true"],
    );
    says(
        &span("24"),
        "arches.gate.span",
        &["24 mm is 0.945 in", "24 in (609.6 mm)"],
    );
    says(&span("48000"), "arches.gate.span", &["48000 mm is 48.00 m"]);
    says(&span("21 m"), "arches.gate.span", &["21 m is 21.00 m"]);
    says(&span("1 in"), "arches.gate.span", &["1 in is 25.4 mm"]);
    let inches = spoilt("units: mm", "units: in").replace("span: 1220", "span: 1180");
    let doubtful = faults(&inches);
    assert!(
        doubtful.iter().any(|f| f.what.contains("1180 in is 29.97 m")),
        "{doubtful:?}"
    );
    let meant = spoilt("span: 1220", "span: 24, size-meant: true");
    assert!(read_job("job.yaml", &meant).is_ok());
}

#[test]
fn titles_and_names_have_limits() {
    says(
        &fault("Walled garden", &"x".repeat(10_000)),
        "title",
        &["10012 characters", "at most 200"],
    );
    says(
        &fault("Walled garden, north gate", "\"a\\nb\""),
        "title",
        &["line break"],
    );
    says(
        &fault("Walled garden, north gate", "a\u{202e}b"),
        "title",
        &["line break"],
    );
    for (name, words) in [
        ("../gate", "begins with"),
        ("gate?", "cannot"),
        (&"g".repeat(41), "too long"),
    ] {
        let faults = faults(&JOB.replace("gate", name));
        assert_eq!(faults.len(), 1, "{}", Faults(faults));
        says(&faults[0], &format!("arches.{name}"), &["a name", words]);
    }
    says(
        &fault("    table:", "    pictures: { kind: drawing }\n    table:"),
        "shop.machines.pictures",
        &["keeps the name"],
    );
    says(
        &fault("    table:", "    Table: { kind: drawing }\n    table:"),
        "shop.machines.table",
        &["capitals"],
    );
}

#[test]
fn names_that_stand_for_nothing() {
    says(
        &fault("arch: gate", "arch: gaet"),
        "make[0].centering.arch",
        &["no arch", "did you mean `gate`"],
    );
    says(
        &fault("stock: ply18", "stock: ply"),
        "make[0].centering.stock",
        &["did you mean `ply18`"],
    );
    says(
        &fault("machine: table", "machine: laser"),
        "make[0].centering.machine",
        &["no machine", "known are: table"],
    );
    says(
        &fault("bits: [straight-6]", "bits: [drill-8]"),
        "shop.machines.table.bits[0]",
        &["no bit"],
    );
}

#[test]
fn a_shop_in_its_own_file_is_checked_once_both_are_read() {
    let job = "title: Gate\nshop: shop.yaml\narches: { gate: { shape: semicircular, span: 900 } }\nmake:\n  \
               - pattern: { arch: gate, piece: inside, stock: ply, machine: table }\n";
    let job = read_job("job.yaml", job).unwrap();
    let shop = read_shop(
        "shop.yaml",
        "stock: { ply12: { material: ply, sheet: [2440, 1220], thickness: 12 } }\n",
    )
    .unwrap();
    let faults = job.check_shop(&shop).unwrap_err().0;
    assert_eq!(faults.len(), 2);
    says(&faults[0], "make[0].pattern.stock", &["did you mean `ply12`"]);
    says(
        &faults[1],
        "make[0].pattern.machine",
        &["the shop has none", "machines:"],
    );
    assert_eq!((faults[0].line, faults[0].file.as_str()), (5, "job.yaml"));
    let empty = read_shop("shop.yaml", "units: mm\n").unwrap();
    assert_eq!(job.check_shop(&empty).unwrap_err().0.len(), 2);
}

#[test]
fn machines_and_sheets_that_cannot_be() {
    let table = |more: &str| fault("kind: router", &format!("kind: router, {more}"));
    says(
        &table("decimals: 5"),
        "shop.machines.table.decimals",
        &["mm takes 3 or 4"],
    );
    says(
        &table("units: in, decimals: 3"),
        "shop.machines.table.decimals",
        &["in takes 4 or 5"],
    );
    says(
        &table("speeds: [9000, 10]"),
        "shop.machines.table.speeds",
        &["slower speed comes first"],
    );
    says(
        &table("keep-outs: [[0, 0, 0, 10]]"),
        "shop.machines.table.keep-outs[0]",
        &["a box is"],
    );
    says(
        &table("keep-outs: [[0, 0, 10]]"),
        "shop.machines.table.keep-outs[0]",
        &["4 values", "not 3"],
    );
    says(
        &fault("thickness: 17.6", "thickness: 1300"),
        "shop.stock.ply18.thickness",
        &["under 1220 mm"],
    );
    says(
        &fault("thickness: 17.6", "thickness: 17.6, trim: 610"),
        "shop.stock.ply18.trim",
        &["under 610 mm"],
    );
    let trim = |trim: &str| fault("thickness: 17.6", &format!("thickness: 17.6, trim: {trim}"));
    says(
        &trim("{ left: 2000, right: 500 }"),
        "shop.stock.ply18.trim.left",
        &[
            "2000 mm here and 500 mm at the right",
            "size of 2440 mm",
            "under 1940 mm",
        ],
    );
    says(
        &trim("{ top: 1300 }"),
        "shop.stock.ply18.trim.top",
        &["8 mm at the bottom", "under 1212 mm"],
    );
    says(&trim("{ left: -4 }"), "shop.stock.ply18.trim.left", &["is -4 mm"]);
    says(
        &trim("{ near: 4 }"),
        "shop.stock.ply18.trim.near",
        &["no such field"],
    );
    says(&trim("[4, 4]"), "shop.stock.ply18.trim", &["a mapping of fields"]);
    assert!(read_job("job.yaml", &spoilt("kind: router", "kind: router, tabs: none")).is_ok());
}

#[test]
fn forms_that_are_set_in_wrongly() {
    let text = spoilt(
        "- centering: { arch: gate, wall: 225, lagging: 18, stock: ply18, machine: table }",
        "- centering:\n    arch: gate",
    );
    says(
        &faults(&text)[0],
        "make[0]",
        &["one name with its fields under it", "further in"],
    );
    says(
        &fault("arch: gate, ", "arch: gate, form: x, "),
        "make[0].centering.form",
        &["no such field"],
    );
}

#[test]
fn every_fault_is_told_at_once_in_the_order_of_the_lines() {
    let text = spoilt("title: Walled garden, north gate", "titel: x")
        .replace("thickness: 17.6", "thickness: 0")
        .replace("span: 1220", "span: 24 m")
        .replace("arch: gate", "arch: door")
        .replace("lagging: 18", "laging: 18");
    let faults = faults(&text);
    let lines: Vec<_> = faults.iter().map(|f| f.line).collect();
    assert_eq!(lines, [1, 1, 5, 11, 13, 13, 13], "{}", Faults(faults));
    assert!(
        serde_json::to_string(&Faults(faults))
            .unwrap()
            .contains("\"field\":\"title\"")
    );
}

/// A short file must not keep the reader busy, nor fill a screen for ever.
#[test]
fn huge_files_of_faults_are_told_briefly() {
    use std::fmt::Write as _;
    let mut many = "title: x\nshop: s.yaml\narches:\n".to_owned();
    let mut unknown = String::new();
    for i in 0..20_000 {
        writeln!(many, "  a{i}: 5").unwrap();
        writeln!(unknown, "b{i}: 5").unwrap();
    }
    says(&faults(&many)[0], "arches", &["20000 names", "at most 1000"]);
    let told = faults(&unknown);
    assert_eq!(told.len(), 201);
    assert!(told[200].what.contains("more faults"), "{}", told[200]);
    let long = spoilt("bits: [straight-6]", &format!("bits: [{}]", "a, ".repeat(2000)));
    says(
        &faults(&long)[0],
        "shop.machines.table.bits",
        &["2000 values", "at most 1000"],
    );
}

#[test]
fn what_is_no_job_at_all() {
    for text in [
        "",
        "# nothing\n",
        "42",
        "[1]",
        "title: [",
        "a: *b",
        "\u{0}",
        "- - - -",
        "? x",
        "{",
        "%",
        "---\n---\n",
    ] {
        assert!(
            read_job("job.yaml", text).is_err_and(|faults| !faults.0.is_empty()),
            "{text:?}"
        );
    }
}

proptest! {
    #[test]
    fn no_text_stops_the_reader(text in "\\PC{0,200}") {
        prop_assert!(read_job("job.yaml", &text).is_err());
        let _ = read_shop("shop.yaml", &text);
    }

    #[test]
    fn no_yaml_stops_the_reader(text in "([a-c]: |- |[{}\\[\\],:?&*!|>'\"#%@`~-]|\n|  |[a-z0-9./]){0,60}") {
        if let Err(faults) = read_job("job.yaml", &text) {
            prop_assert!(!faults.0.is_empty());
        }
    }

    #[test]
    fn no_spoilt_job_stops_the_reader(cuts in proptest::collection::vec((0..JOB.len(), 0_usize..6, "[-{}:,\\[\\]\n #'\"&*a0/.]{0,3}"), 1..5)) {
        let mut text = JOB.to_owned();
        for (at, len, with) in cuts {
            let at = at.min(text.len());
            let end = (at + len).min(text.len());
            text.replace_range(at..end, &with);
        }
        match read_job("job.yaml", &text) {
            Ok(job) => prop_assert!(!job.title.is_empty()),
            Err(faults) => prop_assert!(!faults.0.is_empty()),
        }
    }
}

#[test]
fn only_a_leaf_has_a_gap() {
    let pattern = |fields: &str| {
        let text = format!("pattern: {{ arch: gate, {fields}, stock: ply18, machine: table }}");
        let centering = "centering: { arch: gate, wall: 225, lagging: 18, stock: ply18, machine: table }";
        spoilt(centering, &text)
    };
    let job =
        read_job("job.yaml", &pattern("piece: inside, gap: 4")).unwrap_or_else(|faults| panic!("{faults}"));
    let wanted = Pattern {
        chamfer: None,
        piece: PatternPiece::Inside,
        gap: Some(4.0),
    };
    assert_eq!(job.make[0].form, Form::Pattern(wanted));
    let ring = faults(&pattern("piece: ring, gap: 4"));
    assert_eq!(ring.len(), 1, "{}", Faults(ring));
    says(
        &ring[0],
        "make[0].pattern.gap",
        &["a ring has no gap", "`piece: inside`"],
    );
    says(
        &faults(&pattern("piece: inside, gap: 0"))[0],
        "make[0].pattern.gap",
        &["0"],
    );
}

/// Found by feeding it noise: what is checked between two fields must not lean on one that has a fault of its own.
#[test]
fn a_fault_within_what_is_checked_as_a_whole() {
    for (from, to) in [
        (
            "kind: router",
            "kind: router, tabs: { width: 8, height: 5, every: \",00\" }",
        ),
        (
            "kind: router",
            "kind: router, tabs: { width: [], height: 5, every: 300 }",
        ),
        (
            "kind: router",
            "kind: router, zero: { at: [], height: stock-face }",
        ),
        ("kind: router", "kind: router, zero: [1]"),
        (
            "kind: router",
            "kind: pen, pen: 0.4, up-height: far, down-height: 0",
        ),
        (
            "kind: router",
            "kind: pen, pen: 0.4, up-height: 3, down-height: {}",
        ),
    ] {
        assert!(!faults(&spoilt(from, to)).is_empty(), "{to}");
    }
}
