//! Stock that is no whole sheet, and stock of which there is too little: outlines, places kept free, trim, counts.

use super::*;
use crate::gap::between;
use cintre_geometry::{Point, Vertex};

fn offcut() -> Stock {
    // An L with a round bite out of its inner corner.
    let v = |x: f64, y: f64, bulge| Vertex {
        point: Point::new(x, y),
        bulge,
    };
    let outline = Outline::new(vec![
        v(0.0, 0.0, 0.0),
        v(1200.0, 0.0, 0.0),
        v(1200.0, 400.0, 0.0),
        v(600.0, 400.0, -0.4),
        v(400.0, 600.0, 0.0),
        v(400.0, 900.0, 0.0),
        v(0.0, 900.0, 0.0),
    ]);
    Stock {
        size: (1200.0, 900.0),
        outline: Some(outline),
        keep_outs: vec![Outline::circle(Point::new(150.0, 150.0), 40.0)],
        sheets: Some(1),
        ..stock("ply18", StockGrain::None)
    }
}

#[test]
fn an_offcut_is_used_inside_its_outline_and_clear_of_its_clamps() {
    let parts = [
        shaped(
            "plate",
            Outline::rectangle(Rect::new(0.0, 0.0, 250.0, 170.0)),
            Grain::Free,
            5,
        ),
        shaped("disc", Outline::circle(Point::ZERO, 60.0), Grain::Free, 6),
    ];
    for (trim, spacing) in [(8.0, 10.0), (20.0, 6.0), (0.0, 14.0)] {
        let stocks = [Stock {
            trim: Trim::even(trim),
            ..offcut()
        }];
        let laid = lay_out(&parts, &stocks, settings(spacing, few(2_000)), QUIET).unwrap();
        assert_eq!((laid.sheets.len(), laid.sheets[0].parts.len()), (1, 11));
        let edge = stocks[0].outline.as_ref().unwrap();
        for placed in &laid.sheets[0].parts {
            let outline = &placed.part.outline;
            for piece in outline.pieces() {
                let p = piece.point_at(0.37);
                assert!(edge.signed_distance(p) <= -trim + 1e-6, "{} at {p}", placed.name);
                assert!(stocks[0].keep_outs[0].signed_distance(p) >= spacing - 1e-6);
            }
            assert!(between(outline, edge, 1e3) >= trim - 1e-6);
        }
    }
}

#[test]
fn each_edge_has_a_trim_of_its_own() {
    let stocks = [Stock {
        trim: Trim {
            left: 100.0,
            right: 40.0,
            bottom: 20.0,
            top: 0.0,
        },
        ..stock("ply18", StockGrain::Long)
    }];
    // As large as what is left, to the hair.
    let sheets = run(
        &[part("panel", 2300.0, 1200.0, Grain::Along(0.0), 2)],
        &stocks,
        10.0,
    )
    .unwrap();
    assert_eq!(sheets.len(), 2);
    for sheet in &sheets {
        let bounds = sheet.parts[0].part.outline.bounds();
        let wanted = Rect::new(100.0, 20.0, 2400.0, 1220.0);
        assert!((bounds.origin() - wanted.origin()).hypot() < 1e-6 && (bounds.x1 - wanted.x1).abs() < 1e-6);
    }
    let larger = run(
        &[part("panel", 2300.1, 1200.0, Grain::Along(0.0), 1)],
        &stocks,
        10.0,
    );
    assert!(matches!(larger, Err(Error::TooLarge { usable: (w, h), .. }) if (w, h) == (2300.0, 1200.0)));
    for (edge, by) in [
        ("left", (-1.0, 0.0)),
        ("right", (1.0, 0.0)),
        ("bottom", (0.0, -1.0)),
        ("top", (0.0, 1.0)),
    ] {
        let mut moved = sheets[..1].to_vec();
        moved[0].parts[0].part = moved[0].parts[0].part.transformed(Affine::translate(by));
        assert!(
            matches!(check::check(&moved, 10.0), Err(Error::Gap { .. })),
            "{edge}"
        );
    }
}

#[test]
fn more_than_all_sheets_can_hold_is_told_without_a_search() {
    let few = [Stock {
        sheets: Some(1),
        ..stock("ply18", StockGrain::Long)
    }];
    let endless = Effort {
        questions: u64::MAX,
        stubborn: true,
    };
    let laid = lay_out(
        &[part("panel", 300.0, 200.0, Grain::Free, 60)],
        &few,
        settings(10.0, endless),
        QUIET,
    );
    assert!(
        matches!(
            laid,
            Err(Error::Sheets {
                have: 1,
                needed: 2..,
                ..
            })
        ),
        "{laid:?}"
    );
}

#[test]
fn offcuts_are_used_up_before_whole_sheets() {
    let parts = [shaped(
        "plate",
        Outline::rectangle(Rect::new(0.0, 0.0, 350.0, 250.0)),
        Grain::Free,
        30,
    )];
    let stocks = [offcut(), stock("ply18", StockGrain::Long)];
    let laid = lay_out(&parts, &stocks, settings(10.0, Effort::QUICK), QUIET).unwrap();
    assert!(laid.sheets.len() == 2 && laid.sheets[0].stock == stocks[0] && laid.sheets[1].stock == stocks[1]);
    assert_eq!(names(&laid.sheets).len(), 30);
    let alone = lay_out(&parts, &stocks[..1], settings(10.0, Effort::QUICK), QUIET);
    assert!(
        matches!(
            alone,
            Err(Error::Sheets {
                have: 1,
                needed: 2..,
                ..
            })
        ),
        "{alone:?}"
    );
}

#[test]
fn an_outline_that_crosses_itself_or_is_all_trim_is_refused() {
    let parts = [part("plate", 100.0, 50.0, Grain::Free, 1)];
    let run = |outline: &[(f64, f64)], trim| {
        let points: Vec<Point> = outline.iter().map(|&p| p.into()).collect();
        let stocks = [Stock {
            outline: Some(Outline::polygon(&points)),
            trim: Trim::even(trim),
            ..offcut()
        }];
        lay_out(&parts, &stocks, settings(10.0, Effort::QUICK), QUIET)
    };
    let eight = [(0.0, 0.0), (300.0, 300.0), (300.0, 0.0), (0.0, 310.0)];
    assert!(matches!(run(&eight, 8.0), Err(Error::Outline { name, .. }) if name == "ply18"));
    let square = [(0.0, 0.0), (300.0, 0.0), (300.0, 300.0), (0.0, 300.0)];
    assert!(run(&square, 8.0).is_ok());
    assert!(matches!(run(&square, 150.0), Err(Error::TooLarge { .. })));
}
