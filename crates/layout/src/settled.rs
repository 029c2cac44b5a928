//! A layout in full digits: where each piece lies on which sheet.

use crate::collisions::Pose;
use crate::openings::riding;
use crate::pieces::{Kind, Lot};
use crate::room::into;
use crate::spread::Spread;
use cintre_geometry::Affine;
use cintre_work::{Part, Placed, Sheet};

/// Pieces on sheets.
#[derive(Clone, Debug)]
pub(crate) struct Layout {
    /// Which room each sheet is.
    pub(crate) rooms: Vec<usize>,
    /// Where each piece lies, in the order in which a sheet names them.
    pub(crate) places: Vec<Place>,
}

/// Where a piece lies.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Place {
    pub(crate) piece: usize,
    pub(crate) sheet: usize,
    /// From the part's own frame to the sheet's; turned over before that if `flipped`.
    pub(crate) by: Affine,
    pub(crate) flipped: bool,
}

impl Layout {
    /// What the search came to. A piece that the room's ease let stand out of it is moved in.
    pub(crate) fn of(spread: &Spread<'_>) -> Self {
        let lot = spread.lot;
        let place = |piece: usize| {
            let spot = spread.spots[piece]?;
            let kind = lot.kind(piece);
            let (mut by, flipped) = lying(kind, spot.pose);
            let stock = lot.rooms[spread.boards[spot.sheet].room].stock;
            let lying = part(kind.part, flipped, by).outline.bounds();
            by = Affine::translate(into(lying, stock.usable())) * by;
            Some(Place {
                piece,
                sheet: spot.sheet,
                by,
                flipped,
            })
        };
        Self {
            rooms: spread.boards.iter().map(|b| b.room).collect(),
            places: lot.by_size().into_iter().filter_map(place).collect(),
        }
    }

    /// The sheets, named from number `before` + 1 on.
    pub(crate) fn sheets(&self, lot: &Lot<'_>, before: usize) -> Vec<Sheet> {
        let on = |sheet: usize| {
            let places = self.places.iter().filter(move |p| p.sheet == sheet);
            places.flat_map(|p| {
                let own = Placed {
                    name: lot.pieces[p.piece].name.clone(),
                    part: part(lot.kind(p.piece).part, p.flipped, p.by),
                };
                std::iter::once(own).chain(riding(lot, p.piece, p.by))
            })
        };
        let sheets = self.rooms.iter().enumerate().map(|(number, &room)| Sheet {
            id: format!("sheet-{}", before + number + 1),
            stock: lot.rooms[room].stock.clone(),
            parts: on(number).collect(),
        });
        sheets.collect()
    }
}

/// How a part lies in a pose: from its own frame, turned over before that if it says so.
pub(crate) fn lying(kind: &Kind<'_>, pose: Pose) -> (Affine, bool) {
    let by = pose.affine() * kind.home;
    if pose.flipped {
        (by * Affine::FLIP_X, true)
    } else {
        (by, false)
    }
}

/// A single part moved, turned over before that or not.
pub(crate) fn part(part: &Part, flipped: bool, by: Affine) -> Part {
    let up = if flipped { part.flipped() } else { part.clone() };
    Part {
        count: 1,
        ..up.transformed(by)
    }
}
