//! The centre of a closed arch, in two halves: the lower is made as an upper one, upside down.

use super::striking::Striking;
use super::{Centre, Half, Input, Ring, form};
use crate::line::{at_level, length_to};
use crate::{Error, Form};
use cintre_geometry::{Affine, Path};
use std::f64::consts::PI;

/// Makes both.
pub(super) fn in_halves(input: &Input) -> Result<Form, Error> {
    let pair = Striking::new(&Input {
        split: false,
        soffit: upper_and_lower(&input.soffit).0,
        ..input.clone()
    })?
    .pair();
    let rings = input.ring.as_ref().map(|ring| {
        let (upper, lower) = upper_and_lower(&ring.back);
        [upper, lower].map(|back| Ring { back, ..ring.clone() })
    });
    let (upper, lower) = upper_and_lower(&input.soffit);
    let mut centres = Vec::new();
    let mut halves = Vec::new();
    let turn = Affine::rotate(PI);
    for (number, (soffit, which)) in [(upper, "upper "), (lower, "lower ")].into_iter().enumerate() {
        let ring = rings.as_ref().map(|rings| {
            let over = |joint: &&Path| (joint.start().y >= 0.0) == (number == 0);
            let joints = rings[number].joints.iter().filter(over).cloned();
            let placed = joints.map(|joint| {
                if number == 0 {
                    joint
                } else {
                    joint.transformed(turn)
                }
            });
            Ring {
                joints: placed.collect(),
                ..rings[number].clone()
            }
        });
        let half = Input {
            soffit,
            ring,
            ..input.clone()
        };
        let mut centre = Centre::new(&half, which, Some(pair / 2.0))?;
        if number == 1 {
            centre.half = turned(&centre.half, turn);
            // The wedges between the halves are the upper's.
            centre.list.retain(|item| !item.name.starts_with("folding"));
        }
        halves.push(centre.half.clone());
        centres.push(centre);
    }
    let mut form = form(input, centres, halves);
    form.notes.insert(
        0,
        format!(
            "made in two halves: the lower gives the lower ring its line; the upper stands on wedges over it, {pair:.1} mm \
             from level bottom to level top"
        ),
    );
    Ok(form)
}

/// A closed line from its left end over the top to the right, and from there back underneath, turned over.
fn upper_and_lower(closed: &Path) -> (Path, Path) {
    let level = at_level(closed, closed.start().y);
    let middle = level
        .get(1)
        .map_or(closed.length() / 2.0, |right| length_to(closed, right));
    (
        closed.part(0.0, middle),
        closed
            .part(middle, closed.length())
            .transformed(Affine::rotate(PI)),
    )
}

fn turned(half: &Half, turn: Affine) -> Half {
    let mut over = half.clone();
    over.soffit = half.soffit.transformed(turn);
    over.back = half.back.transformed(turn);
    over.boards = half.boards.iter().map(|board| board.transformed(turn)).collect();
    for member in &mut over.members {
        member.outline = member.outline.transformed(turn);
        member.openings = member.openings.iter().map(|o| o.transformed(turn)).collect();
        for bore in &mut member.bores {
            bore.centre = turn * bore.centre;
        }
    }
    over.bottom = -half.bottom;
    over
}
