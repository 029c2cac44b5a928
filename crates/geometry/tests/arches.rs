//! Every arch against values worked independently with 40-digit arithmetic.

use cintre_geometry::arch::{
    Arch, ArchError, Camber, Catenary, Elliptical, Equilateral, FiveCentred, FiveCentredBy, FourCentred,
    FourCentredBy, Horseshoe, Ogee, Parabolic, Pointed, Rampant, Segmental, Semicircular, Skewback, Stilted,
    ThreeCentred, ThreeCentredBy,
};
use cintre_geometry::{Piece, Point, Soffit};
use serde_json::Value;

const REFERENCE: &str = include_str!("reference/arches.json");

/// Agreement asked for, as a share of the span.
const AGREEMENT: f64 = 1e-9;

fn arch(shape: &str, given: &Value) -> Arch {
    let size = |name: &str| given[name].as_f64();
    let sure = |name: &str| size(name).expect("the reference gives it");
    let (span, rise) = (size("span").unwrap_or(f64::NAN), size("rise").unwrap_or(f64::NAN));
    let made = match shape {
        "segmental" => Segmental {
            span: size("span"),
            rise: size("rise"),
            radius: size("radius"),
        }
        .arch(),
        "semicircular" => Semicircular { span }.arch(),
        "stilted" => Stilted {
            span,
            stilt: sure("stilt"),
            arc_rise: size("rise_of_arc"),
        }
        .arch(),
        "horseshoe" => Horseshoe { span, rise }.arch(),
        "camber" => Camber {
            span,
            camber: size("camber"),
            depth: 300.0,
            skewback: Skewback::Sixty,
        }
        .arch(),
        "pointed" => Pointed {
            span: size("span"),
            rise: size("rise"),
            radius: size("radius"),
        }
        .arch(),
        "equilateral" => Equilateral { span }.arch(),
        "three-centred" | "four-centred" | "five-centred" => many_centred(shape, given),
        "ogee" => Ogee {
            span,
            rise,
            lower_radius: sure("lower_radius"),
        }
        .arch(),
        "rampant" => Rampant {
            span,
            springing_difference: sure("springing_difference"),
            rise: size("rise_above_lower_springing"),
        }
        .arch(),
        "elliptical" => Elliptical { span, rise }.arch(),
        "parabolic" => Parabolic { span, rise }.arch(),
        "catenary" => Catenary { span, rise }.arch(),
        _ => panic!("{shape} is no shape of the trade"),
    };
    made.expect("the reference's arches can be")
}

fn many_centred(shape: &str, given: &Value) -> Result<Arch, ArchError> {
    let (span, rise) = (number(&given["span"]), number(&given["rise"]));
    let haunch = given["haunch_radius"].as_f64();
    let turn = |name: &str| number(&given[name]).to_radians();
    match shape {
        "three-centred" => {
            let by = match (haunch, given["construction"].as_str()) {
                (Some(radius), _) => ThreeCentredBy::HaunchRadius(radius),
                (None, Some("least ratio of radii")) => ThreeCentredBy::LeastRatio,
                _ => ThreeCentredBy::Sixty,
            };
            ThreeCentred { span, rise, by }.arch()
        }
        "four-centred" => {
            let by = haunch.map_or(FourCentredBy::TwoThirds, |radius| FourCentredBy::Haunch {
                radius,
                turn: turn("haunch_turn_deg"),
            });
            FourCentred { span, rise, by }.arch()
        }
        _ => {
            let by = haunch.map_or(FiveCentredBy::MeanRadius, |radius| FiveCentredBy::Haunch {
                radius,
                turn: turn("haunch_turn_deg"),
                middle_turn: turn("middle_turn_deg"),
            });
            FiveCentred { span, rise, by }.arch()
        }
    }
}

/// The radii that the reference names, of arcs by their place from the left and of curves by their curvature.
fn named_radius(arch: &Arch, name: &str) -> f64 {
    let Soffit::Curve(curve) = &arch.soffit else {
        let radii: Vec<f64> = arch.figures().centres.iter().map(|c| c.radius).collect();
        let place = match name {
            "haunch_radius" | "lower_side_radius" => 0,
            "middle_radius" | "upper_side_radius" | "upper_radius" => 1,
            // The right one of the two middle arcs, or the one.
            "crown_radius" => radii.len() / 2,
            _ => panic!("{name} is no radius of arcs"),
        };
        return radii[place];
    };
    let stretches = curve.stretches();
    let radius = |i: usize| 1.0 / curve.curvature(stretches[i]).abs();
    match name {
        "radius_at_springing" => radius(0),
        "radius_at_crown" | "parameter_c" => radius(1),
        "least_radius" => radius(0).min(radius(1)),
        _ => panic!("{name} is no radius of a curve"),
    }
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn point(value: &Value) -> Point {
    Point::new(number(&value[0]), number(&value[1]))
}

#[test]
fn every_shape_meets_its_reference_values() {
    let reference: Value = serde_json::from_str(REFERENCE).unwrap();
    let (mut met, mut radii) = (0, 0);
    for entry in reference["arches"].as_array().unwrap() {
        let arch = arch(entry["shape"].as_str().unwrap(), &entry["given"]);
        let name = &entry["name"];
        let near = |a: f64, b: f64, scale: f64| {
            assert!((a - b).abs() <= AGREEMENT * scale, "{name}: {a} is not {b}")
        };
        let (figures, span) = (arch.figures(), arch.span);
        near(figures.developed_length, number(&entry["developed_length"]), span);
        near(figures.area, number(&entry["area_above_springing"]), span * span);
        let ordinates: Vec<Point> = entry["ordinates"].as_array().unwrap().iter().map(point).collect();
        assert!(!ordinates.is_empty());
        for p in ordinates {
            near(arch.soffit.height_at(p.x).unwrap(), p.y, span);
        }
        if let Some(pieces) = entry["pieces"].as_array() {
            let Soffit::Path(path) = &arch.soffit else {
                panic!("{name} is arcs")
            };
            assert_eq!(path.pieces().len(), pieces.len(), "{name}");
            for (piece, expected) in path.pieces().zip(pieces) {
                same_piece(&piece, expected, span, &near);
            }
        }
        for (field, expected) in entry.as_object().unwrap() {
            if field.contains("radius") || field == "parameter_c" {
                let expected = number(expected);
                near(named_radius(&arch, field), expected, expected);
                radii += 1;
            }
        }
        met += 1;
    }
    assert_eq!((met, radii), (27, 29), "arches and radii of the reference");
}

fn same_piece(piece: &Piece, expected: &Value, span: f64, near: &dyn Fn(f64, f64, f64)) {
    let same = |a: Point, b: Point, scale: f64| near(a.distance(b), 0.0, scale);
    if expected["line"].is_array() {
        assert!(piece.is_line());
        same(piece.start, point(&expected["line"][0]), span);
        return same(piece.end, point(&expected["line"][1]), span);
    }
    let circle = piece.circle().expect("an arc");
    let radius = number(&expected["radius"]);
    // A radius of a mile is met relative to itself.
    near(circle.radius, radius, span.max(radius));
    same(circle.centre, point(&expected["centre"]), span.max(radius));
    same(piece.start, point(&expected["start"]), span);
    same(piece.end, point(&expected["end"]), span);
    near(piece.sweep().to_degrees(), number(&expected["sweep_deg"]), 360.0);
}

#[test]
fn parallels_of_an_ellipse_have_the_true_length() {
    let reference: Value = serde_json::from_str(REFERENCE).unwrap();
    for entry in reference["arches"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|e| e["shape"] == "elliptical")
    {
        let fit = arch("elliptical", &entry["given"]).soffit.fit(0.001);
        for parallel in entry["parallels"].as_array().unwrap() {
            let outward = number(&parallel["outward"]);
            let length = cintre_geometry::parallel_line(&fit.path, -outward)
                .unwrap()
                .length();
            let expected = number(&parallel["length_of_true_parallel"]);
            assert!((length - expected).abs() < 1e-3, "{length} is not {expected}");
        }
    }
}

#[test]
fn two_sizes_of_three_give_the_same_arch() {
    let by_rise = Segmental {
        span: Some(1220.0),
        rise: Some(260.0),
        radius: None,
    }
    .arch()
    .unwrap();
    let radius = by_rise.figures().centres[0].radius;
    let by_radius = Segmental {
        span: Some(1220.0),
        rise: None,
        radius: Some(radius),
    }
    .arch()
    .unwrap();
    let by_both = Segmental {
        span: None,
        rise: Some(260.0),
        radius: Some(radius),
    }
    .arch()
    .unwrap();
    assert!((by_radius.rise - 260.0).abs() < 1e-9 && (by_both.span - 1220.0).abs() < 1e-9);
    let pointed = Pointed {
        span: Some(1100.0),
        rise: Some(1250.0),
        radius: None,
    }
    .arch()
    .unwrap();
    let radius = pointed.figures().centres[0].radius;
    let again = Pointed {
        span: Some(1100.0),
        rise: None,
        radius: Some(radius),
    }
    .arch()
    .unwrap();
    assert!((again.rise - 1250.0).abs() < 1e-9);
}

#[test]
fn what_no_such_arch_can_have_is_refused_with_the_shape_that_can() {
    let tall = Segmental {
        span: Some(1000.0),
        rise: Some(501.0),
        radius: None,
    }
    .arch()
    .unwrap_err();
    assert_eq!(tall.size(), Some("rise"));
    assert!(matches!(
        tall,
        ArchError::OutOfRange {
            instead: Some("horseshoe"),
            ..
        }
    ));
    let low = Pointed {
        span: Some(1000.0),
        rise: Some(420.0),
        radius: None,
    }
    .arch()
    .unwrap_err();
    assert!(matches!(
        low,
        ArchError::OutOfRange {
            instead: Some("four-centred"),
            ..
        }
    ));
    assert!(
        Segmental {
            span: Some(1.0),
            rise: Some(0.1),
            radius: Some(2.0)
        }
        .arch()
        .is_err()
    );
}

#[test]
fn a_short_cut_for_the_radius_is_not_taken() {
    let arch = Segmental {
        span: Some(1180.0),
        rise: Some(165.0),
        radius: None,
    }
    .arch()
    .unwrap();
    let figures = arch.figures();
    assert!(
        (figures.centres[0].radius - 1137.35).abs() < 0.01 && (figures.centres[0].at.y + 972.35).abs() < 0.01
    );
    assert!(
        (figures.developed_length - 1240.59).abs() < 0.01 && (figures.quarter_height - 126.08).abs() < 0.01
    );
}
