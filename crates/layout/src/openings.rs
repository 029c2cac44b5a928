//! Parts in the openings of others.
//!
//! Before anything is laid on a sheet, each opening is filled like a little sheet of its own, and what lies in it rides with
//! its host from then on. Small hosts are filled first, so that one may ride in another with all that it holds.

use crate::Error;
use crate::first::leftmost;
use crate::pieces::{Kind, Lot, Piece};
use crate::rng::Chance;
use crate::room::Room;
use crate::settled::{self, Layout, Place};
use crate::spread::{Spot, Spread};
use cintre_geometry::{Affine, Outline};
use cintre_work::{Grain, Part, Stock, StockGrain, Trim};

/// A part that rides in an opening of a piece.
#[derive(Clone, Debug)]
pub(crate) struct Rider<'a> {
    /// Its own name.
    pub(crate) name: String,
    /// What it is a copy of.
    pub(crate) part: &'a Part,
    /// From its own frame, turned over before that if `flipped`, to that in which its host is laid.
    pub(crate) by: Affine,
    pub(crate) flipped: bool,
}

/// A piece while openings are filled.
#[derive(Debug)]
struct Candidate<'a> {
    name: String,
    kind: usize,
    riders: Vec<Rider<'a>>,
    /// Whether it rides itself.
    rides: bool,
}

/// Fills the openings of a lot's pieces.
pub(crate) fn fill<'a>(lot: Lot<'a>, chance: &mut Chance) -> Result<Lot<'a>, Error> {
    let hosts = |lot: &Lot<'a>| lot.kinds.iter().any(|k| !k.part.openings.is_empty());
    let Some(stock) = lot.rooms.first().map(|r| r.stock).filter(|_| hosts(&lot)) else {
        return Ok(lot);
    };
    let Lot {
        mut kinds,
        pieces,
        rooms,
        spacing,
        ..
    } = lot;
    let mut all: Vec<Candidate<'a>> = pieces
        .into_iter()
        .map(|Piece { name, kind, .. }| Candidate {
            name,
            kind,
            riders: Vec::new(),
            rides: false,
        })
        .collect();
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|&a, &b| kinds[all[a].kind].area.total_cmp(&kinds[all[b].kind].area));
    for &host in &order {
        let part = kinds[all[host].kind].part;
        for opening in &part.openings {
            let opening = opening.transformed(kinds[all[host].kind].home).oriented(true);
            let little = little_sheet(stock, opening, spacing);
            fill_one(&mut all, &mut kinds, host, &little, spacing, chance)?;
        }
    }
    let kept = all.into_iter().filter(|c| !c.rides);
    let pieces = kept.map(|c| Piece {
        name: c.name,
        kind: c.kind,
        riders: c.riders,
    });
    Ok(Lot {
        pieces: pieces.collect(),
        kinds,
        rooms,
        spacing,
    })
}

/// An opening as a sheet: its edge keeps the spacing off, and the grain runs along the host's own.
fn little_sheet(stock: &Stock, opening: Outline, spacing: f64) -> Stock {
    let bounds = opening.bounds();
    Stock {
        size: (bounds.x1, bounds.y1),
        grain: match stock.grain {
            StockGrain::None => StockGrain::None,
            StockGrain::Long | StockGrain::Short => StockGrain::Long,
        },
        trim: Trim::even(spacing),
        outline: Some(opening),
        keep_outs: Vec::new(),
        sheets: Some(1),
        ..stock.clone()
    }
}

/// Lays what goes into one opening, large pieces first.
fn fill_one<'a>(
    all: &mut [Candidate<'a>],
    kinds: &mut Vec<Kind<'a>>,
    host: usize,
    little: &Stock,
    spacing: f64,
    chance: &mut Chance,
) -> Result<(), Error> {
    let edge = little.usable();
    let goes_in = |candidate: &Candidate<'a>| {
        let size = kinds[candidate.kind].size;
        let (long, short) = (edge.width().max(edge.height()), edge.width().min(edge.height()));
        // What may not be turned end for end would keep its host from it too.
        let fixed = matches!(kinds[candidate.kind].part.grain, Grain::Fixed(_));
        !candidate.rides && !fixed && size.0.max(size.1) <= long && size.0.min(size.1) <= short
    };
    let mut those: Vec<usize> = (0..all.len())
        .filter(|&p| p != host && goes_in(&all[p]))
        .collect();
    if those.is_empty() {
        return Ok(());
    }
    those.sort_by(|&a, &b| kinds[all[b].kind].area.total_cmp(&kinds[all[a].kind].area));
    let lot = Lot {
        kinds: kinds.clone(),
        pieces: those
            .iter()
            .map(|&p| Piece {
                name: String::new(),
                kind: all[p].kind,
                riders: Vec::new(),
            })
            .collect(),
        rooms: vec![Room::new(little, spacing)?],
        spacing,
    };
    let mut spread = Spread::new(&lot);
    if !spread.open(0) {
        return Ok(());
    }
    let mut full = vec![false; lot.kinds.len()];
    for piece in 0..those.len() {
        let kind = lot.pieces[piece].kind;
        if full[kind] {
            continue;
        }
        match leftmost(&mut spread, piece, 0, chance) {
            Some(pose) => spread.put(piece, Spot { sheet: 0, pose }),
            None => full[kind] = true,
        }
    }
    for place in Layout::of(&spread).places {
        ride(
            all,
            &kinds[lot.pieces[place.piece].kind],
            those[place.piece],
            host,
            place,
        );
    }
    hold(&mut all[host], kinds, little.grain);
    Ok(())
}

/// Notes that a piece, and all that rides on it, rides on the host.
fn ride<'a>(all: &mut [Candidate<'a>], kind: &Kind<'a>, piece: usize, host: usize, place: Place) {
    let rider = Rider {
        name: all[piece].name.clone(),
        part: kind.part,
        by: place.by,
        flipped: place.flipped,
    };
    all[piece].rides = true;
    // What holds anything is never turned over.
    let from_home = place.by * kind.home.inverse();
    let moved = std::mem::take(&mut all[piece].riders).into_iter().map(|r| Rider {
        by: from_home * r.by,
        ..r
    });
    let riders: Vec<Rider<'a>> = std::iter::once(rider).chain(moved).collect();
    all[host].riders.extend(riders);
}

/// Makes the kind of a host that holds anything one that is not turned over, and lies by the grain if its riders must.
fn hold<'a>(host: &mut Candidate<'a>, kinds: &mut Vec<Kind<'a>>, grain: StockGrain) {
    let by_grain = |r: &Rider<'_>| r.part.grain != Grain::Free;
    let bound = grain != StockGrain::None && host.riders.iter().any(by_grain);
    let kind = &kinds[host.kind];
    if host.riders.is_empty() || (!kind.flips && (kind.bound || !bound)) {
        return;
    }
    let holding = Kind {
        flips: false,
        bound: kind.bound || bound,
        ..kind.clone()
    };
    let same = |k: &Kind<'_>| std::ptr::eq(k.part, holding.part) && !k.flips && k.bound == holding.bound;
    host.kind = kinds.iter().position(same).unwrap_or_else(|| {
        kinds.push(holding);
        kinds.len() - 1
    });
}

/// The riders of a piece as they lie on its sheet; `by` is how the piece itself lies, from its own frame.
pub(crate) fn riding<'l>(
    lot: &'l Lot<'_>,
    piece: usize,
    by: Affine,
) -> impl Iterator<Item = cintre_work::Placed> + 'l {
    let from_home = by * lot.kind(piece).home.inverse();
    lot.pieces[piece]
        .riders
        .iter()
        .map(move |rider| cintre_work::Placed {
            name: rider.name.clone(),
            part: settled::part(rider.part, rider.flipped, from_home * rider.by),
        })
}
