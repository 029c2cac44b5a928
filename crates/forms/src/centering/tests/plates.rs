//! Ribs of one plate.

use super::super::*;
use super::{input, near, values};
use crate::shapes;
use cintre_geometry::Path;
use cintre_geometry::{HalfEllipse, Outline, Point, fit};
use cintre_work::MarkKind;
use proptest::prelude::*;
use std::f64::consts::PI;

#[test]
fn a_segment_keeps_its_centre_and_runs_past_the_springing() {
    let form = centering(&input(shapes::segmental(1300.0, 210.0))).unwrap();
    near(values(&form, "rib radii")[0], 1088.95, 0.005);
    near(values(&form, "rib rise")[0], 188.0, 1e-9);
    let foot = values(&form, "right foot");
    near(foot[0], 637.13, 0.005);
    near(foot[1], -17.84, 0.005);
    near(values(&form, "left foot")[0], -637.13, 0.005);
    near(
        values(&form, "rib half width at springing line")[0],
        611.64,
        0.005,
    );
    let rib = &form.parts[0];
    for (x, height) in [(0.0, 188.0), (200.0, 169.5), (400.0, 111.9), (600.0, 7.8)] {
        near(rib.outline.nearest(Point::new(x, height)).distance, 0.0, 0.06);
    }
    assert_eq!(rib.outline.vertices().len(), 4);
    near(rib.outline.bounds().y0, foot[1] - 100.0, 1e-9);
    assert_eq!((rib.name.as_str(), rib.count), ("gate rib", 2));
}

#[test]
fn a_half_round_stands_on_its_feet() {
    let mut half = input(shapes::segmental(1050.0, 525.0));
    (half.lagging.thickness, half.lagging.skin) = (20.0, 4.0);
    let form = centering(&half).unwrap();
    near(values(&form, "rib radii")[0], 501.0, 1e-9);
    near(values(&form, "right foot")[0], 501.0, 1e-9);
    near(values(&form, "right foot")[1], 0.0, 1e-9);
    let area = PI * 501.0f64.powi(2) / 2.0 + 1002.0 * 100.0;
    near(form.parts[0].outline.area(), area, 1e-6);
}

#[test]
fn a_rib_bears_its_name_and_its_lines() {
    let form = centering(&input(shapes::segmental(1300.0, 210.0))).unwrap();
    let of = |kind| form.parts[0].marks.iter().filter(move |m| m.kind == kind);
    assert_eq!(of(MarkKind::Line).count(), 4);
    let letters = of(MarkKind::Text)
        .map(|m| m.path.bounds())
        .reduce(|a, b| a.union(b));
    assert!(letters.unwrap().width() > 50.0);
    assert!(
        !form.notes.contains(&crate::marks::NO_ROOM.to_owned()),
        "{:?}",
        form.notes
    );
    let mut plain = input(shapes::segmental(1300.0, 210.0));
    plain.bolt = None;
    let form = centering(&plain).unwrap();
    assert!(form.parts[0].bores.is_empty());
    assert!(form.parts[0].marks.iter().any(|m| m.kind == MarkKind::Text));
}

#[test]
fn fitted_curves_make_sound_ribs() {
    for (span, rise) in [(1200.0, 400.0), (2400.0, 500.0), (900.0, 380.0)] {
        let fitted = fit(
            &HalfEllipse {
                half_span: span / 2.0,
                rise,
            },
            0.02,
        );
        let mut given = input(fitted.path);
        given.fit_error = fitted.worst_error;
        given.rib_depth = Some(100.0);
        let form = centering(&given).unwrap();
        sound(&form, &given).unwrap();
        near(values(&form, "right foot")[0], span / 2.0 - 22.0, 1e-6);
        near(values(&form, "right foot")[1], 0.0, 1e-6);
        near(values(&form, "fit error")[0], form.parts[0].fit_error, 0.0);
        assert!(form.parts[0].fit_error > 0.0);
    }
}

#[test]
fn flat_battens_stand_proud() {
    near(proud(50.0, 450.0), 0.69, 0.005);
    near(proud(38.0, 450.0), 0.40, 0.005);
    near(proud(75.0, 600.0), 1.17, 0.005);
}

#[test]
fn a_trapped_horseshoe_is_refused() {
    let error = centering(&input(shapes::segmental(900.0, 620.0))).unwrap_err();
    let Error::Trapped { beyond } = error else {
        panic!("{error}");
    };
    near(beyond, 23.305, 0.005);
    assert_eq!(error.field(), "arch");
}

#[test]
fn lagging_past_the_radius_though_not_past_the_rise_names_the_radius() {
    let stilted = centering(&Input {
        lagging: Lagging {
            thickness: 510.0,
            ..input(shapes::stilted(1000.0, 200.0)).lagging
        },
        ..input(shapes::stilted(1000.0, 200.0))
    });
    let Err(Error::Lagging { limit, .. }) = stilted else {
        panic!("past the radius, though not past the rise");
    };
    near(limit, 496.0, 1e-5);
}

#[test]
fn every_limit_that_is_named_works_and_what_lies_past_it_does_not() {
    let soffit = || shapes::segmental(1000.0, 500.0);
    let try_with = |change: &dyn Fn(&mut Input)| {
        let mut changed = input(soffit());
        change(&mut changed);
        centering(&changed)
    };
    let refused = |field: &str, change: &dyn Fn(&mut Input)| {
        let error = try_with(change).unwrap_err();
        assert_eq!(error.field(), field, "{error}");
        error
    };
    let Error::Lagging { limit, .. } = refused("lagging", &|i| i.lagging.thickness = 510.0) else {
        panic!("too deep");
    };
    near(limit, 496.0, 1e-5);
    let Error::Tie { limit, .. } = refused("tie", &|i| i.tie = Some(50.0)) else {
        panic!("too shallow");
    };
    assert!(try_with(&|i| i.tie = Some(limit)).is_ok());
    let Error::Wall { limit, .. } = refused("wall", &|i| i.wall = 50.0) else {
        panic!("too thin");
    };
    assert!(try_with(&|i| i.wall = limit).is_ok());
    let Error::Ribs { most, .. } = refused("ribs", &|i| i.ribs = Some(40)) else {
        panic!("too many");
    };
    assert!(try_with(&|i| i.ribs = Some(most)).is_ok());
    refused("ribs", &|i| i.ribs = Some(1));
    let thick = |wall: f64| {
        try_with(&|i| {
            i.thickness = 150.0;
            i.wall = wall;
        })
    };
    let Err(Error::Wall { limit, .. }) = thick(306.0) else {
        panic!("two have no room");
    };
    assert_eq!(thick(limit).unwrap().parts[0].count, 2);
    let Error::RibDepth { limit, .. } = refused("rib-depth", &|i| i.rib_depth = Some(40.0)) else {
        panic!("too shallow");
    };
    assert!(try_with(&|i| i.rib_depth = Some(limit)).is_ok());
    let Error::Opening {
        limit: Some(limit), ..
    } = refused("rib-depth", &|i| i.rib_depth = Some(470.0))
    else {
        panic!("no room");
    };
    assert!(try_with(&|i| i.rib_depth = Some(limit)).is_ok());
    refused("rib-depth", &|i| i.rib_depth = Some(limit + 0.001));
    let Error::Bolt {
        limit: Some(limit), ..
    } = refused("bolt", &|i| {
        i.bolt = Some(90.0);
        i.tie = Some(600.0);
    })
    else {
        panic!("too large");
    };
    assert!(
        try_with(&|i| {
            i.bolt = Some(limit);
            i.tie = Some(600.0);
        })
        .is_ok()
    );
    refused("skin", &|i| i.lagging.skin = f64::NAN);
    refused("bolt", &|i| i.bolt = Some(-1.0));
}

#[test]
fn a_flat_arch_has_no_room_for_an_opening_at_any_depth() {
    let mut flat = input(shapes::segmental(1300.0, 70.0));
    flat.rib_depth = Some(60.0);
    let error = centering(&flat).unwrap_err();
    assert!(matches!(error, Error::Opening { limit: None, .. }), "{error}");
}

#[test]
fn springings_out_of_level_have_each_its_own_foot() {
    let form = centering(&input(shapes::rampant(1200.0, 250.0))).unwrap();
    near(values(&form, "left foot")[1], 0.0, 1e-9);
    near(values(&form, "right foot")[1], 250.0, 1e-9);
    near(form.parts[0].outline.bounds().y0, -100.0, 1e-9);
    assert!(form.parts[0].bores.len() > 4);
}

#[test]
fn a_pointed_and_a_reverse_curve_get_openings_with_round_corners() {
    for soffit in [shapes::pointed(1200.0, 1200.0), shapes::ogee(1400.0, 1300.0)] {
        let mut with = input(soffit);
        (with.rib_depth, with.least_corner) = (Some(90.0), 12.0);
        let form = centering(&with).unwrap();
        sound(&form, &with).unwrap();
        let hole = &form.parts[0].openings[0];
        let least = hole
            .pieces()
            .filter(|p| p.bulge < 0.0)
            .filter_map(|p| p.circle())
            .map(|c| c.radius)
            .reduce(f64::min);
        near(least.unwrap(), 12.0, 1e-6);
        smooth(hole);
    }
}

/// Refuses an opening with a corner that no bit could cut.
fn smooth(opening: &Outline) {
    let pieces: Vec<_> = opening.pieces().collect();
    for (i, piece) in pieces.iter().enumerate() {
        let next = pieces[(i + 1) % pieces.len()];
        let turn = piece.tangent_at(1.0).cross(next.tangent_at(0.0));
        assert!(
            turn.abs() < 1e-6 && piece.tangent_at(1.0).dot(next.tangent_at(0.0)) > 0.0,
            "corner {i} turns {turn}"
        );
    }
}

/// Holds a rib against what it promises.
fn sound(form: &Form, input: &Input) -> Result<(), TestCaseError> {
    let rib = &form.parts[0];
    prop_assert!(rib.outline.is_counter_clockwise());
    prop_assert!(rib.openings.iter().all(|o| !o.is_counter_clockwise()));
    let depth = input.rib_depth.unwrap_or(0.0).min(input.tie.unwrap_or(TIE));
    for piece in rib.openings.iter().flat_map(Outline::pieces) {
        for i in 0..=8 {
            let p = piece.point_at(f64::from(i) / 8.0);
            prop_assert!(rib.outline.signed_distance(p) < -depth + 1e-6);
        }
    }
    let edge = input.bolt.map_or(0.0, edge_distance);
    for (i, bore) in rib.bores.iter().enumerate() {
        prop_assert!(rib.outline.signed_distance(bore.centre) < -edge + 2e-6);
        for opening in &rib.openings {
            prop_assert!(opening.signed_distance(bore.centre) > edge - 2e-6);
        }
        for other in &rib.bores[i + 1..] {
            prop_assert!(bore.centre.distance(other.centre) > 2.0 * edge - 1e-6);
        }
        for v in rib.marks.iter().flat_map(|m| m.path.vertices()) {
            prop_assert!(v.point.distance(bore.centre) > bore.diameter / 2.0 + 1.0);
        }
    }
    for v in rib.marks.iter().flat_map(|m| m.path.vertices()) {
        prop_assert!(rib.outline.signed_distance(v.point) < 0.0);
        prop_assert!(rib.openings.iter().all(|o| o.signed_distance(v.point) > 0.0));
    }
    Ok(())
}

fn even(rib: &Part) -> Result<(), TestCaseError> {
    for bore in &rib.bores {
        let twin = Point::new(-bore.centre.x, bore.centre.y);
        prop_assert!(rib.bores.iter().any(|b| b.centre.distance(twin) < 1e-6));
    }
    let edges: Vec<_> = std::iter::once(&rib.outline).chain(&rib.openings).collect();
    for v in edges.iter().flat_map(|edge| edge.vertices()) {
        let twin = Point::new(-v.point.x, v.point.y);
        prop_assert!(edges.iter().any(|edge| edge.nearest(twin).distance < 1e-6));
    }
    Ok(())
}

/// The least radius of the arcs that turn over the opening.
fn least_radius(soffit: &Path) -> f64 {
    let turning = soffit.pieces().filter(|p| p.bulge < 0.0);
    turning
        .filter_map(|p| p.circle())
        .map(|c| c.radius)
        .fold(f64::INFINITY, f64::min)
}

fn soffits() -> impl Strategy<Value = Path> {
    (400.0..3500.0f64, 0.05..0.5f64, 0..5usize).prop_map(|(span, flat, shape)| match shape {
        0 => shapes::segmental(span, span * flat),
        1 => shapes::stilted(span, span * flat),
        2 => shapes::pointed(span, span * (0.55 + flat)),
        3 => shapes::three_centred(span, span * flat.clamp(0.15, 0.45)),
        _ => shapes::ogee(span, span * (0.6 + flat)),
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn a_rib_is_sound_and_even_for_any_size(
        soffit in soffits(), lagging in 0.0..40.0f64, tie in 80.0..250.0f64, bolt in 5.0..13.0f64,
        depth in prop::option::of(80.0..200.0f64), corner in 1.0..15.0f64,
    ) {
        let mut given = input(soffit);
        (given.lagging.thickness, given.tie, given.bolt) = (lagging, Some(tie), Some(bolt));
        (given.rib_depth, given.least_corner) = (depth, corner);
        match centering(&given) {
            Ok(form) => {
                sound(&form, &given)?;
                even(&form.parts[0])?;
                prop_assert!(depth.is_none() || (1..=2).contains(&form.parts[0].openings.len()));
            }
            Err(Error::Lagging { limit, .. }) => {
                prop_assert!((limit + given.lagging.skin - least_radius(&given.soffit)).abs() < 1e-5);
                prop_assert!(lagging > limit);
            }
            // A small or a flat arch has no room for an opening; nothing else here can fail.
            Err(error) => prop_assert!(matches!(error, Error::Opening { .. }), "{error}"),
        }
    }
}
