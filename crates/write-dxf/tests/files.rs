//! Whole files: against those kept beside this test (`CINTRE_RENEW=1` writes them anew), and through another reader.

use cintre_geometry::{Outline, Path, Piece, Point, Rect, Vertex};
use cintre_work::{Drawing, Figure, Layer, Shape, Unit};
use cintre_write_dxf::{DxfVersion, Error, write};
use dxf::entities::EntityType;

fn drawing() -> Drawing {
    let vertex = |x: f64, y: f64, bulge| Vertex {
        point: Point::new(x, y),
        bulge,
    };
    let rib = Outline::new(vec![
        vertex(50.0, 50.0, 0.0),
        vertex(650.0, 50.0, 0.4),
        vertex(50.0, 100.0, 0.0),
        vertex(50.0, 50.00005, 0.0),
    ]);
    let square = Outline::rectangle(Rect::new(700.0, 100.0, 760.0, 180.0));
    let shapes = vec![
        (Layer::Outline, Figure::Closed(rib)),
        (Layer::Opening, Figure::Closed(square.clone())),
        (Layer::Opening, Figure::Closed(square.reversed())),
        (
            Layer::Bore,
            Figure::Closed(Outline::circle((300.0, 100.0).into(), 4.25)),
        ),
        (
            Layer::Bore,
            Figure::Circle {
                centre: (350.0, 100.0).into(),
                radius: 6.0,
            },
        ),
        (
            Layer::Mark,
            Figure::Open(Path::polyline(&[(60.0, 60.0).into(), (90.0, 60.0).into()])),
        ),
        (
            Layer::Mark,
            Figure::Open(Path::from_pieces(&[Piece::arc(
                (400.0, 60.0).into(),
                (420.0, 60.0).into(),
                -1.0,
            )])),
        ),
        (
            Layer::Stock,
            Figure::Closed(Outline::rectangle(Rect::new(0.0, 0.0, 1220.0, 610.0))),
        ),
    ];
    Drawing {
        title: "Almshouse gate, sheet 1".into(),
        notes: vec!["Isolate the machine before a bit is changed; bits are 6° tapered, 4½″ long, and this note is longer than a line.".into()],
        area: Rect::new(0.0, 0.0, 1220.0, 610.0),
        shapes: shapes.into_iter().map(|(layer, figure)| Shape { layer, figure }).collect(),
    }
}

#[expect(
    clippy::disallowed_methods,
    reason = "kept files are read and renewed by the test alone"
)]
fn against(name: &str, bytes: &[u8]) {
    let file = format!("{}/tests/golden/{name}", env!("CARGO_MANIFEST_DIR"));
    if std::env::var("CINTRE_RENEW").is_ok() {
        std::fs::write(&file, bytes).expect("the kept file can be written");
    }
    assert!(
        std::fs::read(&file).expect("the kept file is there") == bytes,
        "{name} differs; CINTRE_RENEW=1 writes it anew"
    );
}

#[test]
fn files_stay_as_they_are() {
    for (name, version, unit) in [
        ("r12-mm.dxf", DxfVersion::R12, Unit::Millimetre),
        ("r12-inch.dxf", DxfVersion::R12, Unit::Inch),
        ("r2010-mm.dxf", DxfVersion::R2010, Unit::Millimetre),
        ("r2010-inch.dxf", DxfVersion::R2010, Unit::Inch),
    ] {
        against(name, &write(&drawing(), version, unit).unwrap());
    }
}

#[test]
fn another_reader_finds_the_same_lines() {
    for (unit, scale) in [(Unit::Millimetre, 1.0), (Unit::Inch, 25.4)] {
        let bytes = write(&drawing(), DxfVersion::R12, unit).unwrap();
        let file = dxf::Drawing::load(&mut bytes.as_slice()).unwrap();
        let mut circles = Vec::new();
        let mut counts = [0; 5];
        for entity in file.entities() {
            match &entity.specific {
                EntityType::Circle(c) => circles.push((c.center.x * scale, c.radius * scale)),
                EntityType::Polyline(p) => {
                    counts[0] += 1;
                    assert!(p.is_closed());
                    if entity.common.layer == "OUTLINE" {
                        assert_eq!(p.vertices().count(), 3, "the crumb is gone");
                        let bulge = p.vertices().nth(1).unwrap().bulge;
                        assert!((bulge - 0.4).abs() < 1e-6);
                    }
                }
                EntityType::Line(_) => counts[1] += 1,
                EntityType::Arc(a) => {
                    counts[2] += 1;
                    assert!(
                        (a.start_angle - (360.0 - 1f64.to_degrees())).abs() < 1e-9
                            && a.end_angle.abs() < 1e-9
                    );
                }
                EntityType::Text(t) => {
                    counts[3] += 1;
                    assert!(t.value.is_ascii() && entity.common.layer == "TEXT");
                }
                _ => counts[4] += 1,
            }
        }
        assert_eq!(counts, [3, 4, 1, 4, 0]);
        for ((x, r), (want_x, want_r)) in circles.iter().zip([(300.0, 4.25), (350.0, 6.0)]) {
            assert!((x - want_x).abs() < 2e-5 && (r - want_r).abs() < 2e-5);
        }
        assert_eq!(circles.len(), 2);
    }
}

#[test]
fn what_is_not_a_number_is_refused() {
    let mut bad = drawing();
    bad.shapes[4].figure = Figure::Circle {
        centre: (f64::NAN, 0.0).into(),
        radius: 6.0,
    };
    assert!(matches!(
        write(&bad, DxfVersion::R12, Unit::Millimetre),
        Err(Error::NotFinite(_))
    ));
}
