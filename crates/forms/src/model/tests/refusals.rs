//! What cannot be made, and what would do.

use super::{BEAM, gate, input};
use crate::Error;
use crate::model::{Beam, Input, Made, model};
use crate::shapes;

/// The scale that a refusal names works, and the next smaller one does not.
#[track_caller]
fn refused_with_a_scale_that_works(input: &Input, said: &str) {
    let error = model(input).expect_err("it is refused");
    assert!(error.to_string().contains(said), "{error}");
    let Error::Thin {
        works: Some(works), ..
    } = error
    else {
        panic!("no scale is named: {error}");
    };
    let at = |scale: f64| {
        model(&Input {
            scale,
            ..input.clone()
        })
    };
    assert!(at(works).is_ok(), "1:{works} is refused");
    assert!(at(works + 1.0).is_err(), "1:{} works too", works + 1.0);
}

#[test]
fn a_scale_at_which_a_bridge_is_too_thin_names_the_one_that_does() {
    let small = Input {
        scale: 40.0,
        ..gate()
    };
    refused_with_a_scale_that_works(&small, "between two ribs' slots");
    let flat = Input {
        scale: 20.0,
        wall: 900.0,
        ..input(shapes::segmental(1220.0, 40.0), None)
    };
    refused_with_a_scale_that_works(&flat, "a rib over a spacer's slot");
}

#[test]
fn a_voussoir_too_small_to_be_held_names_the_scale_that_does() {
    let many = Input {
        ring: Some(super::ring(&gate().soffit, 215.0, 97, Made::Flat)),
        ..gate()
    };
    refused_with_a_scale_that_works(&many, "a voussoir (fewer are wider)");
}

#[test]
fn a_curve_tighter_than_the_sheet_is_refused() {
    let tight = Input {
        scale: 100.0,
        bridge: Some(1.5),
        wall: 3000.0,
        ..input(shapes::segmental(500.0, 250.0), None)
    };
    refused_with_a_scale_that_works(&tight, "");
}

#[test]
fn a_slot_no_wider_than_the_beam_is_refused() {
    let thin = Input {
        thickness: 0.4,
        beam: Beam { kerf: 0.16, ..BEAM },
        bridge: Some(2.0),
        ..gate()
    };
    assert!(matches!(model(&thin), Err(Error::Interference { .. })));
    let loose = Input {
        interference: 1.0,
        ..gate()
    };
    let error = model(&loose).expect_err("it is refused").to_string();
    assert!(
        error.contains("from -0.76 mm, which is play, to 0.76 mm"),
        "{error}"
    );
}

#[test]
fn a_bridge_thinner_than_the_machine_holds_is_refused() {
    let thin = Input {
        bridge: Some(1.0),
        ..gate()
    };
    let error = model(&thin).expect_err("it is refused");
    assert_eq!(error.to_string(), "bridge is 1 mm: it must be 1.5 mm or more");
}

#[test]
fn a_closed_arch_has_no_model() {
    let round = Input {
        soffit: cintre_geometry::Outline::circle((0.0, 0.0).into(), 300.0).opened_at(0, 0.0),
        ring: None,
        ..gate()
    };
    assert!(matches!(model(&round), Err(Error::Soffit { .. })));
}
