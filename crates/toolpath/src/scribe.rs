//! Lines and lettering scribed on a part's face, and arrises taken off its edges.

use crate::cuts::OneCut;
use crate::line::Line;
use crate::order::nearest_end;
use crate::setup::Setup;
use crate::{Edge, Error};
use cintre_geometry::{Path, Point};
use cintre_work::{BitKind, Mark, MarkKind, Move, Placed, To};

/// Strokes whose ends lie this near are one, mm.
const JOINED: f64 = 1e-6;

/// A part's marks as one cut: stroke after stroke, each time the nearest end next. None where there are none.
pub(crate) fn marks(placed: &Placed, setup: &Setup<'_>) -> Option<OneCut> {
    let scribed = |m: &&Mark| matches!(m.kind, MarkKind::Line | MarkKind::Text);
    let strokes = joined(placed.part.marks.iter().filter(scribed));
    let line = Line {
        depth: setup.router.mark_depth,
        feeds: setup.tool.feeds,
        ramp: (!setup.tool.bit.plunges).then_some(setup.router.ramp),
    };
    let mut strokes = strokes.into_iter();
    let first = strokes.next()?;
    let (mut open, start): (Vec<Path>, Point) = (strokes.collect(), first.start());
    let mut moves = line.moves(&first);
    while let Some(here) = moves.last().map(|m| m.end)
        && let Some((next, reversed)) = nearest_end(&open, here)
    {
        let stroke = open.swap_remove(next);
        let stroke = if reversed { stroke.reversed() } else { stroke };
        moves.extend(over(here, stroke.start(), setup.router.safe_height));
        moves.extend(line.moves(&stroke));
    }
    Some(OneCut {
        part: placed.name.clone(),
        start,
        moves,
    })
}

/// Up, across at the safe height, and down to where the next begins.
pub(crate) fn over(from: Point, to: Point, safe: f64) -> [Move; 3] {
    let rapid = |end: Point, z: f64| Move {
        end,
        z,
        to: To::Rapid,
    };
    let approach = crate::APPROACH.min(safe);
    [rapid(from, safe), rapid(to, safe), rapid(to, approach)]
}

/// The strokes, those that run on into one another as one.
fn joined<'a>(marks: impl Iterator<Item = &'a Mark>) -> Vec<Path> {
    let mut strokes: Vec<Path> = Vec::new();
    for mark in marks {
        match strokes.last_mut() {
            Some(last) if last.end().distance(mark.path.start()) <= JOINED => *last = last.then(&mark.path),
            _ => strokes.push(mark.path.clone()),
        }
    }
    strokes
}

/// The arrises of a part that a pointed bit takes off.
pub(crate) fn chamfers(placed: &Placed, setup: &Setup<'_>) -> Result<Vec<OneCut>, Error> {
    let bit = setup.tool.bit;
    let mut made = Vec::new();
    for (k, mark) in placed.part.marks.iter().enumerate() {
        let MarkKind::Chamfer { width } = mark.kind else {
            continue;
        };
        let BitKind::Vee(angle) = bit.kind else { continue };
        let depth = width / (angle / 2.0).tan();
        let most = (setup.tool.radius()).min(bit.cutting_length * (angle / 2.0).tan());
        if !(width > 0.0 && width <= most && depth < setup.stock.thickness) {
            return Err(Error::Chamfer {
                part: placed.name.clone(),
                edge: Edge::Chamfer(k),
                bit: bit.name.clone(),
                width,
                most: most.min(setup.stock.thickness * (angle / 2.0).tan()),
            });
        }
        let line = Line {
            depth,
            feeds: setup.tool.feeds,
            ramp: (!bit.plunges).then_some(setup.router.ramp),
        };
        made.push(OneCut {
            part: placed.name.clone(),
            start: mark.path.start(),
            moves: line.moves(&mark.path),
        });
    }
    Ok(made)
}
