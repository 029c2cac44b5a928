//! Small files written out by hand.

use super::*;
use std::fmt::Write as _;

/// A PDF of one page 72 by 144 points with this stream, and whatever else its page holds.
fn file(stream: &str, page: &str) -> Vec<u8> {
    let objects = [
        "<</Type/Catalog/Pages 2 0 R/ViewerPreferences<</PrintScaling/None>>>>".to_owned(),
        "<</Type/Pages/Kids[3 0 R]/Count 1>>".to_owned(),
        format!("<</Type/Page/Parent 2 0 R/MediaBox[0 0 72 144]/Contents 4 0 R{page}>>"),
        format!("<</Length {}>>\nstream\n{stream}\nendstream", stream.len()),
    ];
    let mut text = String::from("%PDF-1.7\n");
    let mut rows = String::from("0000000000 65535 f\r\n");
    for (i, object) in objects.iter().enumerate() {
        let _ = write!(rows, "{:010} 00000 n\r\n", text.len());
        let _ = write!(text, "{} 0 obj\n{object}\nendobj\n", i + 1);
    }
    let table = text.len();
    let _ = write!(
        text,
        "xref\n0 5\n{rows}trailer\n<</Size 5/Root 1 0 R>>\nstartxref\n{table}\n%%EOF"
    );
    text.into_bytes()
}

fn only_page(stream: &str, page: &str) -> PageRead {
    let mut read = read(&file(stream, page)).unwrap();
    assert_eq!(
        (read.pages.len(), read.print_scaling.as_deref()),
        (1, Some("None"))
    );
    read.pages.remove(0)
}

fn near(p: Point, x: f64, y: f64) {
    assert!(p.distance(Point::new(x, y)) < 1e-9, "{p:?} is not {x}, {y}");
}

#[test]
fn lines_and_curves_come_out_in_millimetres_with_their_marks() {
    let page = only_page(
        "/bar BMC\n0.72 w 0 0 m 72 0 l S\nEMC q 2 0 0 2 0 0 cm 1 G 0 0 m 9 0 18 9 18 18 c h S Q",
        "",
    );
    assert!((page.size.0 - 25.4).abs() < 1e-9 && (page.size.1 - 50.8).abs() < 1e-9);
    assert!(page.faults.is_empty(), "{:?}", page.faults);
    let [bar, curve] = &page.strokes[..] else {
        panic!("{:?}", page.strokes)
    };
    assert_eq!((bar.mark.as_str(), curve.mark.as_str()), ("bar", ""));
    near(bar.curves[0][3], 25.4, 0.0);
    assert!((bar.weight - 0.254).abs() < 1e-9 && (curve.weight - 0.508).abs() < 1e-9 && curve.grey > 0.9);
    near(curve.curves[0][1], 6.35, 0.0);
    near(curve.curves[0][3], 12.7, 12.7);
    near(curve.curves[1][3], 0.0, 0.0);
}

#[test]
fn what_could_draw_otherwise_is_a_fault() {
    for stream in [
        "/F1 9 Tf",
        "(A) Tj",
        "0 0 m 9 9 l f",
        "1 0 0 RG",
        "9 9 l S",
        "EMC",
        "q",
        "1 2 m 3 l S",
    ] {
        let page = only_page(stream, "");
        assert!(!page.faults.is_empty(), "{stream}");
    }
    for page in ["/UserUnit 2", "/Rotate 90", "/Resources<</Font<</F1 9 0 R>>>>"] {
        assert_eq!(only_page("", page).faults.len(), 1, "{page}");
    }
}

#[test]
fn a_broken_file_is_told_with_its_place() {
    let whole = file("0 0 m 9 9 l S", "");
    for end in 0..whole.len() - 6 {
        // Cut off anywhere, it has no table at its end.
        assert!(read(&whole[..end]).is_err(), "cut off at {end}");
    }
    let text = String::from_utf8(whole).unwrap();
    for (from, to) in [
        ("3 0 R", "9 0 R"),
        ("/Length 13", "/Length 99999"),
        ("/Length", "/Filter/X/Length"),
        ("MediaBox", "MediaBux"),
    ] {
        assert!(read(text.replace(from, to).as_bytes()).is_err(), "{to}");
    }
}
