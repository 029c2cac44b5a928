//! Holes, openings, their order, and what else comes of a sheet.

use super::{bit, part, rectangle, rib, router, same, sheet, steps, stock};
use crate::tests::rules::keeps_the_rules;
use crate::{APPROACH, Edge, Note, choose_bits, drawing, plan};
use cintre_geometry::{Outline, Point};
use cintre_work::{BitKind, Bore, Depth, Figure, Layer};
use std::f64::consts::PI;

#[test]
fn holes_come_first_then_openings_then_outlines() {
    let mut one = part(rectangle(40.0, 40.0, 400.0, 300.0));
    one.openings
        .push(Outline::circle(Point::new(200.0, 150.0), 40.0).reversed());
    for (x, diameter, depth) in [
        (80.0, 8.0, Depth::Through),
        (120.0, 10.0, Depth::Blind(6.0)),
        (300.0, 30.0, Depth::Blind(5.0)),
    ] {
        one.bores.push(Bore {
            centre: Point::new(x, 80.0),
            diameter,
            depth,
        });
    }
    let bits = [
        bit("straight-6", BitKind::Straight, 6.0),
        bit("drill-8", BitKind::Drill, 8.0),
        bit("drill-5", BitKind::Drill, 5.0),
    ];
    let chosen = choose_bits(&[one.clone()], &stock(), &router(), &bits).unwrap();
    assert_eq!(
        chosen.iter().map(|b| b.name.as_str()).collect::<Vec<_>>(),
        ["drill-8", "straight-6"]
    );
    let plan = plan(&sheet(vec![one]), &router(), &bits).unwrap();
    assert_eq!(plan.programs.len(), 2);
    keeps_the_rules(&plan, &router(), true);
    let drilled = &plan.programs[0].moves;
    assert!(drilled.iter().all(|m| m.end == Point::new(80.0, 80.0)));
    assert!((drilled.iter().map(|m| m.z).fold(0.0, f64::min) + 18.3).abs() < 1e-9);
    // The straight bit: both blind bores to their depth, then the opening, then the outline.
    let starts: Vec<Point> = plan.programs[1]
        .moves
        .windows(2)
        .filter(|w| same(w[0].z, 12.0) && same(w[1].z, APPROACH))
        .map(|w| w[0].end)
        .collect();
    let kind = |p: &Point| {
        if p.y < 100.0 && p.y > 60.0 {
            0
        } else if p.distance(Point::new(200.0, 150.0)) < 40.0 {
            1
        } else {
            2
        }
    };
    assert_eq!(starts.iter().map(kind).collect::<Vec<_>>(), [0, 0, 1, 2]);
    for (x, radius, depth) in [(120.0, 5.0, 6.0), (300.0, 15.0, 5.0)] {
        let centre = Point::new(x, 80.0);
        let near = steps(&plan.programs[1], 12.0)
            .into_iter()
            .filter(|s| s.0.end.distance(centre) < 20.0 && s.2 < 0.0);
        let near: Vec<_> = near.collect();
        assert!((near.iter().map(|s| s.2).fold(0.0, f64::min) + depth).abs() < 1e-9);
        let out = near
            .iter()
            .map(|s| s.0.end.distance(centre) + 3.0)
            .fold(0.0, f64::max);
        assert!((out - radius).abs() < 1e-9);
        let turned: f64 = near
            .iter()
            .filter(|s| same(s.1, -depth) && same(s.2, -depth))
            .map(|s| s.0.sweep())
            .sum();
        assert!(turned >= 2.0 * PI - 1e-9, "a full turn on the floor, climbing");
    }
    assert!(plan.seconds > 60.0 && plan.seconds < 3600.0);
}

#[test]
fn an_opening_with_a_neck_is_cut_room_by_room_and_the_neck_is_named() {
    let neck = [
        (100.0, 100.0),
        (160.0, 100.0),
        (160.0, 128.0),
        (200.0, 128.0),
        (200.0, 100.0),
        (260.0, 100.0),
        (260.0, 160.0),
        (200.0, 160.0),
        (200.0, 132.0),
        (160.0, 132.0),
        (160.0, 160.0),
        (100.0, 160.0),
    ];
    let mut one = part(rectangle(40.0, 40.0, 400.0, 300.0));
    one.openings
        .push(Outline::polygon(&neck.map(Point::from)).reversed());
    let plan = plan(
        &sheet(vec![one]),
        &router(),
        &[bit("straight-6", BitKind::Straight, 6.0)],
    )
    .unwrap();
    let named =
        |n: &&Note| matches!(n, Note::Leftover { edge: Edge::Opening(0), depth, .. } if *depth > 10.0);
    let note = plan.notes.iter().find(named).expect("the neck is named");
    assert!(
        note.to_string().starts_with("gate rib 1: straight-6 leaves 1"),
        "{note}"
    );
    let starts = plan.programs[0]
        .moves
        .windows(2)
        .filter(|w| same(w[0].z, 12.0) && same(w[1].z, APPROACH))
        .count();
    assert_eq!(starts, 3, "two rooms and the outline");
}

#[test]
fn a_wide_bore_keeps_its_core_on_tabs() {
    let mut one = part(rectangle(40.0, 40.0, 400.0, 300.0));
    one.bores.push(Bore {
        centre: Point::new(200.0, 150.0),
        diameter: 60.0,
        depth: Depth::Through,
    });
    let plan = plan(
        &sheet(vec![one]),
        &router(),
        &[bit("straight-6", BitKind::Straight, 6.0)],
    )
    .unwrap();
    let held = plan
        .tabs
        .iter()
        .filter(|t| (t.at.distance(Point::new(200.0, 150.0)) - 30.0).abs() < 1e-6)
        .count();
    assert_eq!(held, 2);
}

#[test]
fn the_widest_bit_that_goes_everywhere_is_chosen() {
    let mut one = part(rectangle(40.0, 40.0, 400.0, 300.0));
    one.openings
        .push(rectangle(100.0, 100.0, 200.0, 110.0).reversed());
    let bits = [
        bit("s4", BitKind::Straight, 4.0),
        bit("s12", BitKind::Straight, 12.0),
        bit("s8", BitKind::Straight, 8.0),
        bit("b19", BitKind::Bearing(19.0), 9.0),
    ];
    let chosen = choose_bits(&[one], &stock(), &router(), &bits).unwrap();
    assert_eq!(chosen.iter().map(|b| b.name.as_str()).collect::<Vec<_>>(), ["s8"]);
}

#[test]
fn a_drawing_keeps_the_design_as_it_is() {
    let mut one = part(rib(400.0, 120.0, 0.8));
    one.bores.push(Bore {
        centre: Point::new(90.0, 90.0),
        diameter: 8.0,
        depth: Depth::Through,
    });
    let drawn = drawing(&sheet(vec![one.clone()]));
    let layers: Vec<Layer> = drawn.shapes.iter().map(|s| s.layer).collect();
    assert_eq!(layers, [Layer::Stock, Layer::Bore, Layer::Outline]);
    assert_eq!(drawn.shapes[2].figure, Figure::Closed(one.outline));
}
