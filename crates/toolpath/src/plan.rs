//! The whole of what is done to one sheet.

use crate::choose::{Chosen, Tool};
use crate::cuts::{Cuts, Stage};
use crate::order::{Work, arranged, end};
use crate::setup::Setup;
use crate::{BitError, Error, Note, bounds, chips, time};
use cintre_geometry::Point;
use cintre_work::{
    Bit, Mark, MarkKind, Move, Part, Placed, Program, Relieved, Router, Sheet, Stock, Tab, To,
};

/// Down to this height above the face the bit comes at full speed, and from there it feeds, mm.
pub const APPROACH: f64 = 2.0;

/// What is done to a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// One program a bit, in the order in which they are run: the one that scribes, drills, straight bits, of which the last cuts
    /// the outlines.
    pub programs: Vec<Program>,
    /// The tabs that hold the parts, of all programs.
    pub tabs: Vec<Tab>,
    /// The corners that are relieved.
    pub reliefs: Vec<Relieved>,
    /// How deep marks are scribed, mm; none where they are left.
    pub scribed: Option<f64>,
    /// About how long the machine runs, s: every move at its feed, gaining and losing speed, and the spindle's starts.
    pub seconds: f64,
    /// The same for each program, s.
    pub program_seconds: Vec<f64>,
    /// What the joiner ought to know.
    pub notes: Vec<Note>,
}

/// Plans a sheet: which bit goes where, how deep and in which order. `bits` are those that the router holds, or those that
/// [`crate::choose_bits`] chose for the whole job.
///
/// Each bit runs once. Marks come first, then holes, recesses, openings and outlines, each stage by a short
/// way and what lies inside of something before it; the outlines' bit runs last, so that nothing is cut loose and then worked on. Every travel is at the safe height.
pub fn plan(sheet: &Sheet, router: &Router, bits: &[Bit]) -> Result<Plan, Error> {
    let stock = &sheet.stock;
    bounds::on_stock(sheet)?;
    leaves_wood_to_cut(sheet, router)?;
    let parts: Vec<&Part> = sheet.parts.iter().map(|p| &p.part).collect();
    let chosen = Chosen::for_parts(&parts, stock, router, bits)?;
    for tool in &chosen.tools {
        comes_up(tool.bit, stock, router)?;
    }
    let setup = Setup {
        stock,
        router,
        chosen: &chosen,
        tool: chosen.widest(),
    };
    let mut cuts = Cuts::of(&sheet.parts, &setup)?;
    let mut programs = Vec::new();
    for tool in &chosen.tools {
        let bit = &tool.bit.name;
        let mut stages: Vec<Vec<Work<'_, '_>>> = Stage::ALL
            .into_iter()
            .map(|stage| cuts.take(bit, stage).into_iter().map(Work::Fixed).collect())
            .collect();
        stages.push(cuts.contours(bit).map(Work::Round).collect());
        programs.extend(program(sheet, router, *tool, stages)?);
    }
    let program_seconds: Vec<f64> = programs
        .iter()
        .map(|p| router.spindle_delay + time::seconds(p, router))
        .collect();
    let mut notes = cuts.notes;
    let chips = |t: &Tool<'_>| chips::note(t.bit, t.feeds, &stock.material, router).map(Note::Chips);
    notes.extend(chosen.straights.iter().filter_map(chips));
    notes.extend(general(sheet, router, &chosen));
    Ok(Plan {
        programs,
        tabs: cuts.tabs,
        reliefs: cuts.reliefs,
        scribed: chosen.scribe.map(|_| router.mark_depth),
        seconds: program_seconds.iter().sum(),
        program_seconds,
        notes,
    })
}

/// A bit's tip comes up to the safe height when its collet is raised as high as it goes.
fn comes_up(bit: &Bit, stock: &Stock, router: &Router) -> Result<(), BitError> {
    let out = bit.stands_out();
    match router.travel_z {
        Some(travel) if travel < out + stock.thickness + router.safe_height => Err(BitError::TooLong {
            bit: bit.name.clone(),
            out,
            router: router.name.clone(),
            travel,
            thickness: stock.thickness,
            safe_height: router.safe_height,
        }),
        _ => Ok(()),
    }
}

/// A web thinner than the stock.
fn leaves_wood_to_cut(sheet: &Sheet, router: &Router) -> Result<(), Error> {
    let (web, thickness) = (router.leave_web, sheet.stock.thickness);
    if web >= thickness {
        return Err(Error::Web { web, thickness });
    }
    Ok(())
}

/// What is to be known of the sheet as a whole.
fn general(sheet: &Sheet, router: &Router, chosen: &Chosen<'_>) -> impl Iterator<Item = Note> + use<> {
    let scribed = |m: &&Mark| matches!(m.kind, MarkKind::Line | MarkKind::Text);
    let marks = |p: &Placed| p.part.marks.iter().filter(scribed).count();
    let count = sheet.parts.iter().map(marks).sum();
    let marks = (count > 0 && chosen.scribe.is_none()).then_some(Note::MarksLeft {
        count,
        told: router.mark_depth <= 0.0,
    });
    let held = if router.leave_web > 0.0 {
        Some(Note::Web {
            thickness: router.leave_web,
        })
    } else {
        router.tabs.is_none().then_some(Note::NoTabs)
    };
    marks.into_iter().chain(held)
}

/// One bit's run: stage after stage, each by a short way. None where it has nothing to do.
fn program(
    sheet: &Sheet,
    router: &Router,
    tool: Tool<'_>,
    stages: Vec<Vec<Work<'_, '_>>>,
) -> Result<Option<Program>, Error> {
    let Tool { bit, feeds } = tool;
    let (mut here, mut moves) = (Point::ZERO, Vec::new());
    for stage in stages {
        for cut in arranged(stage, here) {
            bounds::on_bed(&cut, router, bit.diameter / 2.0)?;
            here = end(&cut);
            let rapid = |end: Point, z: f64| Move {
                end,
                z,
                to: To::Rapid,
            };
            moves.push(rapid(cut.start, router.safe_height));
            moves.push(rapid(cut.start, APPROACH.min(router.safe_height)));
            moves.extend(cut.moves);
            moves.push(rapid(here, router.safe_height));
        }
    }
    Ok((!moves.is_empty()).then(|| Program {
        sheet: sheet.id.clone(),
        bit: bit.name.clone(),
        diameter: bit.diameter,
        number: bit.number,
        speed: feeds.speed,
        moves,
    }))
}
