//! The job's arches, worked out.

use crate::ring::{divided, heights, reveal, ring};
use crate::trouble::{Trouble, gathered};
use cintre_geometry::arch::{
    Arch, ArchError, Elliptical, Equilateral, Pointed, Segmental, Semicircular, Stilted,
};
use cintre_geometry::voussoirs::Voussoirs;
use cintre_geometry::{Fit, Path, Point};
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
    /// How far its ring stands back from the soffit, mm, and the line along which it does.
    pub reveal: Option<(f64, Path)>,
    /// Its ring divided.
    pub voussoirs: Option<Voussoirs>,
    /// The heights that it is set out by.
    pub ordinates: Vec<Point>,
}

impl NamedArch {
    /// The lower edge of its ring: the soffit, or the line of the reveal.
    pub fn edge(&self) -> &Path {
        self.reveal.as_ref().map_or(&self.fit.path, |(_, line)| line)
    }
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
    let arch = arch(spec).map_err(|error| fault(spec, &error))?;
    let fit = arch.soffit.fit(tolerance);
    let reveal = reveal(spec, &fit.path)?;
    let edge = reveal.as_ref().map_or(&fit.path, |(_, line)| line);
    let ring = ring(spec, edge)?;
    let voussoirs = divided(spec, edge, ring.as_ref())?;
    let ordinates = heights(spec, &arch)?;
    Ok(NamedArch {
        name: name.to_owned(),
        arch,
        fit,
        ring,
        reveal,
        voussoirs,
        ordinates,
    })
}

fn arch(spec: &ArchSpec) -> Result<Arch, ArchError> {
    let size = |word| spec.size(word);
    // The job's table makes sure of these.
    let sure = |word| spec.size(word).unwrap_or(f64::NAN);
    let (span, rise) = (sure("span"), sure("rise"));
    match spec.shape {
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
