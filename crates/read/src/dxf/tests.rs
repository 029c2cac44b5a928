use super::*;
use proptest::prelude::*;

/// A drawing of release 12 with `entities`, group and value on a line each.
fn drawing(header: &str, entities: &str) -> Vec<u8> {
    let start = "0 SECTION 2 HEADER 9 $ACADVER 1 AC1009";
    let all = format!("{start} {header} 0 ENDSEC 0 SECTION 2 ENTITIES {entities} 0 ENDSEC 0 EOF");
    let lines: Vec<&str> = all.split_whitespace().collect();
    (lines.join("\r\n") + "\r\n").into_bytes()
}

const ROUND: &str = "0 CIRCLE 8 BORE 10 20.0 20 30.0 40 4.0";
const RIB: &str = "0 POLYLINE 8 OUTLINE 66 1 70 1 0 VERTEX 8 OUTLINE 10 0.0 20 0.0 42 0.0 0 VERTEX 8 OUTLINE 10 100.0 20 0.0 \
                   42 1.0 0 SEQEND 8 OUTLINE";

fn plain(entities: &str) -> DrawingRead {
    read(&drawing("", entities), LengthUnit::Millimetre).unwrap()
}

#[test]
fn lines_arcs_and_circles_come_out_as_they_are() {
    let arc = "0 ARC 8 MARK 10 0.0 20 0.0 40 50.0 50 350.0 51 10.0";
    let line = "0 LINE 8 MARK 10 1.0 20 2.0 11 3.0 21 4.0 0 TEXT 8 TEXT 10 0.0 20 0.0 40 5.0 1 RIB";
    let read = plain(&format!("{ROUND} {RIB} {arc} {line}"));
    assert!(read.faults.is_empty(), "{:?}", read.faults);
    assert_eq!(read.unit, None);
    let [round, rib, arc, line] = read.chains.as_slice() else {
        panic!("{read:?}")
    };
    assert!(
        (round.outline().unwrap().area() - std::f64::consts::PI * 16.0).abs() < 1e-9 && round.layer == "BORE"
    );
    assert!((rib.outline().unwrap().area() - std::f64::consts::PI * 1250.0).abs() < 1e-6 && rib.closed);
    let piece = arc.pieces()[0];
    assert!((piece.sweep().to_degrees() - 20.0).abs() < 1e-9 && (piece.point_at(0.5).x - 50.0).abs() < 1e-9);
    assert!(line.path().is_some() && line.outline().is_none());
}

#[test]
fn units_are_the_headers_or_the_callers() {
    let metric = read(&drawing("9 $INSUNITS 70 4", ROUND), LengthUnit::Inch).unwrap();
    assert_eq!(metric.unit, Some(LengthUnit::Millimetre));
    assert!((metric.chains[0].vertices[0].point.x - 24.0).abs() < 1e-9);
    let unstated = read(&drawing("", ROUND), LengthUnit::Inch).unwrap();
    assert!((unstated.chains[0].vertices[0].point.x - 24.0 * 25.4).abs() < 1e-9);
    let feet = read(&drawing("9 $INSUNITS 70 2", ROUND), LengthUnit::Inch).unwrap();
    assert!(feet.faults[0].what.contains("Feet"));
}

#[test]
fn anything_else_is_a_fault() {
    for (entity, expected) in [
        ("0 POINT 8 OUTLINE 10 1.0 20 1.0", "MODELPOINT"),
        ("0 TEXT 8 OUTLINE 10 0.0 20 0.0 40 5.0 1 RIB", "TEXT, which"),
        ("0 CIRCLE 8 BORE 10 1.0 20 1.0 40 -2.0", "radius -2"),
        (
            "0 LINE 8 MARK 10 1.0 20 2.0 30 9.0 11 3.0 21 4.0",
            "out of the plane",
        ),
        (
            "0 ARC 8 MARK 10 0.0 20 0.0 40 50.0 50 0.0 51 90.0 210 0.0 220 0.0 230 -1.0",
            "out of the plane",
        ),
        ("0 CIRCLE 8 BORE 10 1e9 20 1.0 40 2.0", "farther than a kilometre"),
    ] {
        let read = plain(entity);
        assert!(read.chains.is_empty(), "{read:?}");
        assert!(
            read.faults.iter().any(|f| f.what.contains(expected)),
            "{entity} gave {read:?}"
        );
    }
    assert!(read(b"no drawing", LengthUnit::Millimetre).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn no_bytes_get_out_as_a_panic(bytes in prop::collection::vec(any::<u8>(), 0..200), at in 0..400usize, cut in 0..6usize) {
        let _ = read(&bytes, LengthUnit::Millimetre);
        let mut text = drawing("9 $INSUNITS 70 4", &format!("{ROUND} {RIB}"));
        let at = at.min(text.len());
        let end = (at + cut).min(text.len());
        text.splice(at..end, bytes.iter().copied().take(3));
        let _ = read(&text, LengthUnit::Millimetre);
    }
}
