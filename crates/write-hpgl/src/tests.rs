//! Drawings read back by a small reader of their own.

use crate::{Error, PAIRS, write};
use cintre_geometry::{Outline, Path, Piece, Point, Rect, Vec2};
use cintre_work::{Dialect, Drawing, Figure, Layer, Lift, Pen, PenFile, Shape, Unit};
use proptest::prelude::*;

fn pen() -> Pen {
    Pen {
        name: "pen".to_owned(),
        bed: (900.0, 1200.0),
        width: 0.4,
        writes: PenFile::HpGl,
        dialect: Dialect {
            units: Unit::Millimetre,
            decimals: 4,
            zero: (0.0, 0.0),
            arcs: true,
            longest_radius: 10_000.0,
            opening_lines: Vec::new(),
            closing_lines: Vec::new(),
        },
        lift: Lift::Height { up: 5.0, down: 0.0 },
        feed: 3000.0,
        rapid: 5000.0,
        acceleration: 500.0,
        cornering: 0.05,
        delay: 0.2,
        steps_per_mm: 40.0,
        farthest: None,
    }
}

fn drawing(figures: Vec<Figure>) -> Drawing {
    Drawing {
        title: "lunette".to_owned(),
        notes: Vec::new(),
        area: Rect::new(0.0, 0.0, 900.0, 600.0),
        shapes: figures
            .into_iter()
            .map(|figure| Shape {
                layer: Layer::Outline,
                figure,
            })
            .collect(),
    }
}

/// The strokes of a file, mm.
fn read(bytes: &[u8]) -> Vec<Vec<Point>> {
    let text = std::str::from_utf8(bytes).expect("ASCII");
    let mut strokes: Vec<Vec<Point>> = Vec::new();
    let body = text.strip_prefix("IN;\nSP1;\n").expect("a beginning");
    let body = body.strip_suffix("PU;\nSP0;\n").expect("an end");
    for line in body.lines() {
        let numbers: Vec<f64> = line[2..]
            .strip_suffix(';')
            .expect("a command ends")
            .split(',')
            .map(|n| f64::from(n.parse::<i32>().expect("a whole number")) / 40.0)
            .collect();
        assert!(numbers.len() <= 2 * PAIRS && numbers.len().is_multiple_of(2));
        let points = numbers.chunks(2).map(|p| Point::new(p[0], p[1]));
        match &line[..2] {
            "PU" => strokes.push(points.collect()),
            "PD" => strokes
                .last_mut()
                .expect("a pen that came down somewhere")
                .extend(points),
            other => panic!("{other}"),
        }
    }
    strokes
}

#[test]
fn a_square_is_drawn_round_in_one_stroke() {
    let square = Outline::rectangle(Rect::new(10.0, 20.0, 110.0, 70.0));
    let written = write(&drawing(vec![Figure::Closed(square)]), &pen()).expect("written");
    assert_eq!(
        String::from_utf8(written).expect("ASCII"),
        "IN;\nSP1;\nPU400,800;\nPD4400,800,4400,2800,400,2800,400,800;\nPU;\nSP0;\n"
    );
}

#[test]
fn an_old_plotter_is_not_sent_past_its_numbers() {
    let line = Path::polyline(&[Point::new(0.0, 0.0), Point::new(850.0, 0.0)]);
    let old = Pen {
        farthest: Some(32767),
        ..pen()
    };
    let refused = write(&drawing(vec![Figure::Open(line)]), &old).expect_err("850 mm are 34000 units");
    assert_eq!(
        refused,
        Error::TooFar {
            reached: 34_000.0,
            farthest: 32767
        }
    );
}

proptest! {
    #[test]
    fn an_arc_reads_back_within_its_chords_and_half_a_unit(r in 2.0..5000.0f64, first in 0.0..6.2f64, sweep in 0.05..3.1f64) {
        let centre = Point::new(400.0, 300.0);
        let arc = Piece::arc(centre, centre + Vec2::from_angle(first) * r, sweep);
        let path = Path::from_pieces(&[arc]);
        let strokes = read(&write(&drawing(vec![Figure::Open(path)]), &pen()).expect("written"));
        prop_assert_eq!(strokes.len(), 1);
        let off = |p: Point| (p.distance(centre) - r).abs();
        for pair in strokes[0].windows(2) {
            prop_assert!(off(pair[0]) < 0.018 && off(pair[0].midpoint(pair[1])) < 0.018 + 0.005);
        }
        prop_assert!(strokes[0][0].distance(arc.start) < 0.018 && strokes[0].last().expect("an end").distance(arc.end) < 0.018);
    }
}
