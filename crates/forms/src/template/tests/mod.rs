//! Templates, against distances that are measured another way, and against sums of the trade.

mod cases;
mod made;
mod offsets;
mod refusals;

use super::{Cut, Edge, Guide, GuideKind, Input, Room, Run, template};
use crate::{Error, Form};
use cintre_geometry::arch::{
    Arch, Camber, Catenary, Elliptical, Equilateral, FiveCentred, FourCentred, Horseshoe, Ogee, Oval,
    Parabolic, Pointed, Rampant, Round, Segmental, Semicircular, Skewback, Stilted, ThreeCentred, Trefoil,
};
use cintre_geometry::parallel_line;

/// Finer than jobs ask for, so that the fit adds little to what is measured, mm.
const FINE: f64 = 0.01;

/// One arch of every shape.
fn every_shape() -> Vec<Arch> {
    let (span, rise) = (900.0, 300.0);
    let sizes = (Some(span), Some(rise), None);
    let segmental = Segmental {
        span: sizes.0,
        rise: sizes.1,
        radius: sizes.2,
    };
    let pointed = Pointed {
        span: Some(620.0),
        rise: Some(700.0),
        radius: None,
    };
    let camber = Camber {
        span,
        camber: None,
        depth: 200.0,
        skewback: Skewback::Sixty,
    };
    let stilted = Stilted {
        span: 700.0,
        stilt: 150.0,
        arc_rise: None,
    };
    let rampant = Rampant {
        span,
        springing_difference: 200.0,
        rise: None,
    };
    let all = [
        segmental.arch(),
        Semicircular { span }.arch(),
        stilted.arch(),
        Horseshoe { span, rise: 620.0 }.arch(),
        camber.arch(),
        ThreeCentred {
            span,
            rise,
            by: Default::default(),
        }
        .arch(),
        FourCentred {
            span,
            rise,
            by: Default::default(),
        }
        .arch(),
        FiveCentred {
            span,
            rise,
            by: Default::default(),
        }
        .arch(),
        pointed.arch(),
        Equilateral { span }.arch(),
        ogee().arch(),
        Elliptical { span, rise }.arch(),
        Parabolic { span, rise }.arch(),
        Catenary { span, rise }.arch(),
        rampant.arch(),
        trefoil().arch(),
        Round { diameter: 700.0 }.arch(),
        Oval {
            width: 900.0,
            height: 600.0,
        }
        .arch(),
    ];
    all.into_iter()
        .map(|arch| arch.expect("such an arch is"))
        .collect()
}

const fn ogee() -> Ogee {
    Ogee {
        span: 900.0,
        rise: 760.0,
        lower_radius: 300.0,
    }
}

const fn trefoil() -> Trefoil {
    Trefoil {
        span: 900.0,
        rise: 780.0,
        lobe_radius: 260.0,
        lobe_height: 200.0,
    }
}

const BUSH_30: Guide = Guide {
    kind: GuideKind::Bush,
    diameter: 30.0,
    bit: 12.7,
};

/// A template for an arch's soffit, with much room for the chisel.
fn input(arch: &Arch, run: Run, guide: Guide) -> Input {
    let fit = arch.soffit.fit(FINE);
    Input {
        arch: "light".to_owned(),
        edge: Edge::Soffit(fit.path),
        run,
        guide,
        pair: None,
        other_bits: vec![6.35, 12.0, 12.7],
        least_radius: arch.soffit.least_radius(),
        fit_error: fit.worst_error,
        room: Room {
            base: 75.0,
            clamps: 45.0,
        },
        chisel: 500.0,
        stops: true,
        hanging_hole: 20.0,
        cut: Cut {
            corner: 3.175,
            screw: 5.0,
        },
        stock: "mdf12".to_owned(),
        thickness: 12.0,
    }
}

/// The same for a ring of this depth.
fn ring(arch: &Arch, depth: f64, guide: Guide) -> Input {
    let mut input = input(arch, Run::Outside, guide);
    let Edge::Soffit(inner) = input.edge.clone() else {
        unreachable!("it is for a soffit")
    };
    let outer = parallel_line(&inner, -depth).expect("the ring has a back");
    input.edge = Edge::Ring { inner, outer, depth };
    input
}

#[track_caller]
fn made(input: &Input) -> Form {
    template(input).unwrap_or_else(|error| panic!("{error}"))
}

fn figure(form: &Form, name: &str) -> Vec<f64> {
    let found = form.figures.iter().find(|figure| figure.name == name);
    found.map_or_else(Vec::new, |figure| figure.values.clone())
}

#[track_caller]
fn refused(input: &Input, field: &str, words: &[&str]) -> Error {
    let error = template(input).map(|_| ()).expect_err("it cannot be made");
    assert_eq!(error.field(), field, "{error}");
    for word in words {
        assert!(
            error.to_string().contains(word),
            "`{word}` is missing in: {error}"
        );
    }
    error
}
