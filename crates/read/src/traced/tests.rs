use super::*;
use proptest::prelude::*;

const EXACT: f64 = 1e-6;

fn drawing(header: &str, entities: &str) -> Vec<u8> {
    let all = format!(
        "0 SECTION 2 HEADER 9 $ACADVER 1 AC1015 {header} 0 ENDSEC 0 SECTION 2 ENTITIES {entities} 0 ENDSEC 0 EOF"
    );
    let lines: Vec<&str> = all.split_whitespace().collect();
    (lines.join("\n") + "\n").into_bytes()
}

const MM: &str = "9 $INSUNITS 70 4";

fn line(a: (f64, f64), b: (f64, f64)) -> String {
    format!("0 LINE 8 CUT 10 {:?} 20 {:?} 11 {:?} 21 {:?}", a.0, a.1, b.0, b.1)
}

fn arc(centre: (f64, f64), r: f64, from: f64, to: f64) -> String {
    format!(
        "0 ARC 8 CUT 10 {:?} 20 {:?} 40 {r:?} 50 {from:?} 51 {to:?}",
        centre.0, centre.1
    )
}

const WANTED: Wanted<'static> = Wanted {
    layer: None,
    gap: 0.05,
    unit: None,
    tolerance: 0.02,
    size_meant: false,
};

fn traced(entities: &str) -> Result<Traced, TracedError> {
    read(&drawing(MM, entities), "door.dxf", &WANTED)
}

fn is(traced: &Traced, span: f64, rise: f64) {
    assert!((traced.span - span).abs() < EXACT, "{traced:?}");
    assert!(
        (traced.rise - rise).abs() < EXACT + traced.fit_error,
        "{traced:?}"
    );
    let (start, end) = (traced.soffit.start(), traced.soffit.end());
    assert!(
        (start.x + span / 2.0).abs() < EXACT && start.y.abs() < EXACT,
        "{traced:?}"
    );
    assert!(
        (end.x - span / 2.0).abs() < EXACT && end.y.abs() < EXACT,
        "{traced:?}"
    );
}

#[test]
fn pieces_in_any_order_and_direction_make_one_line() {
    let door = [
        line((900.0, 300.0), (900.0, 100.0)),
        arc((500.0, 300.0), 400.0, 0.0, 180.0),
        line((100.0, 100.0), (100.0, 300.0)),
    ];
    for order in [[0, 1, 2], [2, 1, 0], [1, 0, 2]] {
        let read = traced(&order.map(|i| door[i].clone()).join(" ")).unwrap();
        is(&read, 800.0, 600.0);
        assert_eq!(read.joined.0, 0);
        assert_eq!(read.soffit.pieces().count(), 3);
    }
}

#[test]
fn a_closed_line_stands_on_its_level_bottom() {
    let closed = format!(
        "{} {}",
        arc((0.0, 0.0), 400.0, 0.0, 180.0),
        line((-400.0, 0.0), (400.0, 0.0))
    );
    let read = traced(&closed).unwrap();
    is(&read, 800.0, 400.0);
    assert_eq!(read.soffit.pieces().count(), 1);
    let poly =
        "0 LWPOLYLINE 8 CUT 90 4 70 1 10 0.0 20 0.0 10 600.0 20 0.0 10 600.0 20 200.0 42 1.0 10 0.0 20 200.0";
    is(&traced(poly).unwrap(), 600.0, 500.0);
    let old = "0 POLYLINE 8 CUT 66 1 70 0 0 VERTEX 8 CUT 10 600.0 20 9.0 42 1.0 0 VERTEX 8 CUT 10 0.0 20 9.0 0 SEQEND 8 CUT";
    is(&traced(old).unwrap(), 600.0, 300.0);
    assert!(matches!(
        traced("0 CIRCLE 8 CUT 10 0.0 20 0.0 40 300.0"),
        Err(TracedError::NoSpringing)
    ));
}

#[test]
fn ellipses_become_tangent_arcs_within_the_tolerance() {
    let half = "0 ELLIPSE 8 CUT 10 50.0 20 70.0 11 700.0 21 0.0 40 0.5 41 0.0 42 3.141592653589793";
    let read = traced(half).unwrap();
    is(&read, 1400.0, 350.0);
    assert!(read.fit_error > 0.0 && read.fit_error <= 0.02);
    for vertex in read.soffit.vertices() {
        let p = vertex.point;
        assert!(((p.x / 700.0).hypot(p.y / 350.0) - 1.0).abs() < 1e-4, "{p:?}");
    }
    let round = "0 ELLIPSE 8 CUT 10 50.0 20 70.0 11 700.0 21 0.0 40 1.0 41 0.0 42 3.141592653589793";
    let read = traced(round).unwrap();
    is(&read, 1400.0, 700.0);
    assert!(read.fit_error == 0.0 && read.soffit.pieces().count() == 1);
}

#[test]
fn splines_become_tangent_arcs_within_the_tolerance() {
    // A quarter and another of a circle of 300, as a rational spline of degree two.
    let w = 0.5f64.sqrt();
    let half = format!(
        "0 SPLINE 8 CUT 70 4 71 2 72 8 73 5 40 0.0 40 0.0 40 0.0 40 1.0 40 1.0 40 2.0 40 2.0 40 2.0 41 1.0 41 {w} 41 1.0 41 {w} 41 1.0 \
         10 -300.0 20 0.0 30 0.0 10 -300.0 20 300.0 30 0.0 10 0.0 20 300.0 30 0.0 10 300.0 20 300.0 30 0.0 10 300.0 20 0.0 30 0.0"
    );
    let read = traced(&half).unwrap();
    is(&read, 600.0, 300.0);
    for piece in read.soffit.pieces() {
        assert!(
            (piece.point_at(0.3).to_vec2().hypot() - 300.0).abs() < 0.021,
            "{piece:?}"
        );
    }
    // A parabola, of which the crown stands at half the height of its control point.
    let cubic = "0 SPLINE 8 CUT 70 8 71 2 72 6 73 3 40 0.0 40 0.0 40 0.0 40 1.0 40 1.0 40 1.0 \
         10 0.0 20 0.0 30 0.0 10 500.0 20 600.0 30 0.0 10 1000.0 20 0.0 30 0.0";
    let read = traced(cubic).unwrap();
    is(&read, 1000.0, 300.0);
    assert!(read.fit_error > 0.0 && read.fit_error <= 0.02);
}

#[test]
fn small_gaps_are_closed_and_told_and_wide_ones_refused() {
    let with = |apart: f64| {
        let entities = [
            line((-400.0, 0.0), (-400.0, 200.0 - apart)),
            arc((0.0, 200.0), 400.0, 0.0, 180.0),
        ];
        let entities = entities.join(" ") + " " + &line((400.0, 0.0), (400.0, 200.0));
        traced(&entities)
    };
    let read = with(0.04).unwrap();
    assert!(
        read.joined.0 == 1 && (read.joined.1 - 0.04).abs() < EXACT,
        "{read:?}"
    );
    let Err(TracedError::Gaps {
        stretches: 2, gaps, ..
    }) = with(0.5)
    else {
        panic!("{:?}", with(0.5))
    };
    assert!(
        (gaps[0].1 - 0.5).abs() < EXACT && (gaps[0].0.x + 400.0).abs() < EXACT,
        "{gaps:?}"
    );
}

#[test]
fn what_is_in_doubt_is_refused_with_what_is_there() {
    let bow = arc((0.0, 0.0), 400.0, 0.0, 180.0);
    let other = bow.replace("CUT", "NOTES");
    let told = |entities: &str| traced(entities).unwrap_err().to_string();
    for (entities, expected) in [
        (format!("{bow} {other}"), "CUT, NOTES"),
        (
            format!("{bow} {}", line((0.0, 400.0), (0.0, 900.0))),
            "2 stretches",
        ),
        (
            format!(
                "{bow} {} {}",
                line((400.0, 0.0), (400.0, -50.0)),
                line((400.0, 0.0), (500.0, 0.0))
            ),
            "3 ends meet",
        ),
        (line((0.0, 0.0), (500.0, 9.0)), "9.000 mm out of level"),
        (arc((0.0, 0.0), 400.0, 180.0, 360.0), "400.000 mm below"),
        (
            format!(
                "{} {}",
                "0 POINT 8 CUT 10 1.0 20 1.0", "0 TEXT 8 TEXT 10 0.0 20 0.0 40 5.0 1 RIB"
            ),
            "MODELPOINT",
        ),
        (
            "0 LWPOLYLINE 8 CUT 90 4 70 0 10 0.0 20 0.0 10 400.0 20 300.0 10 100.0 20 300.0 10 500.0 20 0.0"
                .to_owned(),
            "crosses",
        ),
        (arc((0.0, 0.0), 9.0, 0.0, 180.0), "doubtful"),
    ] {
        assert!(
            told(&entities).contains(expected),
            "{entities}: {}",
            told(&entities)
        );
    }
    let named = Wanted {
        layer: Some("stone"),
        ..WANTED
    };
    let error = read(&drawing(MM, &format!("{bow} {other}")), "a.dxf", &named).unwrap_err();
    assert!(
        error.to_string().contains("CUT, NOTES") && error.field() == "layer",
        "{error}"
    );
    assert!(matches!(read(b"", "a.pdf", &WANTED), Err(TracedError::Format(_))));
}

#[test]
fn the_unit_is_the_jobs_else_the_files_else_asked_for() {
    let bow = arc((0.0, 0.0), 20.0, 0.0, 180.0);
    let inches = read(&drawing("9 $INSUNITS 70 1", &bow), "a.dxf", &WANTED).unwrap();
    is(&inches, 1016.0, 508.0);
    let as_inches = Wanted {
        unit: Some(LengthUnit::Inch),
        ..WANTED
    };
    for header in ["", MM, "9 $INSUNITS 70 2"] {
        is(
            &read(&drawing(header, &bow), "a.dxf", &as_inches).unwrap(),
            1016.0,
            508.0,
        );
    }
    let unstated = read(&drawing("", &bow), "a.dxf", &WANTED).unwrap_err();
    assert!(
        unstated
            .to_string()
            .contains("40.000 mm, or 40.000 in, which is 1016.000 mm"),
        "{unstated}"
    );
    let feet = read(&drawing("9 $INSUNITS 70 2", &bow), "a.dxf", &WANTED).unwrap_err();
    assert!(feet.to_string().contains("Feet"), "{feet}");
    let long = read(
        &drawing("9 $INSUNITS 70 1", &arc((0.0, 0.0), 600.0, 0.0, 180.0)),
        "a.dxf",
        &WANTED,
    )
    .unwrap_err();
    assert!(
        long.to_string()
            .contains("as in that is 30480.000 mm, a doubtful size"),
        "{long}"
    );
}

#[test]
fn an_svg_group_is_a_layer() {
    let svg = "<svg xmlns='http://www.w3.org/2000/svg' width='900mm' height='600mm' viewBox='0 0 900 600'>\
               <g id='door'><path d='M 100 500 A 350 350 0 0 1 800 500'/></g><g id='wall'><path d='M 0 0 L 9 9'/></g></svg>";
    let wanted = Wanted {
        layer: Some("door"),
        ..WANTED
    };
    is(&read(svg.as_bytes(), "door.SVG", &wanted).unwrap(), 700.0, 350.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn no_bytes_make_it_panic(bytes in prop::collection::vec(any::<u8>(), 0..120), at in 0..600usize) {
        let _ = read(&bytes, "a.dxf", &WANTED);
        let _ = read(&bytes, "a.svg", &WANTED);
        let ellipse = "0 ELLIPSE 8 CUT 10 50.0 20 70.0 11 700.0 21 0.0 40 0.5 41 0.0 42 3.14159";
        let mut text = drawing(MM, &format!("{ellipse} {} {}", line((750.0, 70.0), (750.0, 0.0)), arc((0.0, 0.0), 20.0, 0.0, 180.0)));
        let at = at.min(text.len());
        text.splice(at..at, bytes.iter().copied().take(3));
        let _ = read(&text, "a.dxf", &WANTED);
    }

    #[test]
    fn no_spline_makes_it_panic(points in prop::collection::vec((-500.0..500.0f64, -10.0..500.0f64), 2..7)) {
        let mut points = points;
        points.insert(0, (-600.0, 0.0));
        points.push((600.0, 0.0));
        let n = points.len();
        let inner: Vec<String> = (1..=n - 4).map(|k| format!("40 {k}.0")).collect();
        let ends = |k: usize| format!("40 {k}.0 ").repeat(4);
        let places: Vec<String> = points.iter().map(|(x, y)| format!("10 {x:?} 20 {y:?} 30 0.0")).collect();
        let spline = format!("0 SPLINE 8 CUT 70 8 71 3 72 {} 73 {n} {} {} {} {}", n + 4, ends(0), inner.join(" "), ends(n - 3), places.join(" "));
        if let Ok(read) = traced(&spline) {
            prop_assert!(read.fit_error <= 0.02 && read.soffit.bounds().y0 > -0.06);
        }
    }
}
