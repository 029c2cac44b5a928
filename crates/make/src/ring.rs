//! What stands round an arch: its reveal, its ring, its voussoirs; and the heights that it is set out by.

use cintre_geometry::arch::Arch;
use cintre_geometry::setting_out::{MOST_ORDINATES, ordinates};
use cintre_geometry::voussoirs::{Division, VoussoirError, Voussoirs, camber_voussoirs, voussoirs};
use cintre_geometry::{LineError, Path, Point, parallel_line};
use cintre_job::{ArchSpec, Fault, VoussoirSpec, Voussoirs as Asked};
use cintre_measure::{Unit, write_length};

/// The line along which the ring stands back from the soffit.
pub(crate) fn reveal(spec: &ArchSpec, soffit: &Path) -> Result<Option<(f64, Path)>, Fault> {
    outwards(
        spec,
        soffit,
        spec.reveal,
        "reveal",
        "the line of so wide a reveal folds over itself",
    )
}

/// The back of the ring over its lower edge.
pub(crate) fn ring(spec: &ArchSpec, edge: &Path) -> Result<Option<(f64, Path)>, Fault> {
    outwards(
        spec,
        edge,
        spec.ring,
        "ring",
        "the back of a ring so deep folds over itself",
    )
}

fn outwards(
    spec: &ArchSpec,
    from: &Path,
    distance: Option<f64>,
    field: &str,
    folds: &str,
) -> Result<Option<(f64, Path)>, Fault> {
    let line = |distance: f64| {
        let span = from.bounds().width();
        if distance > span {
            let help = format!("over {span:.1} mm, the width of its arch, it is taken for a mistake");
            return Err(spec
                .places
                .at(field)
                .fault("it is deeper than its arch is wide", Some(help)));
        }
        parallel_line(from, -distance).map_err(|LineError::TooFar { limit, .. }| {
            let help = format!("{limit:.3} mm is the most that this soffit allows");
            spec.places.at(field).fault(folds, Some(help))
        })
    };
    distance
        .map(|distance| Ok((distance, line(distance)?)))
        .transpose()
}

/// The ring divided as the job asks.
pub(crate) fn divided(
    spec: &ArchSpec,
    arch: &Arch,
    edge: &Path,
    ring: Option<&(f64, Path)>,
) -> Result<Option<Voussoirs>, Fault> {
    if let (Some(asked), Some(_)) = (&spec.voussoirs, arch.level_back) {
        return fan(asked, arch).map(Some);
    }
    let (Some(asked), Some((_, back))) = (&spec.voussoirs, ring) else {
        return Ok(None);
    };
    let division = match asked.division {
        Asked::Cut { count, joint } => Division::Cut { count, joint },
        Asked::Uncut { size, least, most } => Division::Uncut {
            width: size,
            least,
            most,
        },
    };
    voussoirs(edge, back, division)
        .map(Some)
        .map_err(|error| fault(asked, &error))
}

/// The voussoirs of a camber arch, up to its level back.
fn fan(asked: &VoussoirSpec, arch: &Arch) -> Result<Voussoirs, Fault> {
    let Asked::Cut { count, joint } = asked.division else {
        let what = "the units of a camber arch are cut: whole ones have no level back";
        let help = "give `count` and `joint`".to_owned();
        return Err(asked.places.at("size").fault(what, Some(help)));
    };
    camber_voussoirs(arch, count, joint)
        .unwrap_or(Err(VoussoirError::NotOpen))
        .map_err(|error| fault(asked, &error))
}

fn fault(asked: &VoussoirSpec, error: &VoussoirError) -> Fault {
    use VoussoirError as E;
    let mm = |length| write_length(length, Unit::Millimetre);
    let (field, help) = match error {
        E::Even { count } => {
            let others = match count - 1 {
                0 => "1 or 3".to_owned(),
                less => format!("{less} or {}", count + 1),
            };
            ("count", Some(format!("take {others}")))
        }
        E::OddAtPoint { count } => (
            "count",
            Some(format!("take {} or {}", (count - 1).max(2), count + 1)),
        ),
        E::TooMany { most: 0, .. } => ("joint", Some("take a thinner joint".to_owned())),
        E::TooMany { most, .. } => ("count", Some(format!("with this joint {most} is the most"))),
        E::NoneFits {
            nearest,
            least_radius,
            ..
        } => {
            let near = nearest.iter().map(|t| {
                let (low, high) = (mm(t.joint), mm(t.joint_at_back));
                format!("{} leave {low} at the soffit and {high} at the back", t.count)
            });
            let near = near.collect::<Vec<_>>().join(", ");
            let radius = least_radius.map_or_else(String::new, |r| {
                format!("; for uncut units the soffit's radius is {} or more", mm(r))
            });
            (
                "joints",
                Some(format!(
                    "{near}{radius}; other bounds, or cut units by `count` and `joint`"
                )),
            )
        }
        E::TooFew { .. } => ("count", Some("take 3 or more".to_owned())),
        E::None => ("count", None),
        E::Joint { .. } => ("joint", None),
        E::Size { .. } => ("size", None),
        E::Corner { .. } | E::NotOpen | E::Back { .. } => {
            return asked.places.whole.fault(error.to_string(), None);
        }
    };
    asked.places.at(field).fault(error.to_string(), help)
}

/// The heights of the soffit at the steps that the job asks for, else at every tenth of the span.
pub(crate) fn heights(spec: &ArchSpec, arch: &Arch) -> Result<Vec<Point>, Fault> {
    let Some(step) = spec.ordinates else {
        return Ok(arch.figures().ordinates);
    };
    ordinates(arch, step).ok_or_else(|| {
        let least = arch.span / 2.0 / f64::from(MOST_ORDINATES);
        let help = format!("with this span, a step of {least:.3} mm or more");
        let what = format!("over {MOST_ORDINATES} heights to a side are more than anyone sets out");
        spec.places.at("ordinates").fault(what, Some(help))
    })
}
