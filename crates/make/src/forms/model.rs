//! Models, as the job asks for them.

use super::{Asked, fault, no_reveal};
use cintre_forms::{Form, model};
use cintre_geometry::voussoirs::{Division, Voussoir, VoussoirError, Voussoirs, camber_voussoirs, voussoirs};
use cintre_geometry::{Path, Point};
use cintre_job::{Fault, MachineSpec, Model, ModelComb, ModelRing};

pub(super) fn form(asked: Asked<'_>, asks: &Model) -> Result<Form, Fault> {
    let Asked {
        spec,
        job,
        arch,
        stock,
        ..
    } = asked;
    no_reveal(asked)?;
    let designed = model::model(&model::Input {
        arch: arch.name.clone(),
        soffit: arch.fit.path.clone(),
        fit_error: arch.fit.worst_error,
        // That a closed arch has no model is the form's own to say.
        ring: (asks.ring.filter(|_| !arch.arch.closed))
            .map(|made| ring(asked, asks, made))
            .transpose()?,
        wall: asks.wall,
        scale: asks.scale,
        joint: asks.joint,
        interference: asks.interference,
        bridge: asks.bridge,
        beam: beam(asked)?,
        comb: match asks.comb {
            ModelComb::With => model::Comb::With,
            ModelComb::Only => model::Comb::Only,
            ModelComb::None => model::Comb::None,
        },
        stock: spec.stock.clone(),
        thickness: stock.thickness,
    });
    designed.map_err(|error| fault(spec, job, &error))
}

/// What cuts it. A bit leaves its radius in the corners of a slot, which sheet does not go into.
fn beam(asked: Asked<'_>) -> Result<model::Beam, Fault> {
    let Asked {
        spec, shop, stock, ..
    } = asked;
    let plain = |kerf: f64| model::Beam {
        kerf,
        least_bridge: 0.0,
        tabs: None,
    };
    match shop.machines.get(&spec.machine) {
        Some(MachineSpec::Laser(laser)) => Ok(model::Beam {
            kerf: laser.kerf.get(&stock.material).copied().unwrap_or(0.0),
            least_bridge: laser.least_bridge,
            tabs: laser.tabs.map(|tabs| tabs.width),
        }),
        Some(MachineSpec::Drawing(drawing)) => Ok(plain(drawing.allowance)),
        Some(MachineSpec::Pen(_)) => Ok(plain(0.0)),
        Some(MachineSpec::Router(_)) | None => {
            let what = "a router's bit leaves its radius in every slot, and sheet does not go into it";
            let help = "a model is cut by a laser, or drawn for whoever cuts it";
            Err(spec.places.at("machine").fault(what, Some(help.to_owned())))
        }
    }
}

/// The arch's ring, divided anew for the model's own joints.
fn ring(asked: Asked<'_>, asks: &Model, made: ModelRing) -> Result<model::Ring, Fault> {
    let Asked { spec, arch, .. } = asked;
    let count = asks
        .voussoirs
        .or_else(|| arch.voussoirs.as_ref().map(|v| v.count));
    let count = count.ok_or_else(|| {
        let help = "give their number, or give the arch its `voussoirs`".to_owned();
        let what = "into how many voussoirs its ring is cut is not said";
        spec.places.at("voussoirs").fault(what, Some(help))
    })?;
    let back = back(asked)?;
    let divided = |joint: f64| {
        divide(asked, &back, count, joint)
            .map_err(|error| spec.places.at("voussoirs").fault(error.to_string(), None))
    };
    let (cut, dry) = (divided(asks.joint * asks.scale)?, divided(0.0)?);
    let skewback = |joint: Option<&Path>| joint.map(|line| (line.start(), line.end()));
    let faces = skewback(dry.joints.first()).zip(skewback(dry.joints.last()));
    let (left, right) = faces.unwrap_or_default();
    Ok(model::Ring {
        narrowest: narrowest(&cut.units, [left, right]),
        units: cut.units.into_iter().map(|unit| unit.outline).collect(),
        skewbacks: [left, right],
        back,
        made: match made {
            ModelRing::Stacked => model::Made::Stacked,
            ModelRing::Flat => model::Made::Flat,
        },
    })
}

/// The back of its ring, or the level one of a camber arch.
fn back(asked: Asked<'_>) -> Result<Path, Fault> {
    let Asked { spec, arch, .. } = asked;
    let level = arch.arch.level_back.map(|back| back.line(arch.arch.span));
    level
        .or_else(|| arch.ring.as_ref().map(|(_, back)| back.clone()))
        .ok_or_else(|| {
            let help = format!(
                "give the arch {} its `ring`, the depth of the ring, or take `ring: none` for its centre alone",
                arch.name
            );
            spec.places
                .at("ring")
                .fault("a ring is asked for, and its arch has none", Some(help))
        })
}

fn divide(asked: Asked<'_>, back: &Path, count: u32, joint: f64) -> Result<Voussoirs, VoussoirError> {
    let arch = asked.arch;
    camber_voussoirs(&arch.arch, count, joint)
        .unwrap_or_else(|| voussoirs(arch.edge(), back, Division::Cut { count, joint }))
}

fn narrowest(units: &[Voussoir], skewbacks: [(Point, Point); 2]) -> f64 {
    let widths = units.iter().flat_map(|unit| [unit.width, unit.width_at_back]);
    let depths = skewbacks.iter().map(|(inner, back)| inner.distance(*back));
    widths.chain(depths).fold(f64::INFINITY, f64::min)
}
