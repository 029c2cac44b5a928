//! What is to be laid: each part's shape with the ways it may lie, and the single pieces.

use crate::collisions::Shape;
use crate::openings::Rider;
use crate::room::Room;
use crate::{ALLOWANCE, Error, MOST_PIECES, Turns, facets};
use cintre_geometry::{Affine, Rect};
use cintre_work::{Grain, Part, Stock, StockGrain};
use std::collections::BTreeSet;
use std::f64::consts::{FRAC_PI_2, PI};

/// A turn nearer than this to quarter turns is one, radians: an angle that went through degrees must not skew a part.
const QUARTER: f64 = 1e-12;

/// How a part that may lie at any angle is first tried: this many turns to the circle.
const TRIED: u32 = 24;

/// A part as the search knows it: in a frame of its own, grain along x, the middle of its box at the origin.
#[expect(
    clippy::struct_excessive_bools,
    reason = "three freedoms and what its shape is, which have nothing to do with one another"
)]
#[derive(Clone, Debug)]
pub(crate) struct Kind<'a> {
    /// What it is a copy of.
    pub(crate) part: &'a Part,
    /// From the part's frame to that of the search.
    pub(crate) home: Affine,
    /// Its box's width and height there.
    pub(crate) size: (f64, f64),
    /// Its shape there, grown by half the spacing.
    pub(crate) shape: Shape,
    /// Its area, without its openings, mm².
    pub(crate) area: f64,
    /// Whether its shape is that of the convex outline round it.
    pub(crate) rounded: bool,
    /// Whether its other face may be up.
    pub(crate) flips: bool,
    /// Whether it may lie at any angle where the stock's grain does not forbid it.
    pub(crate) any: bool,
    /// Whether it must lie by the grain although its own does not matter, for what it holds in its openings.
    pub(crate) bound: bool,
}

/// One piece to lay.
#[derive(Debug)]
pub(crate) struct Piece<'a> {
    /// Its own name.
    pub(crate) name: String,
    /// Which kind it is.
    pub(crate) kind: usize,
    /// What lies in its openings.
    pub(crate) riders: Vec<Rider<'a>>,
}

/// All that is laid on the stocks of one name.
#[derive(Debug)]
pub(crate) struct Lot<'a> {
    pub(crate) kinds: Vec<Kind<'a>>,
    pub(crate) pieces: Vec<Piece<'a>>,
    /// The rooms that there are, in the order in which they are used up.
    pub(crate) rooms: Vec<Room<'a>>,
    pub(crate) spacing: f64,
}

/// Refuses counts that cannot be meant, unknown stock, and names that would be borne twice.
pub(crate) fn check(parts: &[Part], stocks: &[Stock]) -> Result<(), Error> {
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
    let known = |part: &&Part| !stocks.iter().any(|s| s.name == part.stock);
    if let Some(part) = parts.iter().find(known) {
        return Err(Error::UnknownStock {
            part: part.name.clone(),
            stock: part.stock.clone(),
        });
    }
    let mut seen = BTreeSet::new();
    match parts
        .iter()
        .flat_map(names)
        .find(|name| !seen.insert(name.clone()))
    {
        Some(name) => Err(Error::SameName { name }),
        None => Ok(()),
    }
}

/// What the copies of a part are called.
fn names(part: &Part) -> impl Iterator<Item = String> + '_ {
    (1..=part.count).map(|n| {
        if part.count == 1 {
            part.name.clone()
        } else {
            format!("{} {n}", part.name)
        }
    })
}

impl<'a> Lot<'a> {
    /// The parts that name this stock, and its rooms.
    pub(crate) fn new(
        name: &str,
        parts: &'a [Part],
        stocks: &'a [Stock],
        spacing: f64,
        turns: Turns,
    ) -> Result<Self, Error> {
        let of_name = || stocks.iter().filter(|s| s.name == name);
        let alike = of_name().all(|s| s.alike);
        let parts = parts.iter().filter(|p| p.stock == name);
        let kinds: Vec<Kind<'a>> = parts
            .map(|part| Kind::new(part, spacing, turns, alike))
            .collect::<Result<_, Error>>()?;
        let pieces = kinds.iter().enumerate().flat_map(|(kind, k)| {
            names(k.part).map(move |name| Piece {
                name,
                kind,
                riders: Vec::new(),
            })
        });
        Ok(Self {
            pieces: pieces.collect(),
            rooms: of_name()
                .map(|stock| Room::new(stock, spacing))
                .collect::<Result<_, Error>>()?,
            kinds,
            spacing,
        })
    }

    /// The kind of a piece.
    pub(crate) fn kind(&self, piece: usize) -> &Kind<'a> {
        &self.kinds[self.pieces[piece].kind]
    }

    /// The pieces, largest first: by longer side, then by shorter, then as given.
    pub(crate) fn by_size(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.pieces.len()).collect();
        let sides = |piece: usize| {
            let (w, h) = self.kind(piece).size;
            (w.max(h), w.min(h))
        };
        order.sort_by(|&a, &b| {
            let ((long_a, short_a), (long_b, short_b)) = (sides(a), sides(b));
            long_b.total_cmp(&long_a).then(short_b.total_cmp(&short_a))
        });
        order
    }
}

impl<'a> Kind<'a> {
    fn new(part: &'a Part, spacing: f64, turns: Turns, alike: bool) -> Result<Self, Error> {
        let upright = match part.grain {
            Grain::Along(along) | Grain::Fixed(along) => turn(-along),
            Grain::Free => Affine::IDENTITY,
        };
        let bounds = part.outline.transformed(upright).bounds();
        let no_size = || Error::NoSize {
            part: part.name.clone(),
        };
        let sized = |b: Rect| b.is_finite() && b.width() > 0.0 && b.height() > 0.0;
        if !sized(bounds) {
            return Err(no_size());
        }
        let home = Affine::translate(-bounds.center().to_vec2()) * upright;
        let edge = part.outline.transformed(home).oriented(true);
        let (corners, rounded) = facets::around_or_rounded(&part.name, &edge, spacing / 2.0 + ALLOWANCE)?;
        let openings: f64 = part.openings.iter().map(|o| o.area().abs()).sum();
        Ok(Self {
            part,
            home,
            size: (bounds.width(), bounds.height()),
            shape: Shape::new(&corners).ok_or_else(no_size)?,
            area: edge.area() - openings,
            rounded,
            flips: alike && part.may_be_flipped() && !matches!(part.grain, Grain::Fixed(_)),
            any: turns == Turns::Any,
            bound: false,
        })
    }

    /// The turns it may lie in on stock of this grain.
    pub(crate) fn turns(&self, grain: StockGrain) -> Vec<f64> {
        if let Grain::Fixed(_) = self.part.grain {
            return vec![if grain == StockGrain::Short {
                FRAC_PI_2
            } else {
                0.0
            }];
        }
        match (self.by_grain(), grain) {
            (true, StockGrain::Long) => vec![0.0, PI],
            (true, StockGrain::Short) => vec![FRAC_PI_2, PI + FRAC_PI_2],
            (false, _) | (_, StockGrain::None) => {
                let count = if self.any { TRIED } else { 4 };
                let step = 2.0 * PI / f64::from(count);
                (0..count).map(|k| f64::from(k) * step).collect()
            }
        }
    }

    /// Whether it may lie at angles between those turns too.
    pub(crate) fn turns_freely(&self, grain: StockGrain) -> bool {
        let fixed = matches!(self.part.grain, Grain::Fixed(_));
        self.any && !fixed && (!self.by_grain() || grain == StockGrain::None)
    }

    fn by_grain(&self) -> bool {
        self.bound || self.part.grain != Grain::Free
    }

    /// The sizes of its box along the sheet's x and y, with the turn that gives each: upright and on its side.
    pub(crate) fn boxes(&self, grain: StockGrain) -> Vec<(f64, (f64, f64))> {
        let (w, h) = self.size;
        let lying = |&turn: &f64| match quarters(turn) {
            Some(0) => Some((turn, (w, h))),
            Some(1) => Some((turn, (h, w))),
            _ => None,
        };
        self.turns(grain).iter().filter_map(lying).collect()
    }
}

/// How many quarter turns, 0 to 3, an angle is, if it is so many.
fn quarters(angle: f64) -> Option<usize> {
    let quarters = (angle / FRAC_PI_2).round();
    let left = quarters.rem_euclid(4.0);
    ((angle - quarters * FRAC_PI_2).abs() <= QUARTER)
        .then(|| [1.0, 2.0, 3.0].iter().filter(|&&n| left > n - 0.5).count())
}

/// A turn about the origin, exact in its numbers where it is made of quarter turns.
pub(crate) fn turn(angle: f64) -> Affine {
    let Some(quarters) = quarters(angle) else {
        return Affine::rotate(angle);
    };
    let [x, y] = [[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]][quarters];
    Affine::new([x, y, -y, x, 0.0, 0.0])
}
