//! Drawings of the plate.

use super::plates::plate;
use super::said;
use crate::{DrawingRecord, prove_drawing};
use cintre_read::LengthUnit;
use cintre_work::Verdict;
use cintre_work::manifest::Format;

const SVG: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">
<g id="text"><path d="M 0 0 L 3 3"/></g>
<g id="mark"><path d="M 60 100 L 140 100"/></g>
<g id="bore"><circle cx="40" cy="130" r="4"/><path d="M 164 130 A 4 4 0 0 0 156 130 A 4 4 0 0 0 164 130 Z"/></g>
<g id="opening"><path d="M 80 150 L 80 120 L 120 120 L 120 150 Z"/></g>
<g id="outline"><path d="M 20 180 H 180 V 80 H 20 Z"/></g>
</svg>"#;

fn dxf() -> String {
    let closed = |layer: &str, points: &[[f64; 2]]| {
        let corners: String = points
            .iter()
            .map(|p| format!("0 VERTEX 8 {layer} 10 {:.6} 20 {:.6} 42 0.0 ", p[0], p[1]))
            .collect();
        format!("0 POLYLINE 8 {layer} 66 1 70 1 {corners}0 SEQEND 8 {layer} ")
    };
    let all = [
        "0 SECTION 2 HEADER 9 $ACADVER 1 AC1009 9 $INSUNITS 70 4 0 ENDSEC 0 SECTION 2 ENTITIES".to_owned(),
        "0 LINE 8 MARK 10 60.0 20 100.0 11 140.0 21 100.0".to_owned(),
        "0 CIRCLE 8 BORE 10 40.0 20 70.0 40 4.0 0 CIRCLE 8 BORE 10 160.0 20 70.0 40 4.0".to_owned(),
        closed(
            "OPENING",
            &[[80.0, 50.0], [80.0, 80.0], [120.0, 80.0], [120.0, 50.0]],
        ),
        closed(
            "OUTLINE",
            &[[20.0, 20.0], [180.0, 20.0], [180.0, 120.0], [20.0, 120.0]],
        ),
        "0 ENDSEC 0 EOF".to_owned(),
    ];
    let all = all.join(" ");
    all.split_whitespace().map(|line| format!("{line}\r\n")).collect()
}

fn proven(format: Format, text: &str) -> Verdict {
    let record = DrawingRecord {
        format,
        unit: LengthUnit::Millimetre,
        origin: [0.0, 0.0],
        allowance: "none".to_owned(),
        kerf: 0.0,
    };
    let mut design = plate();
    // The mark's drawn height in the picture above is 100 from either side of a sheet of 200.
    design.size = [300.0, 200.0];
    prove_drawing(&design, &record, text.as_bytes())
}

#[test]
fn both_formats_pass() {
    for (format, text) in [(Format::Svg, SVG.to_owned()), (Format::Dxf, dxf())] {
        let verdict = proven(format, &text);
        assert!(verdict.passed, "{format:?} {}", said(&verdict));
        assert!(verdict.gouge < 1e-6 && verdict.leftover < 1e-6, "{verdict:?}");
    }
}

#[test]
fn each_way_to_spoil_the_picture_is_found() {
    for (from, to, expected) in [
        (
            "L 120 120",
            "L 120.008 120",
            "a line on the layer opening that the design does not have, 0.007",
        ),
        (
            r#"<circle cx="40" cy="130" r="4"/>"#,
            "",
            "1 lines on the layer bore where the design has 2",
        ),
        (r#"r="4""#, r#"r="3.99""#, "its bore is drawn 0.01"),
        ("H 20 Z", "H 20", "a line on the layer outline that is not closed"),
        (
            "H 20 Z",
            "H 20 Z M 20 180 H 180 V 80 H 20 Z",
            "2 lines on the layer outline where the design has 1",
        ),
        ("H 20 Z", "C 1 2 3 4 5 6 Z", "neither a line nor an arc"),
        (
            r#"id="mark""#,
            r#"id="engrave""#,
            "something on the layer \"engrave\"",
        ),
        (
            "<g id=\"mark\"><path d=\"M 60 100 L 140 100\"/></g>",
            "",
            "its mark is drawn",
        ),
        ("0 0 300 200\"", "0 0 300.1 200\"", "not of the same shape"),
        (
            "width=\"300mm\" height=\"200mm\"",
            "width=\"7620mm\" height=\"5080mm\"",
            "mm off it",
        ),
        ("M 20 180 H 180 V 80 H 20 Z", "", "the layer outline is empty"),
        ("<g id=\"text\">", "<g id=\"outline\">", "that is not closed"),
    ] {
        let text = SVG.replacen(from, to, 1);
        assert_ne!(text, SVG, "{from} is not in it");
        let verdict = proven(Format::Svg, &text);
        assert!(
            !verdict.passed && said(&verdict).contains(expected),
            "{from}: {expected} is not in {}",
            said(&verdict)
        );
    }
}

#[test]
fn each_way_to_spoil_the_dxf_is_found() {
    let good = dxf();
    for (from, to, expected) in [
        ("180.000000", "180.006000", "its outline is drawn 0.005"),
        ("70\r\n4\r\n", "70\r\n1\r\n", "its numbers are not in mm"),
        (
            "66\r\n1\r\n70\r\n1\r\n",
            "66\r\n1\r\n70\r\n0\r\n",
            "that is not closed",
        ),
        ("42\r\n0.0\r\n", "42\r\n0.01\r\n", "the design does not have"),
        ("CIRCLE", "TEXT", "which is neither a line nor an arc"),
    ] {
        let text = good.replacen(from, to, 1);
        assert_ne!(text, good, "{from} is not in it");
        let verdict = proven(Format::Dxf, &text);
        assert!(
            !verdict.passed && said(&verdict).contains(expected),
            "{from}: {expected} is not in {}",
            said(&verdict)
        );
    }
}

#[test]
fn an_allowance_is_not_passed_over() {
    let record = DrawingRecord {
        format: Format::Svg,
        unit: LengthUnit::Millimetre,
        origin: [0.0, 0.0],
        allowance: "bit".to_owned(),
        kerf: 0.0,
    };
    let verdict = prove_drawing(&plate(), &record, SVG.as_bytes());
    assert!(said(&verdict).contains("an allowance for the bit cannot be proven"));
}
