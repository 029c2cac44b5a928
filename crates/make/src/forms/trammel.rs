//! Router trammels, as the job asks for them.

use super::{Asked, fault, least_screw};
use crate::arches::NamedArch;
use cintre_forms::Form;
use cintre_forms::trammel::{self, Base, Struck};
use cintre_geometry::{Path, Point};
use cintre_job::{BitKind, Fault, Mount, Trammel};

pub(super) fn form(asked: Asked<'_>, asks: &Trammel, arches: &[NamedArch]) -> Result<Form, Fault> {
    let Asked {
        spec,
        job,
        shop,
        arch,
        stock,
    } = asked;
    let also = arches
        .iter()
        .filter(|other| asks.also.contains(&other.name) && other.name != arch.name);
    let others = also.flat_map(|other| {
        struck(other)
            .into_iter()
            .map(|arc| Struck { centre: None, ..arc })
    });
    let given = asks.radii.iter().map(|&radius| Struck {
        of: "as given".to_owned(),
        centre: None,
        radius,
    });
    let designed = trammel::trammel(&trammel::Input {
        arch: arch.name.clone(),
        arcs: struck(arch).into_iter().chain(others).chain(given).collect(),
        lines: if asks.centres {
            vec![arch.fit.path.clone()]
        } else {
            Vec::new()
        },
        bit: bit(asked, asks)?,
        base: base(asked, asks)?,
        pin: asks.pin,
        longest_arm: asks.longest_arm,
        work: asks.work,
        screw: least_screw(spec, shop),
        stock: spec.stock.clone(),
        thickness: stock.thickness,
    });
    designed.map_err(|error| fault(spec, job, &error))
}

/// Everything of an arch that is struck: its soffit, the edge of its reveal, the back of its ring.
fn struck(arch: &NamedArch) -> Vec<Struck> {
    let centres = arch.arch.figures().centres;
    // Arcs that only stand in for a curve have no centres, and the lines beside them have none either.
    if centres.is_empty() {
        return Vec::new();
    }
    let soffit = centres.iter().map(|centre| (centre.at, centre.radius));
    let of = |name: &str, (at, radius): (Point, f64)| Struck {
        of: format!("{} {name}", arch.name),
        centre: Some(at),
        radius,
    };
    let mut all: Vec<Struck> = soffit.map(|arc| of("soffit", arc)).collect();
    let lines = [
        ("reveal", arch.reveal.as_ref().map(|(_, line)| line)),
        ("back", arch.ring.as_ref().map(|(_, line)| line)),
    ];
    for (name, line) in lines {
        all.extend(line.into_iter().flat_map(circles).map(|arc| of(name, arc)));
    }
    all
}

fn circles(line: &Path) -> impl Iterator<Item = (Point, f64)> + '_ {
    let arcs = line.pieces().filter_map(|piece| piece.circle());
    arcs.map(|circle| (circle.centre, circle.radius))
}

/// The diameter of the bit, which cuts with its sides.
fn bit(asked: Asked<'_>, asks: &Trammel) -> Result<f64, Fault> {
    let found = asked.shop.bits.get(&asks.bit);
    let straight = found.filter(|bit| matches!(bit.kind, BitKind::Straight | BitKind::Bearing(_)));
    straight.map(|bit| bit.diameter).ok_or_else(|| {
        let place = asked.spec.places.at("bit");
        place.fault(format!("{} is not a straight bit", asks.bit), None)
    })
}

/// The base of the shop's router, and how the arm holds it.
fn base(asked: Asked<'_>, asks: &Trammel) -> Result<Base, Fault> {
    let place = asked.spec.places.at("mount");
    let Some(base) = &asked.shop.router_base else {
        let help = "give the shop file its `router-base`: { diameter: …, holes: [[x, y], …], hole: … }";
        return Err(place.fault(
            "the shop says nothing of its router's base",
            Some(help.to_owned()),
        ));
    };
    let holes = match (asks.mount, base.hole, base.holes.is_empty()) {
        (Mount::Opening, _, _) => None,
        (Mount::Holes, Some(hole), false) => {
            let holes = base.holes.iter().map(|&[x, y]| Point::new(x, y));
            Some((holes.collect(), hole))
        }
        (Mount::Holes, _, _) => {
            let help = "give `router-base` its `holes` and their diameter `hole`, or take `mount: opening`, which holds the whole base";
            return Err(place.fault(
                "the router's base has no holes to be screwed by",
                Some(help.to_owned()),
            ));
        }
    };
    Ok(Base {
        diameter: base.diameter,
        holes,
    })
}
