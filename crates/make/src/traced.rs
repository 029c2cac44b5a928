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
pub(crate) fn arch(spec: &ArchSpec, drawing: &[u8], tolerance: f64) -> Result<(Arch, Fit), Fault> {
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
    let mut arch = Arch::new(
        Shape::Traced.name(),
        traced.span,
        traced.rise,
        Soffit::Path(traced.soffit),
    );
    arch.notes = notes;
    arch.drawn_as_curve = traced.fit_error > 0.0;
    Ok((arch, fit))
}

/// Less than this cannot be told from the rounding of a drawing, mm.
const TOLD: f64 = 0.0005;

fn notes(traced: &Traced, file: &str) -> Vec<String> {
    let (joints, widest) = traced.joined;
    let mut notes = vec![format!(
        "traced from {file}, layer {}: span {:.3} mm, rise {:.3} mm; measure one of them before you cut",
        traced.layer, traced.span, traced.rise
    )];
    if joints > 0 && widest > TOLD {
        notes.push(format!(
            "{joints} of its joints were closed, the widest gap {widest:.4} mm"
        ));
    }
    if traced.out_of_level > TOLD {
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

#[cfg(test)]
mod tests {
    use crate::{Conduct, Plan, Trouble, plan};
    use cintre_job::{read_job, read_shop};

    const JOB: &str = include_str!("../../../examples/almshouse/refectory-door.yaml");
    const SHOP: &str = include_str!("../../../examples/almshouse/garden-shop.yaml");
    const DOOR: &[u8] = include_bytes!("../../../examples/almshouse/refectory-door.dxf");

    fn planned(job: &str, read: &dyn Fn(&str) -> Result<Vec<u8>, String>) -> Result<Plan, Trouble> {
        let job = read_job("refectory-door.yaml", job).unwrap();
        let shop = read_shop("garden-shop.yaml", SHOP).unwrap();
        let conduct = Conduct {
            say: &|_| {},
            stop: &|| false,
            read,
        };
        plan(&job, &shop, conduct)
    }

    fn door(name: &str) -> Result<Vec<u8>, String> {
        assert_eq!(name, "refectory-door.dxf");
        Ok(DOOR.to_vec())
    }

    #[test]
    fn a_traced_door_is_planned() {
        let plan = planned(JOB, &door).unwrap();
        let arch = &plan.arches[0].arch;
        assert!(
            (arch.span - 1100.0).abs() < 1e-6 && (arch.rise - 384.049).abs() < 1e-3,
            "{arch:?}"
        );
        assert_eq!((plan.forms.len(), plan.sheets.len()), (2, 2));
        assert!(
            plan.notes()[0].contains("layer SOFFIT: span 1100.000 mm"),
            "{:?}",
            plan.notes()
        );
    }

    #[test]
    fn a_drawn_curve_is_told_as_a_curve() {
        let svg = "<svg xmlns='http://www.w3.org/2000/svg' width='1200mm' height='800mm' viewBox='0 0 1200 800'><g id='SOFFIT'>\
                   <path d='M 100 700 C 100 500 350 400 600 400 S 1100 500 1100 700'/></g></svg>";
        let job = JOB.replace("refectory-door.dxf", "door.svg");
        let plan = planned(&job, &|_| Ok(svg.into())).unwrap();
        let json = &plan.figures_json()["arches"]["door"];
        assert_eq!(json["pieces"][0]["kind"], "curve", "{json}");
        assert!(json["tangent_arcs"]["worst_error"].as_f64().unwrap() <= 0.02);
        assert!((json["span"].as_f64().unwrap() - 1000.0).abs() < 1e-6);
        let table = plan.figures_table(crate::Shown::new(&plan, plan.units));
        assert!(
            table.contains("a curve, struck from no centres") && !table.contains("its centre, across"),
            "{table}"
        );
    }

    #[test]
    fn faults_stand_at_the_field_that_they_speak_of() {
        let field = |with: &str| match planned(&JOB.replace("layer: SOFFIT,", with), &door) {
            Err(Trouble::Faults(faults)) => faults[0].field.clone(),
            other => panic!("{other:?}"),
        };
        assert_eq!(field(""), "arches.door.layer");
        assert_eq!(field("layer: STONE,"), "arches.door.layer");
        assert_eq!(field("layer: SOFFIT, unit: in,"), "arches.door.unit");
        let missing = planned(JOB, &|_| Err("no such file".to_owned()));
        let Err(Trouble::Unread { place, .. }) = missing else {
            panic!("{missing:?}")
        };
        assert_eq!((place.line, place.field.as_str()), (7, "arches.door.file"));
    }
}
