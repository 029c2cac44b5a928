//! The job's arches, worked out.

use crate::many_centred;
use crate::trouble::{Trouble, gathered};
use cintre_geometry::arch::{
    Arch, ArchError, Camber, Catenary, Elliptical, Equilateral, Horseshoe, Ogee, Oval, Parabolic, Pointed,
    Rampant, Round, Segmental, Semicircular, Skewback, Stilted, Trefoil,
};
use cintre_geometry::{Fit, LineError, Path, parallel_line};
use cintre_job::{ArchSpec, Fault, Job, Shape};

/// An arch of a job, with what the stages need of it.
#[derive(Clone, Debug)]
pub struct NamedArch {
    /// Its name in the job.
    pub name: String,
    /// The arch.
    pub arch: Arch,
    /// Its soffit as tangent arcs within the job's tolerance.
    pub fit: Fit,
    /// The depth of its ring, mm, and the ring's back as tangent arcs.
    pub ring: Option<(f64, Path)>,
}

/// Works out every arch of a job, or says everything that is wrong with them.
pub(crate) fn arches(job: &Job) -> Result<Vec<NamedArch>, Trouble> {
    let attempts = job
        .arches
        .iter()
        .map(|(name, spec)| named(name, spec, job.tolerance));
    gathered(attempts).map_err(Trouble::Faults)
}

fn named(name: &str, spec: &ArchSpec, tolerance: f64) -> Result<NamedArch, Fault> {
    let arch = arch(spec)?.map_err(|error| fault(spec, &error))?;
    if arch.level_back.is_some() && spec.ring.is_some() {
        let help = "leave it out: `depth` is the height of its back".to_owned();
        let what = "a camber arch has a level back, and no ring";
        return Err(spec.places.at("ring").fault(what, Some(help)));
    }
    let fit = arch.soffit.fit(tolerance);
    let ring = spec
        .ring
        .map(|depth| {
            let back = parallel_line(&fit.path, -depth).map_err(|LineError::TooFar { limit, .. }| {
                let help = format!("{limit:.3} mm is the deepest ring that this soffit allows");
                spec.places
                    .at("ring")
                    .fault("the back of a ring so deep folds over itself", Some(help))
            })?;
            Ok((depth, back))
        })
        .transpose()?;
    Ok(NamedArch {
        name: name.to_owned(),
        arch,
        fit,
        ring,
    })
}

fn arch(spec: &ArchSpec) -> Result<Result<Arch, ArchError>, Fault> {
    let size = |word| spec.size(word);
    // The job's table makes sure of these.
    let sure = |word| spec.size(word).unwrap_or(f64::NAN);
    let (span, rise) = (sure("span"), sure("rise"));
    Ok(match spec.shape {
        Shape::Segmental => Segmental {
            span: size("span"),
            rise: size("rise"),
            radius: size("radius"),
        }
        .arch(),
        Shape::Semicircular => Semicircular { span }.arch(),
        Shape::Stilted => Stilted {
            span,
            stilt: sure("stilt"),
            arc_rise: size("arc-rise"),
        }
        .arch(),
        Shape::Pointed => Pointed {
            span: size("span"),
            rise: size("rise"),
            radius: size("radius"),
        }
        .arch(),
        Shape::Equilateral => Equilateral { span }.arch(),
        Shape::Elliptical => Elliptical { span, rise }.arch(),
        Shape::Horseshoe => Horseshoe { span, rise }.arch(),
        Shape::Camber => Camber {
            span,
            camber: size("camber"),
            depth: sure("depth"),
            skewback: skewback(spec),
        }
        .arch(),
        Shape::ThreeCentred | Shape::FourCentred | Shape::FiveCentred => {
            many_centred::arch(spec, span, rise)?
        }
        Shape::Ogee => Ogee {
            span,
            rise,
            lower_radius: sure("lower-radius"),
        }
        .arch(),
        Shape::Parabolic => Parabolic { span, rise }.arch(),
        Shape::Catenary => Catenary { span, rise }.arch(),
        Shape::Rampant => Rampant {
            span,
            springing_difference: sure("springing-difference"),
            rise: size("rise"),
        }
        .arch(),
        Shape::Round => Round {
            diameter: sure("diameter"),
        }
        .arch(),
        Shape::Oval => Oval {
            width: sure("width"),
            height: sure("height"),
        }
        .arch(),
        Shape::Trefoil => Trefoil {
            span,
            rise,
            lobe_radius: sure("lobe-radius"),
            lobe_height: sure("lobe-height"),
        }
        .arch(),
    })
}

fn skewback(spec: &ArchSpec) -> Skewback {
    match spec.size("skewback") {
        Some(angle) => Skewback::Angle(angle),
        None if spec.options.contains_key("skewback") => Skewback::Rule,
        None => Skewback::Sixty,
    }
}

fn fault(spec: &ArchSpec, error: &ArchError) -> Fault {
    let place = error
        .size()
        .map_or_else(|| spec.places.whole.clone(), |size| spec.places.at(size));
    let help = match error {
        ArchError::NotFixed { .. } => None,
        ArchError::OutOfRange {
            size, bound, instead, ..
        } => {
            let other = instead.map_or_else(String::new, |shape| format!("; or take another shape: {shape}"));
            Some(format!(
                "with the other sizes as they are, {size} is {bound}{other}"
            ))
        }
    };
    place.fault(error.to_string(), help)
}
