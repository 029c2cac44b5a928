//! Parts as single pieces, each with the ways it may lie on its stock.

use crate::shelf::Spot;
use crate::{Error, MOST_PIECES};
use cintre_geometry::{Affine, Rect, Vec2};
use cintre_work::{Grain, Part, Placed, Stock, StockGrain};
use std::collections::BTreeSet;
use std::f64::consts::FRAC_PI_2;

/// A turn nearer than this to quarter turns is one, radians: an angle that went through degrees must not skew a part.
const QUARTER: f64 = 1e-12;

/// One piece to lay out.
#[derive(Debug)]
pub(crate) struct Piece<'a> {
    /// Its own name.
    pub(crate) name: String,
    /// What it is a copy of.
    pub(crate) part: &'a Part,
    /// Which stock it is cut from, counted from 0.
    pub(crate) stock: usize,
    /// The ways it may lie, no two with the same box.
    ways: Vec<Way>,
}

/// A part turned, and the box it then has.
#[derive(Clone, Copy, Debug)]
struct Way {
    turn: Affine,
    bounds: Rect,
}

/// Every piece of every part, the largest first: by its longer side, then by its shorter, then as given.
pub(crate) fn pieces<'a>(parts: &'a [Part], stocks: &[Stock]) -> Result<Vec<Piece<'a>>, Error> {
    if let Some(part) = parts.iter().find(|p| p.count == 0) {
        return Err(Error::NoCount {
            part: part.name.clone(),
        });
    }
    let total = parts.iter().fold(0usize, |sum, p| sum.saturating_add(p.count));
    if total > MOST_PIECES {
        return Err(Error::TooMany {
            pieces: total,
            most: MOST_PIECES,
        });
    }
    let mut pieces = Vec::with_capacity(total);
    for part in parts {
        pieces.extend(copies(part, stocks)?);
    }
    refuse_same_names(&pieces)?;
    pieces.sort_by(|a: &Piece<'_>, b| {
        let ((long_a, short_a), (long_b, short_b)) = (a.sides(), b.sides());
        long_b.total_cmp(&long_a).then(short_b.total_cmp(&short_a))
    });
    Ok(pieces)
}

fn copies<'a>(part: &'a Part, stocks: &[Stock]) -> Result<Vec<Piece<'a>>, Error> {
    let stock = stocks
        .iter()
        .position(|s| s.name == part.stock)
        .ok_or_else(|| Error::UnknownStock {
            part: part.name.clone(),
            stock: part.stock.clone(),
        })?;
    let ways = ways(part, stocks[stock].grain);
    let sized = |b: Rect| b.is_finite() && b.width() > 0.0 && b.height() > 0.0;
    if !ways.iter().all(|way| sized(way.bounds)) {
        return Err(Error::NoSize {
            part: part.name.clone(),
        });
    }
    let piece = |name| Piece {
        name,
        part,
        stock,
        ways: ways.clone(),
    };
    Ok(if part.count == 1 {
        vec![piece(part.name.clone())]
    } else {
        (1..=part.count)
            .map(|n| piece(format!("{} {n}", part.name)))
            .collect()
    })
}

fn refuse_same_names(pieces: &[Piece<'_>]) -> Result<(), Error> {
    let mut seen = BTreeSet::new();
    match pieces.iter().find(|p| !seen.insert(p.name.as_str())) {
        Some(twice) => Err(Error::SameName {
            name: twice.name.clone(),
        }),
        None => Ok(()),
    }
}

/// The ways a part may lie: half a turn more would give the same box, so it is left out.
fn ways(part: &Part, grain: StockGrain) -> Vec<Way> {
    let way = |angle: f64| {
        let turn = turn(angle);
        Way {
            turn,
            bounds: part.outline.transformed(turn).bounds(),
        }
    };
    match (part.grain, grain) {
        (Grain::Along(along), StockGrain::Long) => vec![way(-along)],
        (Grain::Along(along), StockGrain::Short) => vec![way(FRAC_PI_2 - along)],
        (Grain::Free, _) | (_, StockGrain::None) => vec![way(0.0), way(FRAC_PI_2)],
    }
}

/// A turn about the origin, exact in its numbers where it is made of quarter turns.
fn turn(angle: f64) -> Affine {
    let quarters = (angle / FRAC_PI_2).round();
    if (angle - quarters * FRAC_PI_2).abs() > QUARTER {
        return Affine::rotate(angle);
    }
    let [x, y] = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)][quarter_of_four(quarters)].into();
    Affine::new([x, y, -y, x, 0.0, 0.0])
}

fn quarter_of_four(quarters: f64) -> usize {
    let left = quarters.rem_euclid(4.0);
    [1.0, 2.0, 3.0].iter().filter(|&&n| left > n - 0.5).count()
}

impl Piece<'_> {
    /// Its box's width and height, each way it may lie.
    pub(crate) fn sizes(&self) -> Vec<(f64, f64)> {
        self.ways
            .iter()
            .map(|w| (w.bounds.width(), w.bounds.height()))
            .collect()
    }

    /// The piece at its place on the sheet.
    pub(crate) fn placed(&self, spot: Spot) -> Placed {
        let way = self.ways[spot.way];
        let shift = Vec2::new(spot.at.x - way.bounds.x0, spot.at.y - way.bounds.y0);
        let mut part = self.part.transformed(Affine::translate(shift) * way.turn);
        part.count = 1;
        Placed {
            name: self.name.clone(),
            part,
        }
    }

    /// The refusal of a piece that does not go on a whole sheet.
    pub(crate) fn too_large(&self, stock: &Stock) -> Error {
        let inside = |side: f64| (side - 2.0 * stock.trim).max(0.0);
        let usable = (inside(stock.size.0), inside(stock.size.1));
        let share = |&(w, h): &(f64, f64)| (usable.0 / w).min(usable.1 / h);
        let sizes = self.sizes();
        let size = sizes
            .iter()
            .copied()
            .reduce(|a, b| if share(&b) > share(&a) { b } else { a })
            .unwrap_or_default();
        Error::TooLarge {
            part: self.part.name.clone(),
            stock: stock.name.clone(),
            size,
            usable,
            largest: (size.0 * share(&size), size.1 * share(&size)),
        }
    }

    /// The longer and the shorter side of its box.
    fn sides(&self) -> (f64, f64) {
        let bounds = self.ways[0].bounds;
        (
            bounds.width().max(bounds.height()),
            bounds.width().min(bounds.height()),
        )
    }
}
