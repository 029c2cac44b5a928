//! Centerings, as the job asks for them.

use super::{Asked, fault, no_reveal, usable, widest_cutter};
use cintre_forms::{Form, centering};
use cintre_job::{Centering, CenteringBuild, Fault};

pub(super) fn form(asked: Asked<'_>, asks: &Centering) -> Result<Form, Fault> {
    let Asked {
        spec,
        job,
        shop,
        arch,
        stock,
    } = asked;
    no_reveal(asked)?;
    let designed = centering::centering(&centering::Input {
        arch: arch.name.clone(),
        soffit: arch.fit.path.clone(),
        fit_error: arch.fit.worst_error,
        ring: ring(asked),
        wall: asks.wall,
        clear: centering::Clear {
            jambs: asks.jamb_clearance,
            faces: asks.face_clearance,
        },
        lagging: centering::Lagging {
            thickness: asks.lagging,
            skin: asks.skin,
            width: asks.batten,
            gap: asks.gap,
        },
        build: asks.build.map(build),
        tie: asks.tie,
        rib_depth: asks.rib_depth,
        bolt: Some(asks.bolt),
        lap: asks.lap,
        ribs: asks.ribs.map(|n| n as usize),
        split: asks.split,
        lifting_holes: asks.lifting_holes,
        notch: asks.notch.map(|[width, depth]| (width, depth)),
        spacer: (asks.spacer[0], asks.spacer[1]),
        wedges: centering::Wedges {
            slope: asks.wedge_slope.tan(),
            drive: asks.wedge_drive,
            lip: asks.lip,
            clearance: asks.striking_clearance,
        },
        load: centering::Load {
            density: asks.density,
            stiffness: asks.lagging_stiffness,
            heaviest: asks.heaviest_ring,
        },
        stock: spec.stock.clone(),
        thickness: stock.thickness,
        sheet: Some(usable(stock)),
        least_corner: widest_cutter(spec, shop) / 2.0,
    });
    designed.map_err(|error| fault(spec, job, &error))
}

const fn build(asked: CenteringBuild) -> centering::Build {
    match asked {
        CenteringBuild::TurningPiece => centering::Build::TurningPiece,
        CenteringBuild::Single => centering::Build::Single,
        CenteringBuild::TwoLayers => centering::Build::TwoLayers,
        CenteringBuild::Gusseted => centering::Build::Gusseted,
    }
}

/// The ring of the arch; under a level back, what stands between its skewbacks.
fn ring(asked: Asked<'_>) -> Option<centering::Ring> {
    let arch = asked.arch;
    let joints = arch
        .voussoirs
        .iter()
        .flat_map(|v| v.joints.iter().cloned())
        .collect();
    if let Some((depth, back)) = &arch.ring {
        return Some(centering::Ring {
            depth: *depth,
            back: back.clone(),
            joints,
        });
    }
    let level = arch.arch.level_back.as_ref()?;
    Some(centering::Ring {
        depth: level.depth,
        back: level.line(arch.arch.span),
        joints,
    })
}
