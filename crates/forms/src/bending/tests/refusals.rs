//! What cannot be bent, or not on such a form.

use super::*;
use cintre_geometry::Path;
use cintre_geometry::arch::{Pointed, Round};

#[track_caller]
fn refused(input: &Input, field: &str, words: &[&str]) {
    let error = bending_form(input).unwrap_err();
    assert_eq!(error.field(), field, "{error}");
    for word in words {
        assert!(
            error.to_string().contains(word),
            "`{word}` is missing in: {error}"
        );
    }
}

#[test]
fn one_lamination_keeps_nothing_by_its_layers() {
    let mut one = input(half_round(2000.0));
    one.strips.thicknesses = vec![8.0];
    refused(&one, "springback", &["keeps nothing", "test piece"]);
    one.springback = Springback::Measured(0.8);
    bending_form(&one).unwrap();
}

#[test]
fn laminations_too_thick_for_the_radius() {
    let mut thick = input(half_round(600.0));
    thick.strips.thicknesses = vec![6.0; 4];
    refused(
        &thick,
        "lamination",
        &["strain", "per cent", "or thinner does", "steam"],
    );
}

#[test]
fn a_stack_deeper_than_its_inside_radius() {
    let mut deep = input(half_round(60.0));
    deep.given = Given::Outside;
    deep.strips.thicknesses = vec![4.0; 9];
    refused(&deep, "lamination", &["no inside"]);
}

#[test]
fn strips_wider_than_the_form_is_high() {
    let mut low = input(half_round(1200.0));
    low.body.layers = Some(3);
    refused(&low, "body-layers", &["54.0 mm high", "68.0 mm wide", "4 layers"]);
}

#[test]
fn clamps_that_cannot_span() {
    let mut short = input(half_round(1200.0));
    short.clamps.own = Some(Reach {
        opening: 90.0,
        throat: 80.0,
    });
    refused(
        &short,
        "ligament",
        &["open 90.0 mm", "96.0 mm", "54.0 mm is the most"],
    );
    short.clamps.ligament = 54.0;
    bending_form(&short).unwrap();
    short.clamps.own = Some(Reach {
        opening: 200.0,
        throat: 30.0,
    });
    refused(&short, "width", &["throat of 30.0", "36.0 mm or more"]);
}

#[test]
fn a_figure_that_cannot_have_come_out() {
    let mut back = input(half_round(1200.0));
    for (came_out, words) in [
        (CameOut::Radius(90.0), "radius of 90.00 mm"),
        (CameOut::Radius(9000.0), "from 4"),
        (CameOut::Width(2500.0), "width of 2500.00 mm"),
        (CameOut::Width(300.0), "from "),
    ] {
        back.measured_back = Some(MeasuredBack { came_out, form: None });
        refused(&back, "measured-back", &[words]);
    }
    let mut ellipse = input(half_ellipse());
    ellipse.strips.thicknesses = vec![3.0; 8];
    ellipse.measured_back = Some(MeasuredBack {
        came_out: CameOut::Radius(600.0),
        form: None,
    });
    refused(&ellipse, "measured-back", &["no one radius", "width"]);
    ellipse.measured_back = Some(MeasuredBack {
        came_out: CameOut::Width(1412.0),
        form: None,
    });
    let kept = values(&bending_form(&ellipse).unwrap(), "kept of its bend")[0];
    assert!(
        kept < kept_by_layers(&[3.0; 8]),
        "it opened, so it kept less than was thought"
    );
}

#[test]
fn a_line_with_a_corner_or_without_ends() {
    let pointed = Pointed {
        span: Some(900.0),
        rise: Some(800.0),
        radius: None,
    }
    .arch()
    .unwrap();
    refused(&input(pointed.soffit), "arch", &["corner"]);
    let round = Round { diameter: 900.0 }.arch().unwrap();
    refused(&input(round.soffit), "arch", &["comes back"]);
}

#[test]
fn a_body_that_folds_and_holes_that_run_together() {
    let mut tight = input(half_round(300.0));
    tight.strips.thicknesses = vec![1.5; 4];
    refused(&tight, "ligament", &["flats"]);
    tight.clamps.seat = Seat::Flats;
    bending_form(&tight).unwrap();
    let mut crowded = input(half_round(1200.0));
    crowded.clamps.spacing = Some(60.0);
    refused(
        &crowded,
        "clamp-spacing",
        &["mm of wood between their holes", "flats"],
    );
    crowded.clamps.spacing = None;
    bending_form(&crowded).unwrap();
}

#[test]
fn a_straight_line_is_a_form_too() {
    let straight = Path::polyline(&[
        cintre_geometry::Point::new(-300.0, 0.0),
        cintre_geometry::Point::new(300.0, 0.0),
    ]);
    bending_form(&input(Soffit::Path(straight))).unwrap();
}
