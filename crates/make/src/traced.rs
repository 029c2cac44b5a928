//! Arches that somebody else drew.

use crate::trouble::Trouble;
use cintre_geometry::arch::Arch;
use cintre_geometry::{Fit, Soffit};
use cintre_job::{ArchSpec, Fault, Job, Shape};
use cintre_read::LengthUnit;
use cintre_read::traced::{self, Traced, TracedError, Wanted};
use std::collections::BTreeMap;

/// The drawings that a job names, by the names of their arches.
pub(crate) fn drawings<'j>(
    job: &'j Job,
    read: &dyn Fn(&str) -> Result<Vec<u8>, String>,
) -> Result<BTreeMap<&'j str, Vec<u8>>, Trouble> {
    let traced = job.arches.iter().filter(|(_, spec)| spec.shape == Shape::Traced);
    traced
        .map(|(name, spec)| {
            let file = file(spec);
            let bytes = read(file).map_err(|why| Trouble::Unread {
                place: spec.places.at("file"),
                file: file.to_owned(),
                why,
            })?;
            Ok((name.as_str(), bytes))
        })
        .collect()
}

// The job's table makes sure of it.
fn file(spec: &ArchSpec) -> &str {
    spec.option("file").unwrap_or_default()
}

/// The arch on a drawing, its soffit as tangent arcs, and what ought to be known of it.
pub(crate) fn arch(
    spec: &ArchSpec,
    drawing: &[u8],
    tolerance: f64,
) -> Result<(Arch, Fit, Vec<String>), Fault> {
    let wanted = Wanted {
        layer: spec.option("layer"),
        gap: spec.size("gap").unwrap_or(0.0),
        unit: spec.option("unit").and_then(LengthUnit::named),
        tolerance,
        size_meant: spec.size_meant,
    };
    let traced = traced::read(drawing, file(spec), &wanted).map_err(|error| {
        spec.places
            .at(error.field())
            .fault(error.to_string(), help(&error))
    })?;
    let notes = notes(&traced, file(spec));
    let fit = Fit {
        path: traced.soffit.clone(),
        worst_error: traced.fit_error,
    };
    let arch = Arch {
        shape: Shape::Traced.name(),
        span: traced.span,
        rise: traced.rise,
        soffit: Soffit::Path(traced.soffit),
    };
    Ok((arch, fit, notes))
}

fn notes(traced: &Traced, file: &str) -> Vec<String> {
    let (joints, widest) = traced.joined;
    let mut notes = vec![format!(
        "traced from {file}, layer {}: span {:.3} mm, rise {:.3} mm; measure one of them before you cut",
        traced.layer, traced.span, traced.rise
    )];
    if joints > 0 {
        notes.push(format!(
            "{joints} of its joints were closed, the widest gap {widest:.4} mm"
        ));
    }
    if traced.out_of_level > 0.0005 {
        notes.push(format!(
            "its springings were {:.4} mm out of level",
            traced.out_of_level
        ));
    }
    if !traced.passed_over.is_empty() {
        notes.push(format!(
            "passed over in the drawing: {}",
            traced.passed_over.join(", ")
        ));
    }
    notes
}

fn help(error: &TracedError) -> Option<String> {
    let text = match error {
        TracedError::NoUnit { .. } => "say which it is: `unit: mm` or `unit: in`",
        TracedError::Doubtful { .. } => {
            "say which unit is right, `unit: mm` or `unit: in`; if the size is meant, add `size-meant: true` to the arch"
        }
        TracedError::Unit(_) => "say `unit: mm` or `unit: in`, or have the drawing made in one of these",
        TracedError::WhichLayer { .. } => "say which is meant: `layer: …`",
        TracedError::Gaps { .. } => "mend the drawing, or give a wider `gap` if these ends are meant to meet",
        TracedError::OutOfLevel { .. } => {
            "turn the drawing level, or give a wider `gap` if this is meant to be level"
        }
        TracedError::NoSpringing => {
            "have it closed by one level line from springing to springing, or left open there"
        }
        _ => return None,
    };
    Some(text.to_owned())
}
