//! The job's arches, worked out.

use crate::traced::{self, drawings};
use crate::trouble::{Trouble, gathered};
use cintre_geometry::arch::{
    Arch, ArchError, Elliptical, Equilateral, Pointed, Segmental, Semicircular, Stilted,
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
    /// What the joiner ought to know of it, in plain sentences.
    pub notes: Vec<String>,
}

/// Works out every arch of a job, or says everything that is wrong with them; `read` reads the drawings that it names.
pub(crate) fn arches(
    job: &Job,
    read: &dyn Fn(&str) -> Result<Vec<u8>, String>,
) -> Result<Vec<NamedArch>, Trouble> {
    let drawings = drawings(job, read)?;
    let attempts = job.arches.iter().map(|(name, spec)| {
        let drawing = drawings.get(name.as_str()).map(Vec::as_slice);
        named(name, spec, drawing, job.tolerance)
    });
    gathered(attempts).map_err(Trouble::Faults)
}

fn named(name: &str, spec: &ArchSpec, drawing: Option<&[u8]>, tolerance: f64) -> Result<NamedArch, Fault> {
    let (arch, fit, notes) = if let Some(drawing) = drawing {
        traced::arch(spec, drawing, tolerance)?
    } else {
        let arch = arch(spec).map_err(|error| fault(spec, &error))?;
        let fit = arch.soffit.fit(tolerance);
        (arch, fit, Vec::new())
    };
    let ring = spec
        .ring
        .map(|depth| {
            if depth > arch.span {
                let help = format!("a ring is taken for a mistake over the span, {:.1} mm", arch.span);
                return Err(spec
                    .places
                    .at("ring")
                    .fault("a ring deeper than its arch spans", Some(help)));
            }
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
        notes,
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
        Shape::Traced => unreachable!("a traced arch comes with its drawing"),
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
