//! What stands in the file, read as text.

use crate::{Error, Palette, write};
use cintre_geometry::{Outline, Path, Piece, Point, Rect, Vertex};
use cintre_work::{Drawing, Figure, Layer, Shape};

fn drawing(shapes: Vec<(Layer, Figure)>) -> Drawing {
    Drawing {
        title: "Gate <north>".into(),
        notes: vec!["Hand on the stop & stay clear.".into(), "Millimetres.".into()],
        area: Rect::new(0.0, 0.0, 200.0, 100.0),
        shapes: shapes
            .into_iter()
            .map(|(layer, figure)| Shape { layer, figure })
            .collect(),
    }
}

fn text(drawing: &Drawing) -> String {
    String::from_utf8(write(drawing, &Palette::default()).unwrap()).unwrap()
}

fn rib() -> Figure {
    let vertex = |x: f64, y: f64, bulge| Vertex {
        point: Point::new(x, y),
        bulge,
    };
    Figure::Closed(Outline::new(vec![
        vertex(10.0, 10.0, 0.0),
        vertex(110.0, 10.0, 0.5),
        vertex(10.0, 10.5, 0.0),
    ]))
}

#[test]
fn the_sheet_is_in_real_millimetres_and_turned_over() {
    let svg = text(&drawing(vec![(Layer::Outline, rib())]));
    assert!(svg.contains(r#"width="200mm""#) && svg.contains(r#"height="100mm""#));
    assert!(svg.contains(r#"viewBox="0 0 200 100""#));
    assert_eq!(svg.matches("mm\"").count(), 2);
    // R = c (1 + b²) / 4b, c = hypot(100, 0.5) and b = 1/2.
    assert!(
        svg.contains(r#"d="M 10 90 L 110 90 A 62.5008 62.5008 0 0 0 10 89.5 Z""#),
        "{svg}"
    );
}

#[test]
fn groups_stand_in_the_order_of_cutting() {
    let line = |y: f64| Figure::Open(Path::polyline(&[Point::new(0.0, y), Point::new(9.0, y)]));
    let bore = Figure::Circle {
        centre: (50.0, 30.0).into(),
        radius: 4.25,
    };
    let svg = text(&drawing(vec![
        (Layer::Outline, rib()),
        (Layer::Bore, bore),
        (Layer::Text, line(1.0)),
        (
            Layer::Stock,
            Figure::Closed(Outline::rectangle(Rect::new(0.0, 0.0, 200.0, 100.0))),
        ),
        (Layer::Mark, line(2.0)),
    ]));
    let ids: Vec<_> = svg
        .match_indices("id=\"")
        .map(|(i, _)| svg[i + 4..].split('"').next().unwrap())
        .collect();
    assert_eq!(ids, ["stock", "text", "mark", "bore", "outline"]);
    assert!(svg.contains(r#"<circle cx="50" cy="70" r="4.25"/>"#));
    assert_eq!(svg.matches("fill=\"none\"").count(), 5);
    for word in ["transform", "style", "<use", "<text", "NaN"] {
        assert!(!svg.contains(word), "{word} in {svg}");
    }
}

#[test]
fn title_and_notes_are_escaped() {
    let svg = text(&drawing(vec![(Layer::Outline, rib())]));
    assert!(
        svg.contains("Gate &lt;north&gt;") && svg.contains("stop &amp; stay clear.\nMillimetres."),
        "{svg}"
    );
}

#[test]
fn an_arc_near_a_full_turn_is_split_and_its_radius_reaches() {
    let arc = Piece::arc((100.0, 50.0).into(), (100.0001, 50.0).into(), -6.2);
    let small = Figure::Open(Path::from_pieces(&[arc]));
    assert!(
        !text(&drawing(vec![(Layer::Mark, small)])).contains("<path"),
        "smaller than a decimal"
    );
    let arc = Piece::arc((100.0, 50.0).into(), (102.0, 50.0).into(), -6.2);
    let svg = text(&drawing(vec![(
        Layer::Mark,
        Figure::Open(Path::from_pieces(&[arc])),
    )]));
    assert_eq!(svg.matches(" A 2 2 0 0 1 ").count(), 3, "{svg}");
}

#[test]
fn what_no_file_can_hold_is_refused() {
    let bad = Figure::Open(Path::polyline(&[Point::new(0.0, f64::NAN), Point::new(9.0, 0.0)]));
    let refused = write(&drawing(vec![(Layer::Mark, bad)]), &Palette::default());
    assert!(matches!(refused, Err(Error::NotFinite(_))));
    let mut empty = drawing(vec![]);
    empty.area = Rect::new(0.0, 0.0, 0.0, 10.0);
    assert!(matches!(
        write(&empty, &Palette::default()),
        Err(Error::NoArea { .. })
    ));
}

#[test]
fn a_shop_has_its_own_colours() {
    let palette = Palette::default().with(Layer::Outline, "#ff0000");
    let svg = String::from_utf8(write(&drawing(vec![(Layer::Outline, rib())]), &palette).unwrap()).unwrap();
    assert!(svg.contains("stroke=\"#ff0000\""));
}
