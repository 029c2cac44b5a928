//! Two pages of a flat arc, made by hand as a file, whole and spoilt.

use super::*;
use cintre_geometry::{Path, Piece};
use cintre_work::design::{DesignLine, open_chain};
use std::fmt::Write as _;

const POINT: f64 = 72.0 / 25.4;

/// One page in print, as its stream is written.
#[derive(Clone, Default)]
struct Sketch {
    text: String,
    stretch: f64,
}

impl Sketch {
    fn line(&mut self, mark: &str, from: (f64, f64), to: (f64, f64)) {
        let k = POINT * self.stretch;
        let _ = writeln!(
            self.text,
            "/{mark} BMC 0.5 w {:.5} {:.5} m {:.5} {:.5} l S EMC",
            from.0 * k,
            from.1 * k,
            to.0 * k,
            to.1 * k
        );
    }

    fn bars(&mut self, hundred: f64) {
        for (i, length) in (0..).zip([hundred, 101.6]) {
            let off = 14.0 + f64::from(i);
            self.line("bar", (30.0, off), (30.0 + length, off));
            self.line("bar", (off, 30.0), (off, 30.0 + length));
        }
    }

    fn cross(&mut self, x: f64, y: f64) {
        self.line("cross", (x - 6.0, y), (x + 6.0, y));
        self.line("cross", (x, y - 6.0), (x, y + 6.0));
    }
}

/// What can be spoilt.
#[derive(Clone, Copy)]
struct Spoils {
    stretch: f64,
    hundred: f64,
    /// How far the second page's crosses stand off.
    cross: f64,
    /// Where the line on the second page begins.
    from: f64,
    /// How far it stands off.
    off: f64,
    scaling: &'static str,
}

const WHOLE: Spoils = Spoils {
    stretch: 1.0,
    hundred: 100.0,
    cross: 0.0,
    from: 26.0,
    off: 0.0,
    scaling: "None",
};

/// A line of 300 mm over two pages 210 wide, that show 26 to 198 of their own and 12 of one another's.
fn file(spoils: Spoils) -> Vec<u8> {
    let mut pages = [
        Sketch {
            text: String::new(),
            stretch: spoils.stretch,
        },
        Sketch {
            text: String::new(),
            stretch: spoils.stretch,
        },
    ];
    for page in &mut pages {
        page.bars(spoils.hundred);
    }
    // The drawing's own 0 is 30 on the first page; 160 farther on stands the corner of the second.
    pages[0].line("outline", (30.0, 100.0), (198.0, 100.0));
    let y = 100.0 + spoils.off;
    pages[1].line("outline", (spoils.from, y), (170.0, y));
    for y in [50.0, 250.0] {
        pages[0].cross(192.0, y);
        pages[1].cross(32.0 + spoils.cross, y);
    }
    let [w, h] = [210.0, 297.0].map(|mm| mm * POINT * spoils.stretch);
    let mut objects = vec![
        format!(
            "<</Pages 2 0 R/ViewerPreferences<</PrintScaling/{}>>>>",
            spoils.scaling
        ),
        "<</Kids[3 0 R 5 0 R]>>".to_owned(),
    ];
    for (page, content) in pages.iter().zip([4, 6]) {
        objects.push(format!("<</MediaBox[0 0 {w} {h}]/Contents {content} 0 R>>"));
        objects.push(format!(
            "<</Length {}>>\nstream\n{}\nendstream",
            page.text.len(),
            page.text
        ));
    }
    let mut text = String::from("%PDF-1.7\n");
    let mut rows = String::from("0000000000 65535 f\r\n");
    for (i, object) in objects.iter().enumerate() {
        let _ = write!(rows, "{:010} 00000 n\r\n", text.len());
        let _ = write!(text, "{} 0 obj\n{object}\nendobj\n", i + 1);
    }
    let table = text.len();
    let _ = write!(
        text,
        "xref\n0 7\n{rows}trailer\n<</Root 1 0 R>>\nstartxref\n{table}\n%%EOF"
    );
    text.into_bytes()
}

fn design(stretch: f64) -> DesignPaper {
    let line = Path::from_pieces(&[Piece::line(Point::new(0.0, 0.0), Point::new(300.0, 0.0))]);
    let page = |x: f64| DesignPage {
        size: [210.0 * stretch, 297.0 * stretch],
        corner: Some([x, -100.0]),
    };
    DesignPaper {
        path: "paper/line.pdf".into(),
        stretch: [stretch, stretch],
        pages: vec![page(-30.0), page(130.0)],
        lines: vec![DesignLine {
            layer: "outline".into(),
            chain: open_chain(&line),
        }],
    }
}

#[track_caller]
fn refused(spoils: Spoils, what: &str) {
    let verdict = prove_paper(&design(spoils.stretch), &file(spoils));
    assert!(!verdict.passed, "{what}");
    let found = verdict.findings.iter().any(|f| f.what.contains(what));
    assert!(found, "{what} is not in {:?}", verdict.findings);
}

#[test]
fn pages_that_join_pass_whatever_the_printer() {
    for stretch in [1.0, 1.0288] {
        let verdict = prove_paper(&design(stretch), &file(Spoils { stretch, ..WHOLE }));
        assert!(verdict.passed, "{:?}", verdict.findings);
        assert!(verdict.gouge < 1e-4 && verdict.leftover < 1e-4);
    }
}

#[test]
fn what_is_wrong_is_told() {
    refused(
        Spoils {
            hundred: 100.002,
            ..WHOLE
        },
        "its bars are not 100 mm",
    );
    refused(
        Spoils { cross: 0.02, ..WHOLE },
        "pages 1 and 2 lie side by side and share 0 crosses",
    );
    refused(
        Spoils { from: 38.5, ..WHOLE },
        "0.500 mm of a line of the outline stand on no page",
    );
    refused(
        Spoils { off: 0.02, ..WHOLE },
        "page 2: a line of the outline that is not in the design",
    );
    refused(Spoils { from: 5.0, ..WHOLE }, "nearer to the edge");
    refused(
        Spoils {
            scaling: "AppDefault",
            ..WHOLE
        },
        "is not asked",
    );
}

#[test]
fn a_page_too_many_or_of_another_size_is_told() {
    let mut short = design(1.0);
    short.pages.pop();
    assert!(!prove_paper(&short, &file(WHOLE)).passed);
    let mut large = design(1.0);
    large.pages[1].size = [420.0, 297.0];
    let verdict = prove_paper(&large, &file(WHOLE));
    assert!(verdict.findings.iter().any(|f| f.what.contains("was planned")));
    let mut unplanned = design(1.0);
    unplanned.pages[1].corner = None;
    let verdict = prove_paper(&unplanned, &file(WHOLE));
    assert!(
        verdict
            .findings
            .iter()
            .any(|f| f.what.contains("is not planned to"))
    );
    assert!((verdict.leftover - 132.0).abs() < 1e-3, "{}", verdict.leftover);
}

#[test]
fn no_pdf_is_refused() {
    assert!(!prove_paper(&design(1.0), b"%PDF-1.7 broken off").passed);
}
