//! Bending forms, as the job asks for them.

use super::{Asked, fault, usable};
use cintre_forms::{Form, bending};
use cintre_job::{
    BendingForm, Fault, FormSide, Laminations, MachineSpec, MeasuredBackSpec, PieceLine, SpringbackSpec,
    StripWood,
};

/// The depth of the groove for squeezed-out glue where nothing is said, mm.
const GROOVE: f64 = 4.0;

/// A total is made up by a strip fewer where it lacks no more than this, mm.
const ENOUGH: f64 = 1e-6;

pub(super) fn form(asked: Asked<'_>, asks: &BendingForm) -> Result<Form, Fault> {
    let Asked {
        spec,
        job,
        shop,
        arch,
        stock,
    } = asked;
    let designed = bending::bending_form(&bending::Input {
        arch: arch.name.clone(),
        line: arch.arch.soffit.clone(),
        tolerance: job.tolerance,
        given: match asks.line {
            PieceLine::Inside => bending::Given::Inside,
            PieceLine::Middle => bending::Given::Middle,
            PieceLine::Outside => bending::Given::Outside,
        },
        legs: asks.legs,
        over_length: asks.over_length,
        strips: bending::Strips {
            thicknesses: thicknesses(&asks.laminations),
            width: asks.width,
            clean_up: asks.clean_up,
            wood: wood(asks.wood),
        },
        springback: springback(asks.springback.or(shop.house.springback)),
        measured_back: asks.measured_back.map(measured_back),
        side: match asks.side {
            FormSide::Male => bending::Side::Male,
            FormSide::Female => bending::Side::Female,
            FormSide::Pair => bending::Side::Pair,
        },
        liner: asks.liner,
        caul: asks.caul,
        clamps: bending::Clamps {
            seat: asks.clamp_hole.map_or(bending::Seat::Flats, bending::Seat::Holes),
            spacing: asks.clamp_spacing,
            ligament: asks.ligament,
            own: shop
                .house
                .clamp
                .map(|[opening, throat]| bending::Reach { opening, throat }),
        },
        body: bending::Body {
            layers: asks.body_layers.map(|n| n as usize),
            segments: asks.segments.map(|n| n as usize),
            dowel: asks.dowel,
            base: asks.base,
            groove: asks.groove.unwrap_or_else(|| groove(asked)),
        },
        stock: spec.stock.clone(),
        thickness: stock.thickness,
        sheet: Some(usable(stock)),
    });
    let designed = designed.map(|form| noted(form, &asks.laminations));
    designed.map_err(|error| match (&asks.laminations, error.field()) {
        (Laminations::Each(_), "lamination") => spec.places.at("thicknesses").fault(error.to_string(), None),
        _ => fault(spec, job, &error),
    })
}

/// With a word where whole strips come to more than the total that was asked for.
fn noted(mut form: Form, asked: &Laminations) -> Form {
    if let Laminations::Total { thickness, total } = asked {
        let count = thicknesses(asked).len();
        let stack: f64 = thicknesses(asked).iter().sum();
        if stack > total + ENOUGH {
            form.notes.push(format!(
                "whole strips of {thickness:.2} mm come to {total:.2} mm or more with {count} of them, which are {stack:.2} mm"
            ));
        }
    }
    form
}

/// What only cuts through cuts no groove.
fn groove(asked: Asked<'_>) -> f64 {
    match asked.shop.machines.get(&asked.spec.machine) {
        Some(MachineSpec::Laser(_) | MachineSpec::Pen(_)) => 0.0,
        _ => GROOVE,
    }
}

fn thicknesses(laminations: &Laminations) -> Vec<f64> {
    match laminations {
        Laminations::Each(each) => each.clone(),
        Laminations::Alike { thickness, count } => vec![*thickness; *count as usize],
        Laminations::Total { thickness, total } => {
            let mut strips = vec![*thickness];
            // No form is bent of more strips than a job may name one by one.
            while strips.len() < MOST && strips.iter().sum::<f64>() < total - ENOUGH {
                strips.push(*thickness);
            }
            strips
        }
    }
}

/// The most strips that a total is made up of.
const MOST: usize = 1000;

const fn wood(asked: StripWood) -> bending::Wood {
    match asked {
        StripWood::Dry => bending::Wood::Dry,
        StripWood::Steamed => bending::Wood::Steamed,
        StripWood::Strapped => bending::Wood::Strapped,
        StripWood::PlyAlong => bending::Wood::PlyAlong,
        StripWood::PlyAcross => bending::Wood::PlyAcross,
    }
}

const fn springback(asked: Option<SpringbackSpec>) -> bending::Springback {
    match asked {
        None | Some(SpringbackSpec::Layers) => bending::Springback::Layers,
        Some(SpringbackSpec::Kept(share)) => bending::Springback::Measured(share),
        Some(SpringbackSpec::None) => bending::Springback::None,
    }
}

const fn measured_back(asked: MeasuredBackSpec) -> bending::MeasuredBack {
    match asked {
        MeasuredBackSpec::Radius { radius, form } => bending::MeasuredBack {
            came_out: bending::CameOut::Radius(radius),
            form,
        },
        MeasuredBackSpec::Width(width) => bending::MeasuredBack {
            came_out: bending::CameOut::Width(width),
            form: None,
        },
    }
}
