//! A model: a kit of the arch and its centre made smaller, cut by a beam from thin sheet and put together without glue or with.
//!
//! What the scale makes smaller is the arch: its soffit, its ring, its wall. The sheet keeps its real thickness, so that the ribs lie
//! one sheet inside the soffit whatever the lagging is at full size, and every slot is made for the sheet itself. Ribs and
//! spacers are halved over one another; the ring, cut to its voussoirs, stands on springers that are tenoned into a base. Between base
//! and ribs lie two strips that are drawn out to lower the centre. Shape only: nothing here speaks of strength.

pub use comb::{BESIDE, BLOCKS, STEP};
pub use input::{Beam, Comb, Input, Made, Ring};

use crate::error::at_least;
use crate::line::{overhang, refuse_backwards};
use crate::{Assembled, Error, Form};
use cintre_geometry::{Affine, Outline, Point};
use cintre_work::Caution;
use kit::Kit;
use label::Piece;

mod comb;
mod figures;
mod fit;
mod input;
mod kit;
mod label;
mod springer;
mod standing;
#[cfg(test)]
mod tests;
mod thin;
mod wood;

/// The least wood between two cuts where the job says nothing of it, in thicknesses of the sheet.
pub const BRIDGE: f64 = 1.5;

/// An interference beyond this share of the sheet's thickness, or play, is taken for a mistake.
const MOST: f64 = 0.25;

/// A slot is at least this many times as wide as the beam: its two cuts, and a waste between them that falls out.
const SLOT: f64 = 3.0;

/// A form stands over its opening by less than this only by rounding, mm.
const STANDS_OVER: f64 = 1e-6;

/// Makes the kit of a model.
pub fn model(input: &Input) -> Result<Form, Error> {
    check(input)?;
    let kit = Kit::new(input, input.scale).map_err(|thin| thin::refused(input, thin))?;
    let fit_error = input.fit_error / input.scale;
    let mut parts = Vec::new();
    let mut unnamed = Vec::new();
    for piece in pieces(&kit) {
        let (part, named) = piece.part(input, fit_error)?;
        if !named {
            unnamed.push(part.name.clone());
        }
        parts.push(part);
    }
    let mut notes = notes(&kit);
    if !unnamed.is_empty() {
        notes.push(format!("too small for letters: {}", unnamed.join(", ")));
    }
    Ok(Form {
        kind: "model",
        arch: input.arch.clone(),
        parts,
        list: Vec::new(),
        figures: figures::figures(&kit),
        cautions: vec![Caution::Model],
        notes,
        left: Vec::new(),
        assembly: Some(Assembled::Model(Box::new(standing::standing(&kit)))),
    })
}

fn check(input: &Input) -> Result<(), Error> {
    refuse_backwards(&input.soffit)?;
    at_least("arch", input.fit_error, 0.0)?;
    at_least("stock", input.thickness, f64::MIN_POSITIVE)?;
    at_least("wall", input.wall, f64::MIN_POSITIVE)?;
    at_least("joint", input.joint, 0.0)?;
    let (t, kerf) = (input.thickness, input.beam.kerf);
    // The comb's tightest slot is the narrowest.
    let beside = match input.comb {
        Comb::With | Comb::Only => f64::from(BESIDE) * STEP,
        Comb::None => 0.0,
    };
    let most = (MOST * t).min(t - SLOT * kerf - beside);
    let least = -MOST * t;
    if !(least..=most).contains(&input.interference) {
        return Err(Error::Interference {
            given: input.interference,
            thickness: t,
            kerf,
            least,
            most,
        });
    }
    let bridge = fit::Fit::new(input).bridge;
    at_least("bridge", bridge, input.beam.least_bridge.max(2.0 * kerf))
}

/// Everything that is cut, in the order in which it goes together.
fn pieces(kit: &Kit<'_>) -> Vec<Piece> {
    let mut pieces = Vec::new();
    match kit.input.comb {
        Comb::With => pieces.extend(comb::pieces(kit)),
        Comb::Only => return comb::pieces(kit),
        Comb::None => {}
    }
    pieces.extend([
        Piece {
            count: kit.ribs.len(),
            ..Piece::new("rib", &["rib", "r"], wood::rib(kit))
        },
        Piece {
            count: kit.spacers.len(),
            ..Piece::new("spacer", &["spacer", "s"], wood::spacer(kit))
        },
        Piece {
            count: kit.boards.count,
            ..Piece::new("lagging strip", &["lag", "l"], strip(kit))
        },
    ]);
    if let Some(ring) = &kit.input.ring {
        pieces.extend(on_the_base(kit));
        let units = (1..).zip(&ring.units);
        pieces.extend(units.map(|(number, unit)| voussoir(kit, number, unit)));
    }
    pieces
}

fn strip(kit: &Kit<'_>) -> Outline {
    wood::polygon(&[
        (0.0, 0.0),
        (kit.depth, 0.0),
        (kit.depth, kit.boards.width),
        (0.0, kit.boards.width),
    ])
}

/// Base, springers and packing.
fn on_the_base(kit: &Kit<'_>) -> Vec<Piece> {
    let (outline, openings) = wood::base(kit);
    let title = format!("{} 1:{}", kit.input.arch, kit.scale);
    let mut pieces = vec![Piece {
        openings,
        ..Piece::new("base", &[&title, "base", "b"], outline)
    }];
    pieces.extend(kit.springers.iter().map(|springer| Piece {
        count: kit.slices,
        ..Piece::new(
            &format!("springer {}", springer.side),
            &[springer.side, &springer.side[..1]],
            springer.outline.clone(),
        )
    }));
    pieces.push(Piece {
        count: 2,
        ..Piece::new("packing", &["packing", "p"], wood::packing(kit))
    });
    pieces
}

/// A voussoir with its own axis plumb, so that its number is read along its joints.
fn voussoir(kit: &Kit<'_>, number: usize, unit: &Outline) -> Piece {
    let upright = kit.input.ring.as_ref().map_or(Affine::IDENTITY, |ring| {
        let middle = unit.bounds().center();
        let (low, high) = (kit.input.soffit.nearest(middle), ring.back.nearest(middle));
        let lean = (high.point - low.point).atan2() - std::f64::consts::FRAC_PI_2;
        Affine::rotate(-lean) * Affine::translate(Point::ZERO - low.point)
    });
    let number = number.to_string();
    Piece {
        count: kit.slices,
        ..Piece::new(&format!("voussoir {number}"), &[&number], unit.clone())
    }
    .placed(Affine::scale(1.0 / kit.scale) * upright)
}

fn notes(kit: &Kit<'_>) -> Vec<String> {
    let input = kit.input;
    let mut notes = vec![format!(
        "sheet keeps its {:.2} mm at every scale: the ribs lie one sheet inside the soffit, and the strips of the lagging are glued on them",
        input.thickness
    )];
    if input.ring.is_some() {
        notes.push(
            "lay the packing on the base and the centre on it, the voussoirs from both springers to the key; then draw the packing out".to_owned(),
        );
    }
    if kit.slices > 1 {
        notes.push(format!(
            "glue {} slices to each springer and each voussoir before it is laid",
            kit.slices
        ));
    }
    if input.comb != Comb::None {
        notes.push(format!(
            "try the sheet first, with `comb: only`: the slot of the comb that holds it as you want bears its `interference`; {BLOCKS} kerf blocks pushed up \
             against one another should measure 100 mm, and if they do not, the kerf is {} mm + (100 - what they measure) / {BLOCKS}",
            input.beam.kerf
        ));
    }
    let beyond = overhang(&input.soffit) / kit.scale;
    if beyond > STANDS_OVER {
        notes.push(format!(
            "the soffit stands {beyond:.2} mm beyond the opening below it: the centre does not come out downwards, draw it out of the wall's face"
        ));
    }
    if input.beam.tabs.is_none() {
        notes.push(
            "the machine has no `tabs`: small parts may tip up or fall through when they are cut".to_owned(),
        );
    }
    notes
}

/// A number of things as a length of so many.
#[expect(clippy::cast_precision_loss, reason = "numbers of slices and slots are small")]
pub(crate) const fn as_length(number: usize) -> f64 {
    number as f64
}
