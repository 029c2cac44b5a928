use super::*;
use crate::form::Unit;
use cintre_geometry::Soffit;
use cintre_geometry::arch::{Elliptical, Segmental, Semicircular};

mod bodies;
mod cases;
mod refusals;
mod springs;

/// Six strips of 4 mm over a male form, as long as the line and no longer.
pub(super) fn input(line: Soffit) -> Input {
    Input {
        arch: "sash".to_owned(),
        line,
        tolerance: 0.02,
        given: Given::Inside,
        legs: 0.0,
        over_length: 0.0,
        strips: Strips {
            thicknesses: vec![4.0; 6],
            width: 60.0,
            clean_up: 8.0,
            wood: Wood::Dry,
        },
        springback: Springback::Layers,
        measured_back: None,
        side: Side::Male,
        liner: 0.0,
        caul: 12.0,
        clamps: Clamps {
            seat: Seat::Holes(45.0),
            spacing: None,
            ligament: 60.0,
            own: None,
        },
        body: Body {
            layers: None,
            segments: None,
            dowel: 10.0,
            base: true,
            groove: 4.0,
        },
        stock: "mdf18".to_owned(),
        thickness: 18.0,
        sheet: Some(crate::centering::Usable {
            along: 2424.0,
            across: 1204.0,
            either_way: true,
        }),
    }
}

pub(super) fn half_round(span: f64) -> Soffit {
    Semicircular { span }.arch().unwrap().soffit
}

pub(super) fn half_ellipse() -> Soffit {
    Elliptical {
        span: 1400.0,
        rise: 400.0,
    }
    .arch()
    .unwrap()
    .soffit
}

pub(super) fn segment(span: f64, rise: f64) -> Soffit {
    Segmental {
        span: Some(span),
        rise: Some(rise),
        radius: None,
    }
    .arch()
    .unwrap()
    .soffit
}

pub(super) fn values(form: &Form, name: &str) -> Vec<f64> {
    let figure = form.figures.iter().find(|f| f.name == name);
    figure
        .unwrap_or_else(|| panic!("no figure {name}"))
        .values
        .clone()
}

#[track_caller]
pub(super) fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

#[test]
fn figures_say_what_they_are() {
    let form = bending_form(&input(half_round(1200.0))).unwrap();
    let unit = |name: &str| form.figures.iter().find(|f| f.name == name).unwrap().unit;
    assert_eq!(unit("form turns"), Unit::Degree);
    assert_eq!(unit("kept of its bend"), Unit::Number);
    assert_eq!(unit("male face radii"), Unit::Radius);
}
