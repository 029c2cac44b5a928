//! What stands in the file, read back by the reader of the proof and as text.

use crate::{Error, LONGEST, write};
use cintre_geometry::{Path, Piece, Point};
use cintre_read::pdf::{PageRead, read};
use cintre_work::{Document, Ink, Layer, Page, PageStroke};
use std::f64::consts::PI;

fn page(lines: Vec<Path>) -> Page {
    Page {
        size: (210.0, 297.0),
        stretch: (1.0, 1.0),
        strokes: vec![PageStroke {
            ink: Ink::Drawn(Layer::Outline),
            lines,
            weight: 0.15,
            dashes: vec![],
            white: false,
        }],
    }
}

fn document(page: Page) -> Document {
    Document {
        title: "Gate, north".into(),
        notes: vec!["Hand on the stop: 4½″.".into(), "Stay clear.".into()],
        pages: vec![page],
    }
}

fn read_back(page: Page) -> PageRead {
    let read = read(&write(&document(page)).unwrap()).unwrap();
    assert_eq!(read.print_scaling.as_deref(), Some("None"));
    let page = read.pages.into_iter().next().unwrap();
    assert_eq!(page.faults, Vec::<String>::new());
    page
}

#[test]
fn an_arc_comes_back_on_its_circle() {
    // The 6870 of a flat head: its middle lies far off the page.
    let centre = Point::new(100.0, -6700.0);
    let start = centre + (cintre_geometry::Vec2::from_angle(PI / 2.0 + 0.014) * 6870.0);
    let arc = Piece::arc(centre, start, -0.028);
    let found = read_back(page(vec![Path::from_pieces(&[arc])]));
    let curves = &found.strokes[0].curves;
    assert!(curves[0][0].distance(arc.start) < 1e-4 && curves[0][3].distance(arc.end) < 1e-4);
    for curve in curves {
        for t in [0.0, 0.25, 0.5, 0.75, 1.0] {
            let [a, b, c, d] = curve.map(|p| p.to_vec2());
            let u = 1.0 - t;
            let p = a * u * u * u + b * 3.0 * u * u * t + c * 3.0 * u * t * t + d * t * t * t;
            assert!((p.to_point().distance(centre) - 6870.0).abs() < 1e-4);
        }
    }
}

#[test]
fn a_circle_is_closed_and_stands_true_in_a_few_curves() {
    let circle = cintre_geometry::Outline::circle(Point::new(80.0, 90.0), 60.0).opened_at(0, 0.0);
    let found = read_back(page(vec![circle]));
    let curves = &found.strokes[0].curves;
    // 72 curves of 5 degrees, and the closing line of no length.
    assert_eq!(curves.len(), 73);
    assert!(curves[0][0].distance(curves[72][3]) < 1e-9);
    for [a, _, _, d] in curves {
        assert!((a.distance(Point::new(80.0, 90.0)) - 60.0).abs() < 1e-4 && a.distance(*d) < 5.3);
    }
}

#[test]
fn a_printer_is_sent_what_it_makes_true() {
    let line = Path::polyline(&[Point::new(12.0, 12.0), Point::new(112.0, 12.0)]);
    let found = read_back(Page {
        size: (200.0, 270.0),
        stretch: (1.05, 1.1),
        ..page(vec![line])
    });
    assert!((found.size.0 - 210.0).abs() < 1e-4 && (found.size.1 - 297.0).abs() < 1e-4);
    let [from, .., to] = found.strokes[0].curves[0];
    assert!((to.x - from.x - 105.0).abs() < 1e-4 && (from.y - 13.2).abs() < 1e-4);
}

#[test]
fn no_font_no_date_no_identity_and_the_same_bytes() {
    let line = Path::polyline(&[Point::new(12.0, 12.0), Point::new(112.0, 12.0)]);
    let bytes = write(&document(page(vec![line]))).unwrap();
    assert_eq!(
        bytes,
        write(&document(page(vec![Path::polyline(&[
            Point::new(12.0, 12.0),
            Point::new(112.0, 12.0)
        ])])))
        .unwrap()
    );
    assert!(bytes.is_ascii());
    let text = String::from_utf8_lossy(&bytes);
    for word in ["Font", "Date", "/ID", "Filter", "UserUnit", "NaN", "-0 "] {
        assert!(!text.contains(word), "{word}");
    }
    for word in [
        "/PrintScaling /None",
        "(Gate, north)",
        "Hand on the stop: 4 1/2\"",
        "Stay clear.",
        "/outline BMC",
    ] {
        assert!(text.contains(word), "{word} is not in {text:.900}");
    }
}

#[test]
fn what_no_file_can_hold_is_refused() {
    let line = |x| Path::polyline(&[Point::new(x, 12.0), Point::new(112.0, 12.0)]);
    assert!(matches!(
        write(&document(page(vec![line(f64::NAN)]))),
        Err(Error::NotFinite { page: 1, .. })
    ));
    for height in [0.0, f64::NAN, LONGEST + 1.0] {
        let tall = Page {
            size: (210.0, height),
            ..page(vec![line(0.0)])
        };
        assert!(matches!(write(&document(tall)), Err(Error::Size { page: 1, .. })));
    }
    let none = Document {
        pages: vec![],
        ..document(page(vec![]))
    };
    assert_eq!(write(&none), Err(Error::Empty));
}
