//! Centerings, as the job asks for them.

use super::{Asked, fault, widest_cutter};
use cintre_forms::{Form, centering};
use cintre_job::{Centering, Fault};

pub(super) fn form(asked: Asked<'_>, centering: &Centering) -> Result<Form, Fault> {
    let Asked {
        spec,
        job,
        shop,
        arch,
        stock,
    } = asked;
    let designed = centering::centering(&centering::Input {
        arch: arch.name.clone(),
        soffit: arch.fit.path.clone(),
        fit_error: arch.fit.worst_error,
        wall: centering.wall,
        lagging: centering.lagging,
        skin: centering.skin,
        tie: centering.tie,
        rib_depth: centering.rib_depth,
        bolt: Some(centering.bolt),
        ribs: centering.ribs.map(|n| n as usize),
        stock: spec.stock.clone(),
        thickness: stock.thickness,
        least_corner: widest_cutter(spec, shop) / 2.0,
    });
    designed.map_err(|error| fault(spec, job, &error))
}
