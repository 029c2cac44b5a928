//! Full-size drawings, the setting-out sheet and the cutting list, through the tool.

use cintre_tests::{Bench, SHOP};
use std::path::Path;

const JOB: &str = "\
title: Almshouse, coal hole
units: mm
shop: shop.yaml
arches:
  hole: { shape: segmental, span: 400, rise: 90, ring: 60 }
make:
  - pattern: { arch: hole, piece: ring, stock: mdf9, machine: drawn, copies: 2 }
";

/// A bench whose shop has these house rules.
fn bench(house: &str) -> Bench {
    let shop = SHOP.lines().filter(|line| !line.starts_with("house:"));
    let shop: String = shop.map(|line| format!("{line}\n")).collect();
    Bench::of(JOB, &format!("{shop}house: {{ {house} }}\n"))
}

/// The paths in `made`, without it.
fn made(bench: &Bench) -> Vec<String> {
    let tree = bench.tree().into_keys();
    tree.filter_map(|path| path.strip_prefix("made/").map(str::to_owned))
        .collect()
}

fn on_paper(bench: &Bench) -> Vec<String> {
    made(bench)
        .into_iter()
        .filter(|path| path.starts_with("paper/") && path.ends_with(".pdf"))
        .collect()
}

#[test]
fn arches_and_parts_come_on_a4_unless_the_shop_says_otherwise() {
    let bench = bench("spacing: margin 12");
    let told = bench.run(&["make", "job.yaml", "--out", "made"]).ended(0).out;
    let papers = on_paper(&bench);
    assert_eq!(
        papers,
        ["paper/arch-hole-a4.pdf", "paper/form-1-hole-ring-a4.pdf"]
    );
    for path in papers {
        assert!(told.contains(&format!("passed  {path}  ")), "{told}");
    }
    let list = bench.text("made/cutting-list.csv");
    let rows: Vec<&str> = list.lines().collect();
    assert_eq!(rows.len(), 2, "{list}");
    assert!(rows[1].starts_with("hole ring,2,mdf9,9"), "{list}");
    assert!(bench.text("made/manifest.json").contains("setting-out.pdf"));
}

#[test]
fn a_roll_another_sheet_and_a_printer_that_prints_small() {
    let bench = bench("paper: Letter, roll: 24 in, printer: { across: 97.2, along: 98.5 }");
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let papers = on_paper(&bench);
    assert_eq!(papers.len(), 4, "{papers:?}");
    let ends = |end: &str| papers.iter().filter(|path| path.ends_with(end)).count();
    assert_eq!((ends("-letter.pdf"), ends("-roll-610.pdf")), (2, 2));
    bench.run(&["prove", "made"]).ended(0);
}

#[test]
fn a_sheet_comes_on_paper_where_it_is_asked_for() {
    let bench = bench("paper: A3, on-paper: [sheets]");
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    assert_eq!(on_paper(&bench), ["paper/sheet-1-a3.pdf"]);
    bench.run(&["prove", "made"]).ended(0);
    bench.edit("shop.yaml", |shop| shop.replace("[sheets]", "[sheet]"));
    let told = bench.run(&["check", "job.yaml"]).ended(3).err;
    assert!(
        told.contains("house.on-paper") && told.contains("sheets"),
        "{told}"
    );
}

#[test]
fn a_shop_that_wants_no_paper_gets_none_and_no_word_of_saws() {
    let bench = bench("paper: none");
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    assert_eq!(on_paper(&bench), Vec::<String>::new());
    assert!(!bench.text("made/manifest.json").contains("Saws"));
}

#[test]
fn a_roll_that_no_printer_takes_is_refused_at_its_field() {
    let bench = bench("roll: 3 in");
    let told = bench.run(&["check", "job.yaml"]).ended(3).err;
    assert!(
        told.contains("house.roll") && told.contains("200 to 2000 mm"),
        "{told}"
    );
}

#[test]
fn a_spoilt_paper_does_not_pass() {
    let bench = bench("spacing: margin 12");
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let path = bench.path("made/paper/arch-hole-a4.pdf");
    spoil(&path);
    let told = bench.run(&["prove", "made"]).ended(5).out;
    assert!(told.contains("altered since it was made"), "{told}");
    assert!(told.contains("FAILED  paper/arch-hole-a4.pdf"), "{told}");
    assert!(told.contains("not asked"), "{told}");
}

/// Lets a viewer scale the pages, which leaves every byte but the one word where it was.
#[expect(
    clippy::disallowed_methods,
    reason = "the test spoils a file as a user's program might"
)]
fn spoil(path: &Path) {
    let bytes = std::fs::read(path).expect("the paper is there");
    let word = b"/PrintScaling /None";
    let at = bytes.windows(word.len()).position(|found| found == word);
    let at = at.expect("the paper asks for full size");
    let mut bytes = bytes;
    bytes[at + word.len() - 4..at + word.len()].copy_from_slice(b"Auto");
    std::fs::write(path, bytes).expect("the paper can be written");
}

#[test]
fn an_arch_alone_is_made_for_the_bench_without_a_machine() {
    let job =
        "title: Coal hole\nunits: mm\narches:\n  hole: { shape: segmental, span: 400, rise: 90, ring: 60 }\n";
    let bench = Bench::with("job.yaml", job);
    bench.run(&["check", "job.yaml"]).ended(0);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    assert_eq!(on_paper(&bench), ["paper/arch-hole-a4.pdf"]);
    assert!(made(&bench).contains(&"setting-out.pdf".to_owned()));
    bench.run(&["prove", "made"]).ended(0);
}
