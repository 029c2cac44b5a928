//! The parts, put where they stand, are the head.

use super::*;
use cintre_geometry::{Outline, arch};
use cintre_work::Part;

/// How near they come to it, mm.
const WITHIN: f64 = 0.02;

/// Every shape that a head can have, as its name and arcs within 0.02 mm of it.
fn every_shape() -> Vec<(&'static str, Path)> {
    let mut all: Vec<(&'static str, Path)> = struck()
        .into_iter()
        .chain(curved())
        .map(|arch| (arch.shape, arch.soffit.fit(0.02).path))
        .collect();
    all.push(("segmental", shapes::segmental(915.0, 152.0)));
    all.push(("half round", shapes::segmental(900.0, 450.0)));
    all
}

/// Shapes struck from centres.
fn struck() -> Vec<arch::Arch> {
    let arches = [
        arch::Stilted {
            span: 900.0,
            stilt: 250.0,
            arc_rise: None,
        }
        .arch(),
        arch::Horseshoe {
            span: 900.0,
            rise: 620.0,
        }
        .arch(),
        arch::ThreeCentred {
            span: 1520.0,
            rise: 430.0,
            by: arch::ThreeCentredBy::LeastRatio,
        }
        .arch(),
        arch::FiveCentred {
            span: 1520.0,
            rise: 430.0,
            by: arch::FiveCentredBy::MeanRadius,
        }
        .arch(),
        arch::FourCentred {
            span: 1240.0,
            rise: 390.0,
            by: arch::FourCentredBy::TwoThirds,
        }
        .arch(),
        arch::Ogee {
            span: 900.0,
            rise: 900.0,
            lower_radius: 400.0,
        }
        .arch(),
        arch::Trefoil {
            span: 1200.0,
            rise: 900.0,
            lobe_radius: 350.0,
            lobe_height: 200.0,
        }
        .arch(),
        arch::Pointed {
            span: Some(900.0),
            rise: Some(820.0),
            radius: None,
        }
        .arch(),
        arch::Round { diameter: 680.0 }.arch(),
    ];
    arches.into_iter().map(Result::unwrap).collect()
}

/// Shapes that are no arcs, or lean.
fn curved() -> Vec<arch::Arch> {
    let arches = [
        arch::Elliptical {
            span: 1280.0,
            rise: 380.0,
        }
        .arch(),
        arch::Parabolic {
            span: 1400.0,
            rise: 400.0,
        }
        .arch(),
        arch::Catenary {
            span: 1600.0,
            rise: 900.0,
        }
        .arch(),
        arch::Rampant {
            span: 1350.0,
            springing_difference: 270.0,
            rise: None,
        }
        .arch(),
        arch::Oval {
            width: 1100.0,
            height: 700.0,
        }
        .arch(),
    ];
    arches.into_iter().map(Result::unwrap).collect()
}

/// The edge of the whole head; of a closed one its outer edge and its opening.
fn outlines(band: &Band) -> Vec<Outline> {
    if band.closed {
        let round = |path: &Path, out| Outline::closing(path).oriented(out);
        return vec![round(&band.upper, true), round(&band.lower, false)];
    }
    let [left, right] = &band.ends;
    let round = band.lower.then(right).then(&band.upper.reversed());
    vec![Outline::closing(&round.then(&left.reversed()))]
}

fn placed(made: &Made) -> Vec<(usize, Part)> {
    let standing = made.pieces.standing.iter();
    standing
        .map(|stands| {
            (
                stands.layer,
                made.pieces.parts[stands.part].transformed(stands.place),
            )
        })
        .collect()
}

/// Points round an outline, some on every piece.
fn points(outline: &Outline) -> Vec<Point> {
    let on = |piece: cintre_geometry::Piece| (0..9).map(move |i| piece.point_at(f64::from(i) / 8.0));
    outline.pieces().flat_map(on).collect()
}

#[track_caller]
fn is_the_head(what: &str, made: &Made, layers: usize) {
    let head = outlines(&made.band);
    let whole: f64 = head.iter().map(Outline::area).sum();
    let all = placed(made);
    for layer in 0..layers {
        let parts: Vec<&Part> = all
            .iter()
            .filter(|(l, _)| *l == layer)
            .map(|(_, part)| part)
            .collect();
        let area: f64 = parts.iter().map(|part| part.outline.area()).sum();
        let length: f64 = head.iter().map(Outline::length).sum();
        assert!(
            (area - whole).abs() < WITHIN * length / 10.0,
            "{what}: {area} of {whole}"
        );
        for p in head.iter().flat_map(points) {
            let off = parts.iter().map(|part| part.outline.nearest(p).distance);
            let off = off.fold(f64::INFINITY, f64::min);
            assert!(off < WITHIN, "{what}, layer {layer}: nothing at {p}, {off}");
        }
        for (i, part) in parts.iter().enumerate() {
            for p in points(&part.outline) {
                let edge = head.iter().map(|outline| outline.nearest(p).distance);
                let others = parts.iter().enumerate().filter(|(j, _)| *j != i);
                let others = others.map(|(_, other)| other.outline.nearest(p).distance);
                let off = edge.chain(others).fold(f64::INFINITY, f64::min);
                assert!(off < WITHIN, "{what}, layer {layer}: a gap of {off} at {p}");
            }
        }
    }
}

fn wide(soffit: Path) -> Input {
    let mut input = input(soffit, 80.0);
    input.boards.size.1 = 170.0;
    input
}

#[test]
fn pieces_of_a_head_put_together_are_the_head() {
    for (shape, soffit) in every_shape() {
        for joint in [Joint::Spline, Joint::Finger] {
            let mut input = wide(soffit.clone());
            input.joint = Some(joint);
            let made = Made::new(&input).unwrap_or_else(|error| panic!("{shape}: {error}"));
            is_the_head(shape, &made, 1);
            for part in &made.pieces.parts {
                assert!(part.outline.bounds().height() <= 164.0 + 1e-6, "{shape}");
                assert!(part.outline.is_counter_clockwise(), "{shape}");
            }
        }
    }
}

#[test]
fn so_are_those_of_every_layer() {
    for (shape, soffit) in every_shape() {
        let mut input = wide(soffit);
        input.layers = Some(2);
        let made = Made::new(&input).unwrap_or_else(|error| panic!("{shape}: {error}"));
        is_the_head(shape, &made, 2);
    }
}

#[test]
fn and_those_of_a_casing_with_its_mitres() {
    for (shape, soffit) in every_shape() {
        for true_mitre in [false, true] {
            let mut input = wide(soffit.clone());
            input.reveal = 6.0;
            input.piece = Piece::Casing {
                true_mitre,
                legs: None,
            };
            let made = Made::new(&input).unwrap_or_else(|error| panic!("{shape}: {error}"));
            is_the_head(shape, &made, 1);
        }
    }
}
