//! Small parts held in the sheet: stretches of their outline that a beam leaves whole.

use crate::cutting::Span;
use crate::road::Road;
use crate::tabs::{clearance, keeps_off, place};
use crate::{Beamed, Error};
use cintre_geometry::{Outline, Path, Piece, Point, Vec2};
use cintre_work::{BeamTabs, Placed, Tab, TabRule};

/// Fewer than this let a part swing out of the sheet.
const LEAST: usize = 2;

/// How far beside an edge its outlook begins, mm.
const BESIDE: f64 = 0.01;

/// How far from square to an edge its outlook is open to both sides, degrees: on the floor of a slot, or beside a tenon, it is not.
const OPEN: f64 = 70.0;

/// Narrower tabs than this no beam leaves standing, mm.
const NARROWEST: f64 = 0.1;

/// The outline's line of a part, broken at its tabs, and those tabs.
pub(crate) struct Held {
    pub(crate) lines: Vec<Path>,
    pub(crate) tabs: Vec<Tab>,
}

/// How a part is held; none where it is large enough to lie loose, or the laser has no tabs.
///
/// `line` is the road of the beam's middle round its outline; `others` are the outlines of what lies about it, whose own cuts no tab may
/// hang on.
pub(crate) fn held(
    placed: &Placed,
    line: &Outline,
    (beam, thickness): (&Beamed<'_>, f64),
    others: &[&Outline],
) -> Result<Option<Held>, Error> {
    let bounds = placed.part.outline.bounds();
    let Some(rule) = beam
        .tabs
        .filter(|rule| bounds.width().max(bounds.height()) < rule.under)
    else {
        return Ok(None);
    };
    let road = Road::starting_well(line, 0.0);
    let tried = |width: f64| spans(&road, placed, others, (BeamTabs { width, ..rule }, beam.kerf));
    let spans = tried(rule.width);
    if spans.len() < LEAST {
        let narrower = std::iter::successors(Some(rule.width * 0.9), |width| Some(width * 0.9));
        let widest = narrower
            .take_while(|&width| width >= NARROWEST)
            .find(|&width| tried(width).len() >= LEAST);
        return Err(Error::CannotHold {
            part: placed.name.clone(),
            width: rule.width,
            widest,
        });
    }
    let tabs = spans.iter().map(|span| Tab {
        part: placed.name.clone(),
        at: placed.part.outline.nearest(road.point_at(span.middle)).point,
        width: rule.width,
        height: thickness,
        flank: 0.0,
    });
    Ok(Some(Held {
        tabs: tabs.collect(),
        lines: between(&road, &spans),
    }))
}

/// Where the beam is out. Not in a slot or a hollow, where what is left of a tab would be in the way of what goes in.
fn spans(road: &Road, placed: &Placed, others: &[&Outline], (tabs, kerf): (BeamTabs, f64)) -> Vec<Span> {
    let rule = TabRule {
        width: tabs.width,
        height: placed.part.thickness,
        every: tabs.every,
        ramped: false,
    };
    let apart = clearance(&rule, kerf);
    let outline = &placed.part.outline;
    let clear = |p: Point| {
        others.iter().all(|other| other.nearest(p).distance >= apart)
            && looks_out(outline, p)
            && keeps_off(&placed.part.clean, p, (&rule, kerf))
    };
    let found = place(road, (&rule, kerf), 0.0, &clear);
    if found.near_corners {
        Vec::new()
    } else {
        found.spans
    }
}

/// Whether nothing of the part itself lies opposite the edge at its point nearest to `p`.
fn looks_out(outline: &Outline, p: Point) -> bool {
    let near = outline.nearest(p);
    let Some(edge) = outline.pieces().nth(near.piece) else {
        return false;
    };
    let along = edge.tangent_at(near.fraction);
    let away = Vec2::new(along.y, -along.x);
    let bounds = outline.bounds();
    let far = bounds.width().hypot(bounds.height());
    let from = near.point + away * BESIDE;
    let open = |turn: f64| {
        let outlook = Piece::line(
            from,
            from + Vec2::from_angle(away.atan2() + turn.to_radians()) * far,
        );
        let mut pieces = outline.pieces();
        pieces.all(|piece| piece.meetings(&outlook, 1e-9).is_empty())
    };
    [0.0, OPEN, -OPEN].into_iter().all(open)
}

/// The stretches of road from each tab to the next.
fn between(road: &Road, spans: &[Span]) -> Vec<Path> {
    let next = |i: usize| {
        spans
            .get(i + 1)
            .map_or_else(|| spans[0].from + road.length(), |span| span.from)
    };
    (0..spans.len())
        .map(|i| Path::from_pieces(&road.between(spans[i].to, next(i))))
        .collect()
}
