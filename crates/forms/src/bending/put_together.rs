//! A form as it stands with its strips on it.

use super::figures::Shown;
use super::lines::{drawn, station};
use super::{Bending, Input, Side};
use crate::Error;
use crate::centering::{Layer, Member};
use cintre_geometry::{Path, Point};

/// How far a clamp's line is drawn past what it presses, mm.
const PAST: f64 = 12.0;

pub(super) fn put_together(shown: &Shown<'_>) -> Result<Bending, Error> {
    let input = shown.input;
    let lines = shown.lines;
    let mut off = -input.strips.stack() / 2.0;
    let mut strips = Vec::new();
    for thickness in std::iter::once(0.0).chain(input.strips.thicknesses.iter().copied()) {
        off += thickness;
        strips.extend(lines.line(off));
    }
    let members = || shown.bodies.iter().flat_map(|body| &body.members);
    let caul = match input.side {
        _ if input.caul <= 0.0 => None,
        Side::Male => lines.line(input.strips.stack() / 2.0 + input.caul).ok(),
        Side::Female => lines.line(-input.strips.stack() / 2.0 - input.caul).ok(),
        Side::Pair => None,
    };
    Ok(Bending {
        pieces: members()
            .filter(|m| m.layer == Layer::A)
            .map(Member::standing)
            .collect(),
        over: edges(members().filter(|m| m.layer == Layer::B)),
        strips,
        caul,
        finished: drawn(&input.line, input.tolerance, input.legs),
        open: drawn(&shown.open()?, input.tolerance, input.legs),
        clamps: clamps(shown)?,
    })
}

/// The edges of the pieces of the second layer.
fn edges<'m>(members: impl Iterator<Item = &'m Member>) -> Vec<Path> {
    members
        .map(|member| {
            let last = member.outline.pieces().len() - 1;
            member.outline.opened_at(last, 1.0)
        })
        .collect()
}

fn clamps(shown: &Shown<'_>) -> Result<Vec<(Point, Point)>, Error> {
    let (input, lines): (&Input, _) = (shown.input, shown.lines);
    let face = lines.face(if input.side == Side::Female {
        Side::Female
    } else {
        Side::Male
    })?;
    let ligament = input.clamps.ligament;
    let pressed = input.strips.stack() + 2.0 * input.liner;
    // From the face towards the strips, and away from them into the wood.
    let beyond = match input.side {
        Side::Male | Side::Female => pressed - input.liner + input.caul + PAST,
        Side::Pair => pressed + ligament + PAST,
    };
    let outwards = if input.side == Side::Female { -1.0 } else { 1.0 };
    let line = |&at| {
        let (p, left) = station(&face, at);
        (
            p - left * (outwards * (ligament + PAST)),
            p + left * (outwards * beyond),
        )
    };
    Ok(shown.clamping.clamps.iter().map(line).collect())
}
