//! Layouts of true shapes: hollows, openings, faces alike.

use super::*;
use cintre_geometry::{Point, Vec2, Vertex};
use cintre_work::{Bore, Depth, Mark, MarkKind};

/// A half ring: outer radius, inner radius, standing on its feet.
fn half_ring(outer: f64, inner: f64) -> Outline {
    let v = |x: f64, bulge| Vertex {
        point: Point::new(x, 0.0),
        bulge,
    };
    Outline::new(vec![
        v(inner, 0.0),
        v(outer, 1.0),
        v(-outer, 0.0),
        v(-inner, -1.0),
    ])
}

#[test]
fn curved_parts_lie_in_each_others_hollows() {
    // Boxes of 1000 x 500 go two on a sheet of 1220 wide and four to its length; nested rings many more.
    let rings = [shaped(
        "half ring",
        half_ring(500.0, 420.0),
        Grain::Along(0.0),
        16,
    )];
    let mut settings = settings(10.0, Effort::QUICK);
    let plain = plain::boxes(&Lot::new("ply18", &rings, &long(), 10.0, Turns::Quarter).unwrap());
    assert_eq!(plain.unwrap().unwrap().rooms.len(), 4);
    let first = lay_out(&rings, &long(), settings, QUIET).unwrap();
    assert!(first.sheets.len() <= 3, "{}", first.sheets.len());
    settings.effort = few(3_000);
    let searched = lay_out(&rings, &long(), settings, QUIET).unwrap();
    assert!(searched.sheets.len() <= first.sheets.len());
    assert!(searched.report.least_gap.unwrap() >= 10.0 - 1e-8);
    assert_eq!(names(&searched.sheets).len(), 16);
    assert_eq!(
        lay_out(&rings, &long(), settings, QUIET).unwrap(),
        searched,
        "the same again"
    );
}

#[test]
fn small_parts_lie_in_the_openings_of_large_ones_with_the_grain_right() {
    let mut window = shaped(
        "window",
        Outline::rectangle(Rect::new(0.0, 0.0, 800.0, 500.0)),
        Grain::Free,
        2,
    );
    window.openings = vec![
        Outline::rectangle(Rect::new(140.0, 90.0, 660.0, 410.0)).reversed(),
        Outline::circle(Point::new(70.0, 250.0), 40.0).reversed(),
    ];
    let mut frame = shaped(
        "frame",
        Outline::rectangle(Rect::new(0.0, 0.0, 200.0, 180.0)),
        Grain::Along(FRAC_PI_2),
        2,
    );
    frame.openings = vec![Outline::rectangle(Rect::new(30.0, 30.0, 170.0, 150.0)).reversed()];
    let gusset = Outline::polygon(&[(0.0, 0.0).into(), (100.0, 0.0).into(), (0.0, 100.0).into()]);
    let parts = [window, frame, shaped("gusset", gusset, Grain::Free, 4)];
    for grain in [StockGrain::Long, StockGrain::Short] {
        let stocks = [stock("ply18", grain)];
        let mut settings = settings(10.0, few(500));
        settings.openings = true;
        let laid = lay_out(&parts, &stocks, settings, QUIET).unwrap();
        assert_eq!((laid.sheets.len(), names(&laid.sheets).len()), (1, 8));
        let parts_of = &laid.sheets[0].parts;
        let in_window = |p: &&cintre_work::Placed| {
            let at = p.part.outline.vertices()[0].point;
            parts_of
                .iter()
                .any(|host| host.part.openings.iter().any(|o| o.contains(at)))
        };
        let riding: Vec<_> = parts_of.iter().filter(in_window).collect();
        assert!(
            riding.iter().filter(|p| p.name.starts_with("frame")).count() == 2,
            "{riding:?}"
        );
        assert!(riding.iter().any(|p| p.name.starts_with("gusset")));
        for placed in parts_of {
            assert!(off_grain(&placed.part, grain) < 1e-9, "{}", placed.name);
        }
        assert!(laid.report.least_gap.unwrap() >= 10.0 - 1e-8);
        settings.openings = false;
        let beside = lay_out(&parts, &stocks, settings, QUIET).unwrap();
        assert!(beside.sheets[0].parts.iter().filter(in_window).count() == 0 || beside != laid);
    }
}

#[test]
fn an_opening_that_touches_the_edge_of_its_part_holds_nothing_wrong() {
    let mut window = shaped(
        "window",
        Outline::rectangle(Rect::new(0.0, 0.0, 800.0, 500.0)),
        Grain::Free,
        1,
    );
    window.openings = vec![Outline::rectangle(Rect::new(0.0, 90.0, 660.0, 410.0)).reversed()];
    let mut settings = settings(10.0, Effort::QUICK);
    settings.openings = true;
    let parts = [window, part("plate", 100.0, 50.0, Grain::Free, 3)];
    let laid = lay_out(&parts, &long(), settings, QUIET).unwrap();
    assert_eq!(names(&laid.sheets).len(), 4);
}

/// A part that is not its own mirror image, and nests only with it.
fn hook() -> Part {
    let points = [
        (0.0, 0.0),
        (600.0, 0.0),
        (600.0, 60.0),
        (100.0, 60.0),
        (100.0, 300.0),
        (0.0, 300.0),
    ];
    let points: Vec<Point> = points.iter().map(|&p| p.into()).collect();
    shaped("hook", Outline::polygon(&points), Grain::Along(0.0), 12)
}

#[test]
fn parts_are_turned_over_only_where_faces_are_alike_and_nothing_tells_them_apart() {
    let run = |part: Part, alike: bool| {
        let stocks = [Stock {
            alike,
            ..stock("ply18", StockGrain::Long)
        }];
        lay_out(&[part], &stocks, settings(10.0, Effort::QUICK), QUIET)
            .unwrap()
            .sheets
    };
    // The short leg lies left of the long one's middle, seen with the long one below: never so when turned over.
    let turned_over = |placed: &Part| {
        let bounds = placed.outline.bounds();
        let middle = bounds.center();
        let heavy = placed
            .outline
            .vertices()
            .iter()
            .map(|v| v.point.to_vec2())
            .fold(Vec2::ZERO, |a, b| a + b)
            / 6.0;
        let off = heavy.to_point() - middle;
        // The corner where the legs meet: lower left or upper right as drawn.
        off.x * off.y < 0.0
    };
    let count = |sheets: &[Sheet]| {
        sheets
            .iter()
            .flat_map(|s| &s.parts)
            .filter(|p| turned_over(&p.part))
            .count()
    };
    assert!(!turned_over(&hook()));
    assert!(turned_over(&hook().flipped()));
    assert_eq!(count(&run(hook(), false)), 0);
    let sheets = run(hook(), true);
    assert!(count(&sheets) > 0);
    for placed in sheets.iter().flat_map(|s| &s.parts) {
        assert!(placed.part.outline.is_counter_clockwise());
    }
    let mut blind = hook();
    blind.bores = vec![Bore {
        centre: Point::new(50.0, 50.0),
        diameter: 8.0,
        depth: Depth::Blind(5.0),
    }];
    assert_eq!(count(&run(blind, true)), 0);
    let mut lettered = hook();
    lettered.marks = vec![Mark {
        path: cintre_geometry::Path::polyline(&[Point::new(10.0, 10.0), Point::new(60.0, 10.0)]),
        kind: MarkKind::Text,
    }];
    assert_eq!(count(&run(lettered, true)), 0);
}

#[test]
fn a_part_that_fits_only_askew_is_laid_so_where_it_may_be() {
    let bar = [part("bar", 2450.0, 40.0, Grain::Free, 1)];
    let mut settings = settings(10.0, Effort::QUICK);
    assert!(matches!(
        lay_out(&bar, &long(), settings, QUIET),
        Err(Error::TooLarge { .. })
    ));
    settings.turns = Turns::Any;
    let laid = lay_out(&bar, &long(), settings, QUIET).unwrap();
    let bounds = laid.sheets[0].parts[0].part.outline.bounds();
    assert!(bounds.width() < 2440.0 && bounds.height() > 600.0);
}

#[test]
fn stopped_in_the_middle_it_hands_over_the_best_so_far() {
    let asked = std::cell::Cell::new(0);
    let stop = || {
        asked.set(asked.get() + 1);
        asked.get() > 200
    };
    let conduct = Conduct { stop: &stop, ..QUIET };
    let rings = [shaped(
        "half ring",
        half_ring(500.0, 420.0),
        Grain::Along(0.0),
        16,
    )];
    let laid = lay_out(&rings, &long(), settings(10.0, Effort::PATIENT), conduct).unwrap();
    assert!(laid.report.stopped && names(&laid.sheets).len() == 16);
}
