//! Patterns, as the job asks for them.

use super::{Asked, fault, ring};
use cintre_forms::{Form, pattern};
use cintre_job::{Fault, Pattern, PatternPiece};

pub(super) fn form(asked: Asked<'_>, asks: &Pattern) -> Result<Form, Fault> {
    let Asked {
        spec,
        job,
        arch,
        stock,
        ..
    } = asked;
    let designed = pattern::pattern(&pattern::Input {
        arch: arch.name.clone(),
        soffit: match asks.piece {
            PatternPiece::Inside => arch.fit.path.clone(),
            PatternPiece::Ring => arch.edge().clone(),
        },
        least_radius: arch.arch.soffit.least_radius(),
        fit_error: arch.fit.worst_error,
        piece: match asks.piece {
            PatternPiece::Inside => pattern::Piece::Inside { gap: asks.gap },
            PatternPiece::Ring => pattern::Piece::Ring {
                depth: ring(asked, "piece")?.0,
            },
        },
        chamfer: asks.chamfer,
        stock: spec.stock.clone(),
        thickness: stock.thickness,
    });
    designed.map_err(|error| fault(spec, job, &error))
}
