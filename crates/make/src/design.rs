//! `design.json`: what every sheet must come out as.

use crate::plan::PlannedSheet;
use cintre_work::design::{
    Design, DesignArris, DesignBeam, DesignBit, DesignBore, DesignHolder, DesignLift, DesignLight,
    DesignPaper, DesignPart, DesignRecess, DesignRelief, DesignRouter, DesignSheet, DesignTab, closed_chain,
    open_chain,
};
use cintre_work::{Bit, BitKind, Depth, Dialect, Lift, Machine, Mark, MarkKind, Part, PenFile, Placed};

/// The design of every sheet of a plan, and of its drawings on paper.
pub(crate) fn design(sheets: &[PlannedSheet], papers: Vec<DesignPaper>) -> Design {
    Design {
        sheets: sheets.iter().map(sheet).collect(),
        papers,
    }
}

/// The design of one sheet.
pub(crate) fn sheet(planned: &PlannedSheet) -> DesignSheet {
    let sheet = &planned.sheet;
    let tabs = planned.tabs().iter().map(|tab| DesignTab {
        part: tab.part.clone(),
        at: [tab.at.x, tab.at.y],
        width: tab.width,
        height: tab.height,
        flank: tab.flank,
    });
    let bits = planned.road.iter().flat_map(|_| planned.bits.iter().map(bit));
    DesignSheet {
        id: sheet.id.clone(),
        size: [sheet.stock.size.0, sheet.stock.size.1],
        thickness: sheet.stock.thickness,
        parts: sheet.parts.iter().map(|p| part(p, planned)).collect(),
        tabs: tabs.collect(),
        bits: bits.collect(),
        beam: beam(planned),
        router: match &planned.machine {
            Machine::Laser(_) | Machine::Pen(_) | Machine::Drawing(_) => None,
            Machine::Router(router) => Some(DesignRouter {
                machine: router.name.clone(),
                bed: [router.bed.0, router.bed.1],
                safe_height: router.safe_height,
                through: router.through,
                leave_web: router.leave_web,
                mark_depth: planned.road.as_ref().and_then(|road| road.scribed),
                own_lines: [&router.opening_lines[..], &router.closing_lines].concat(),
                keep_outs: router
                    .keep_outs
                    .iter()
                    .map(|r| [r.x0, r.y0, r.x1, r.y1])
                    .collect(),
            }),
        },
    }
}

/// What the proof must know of the laser or the pen.
fn beam(planned: &PlannedSheet) -> Option<DesignBeam> {
    let of = |machine: &str, bed: (f64, f64), dialect: &Dialect| DesignBeam {
        machine: machine.to_owned(),
        bed: bed.into(),
        kerf: 0.0,
        line: 0.0,
        light: None,
        lift: None,
        steps_per_mm: None,
        own_lines: [&dialect.opening_lines[..], &dialect.closing_lines].concat(),
    };
    match &planned.machine {
        Machine::Router(_) | Machine::Drawing(_) => None,
        Machine::Laser(laser) => {
            let (kerf, power) = cintre_toolpath::beam_of(laser, &planned.sheet.stock.material).ok()?;
            let word = |power: f64| power / 100.0 * laser.full_power;
            Some(DesignBeam {
                kerf,
                light: Some(DesignLight {
                    on: laser.beam_on.clone(),
                    off: laser.beam_off.clone(),
                    cut: word(power.cut.power),
                    mark: word(power.mark.power),
                }),
                ..of(&laser.name, laser.bed, &laser.dialect)
            })
        }
        Machine::Pen(pen) => Some(DesignBeam {
            line: pen.width,
            lift: (pen.writes == PenFile::Gcode).then(|| match &pen.lift {
                Lift::Height { up, down } => DesignLift::Height([*up, *down]),
                Lift::Words { up, down } => DesignLift::Words([up.clone(), down.clone()]),
            }),
            steps_per_mm: (pen.writes == PenFile::HpGl).then_some(pen.steps_per_mm),
            ..of(&pen.name, pen.bed, &pen.dialect)
        }),
    }
}

fn bit(bit: &Bit) -> DesignBit {
    DesignBit {
        name: bit.name.clone(),
        diameter: bit.diameter,
        cutting_length: bit.cutting_length,
        drill: bit.kind == BitKind::Drill,
        angle: if let BitKind::Vee(angle) = bit.kind {
            Some(angle.to_degrees())
        } else {
            None
        },
        holder: bit.holder.map(|holder| DesignHolder {
            diameter: holder.diameter,
            above: holder.above,
        }),
    }
}

fn part(placed: &Placed, planned: &PlannedSheet) -> DesignPart {
    let Part {
        outline,
        openings,
        bores,
        recesses,
        marks,
        fit_error,
        ..
    } = &placed.part;
    DesignPart {
        name: placed.name.clone(),
        outline: closed_chain(outline),
        openings: openings.iter().map(closed_chain).collect(),
        bores: bores
            .iter()
            .map(|b| DesignBore {
                centre: [b.centre.x, b.centre.y],
                diameter: b.diameter,
                depth: match b.depth {
                    Depth::Through => None,
                    Depth::Blind(depth) => Some(depth),
                },
            })
            .collect(),
        recesses: recesses
            .iter()
            .cloned()
            .chain(marks.iter().filter_map(Mark::groove).flatten())
            .map(|r| DesignRecess {
                outline: closed_chain(&r.outline),
                islands: r.islands.iter().map(closed_chain).collect(),
                depth: r.depth,
            })
            .collect(),
        marks: lines(marks).map(|m| open_chain(&m.path)).collect(),
        arrises: arrises(marks, &planned.bits),
        reliefs: reliefs(&placed.name, planned),
        fit_error: *fit_error,
    }
}

/// The marks that are lines, and no grooves.
fn lines(marks: &[Mark]) -> impl Iterator<Item = &Mark> {
    marks
        .iter()
        .filter(|m| !matches!(m.kind, MarkKind::Groove { .. }))
}

/// The arrises that a pointed bit takes off; none where no such bit cuts the sheet.
fn arrises(marks: &[Mark], bits: &[Bit]) -> Vec<DesignArris> {
    let angle = bits.iter().find_map(|bit| match bit.kind {
        BitKind::Vee(angle) => Some(angle),
        _ => None,
    });
    let arris = |(mark, of): (usize, &Mark)| match of.kind {
        MarkKind::Chamfer { width } => Some(DesignArris {
            mark,
            depth: width / (angle? / 2.0).tan(),
        }),
        _ => None,
    };
    lines(marks).enumerate().filter_map(arris).collect()
}

/// The corners of a part that its road relieves.
fn reliefs(part: &str, planned: &PlannedSheet) -> Vec<DesignRelief> {
    let all = planned.road.iter().flat_map(|road| &road.reliefs);
    all.filter(|r| r.part == part)
        .map(|r| DesignRelief {
            from: [r.from.x, r.from.y],
            to: [r.to.x, r.to.y],
            diameter: r.diameter,
        })
        .collect()
}
