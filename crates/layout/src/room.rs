//! What of a sheet may be used.
//!
//! A room is a box with places in it that are kept free. Where the sheet has an outline of its own, what lies between that
//! and the box round it is kept free as well: one place above the outline, from its leftmost corner to its rightmost, and
//! one below. So a sheet that its trim parts in two needs no thought.

use crate::collisions::Shape;
use crate::poles::Poles;
use crate::{ALLOWANCE, Error, facets};
use cintre_geometry::{Outline, Path, Point, Rect, Vec2, Vertex};
use cintre_work::{Stock, StockGrain};

/// A rectangular room is larger than the wood's own by this, mm, so that a piece as large as the room goes in: it is laid
/// exactly afterwards. Less than [`ALLOWANCE`], which leaves the way for that.
pub(crate) const EASE: f64 = ALLOWANCE / 2.0;

/// A room of another outline is smaller by this, mm: what stood out of it is not moved in again, and f32 must not make it.
const INSIDE: f64 = 0.005;

/// What is kept free above and below an outline reaches this far past the box round it, mm.
const PAST: f64 = 100.0;

/// The room on one kind of sheet, as grown parts see it.
#[derive(Clone, Debug)]
pub(crate) struct Room<'a> {
    pub(crate) stock: &'a Stock,
    /// Where grown parts may lie; none where trim leaves nothing.
    pub(crate) bounds: Option<Rect>,
    /// What they keep out of.
    pub(crate) kept: Vec<Shape>,
    /// The same as their poles.
    pub(crate) poles: Vec<Poles>,
    /// The area of the wood inside the trim, mm².
    pub(crate) area: f64,
}

impl<'a> Room<'a> {
    pub(crate) fn new(stock: &'a Stock, spacing: f64) -> Result<Self, Error> {
        let ease = if stock.outline.is_some() { -INSIDE } else { EASE };
        let grown = spacing / 2.0 + ALLOWANCE + ease;
        let usable = stock.usable();
        let sound = usable.width() > 0.0 && usable.height() > 0.0;
        let mut kept = Vec::new();
        if let Some(outline) = &stock.outline {
            check(stock, outline)?;
            for beyond in beyond(&outline.oriented(true)) {
                let by = stock.trim.widest() - grown;
                if by >= 0.0 {
                    kept.push(facets::around(&stock.name, &beyond, by)?);
                } else {
                    kept.extend(facets::within(&stock.name, &beyond, -by)?);
                }
            }
        }
        for place in &stock.keep_outs {
            kept.push(facets::around(
                &stock.name,
                &place.oriented(true),
                spacing / 2.0 + ALLOWANCE,
            )?);
        }
        let kept: Vec<Shape> = kept
            .iter()
            .map(|corners| shape(stock, corners))
            .collect::<Result<_, Error>>()?;
        Ok(Self {
            stock,
            bounds: sound.then(|| usable.inflate(grown, grown)),
            area: if sound { area(stock, usable) } else { 0.0 },
            poles: kept.iter().map(poles).collect(),
            kept,
        })
    }

    pub(crate) const fn grain(&self) -> StockGrain {
        self.stock.grain
    }
}

fn check(stock: &Stock, outline: &Outline) -> Result<(), Error> {
    let odd = |why: &str| Error::Outline {
        name: stock.name.clone(),
        why: why.to_owned(),
    };
    let b = outline.bounds();
    if !(b.is_finite() && b.width() > 0.0 && b.height() > 0.0) {
        return Err(odd("it encloses nothing"));
    }
    // Found by the same check that every parallel makes.
    facets::around(&stock.name, &outline.oriented(true), 1.0).map(|_| ())
}

/// The wood inside the trim, near enough: a bound takes it, no cut does.
fn area(stock: &Stock, usable: Rect) -> f64 {
    let outline = stock.outline.as_ref();
    let wood = outline.map_or_else(
        || usable.area(),
        |o| o.area().abs() - stock.trim.widest() * o.length(),
    );
    let kept: f64 = stock.keep_outs.iter().map(|k| k.area().abs()).sum();
    (wood - kept).max(0.0)
}

fn shape(stock: &Stock, corners: &[Point]) -> Result<Shape, Error> {
    Shape::new(corners).ok_or_else(|| Error::Outline {
        name: stock.name.clone(),
        why: "a place kept free encloses nothing".to_owned(),
    })
}

fn poles(shape: &Shape) -> Poles {
    let mut poles = Poles::default();
    shape.laid().poles(&mut poles);
    poles
}

/// What lies above and below a counter-clockwise outline, counter-clockwise.
fn beyond(outline: &Outline) -> [Outline; 2] {
    let bounds = outline.bounds();
    let count = outline.vertices().len();
    let x = |i: &usize| outline.vertices()[*i].point.x;
    // Arcs may reach past every corner: the sides stand off by more than that.
    let left = (0..count).min_by(|a, b| x(a).total_cmp(&x(b))).unwrap_or(0);
    let right = (0..count).max_by(|a, b| x(a).total_cmp(&x(b))).unwrap_or(0);
    let chain = |from: usize, to: usize| -> Vec<Vertex> {
        let n = (to + count - from) % count;
        let mut chain: Vec<Vertex> = (0..=n).map(|k| outline.vertices()[(from + k) % count]).collect();
        if let Some(last) = chain.last_mut() {
            last.bulge = 0.0;
        }
        chain
    };
    // Counter-clockwise the outline runs along its lower side from left to right.
    let under = |chain: Vec<Vertex>, out: f64, y: f64| {
        let corner = |x: f64, y: f64| Vertex {
            point: Point::new(x, y),
            bulge: 0.0,
        };
        let (first, last) = (chain[0].point, chain[chain.len() - 1].point);
        let mut all = chain;
        let [from, to] = [first.x - out, last.x + out];
        all.extend([
            corner(to, last.y),
            corner(to, y),
            corner(from, y),
            corner(from, first.y),
        ]);
        Outline::closing(&Path::new(all)).oriented(true)
    };
    let out = PAST + bounds.width();
    [
        under(chain(left, right), out, bounds.y0 - PAST),
        under(chain(right, left), -out, bounds.y1 + PAST),
    ]
}

/// The shift, of at most [`EASE`] and rounding each way, that lays a box within the wood's own box where it stands out.
pub(crate) fn into(part: Rect, wood: Rect) -> Vec2 {
    let along = |low: f64, high: f64, from: f64, to: f64| {
        if low < from {
            from - low
        } else if high > to {
            to - high
        } else {
            0.0
        }
    };
    Vec2::new(
        along(part.x0, part.x1, wood.x0, wood.x1),
        along(part.y0, part.y1, wood.y0, wood.y1),
    )
}
