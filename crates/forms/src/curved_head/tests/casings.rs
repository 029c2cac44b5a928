//! Casings: their edges from the arch's own centre, their mitres, their legs.

use super::*;

fn casing(soffit: Path, width: f64, reveal: f64) -> Input {
    let mut input = input(soffit, width);
    input.reveal = reveal;
    input.piece = Piece::Casing {
        true_mitre: false,
        legs: Some(2000.0),
    };
    input.boards.size.1 = 180.0;
    input
}

#[test]
fn the_casings_radius_is_never_worked_anew_from_outside_sizes() {
    let form = curved_head(&casing(shapes::segmental(915.0, 152.0), 89.0, 0.0)).unwrap();
    near(&values(&form, "inner radii"), &[764.51], 5e-3);
    near(&values(&form, "outer radii"), &[853.51], 5e-3);
}

#[test]
fn reveal_and_leg_length() {
    let form = curved_head(&casing(shapes::segmental(915.0, 152.0), 89.0, 6.0)).unwrap();
    near(&values(&form, "inner corner above springing"), &[3.0], 5e-3);
    near(&values(&form, "outer corner above springing"), &[45.90], 5e-3);
    near(&values(&form, "leg inner edge"), &[2003.0, 2003.0], 5e-3);
    near(&values(&form, "leg outer edge"), &[2045.9, 2045.9], 5e-3);
    let legs = form.list.iter().find(|item| item.name.contains("leg")).unwrap();
    assert_eq!((legs.count, legs.section), (2, Some((89.0, 27.0))));
    near(&[legs.length], &[2045.9], 5e-3);
}

#[test]
fn the_mitre_of_an_eyebrow_casing_to_its_leg() {
    let form = curved_head(&casing(shapes::segmental(915.0, 152.0), 89.0, 0.0)).unwrap();
    near(&values(&form, "mitre by tangents from level"), &[26.62], 5e-3);
    near(&values(&form, "straight mitre from level"), &[25.84], 5e-3);
    near(&values(&form, "outer corner above springing"), &[43.09], 0.01);
    near(
        &values(&form, "true mitre bows from straight at mid width"),
        &[0.37],
        5e-3,
    );
    assert!(form.notes.iter().any(|note| note.contains("Cut the head first")));
}

#[test]
fn the_true_mitre_is_as_far_from_the_soffit_as_from_the_jamb() {
    let mut input = casing(shapes::segmental(915.0, 152.0), 89.0, 6.0);
    input.piece = Piece::Casing {
        true_mitre: true,
        legs: None,
    };
    let made = Made::new(&input).unwrap();
    for (end, side) in made.band.ends.iter().zip([-1.0, 1.0]) {
        for piece in end.pieces() {
            for i in 0..=8 {
                let p = piece.point_at(f64::from(i) / 8.0);
                let from_jamb = p.x * side - 457.5;
                let from_soffit = p.distance(Point::new(0.0, 152.0 - 764.506_578_947)) - 764.506_578_947;
                assert!(
                    (from_jamb - from_soffit).abs() < 2e-3,
                    "{from_jamb} {from_soffit}"
                );
            }
        }
    }
}

#[test]
fn a_head_that_springs_plumb_butts_square() {
    for soffit in [
        shapes::segmental(900.0, 450.0),
        shapes::three_centred(1520.0, 430.0),
    ] {
        let form = curved_head(&casing(soffit, 95.0, 6.0)).unwrap();
        near(&values(&form, "inner corner above springing"), &[0.0], 1e-6);
        near(&values(&form, "straight mitre from level"), &[0.0], 1e-6);
        assert!(form.notes.iter().any(|note| note.contains("butt square")));
    }
}

#[test]
fn springings_at_two_heights_have_a_leg_each() {
    let form = curved_head(&casing(shapes::rampant(1350.0, 270.0), 95.0, 6.0)).unwrap();
    near(&values(&form, "leg inner edge"), &[2000.0, 2270.0], 1e-6);
    assert_eq!(
        form.list
            .iter()
            .filter(|item| item.name.contains("casing leg"))
            .count(),
        2
    );
}
