//! The job sheet: everything that is wanted at the bench, and nothing of the user's taken for markup.

use cintre_tests::{Bench, NICHE, SHOP, spoilt};
use roxmltree::{Document, Node, ParsingOptions};

const HOSTILE: &str = "<script>alert(1)</script> & \\\"'<b onclick=x>";

fn parsed(html: &str) -> Document<'_> {
    let options = ParsingOptions {
        allow_dtd: true,
        ..ParsingOptions::default()
    };
    Document::parse_with_options(html, options).expect("the job sheet is well-formed")
}

fn words(node: Node<'_, '_>) -> String {
    let text: String = node
        .descendants()
        .filter(|inner| inner.is_text())
        .filter_map(|inner| inner.text())
        .fold(String::new(), |all, text| all + " " + text);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn section<'d>(page: &'d Document<'_>, id: &str) -> Node<'d, 'd> {
    let found = page.descendants().find(|node| node.attribute("id") == Some(id));
    found.unwrap_or_else(|| panic!("there is no {id}"))
}

#[test]
fn what_a_user_wrote_stays_words() {
    let job = spoilt(NICHE, "Washhouse, soap niche", &format!("\"{HOSTILE}\""));
    let bench = Bench::of(&job, SHOP);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let html = bench.text("made/job-sheet.html");
    let page = parsed(&html);
    assert_eq!(words(section_of_heading(&page)), HOSTILE.replace("\\\"", "\""));
    for node in page.descendants() {
        assert!(!matches!(node.tag_name().name(), "script" | "b"), "{node:?}");
        for attribute in node.attributes() {
            assert!(!attribute.name().starts_with("on"), "{attribute:?}");
        }
    }
}

fn section_of_heading<'d>(page: &'d Document<'_>) -> Node<'d, 'd> {
    let found = page.descendants().find(|node| node.tag_name().name() == "h1");
    found.expect("the page has a heading")
}

#[test]
fn a_routed_sheet_says_what_whoever_runs_it_must_know() {
    let shop = spoilt(
        SHOP,
        "cut: climb",
        "cut: climb\n    zero: { at: middle, height: stock-back }\n    keep-outs: [[640, 0, 700, 60]]",
    );
    let shop = spoilt(&shop, "sheets: 1 }", "sheets: 1, keep-outs: [[0, 0, 40, 50]] }");
    let bench = Bench::of(NICHE, &shop);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let html = bench.text("made/job-sheet.html");
    let page = parsed(&html);
    let sheet = words(section(&page, "sheet-1"));
    for wanted in [
        "mdf9, mdf, 600 mm × 400 mm, 9 mm thick",
        "niche inside",
        "cutter-6, ⌀ 6 mm",
        "16000 turns a minute, 3000 mm a minute along and 900 down, 5 mm deep at most",
        "X 0, Y 0 is the middle of the sheet, 300 mm along and 200 mm across",
        "Z 0 is the underside of the stock",
        "tabs hold the parts, each at least 8 mm wide and 3 mm high",
        "On the bed: x 640 mm to 700 mm, y 0 mm to 60 mm",
        "On the sheet, no part lies there: x 0 mm to 40 mm, y 0 mm to 50 mm",
        "of machine time",
        "passed : all 2 files were read back from disk and hold to the design",
        "passed: gouge 0.000",
    ] {
        assert!(sheet.contains(wanted), "`{wanted}` is not in: {sheet}");
    }
    let picture = section(&page, "sheet-1")
        .descendants()
        .find(|node| node.tag_name().name() == "svg");
    assert!(picture.is_some_and(|svg| svg.attribute("aria-label").is_some()));
}

#[test]
fn every_file_is_listed_with_its_size_and_its_sum() {
    let bench = Bench::of(NICHE, SHOP);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let html = bench.text("made/job-sheet.html");
    let page = parsed(&html);
    let rows: Vec<String> = section(&page, "files")
        .descendants()
        .filter(|node| node.tag_name().name() == "tr")
        .map(words)
        .collect();
    let manifest = bench.text("made/manifest.json");
    let mut count = 0;
    for (path, bytes) in bench.tree() {
        let Some(path) = path.strip_prefix("made/") else {
            continue;
        };
        if path.is_empty() || path.ends_with('/') || path == "job-sheet.html" || path == "manifest.json" {
            continue;
        }
        let row = rows.iter().find(|row| row.starts_with(&format!("{path} ")));
        let row = row.unwrap_or_else(|| panic!("{path} is not listed"));
        let rest: Vec<&str> = row[path.len()..].split_whitespace().collect();
        let sum = rest.last().expect("a row has a checksum");
        // U+202F is white space, and parts the digits.
        assert_eq!(rest[..rest.len() - 1].concat(), bytes.len().to_string(), "{row}");
        assert!(sum.len() == 64 && manifest.contains(sum), "{row}");
        count += 1;
    }
    assert_eq!(rows.len(), count + 1, "a head and a row for each file");
}

#[test]
fn the_parts_of_the_sheet_stand_in_the_order_of_their_use() {
    let bench = Bench::of(NICHE, SHOP);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let html = bench.text("made/job-sheet.html");
    let page = parsed(&html);
    let parts = page
        .descendants()
        .filter(|node| node.tag_name().name() == "section");
    let ids: Vec<_> = parts.filter_map(|node| node.attribute("id")).collect();
    assert_eq!(
        ids,
        [
            "read-first",
            "made",
            "cutting-list",
            "order",
            "sheet-1",
            "check",
            "together",
            "files"
        ]
    );
    let together = words(section(&page, "together"));
    assert!(together.contains("niche: pattern, its figures"), "{together}");
    let order = words(section(&page, "order"));
    assert!(
        order.contains("Cut sheet-1: mdf9 on table, in this order: cutter-6."),
        "{order}"
    );
}
