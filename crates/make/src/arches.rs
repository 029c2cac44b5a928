//! The job's arches, worked out.

use crate::many_centred;
use crate::ring::{divided, heights, reveal, ring};
use crate::traced::{self, drawings};
use crate::trouble::{Trouble, gathered};
use cintre_geometry::arch::{
    Arch, ArchError, Camber, Catenary, Elliptical, Equilateral, Horseshoe, Ogee, Oval, Parabolic, Pointed,
    Rampant, Round, Segmental, Semicircular, Skewback, Stilted, Trefoil,
};
use cintre_geometry::measured::{As, FitError, Measured, Survey};
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
    /// How well it keeps to the points that were taken on site, where it was measured.
    pub survey: Option<Survey>,
    /// How far out those may have been read, mm.
    pub reading: f64,
}

impl NamedArch {
    /// The lower edge of its ring: the soffit, or the line of the reveal.
    pub fn edge(&self) -> &Path {
        self.reveal.as_ref().map_or(&self.fit.path, |(_, line)| line)
    }
}

/// How far out a height is read if nothing is said, mm: about what the hook of a tape gives away.
const USUAL_READING: f64 = 1.0;

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
    let survey = measured(spec).transpose().map_err(|error| unfit(spec, &error))?;
    let (arch, fit) = match (drawing, &survey) {
        (Some(drawing), _) => traced::arch(spec, drawing, tolerance)?,
        (None, Some(survey)) => fitted(survey.arch.clone(), tolerance),
        (None, None) => fitted(arch(spec)?.map_err(|error| fault(spec, &error))?, tolerance),
    };
    if arch.level_back.is_some() && spec.ring.is_some() {
        let help = "leave it out: `depth` is the height of its back".to_owned();
        let what = "a camber arch has a level back, and no ring";
        return Err(spec.places.at("ring").fault(what, Some(help)));
    }
    let reveal = reveal(spec, &fit.path)?;
    let edge = reveal.as_ref().map_or(&fit.path, |(_, line)| line);
    let ring = ring(spec, edge)?;
    let voussoirs = divided(spec, &arch, edge, ring.as_ref())?;
    let ordinates = heights(spec, &arch)?;
    Ok(NamedArch {
        name: name.to_owned(),
        arch,
        fit,
        ring,
        reveal,
        voussoirs,
        ordinates,
        survey,
        reading: spec.size("reading").unwrap_or(USUAL_READING),
    })
}

/// An arch with its soffit as tangent arcs.
fn fitted(arch: Arch, tolerance: f64) -> (Arch, Fit) {
    let fit = arch.soffit.fit(tolerance);
    (arch, fit)
}

/// The survey of a measured arch; none for a shape that is known by its sizes.
fn measured(spec: &ArchSpec) -> Option<Result<Survey, FitError>> {
    (spec.shape == Shape::Measured).then(|| {
        let laid = match spec.options.get("as").map(String::as_str) {
            Some("circle") => As::Circle,
            Some("ellipse") => As::Ellipse,
            _ => As::Curve,
        };
        let points = spec.points.iter().map(|&[x, y]| Point::new(x, y)).collect();
        Measured { points, laid }.survey()
    })
}

/// A refusal of the points, with what would mend it.
fn unfit(spec: &ArchSpec, error: &FitError) -> Fault {
    let help = match error {
        FitError::TooFew { least, .. } => format!("take {least} points or more, better nine to fifteen"),
        FitError::NotFinite { .. } | FitError::Repeated { .. } => {
            "measure that point again, or leave it out".to_owned()
        }
        FitError::OutOfOrder { .. } => {
            "write the points from the left springing over the crown to the right one".to_owned()
        }
        FitError::Straight => {
            "a straight head needs no arch; see that heights stand second in each pair".to_owned()
        }
        FitError::NoEllipse | FitError::Scattered { .. } => {
            "take more points, or lay another line through them: `as: curve`".to_owned()
        }
        FitError::NoSpringing { .. } => {
            "let the first and the last point be the springings, and as nearly level as they are".to_owned()
        }
    };
    spec.places.at("points").fault(error.to_string(), Some(help))
}

#[expect(clippy::too_many_lines, reason = "one arm a shape, and nothing else")]
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
        // Its arch comes with its survey.
        Shape::Measured => Err(ArchError::NotFixed {
            shape: "measured",
            fixed_by: "its points",
        }),
        // And this one's with its drawing.
        Shape::Traced => Err(ArchError::NotFixed {
            shape: "traced",
            fixed_by: "its drawing",
        }),
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
