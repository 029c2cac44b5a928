use super::*;
use crate::pen::{BORING, ROADS};
use crate::samples::{crowded, programs, sheet as sample, sheet_drawing, tabs};
use cintre_lettering::strokes;

#[test]
fn no_two_labels_of_a_sheet_overlap() {
    for sheet in [sample(), crowded()] {
        let (programs, tabs) = (programs(&sheet), tabs(&sheet));
        let canvas = draw(&sheet_drawing(&sheet, &programs, &tabs, &[]));
        let labels = canvas.labels();
        for (i, a) in labels.iter().enumerate() {
            for b in &labels[i + 1..] {
                assert!(!a.overlaps(*b), "{a:?} lies over {b:?}");
            }
        }
    }
}

/// Where a sheet of 2440 × 1220 comes to lie on the page.
fn view_of(drawing: &SheetDrawing<'_>) -> View {
    let left = dimension::room(&sizes(drawing), Side::Left);
    let top = MARGIN + GRAIN;
    let space = Rect::new(MARGIN + left, top, PAGE - MARGIN - 3.0, top + TALLEST);
    View::fit(Rect::new(0.0, 0.0, 2440.0, 1220.0), space)
}

#[test]
fn every_part_has_its_name_inside_its_edge() {
    let sheet = sample();
    let drawing = sheet_drawing(&sheet, &[], &[], &[]);
    let canvas = draw(&drawing);
    let view = view_of(&drawing);
    for placed in &sheet.parts {
        let edge = view.outline(&placed.part.outline);
        let inside = |r: &&Rect| {
            [(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)]
                .iter()
                .all(|&p| edge.contains(p.into()))
        };
        assert_eq!(
            canvas.labels().iter().filter(inside).count(),
            1,
            "{} has one name",
            placed.name
        );
    }
}

#[test]
fn a_name_is_drawn_in_the_strokes_of_the_lettering() {
    let sheet = sample();
    let svg = sheet_svg(&sheet);
    // One path holds all strokes of a name, each begun by a move.
    for placed in &sheet.parts {
        let count = strokes(&placed.name, 4.0, Point::ZERO, Anchor::Start)
            .unwrap()
            .len();
        let found = svg.split("d=\"").any(|d| {
            let d = d.split('"').next().unwrap_or_default();
            d.matches('M').count() == count
        });
        assert!(found, "{} is nowhere", placed.name);
    }
    assert!(!svg.contains("<text"));
}

fn sheet_svg(sample: &Sheet) -> String {
    sheet(&sheet_drawing(sample, &[], &[], &[]))
}

#[test]
fn bits_that_cut_differ_in_dashes_and_not_in_colour_alone() {
    for (i, a) in ROADS.iter().enumerate() {
        assert!(ROADS[i + 1..].iter().all(|b| a.dashes != b.dashes));
    }
    assert_ne!(RAPID.dashes, TRIM.dashes);
}

#[test]
fn a_boring_bit_takes_no_cutting_pen() {
    let sheet = sample();
    let roads: Vec<_> = programs(&sheet).iter().map(|p| road(p, &sheet.parts)).collect();
    assert_eq!(pens(&roads), [BORING, ROADS[0]]);
}

/// A ring about the place, and its number and words in the strip; one far off the sheet is marked at its side.
#[test]
fn a_fault_is_marked_at_its_place() {
    let sheet = sample();
    let good = sheet_drawing(&sheet, &[], &[], &[]);
    let view = view_of(&good);
    let ring = |at: Point| Outline::circle(at, 3.2);
    for (at, marked) in [
        ((1200.0, 600.0), view.point(Point::new(1200.0, 600.0))),
        (
            (-900.0, 600.0),
            view.point(Point::new(0.0, 600.0)) - Vec2::new(4.0, 0.0),
        ),
    ] {
        let faults = [Fault {
            at: at.into(),
            what: "it cuts 1.000 mm into gate rib".to_owned(),
        }];
        let mut bare = Canvas::new(PAGE, 100.0);
        bare.edges([&ring(marked)], FAULT);
        let alone = bare.finish();
        let path = alone
            .split("d=\"")
            .filter_map(|d| d.split('"').next())
            .find(|d| d.contains('A'))
            .expect("a ring is of arcs");
        let drawing = SheetDrawing {
            faults: &faults,
            ..good.clone()
        };
        assert!(super::sheet(&drawing).contains(path), "no ring at {marked}");
        assert!(!super::sheet(&good).contains(path));
        assert_eq!(facts(&drawing), ["1: it cuts 1.000 mm into gate rib"]);
    }
}
