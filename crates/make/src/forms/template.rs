//! Router templates, as the job asks for them.

use super::{Asked, fault, least_screw, ring, widest_cutter};
use cintre_forms::template::{self, Cut, Edge, Guide, GuideKind, Pair, Room, Run};
use cintre_forms::{Error, Form};
use cintre_job::{BitKind, BitSpec, Fault, Run as JobRun, Template, TemplateEdge, TemplateGuide};

/// Half the base of a router whose shop says nothing of it, mm: that of the larger ones.
const USUAL_BASE: f64 = 90.0;

pub(super) fn form(asked: Asked<'_>, asks: &Template) -> Result<Form, Fault> {
    let Asked {
        spec,
        job,
        shop,
        arch,
        stock,
    } = asked;
    let bit = bit(asked, asks)?;
    let refusal = |error: template::TemplateError| fault(spec, job, &Error::Template(error));
    let pair = asks
        .pair
        .then(|| pair(asked, asks, bit))
        .transpose()
        .map_err(refusal)?;
    let guide = guide(asked, asks, bit, pair).map_err(refusal)?;
    let base = shop
        .router_base
        .as_ref()
        .map_or(USUAL_BASE, |base| base.diameter / 2.0);
    let designed = template::template(&template::Input {
        arch: arch.name.clone(),
        edge: edge(asked, asks)?,
        run: match asks.run {
            JobRun::Outside => Run::Outside,
            JobRun::Inside => Run::Inside,
        },
        guide,
        pair,
        other_bits: alike(asked, bit),
        least_radius: arch.arch.soffit.least_radius() + beyond(asked, asks),
        fit_error: arch.fit.worst_error,
        room: Room {
            base: asks.margin.unwrap_or(base),
            clamps: asks.clamps,
        },
        chisel: asks.chisel,
        stops: asks.stops,
        hanging_hole: asks.hanging_hole,
        cut: Cut {
            corner: widest_cutter(spec, shop) / 2.0,
            screw: least_screw(spec, shop),
        },
        stock: spec.stock.clone(),
        thickness: stock.thickness,
    });
    designed.map_err(|error| fault(spec, job, &error))
}

/// The bit that cuts the work, of the kind that its guide asks for.
fn bit<'a>(asked: Asked<'a>, asks: &Template) -> Result<&'a BitSpec, Fault> {
    let place = asked.spec.places.at("bit");
    let wanted = |bit: &BitSpec| match asks.guide {
        TemplateGuide::Bearing => matches!(bit.kind, BitKind::Bearing(_)),
        TemplateGuide::Bush(_) => bit.kind == BitKind::Straight,
    };
    let kind = match asks.guide {
        TemplateGuide::Bearing => "a bearing bit",
        TemplateGuide::Bush(_) => "a straight bit",
    };
    let all = &asked.shop.bits;
    let found = all.get(&asks.bit);
    found.filter(|bit| wanted(bit)).ok_or_else(|| {
        let fits: Vec<&str> = all
            .iter()
            .filter(|(_, bit)| wanted(bit))
            .map(|(name, _)| name.as_str())
            .collect();
        let help = if fits.is_empty() {
            "the shop has none".to_owned()
        } else {
            format!("the shop has: {}", fits.join(", "))
        };
        place.fault(format!("{} is not {kind}", asks.bit), Some(help))
    })
}

fn guide(
    asked: Asked<'_>,
    asks: &Template,
    bit: &BitSpec,
    pair: Option<Pair>,
) -> Result<Guide, template::TemplateError> {
    let (kind, diameter) = match (asks.guide, bit.kind, pair) {
        (_, _, Some(pair)) => (GuideKind::Bush, pair.recess),
        (TemplateGuide::Bearing, BitKind::Bearing(diameter), _) => (GuideKind::Bearing, diameter),
        (TemplateGuide::Bush(own), _, _) => (
            GuideKind::Bush,
            template::bush(own, bit.diameter, &asked.shop.bushes)?,
        ),
        (TemplateGuide::Bearing, _, _) => (GuideKind::Bearing, bit.diameter),
    };
    Ok(Guide {
        kind,
        diameter,
        bit: bit.diameter,
    })
}

/// The two bushes of a recess and its insert.
fn pair(asked: Asked<'_>, asks: &Template, bit: &BitSpec) -> Result<Pair, template::TemplateError> {
    let own = match asks.guide {
        TemplateGuide::Bush(own) => own,
        TemplateGuide::Bearing => None,
    };
    template::pair(own, bit.diameter, &asked.shop.bushes, &alike(asked, bit))
}

/// The diameters of the shop's bits of the same kind.
fn alike(asked: Asked<'_>, bit: &BitSpec) -> Vec<f64> {
    let kind = std::mem::discriminant(&bit.kind);
    let all = asked.shop.bits.values();
    all.filter(|other| std::mem::discriminant(&other.kind) == kind)
        .map(|other| other.diameter)
        .collect()
}

fn edge(asked: Asked<'_>, asks: &Template) -> Result<Edge, Fault> {
    let arch = asked.arch;
    let soffit = || arch.fit.path.clone();
    Ok(match asks.edge {
        TemplateEdge::Soffit => Edge::Soffit(soffit()),
        TemplateEdge::Back => Edge::Back(ring(asked, "edge")?.1),
        TemplateEdge::Ring => {
            let (depth, outer) = ring(asked, "edge")?;
            Edge::Ring {
                inner: arch.edge().clone(),
                outer,
                depth,
            }
        }
        TemplateEdge::Leaf(gap) => Edge::Leaf {
            soffit: soffit(),
            gap,
        },
        TemplateEdge::Panel(past) => Edge::Panel {
            soffit: soffit(),
            past,
        },
    })
}

/// How far outside the soffit the line lies that the least radius is wanted of, but for what the form takes itself, mm.
fn beyond(asked: Asked<'_>, asks: &Template) -> f64 {
    let reveal = asked.arch.reveal.as_ref().map_or(0.0, |(reveal, _)| *reveal);
    let depth = asked.arch.ring.as_ref().map_or(0.0, |(depth, _)| *depth);
    match asks.edge {
        TemplateEdge::Soffit | TemplateEdge::Leaf(_) | TemplateEdge::Panel(_) => 0.0,
        TemplateEdge::Ring => reveal,
        TemplateEdge::Back => reveal + depth,
    }
}
