//! The ring of a model, put together again from its voussoirs.

use super::{gate, input, near, parts};
use crate::model::{Input, Made};
use crate::shapes;
use cintre_geometry::{Affine, Outline, Piece, Point};

/// The two straight faces of a voussoir from soffit to back, left and right.
fn faces(unit: &Outline) -> [(Point, Point); 2] {
    let lines: Vec<Piece> = unit.pieces().filter(Piece::is_line).collect();
    let [right, left] = lines[..] else {
        panic!("two straight faces, not {}", lines.len());
    };
    [(left.end, left.start), (right.start, right.end)]
}

/// What moves one line onto another of the same length.
fn onto(from: (Point, Point), to: (Point, Point)) -> Affine {
    near(from.0.distance(from.1), to.0.distance(to.1));
    let turn = (to.1 - to.0).atan2() - (from.1 - from.0).atan2();
    Affine::translate(to.0.to_vec2()) * Affine::rotate(turn) * Affine::translate(-from.0.to_vec2())
}

/// Lays every voussoir against the one before, from the left skewback on.
#[track_caller]
fn laid(input: &Input) {
    let ring = input.ring.as_ref().expect("it has a ring");
    let small = Affine::scale(1.0 / input.scale);
    let scaled = |(a, b): (Point, Point)| (small * a, small * b);
    let (soffit, back) = (input.soffit.transformed(small), ring.back.transformed(small));
    let parts = parts(input);
    let mut against = scaled(ring.skewbacks[0]);
    let mut area = 0.0;
    for number in 1..=ring.units.len() {
        let name = format!("gate voussoir {number}");
        let unit = &parts
            .iter()
            .find(|part| part.name == name)
            .expect("each is cut")
            .outline;
        let [left, _] = faces(unit);
        let stands = unit.transformed(onto(left, against));
        for vertex in stands.vertices() {
            let off = soffit
                .nearest(vertex.point)
                .distance
                .min(back.nearest(vertex.point).distance);
            assert!(off < 1e-6, "{name} stands {off} off the ring");
        }
        against = faces(&stands)[1];
        area += unit.area();
    }
    let end = scaled(ring.skewbacks[1]);
    assert!(against.0.distance(end.0) < 1e-6 && against.1.distance(end.1) < 1e-6);
    let (start, end) = (scaled(ring.skewbacks[0]), end);
    let around = soffit
        .then(&cintre_geometry::Path::polyline(&[end.0, end.1]))
        .then(&back.reversed())
        .then(&cintre_geometry::Path::polyline(&[start.1, start.0]));
    assert!((Outline::closing(&around).area().abs() - area).abs() < 1e-4);
}

#[test]
fn its_voussoirs_laid_against_one_another_give_the_ring() {
    laid(&gate());
    laid(&input(shapes::segmental(1220.0, 610.0), Some(Made::Flat)));
    laid(&input(shapes::segmental(1600.0, 400.0), Some(Made::Stacked)));
}

#[test]
fn a_stacked_ring_has_as_many_slices_as_come_nearest_to_the_wall() {
    let parts = |wall: f64, made| {
        parts(&Input {
            wall,
            ..input(shapes::segmental(1220.0, 260.0), Some(made))
        })
    };
    let slices = |wall, made| {
        let parts = parts(wall, made);
        let key = parts.iter().find(|part| part.name == "gate voussoir 9");
        key.expect("there is a key").count
    };
    // 33.0 mm are nearest to 11 sheets of 3.05, 21.5 to 7.
    assert_eq!(slices(330.0, Made::Stacked), 11);
    assert_eq!(slices(215.0, Made::Stacked), 7);
    assert_eq!(slices(330.0, Made::Flat), 1);
}

#[test]
fn the_springers_tops_are_the_skewbacks() {
    for soffit in [
        shapes::segmental(1220.0, 260.0),
        shapes::segmental(1220.0, 610.0),
        shapes::segmental(900.0, 480.0),
    ] {
        let input = input(soffit, Some(Made::Stacked));
        let ring = input.ring.as_ref().unwrap();
        let parts = parts(&input);
        for (side, (a, b)) in ["left", "right"].iter().zip(ring.skewbacks) {
            let name = format!("gate springer {side}");
            let springer = parts.iter().find(|part| part.name == name).unwrap();
            let small = |p: Point| Point::new(p.x / 10.0, p.y / 10.0);
            let (a, b) = (small(a), small(b));
            let on = springer.outline.pieces().any(|piece| {
                let ends = (piece.start, piece.end);
                ends.0.distance(a).min(ends.0.distance(b)) < 1e-9
                    && ends.1.distance(a).min(ends.1.distance(b)) < 1e-9
            });
            assert!(on, "{name}");
            // Wood under all of it.
            let least = springer
                .outline
                .nearest(a.midpoint(b) - cintre_geometry::Vec2::new(0.0, 1.0));
            assert!(least.distance > 0.0 && springer.outline.area() > 0.0);
        }
    }
}
