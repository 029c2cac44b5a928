//! The plain layout, the box round each part against the others: the floor under what the search may come to, and all that
//! plain panels need.

use crate::pieces::Lot;
use crate::settled::{Layout, Place};
use crate::shelf::{Shelf, Spot};
use crate::{Error, pieces};
use cintre_geometry::Affine;

/// Every piece on the first sheet that has room, largest first; none where the stock is not one plain kind of sheet.
pub(crate) fn boxes(lot: &Lot<'_>) -> Result<Option<Layout>, Error> {
    let [room] = &lot.rooms[..] else {
        return Ok(None);
    };
    let stock = room.stock;
    if stock.outline.is_some() || !stock.keep_outs.is_empty() {
        return Ok(None);
    }
    let mut shelves: Vec<Shelf> = Vec::new();
    let mut places = Vec::new();
    for piece in lot.by_size() {
        let ways = lot.kind(piece).boxes(stock.grain);
        let sizes: Vec<(f64, f64)> = ways.iter().map(|&(_, size)| size).collect();
        let found = shelves
            .iter_mut()
            .enumerate()
            .find_map(|(sheet, shelf)| Some((sheet, shelf.put(&sizes)?)));
        let (sheet, spot) = if let Some(found) = found {
            found
        } else {
            let mut shelf = Shelf::new(stock, lot.spacing);
            let spot = shelf
                .put(&sizes)
                .ok_or_else(|| crate::lots::too_large(lot, piece))?;
            shelves.push(shelf);
            (shelves.len() - 1, spot)
        };
        places.push(place(lot, piece, sheet, spot, &ways));
    }
    Ok(Some(Layout {
        rooms: vec![0; shelves.len()],
        places,
    }))
}

fn place(lot: &Lot<'_>, piece: usize, sheet: usize, spot: Spot, ways: &[(f64, (f64, f64))]) -> Place {
    let turn = pieces::turn(ways[spot.way].0) * lot.kind(piece).home;
    let bounds = lot.kind(piece).part.outline.transformed(turn).bounds();
    let shift = spot.at - bounds.origin();
    Place {
        piece,
        sheet,
        by: Affine::translate(shift) * turn,
        flipped: false,
    }
}
