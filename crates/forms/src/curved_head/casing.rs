//! A casing: its head stands back from the soffit and its legs from the jambs, and they meet on a mitre.
//!
//! Lines as far outside the jamb as outside the soffit meet where every profile of head and leg would meet: on the true mitre,
//! which is curved where the soffit leaves the jamb at an angle. Where it leaves it plumb the legs butt square at the springing.

use super::band::{Band, outwards};
use super::{Input, Piece};
use crate::{Error, Figure, Item, Unit};
use cintre_geometry::{Path, Piece as Arc, Point, Vec2};

/// The true mitre is arcs within this of it, mm: far below what any saw or bit keeps to.
const TRUE: f64 = 1e-3;

/// The most arcs that it is tried with: one or two do for any casing of the trade.
const MOST_ARCS: u32 = 16;

/// Points of the true mitre that each arc is held against.
const CHECKED: u32 = 6;

/// A mitre that bows by less than this is straight, mm.
const STRAIGHT: f64 = 1e-6;

/// The lines of a casing's head and legs, `out` mm outside soffit and jambs.
fn line(input: &Input, out: f64) -> Result<Path, Error> {
    let soffit = &input.soffit;
    // Far longer than the corners can drop.
    let down = Vec2::new(0.0, -soffit.length());
    let up_the_jamb = Path::polyline(&[soffit.start() + down, soffit.start()]);
    let down_the_other = Path::polyline(&[soffit.end(), soffit.end() + down]);
    outwards(&up_the_jamb.then(soffit).then(&down_the_other), out)
}

/// The head's own part of such a line.
fn head_line(input: &Input, out: f64) -> Result<Path, Error> {
    let pieces: Vec<Arc> = line(input, out)?.pieces().collect();
    Ok(Path::from_pieces(&pieces[1..pieces.len() - 1]))
}

/// The head of a casing, its ends on the mitres.
pub(super) fn band(input: &Input, true_mitre: bool) -> Result<Band, Error> {
    let lower = head_line(input, input.reveal)?;
    let upper = head_line(input, input.reveal + input.width)?;
    let ends = if true_mitre {
        [true_line(input, false)?, true_line(input, true)?]
    } else {
        [
            Path::polyline(&[lower.start(), upper.start()]),
            Path::polyline(&[lower.end(), upper.end()]),
        ]
    };
    Ok(Band::between(lower, upper, input.width, ends))
}

/// Where head and leg meet `share` of the way across.
fn corner(input: &Input, right: bool, share: f64) -> Result<Point, Error> {
    let line = head_line(input, input.reveal + share * input.width)?;
    Ok(if right { line.end() } else { line.start() })
}

/// The true mitre as a chain of arcs, from the inner edge to the outer.
fn true_line(input: &Input, right: bool) -> Result<Path, Error> {
    let mut arcs = 1;
    loop {
        let chain = chain(input, right, arcs)?;
        if arcs >= MOST_ARCS || stands_off(input, right, &chain, arcs)? < TRUE {
            return Ok(chain);
        }
        arcs *= 2;
    }
}

fn chain(input: &Input, right: bool, arcs: u32) -> Result<Path, Error> {
    let at = |half: u32| corner(input, right, f64::from(half) / f64::from(2 * arcs));
    let pieces = (0..arcs).map(|i| Ok(through(at(2 * i)?, at(2 * i + 1)?, at(2 * i + 2)?)));
    Ok(Path::from_pieces(&pieces.collect::<Result<Vec<_>, Error>>()?))
}

fn stands_off(input: &Input, right: bool, chain: &Path, arcs: u32) -> Result<f64, Error> {
    let checked = CHECKED * arcs;
    let offs = (0..=checked).map(|i| {
        let p = corner(input, right, f64::from(i) / f64::from(checked))?;
        Ok(chain.nearest(p).distance)
    });
    Ok(offs
        .collect::<Result<Vec<f64>, Error>>()?
        .into_iter()
        .fold(0.0, f64::max))
}

/// The arc from one point to another through a third between them; a line where they lie on one.
fn through(from: Point, by: Point, to: Point) -> Arc {
    let (u, v) = (by - from, to - by);
    // The angle between the chords is half of the arc's sweep.
    let sweep = 2.0 * u.cross(v).atan2(u.dot(v));
    if (sweep * from.distance(to)).abs() < STRAIGHT {
        return Arc::line(from, to);
    }
    Arc {
        start: from,
        end: to,
        bulge: (sweep / 4.0).tan(),
    }
}

/// The figures of the mitre at the right end, and of the left where the springings differ in height.
pub(super) fn figures(input: &Input, band: &Band) -> Result<Vec<Figure>, Error> {
    if band.closed {
        return Ok(Vec::new());
    }
    let springing = [input.soffit.start(), input.soffit.end()];
    let mut figures = vec![Figure::length("reveal", input.reveal)];
    let sides: &[bool] = if mirrored(band, springing) {
        &[true]
    } else {
        &[false, true]
    };
    let up = |right: bool, p: Point| p.y - springing[usize::from(right)].y;
    let (mut inner, mut outer, mut straight, mut bow, mut tangent) = (vec![], vec![], vec![], vec![], vec![]);
    for &right in sides {
        let (from, to) = (corner(input, right, 0.0)?, corner(input, right, 1.0)?);
        inner.push(up(right, from));
        outer.push(up(right, to));
        straight.push((to.y - from.y).atan2((to.x - from.x).abs()).to_degrees());
        bow.push(corner(input, right, 0.5)?.y - f64::midpoint(from.y, to.y));
        tangent.push(tangent_mitre(&input.soffit, right));
    }
    figures.extend([
        Figure::lengths("inner corner above springing", inner),
        Figure::lengths("outer corner above springing", outer),
        Figure::degrees("mitre by tangents from level", tangent),
        Figure::degrees("straight mitre from level", straight),
        Figure {
            name: "true mitre bows from straight at mid width",
            values: bow,
            unit: Unit::Fine,
        },
    ]);
    let quarters = (0..=4).map(|i| Ok(up(true, corner(input, true, f64::from(i) / 4.0)?)));
    figures.push(Figure::lengths(
        "true mitre above springing by quarters of the width",
        quarters.collect::<Result<_, Error>>()?,
    ));
    figures.extend(leg_lengths(input, band).into_iter().flat_map(|legs| {
        [
            Figure::lengths("leg inner edge", legs.iter().map(|leg| leg[0]).collect()),
            Figure::lengths("leg outer edge", legs.iter().map(|leg| leg[1]).collect()),
        ]
    }));
    Ok(figures)
}

fn mirrored(band: &Band, springing: [Point; 2]) -> bool {
    /// Heights nearer than this are level, mm.
    const LEVEL: f64 = 1e-6;
    let ends = |path: &Path| (path.start().y - path.end().y).abs() < LEVEL;
    (springing[0].y - springing[1].y).abs() < LEVEL && ends(&band.lower) && ends(&band.upper)
}

/// Half the turn between jamb and soffit, degrees from level: the mitre that the directions at the springing would give.
fn tangent_mitre(soffit: &Path, right: bool) -> f64 {
    let piece = if right {
        soffit.pieces().next_back()
    } else {
        soffit.pieces().next()
    };
    piece.map_or(0.0, |piece| {
        // From the springing into the arch, x towards its middle.
        let lean = if right {
            let back = piece.tangent_at(1.0);
            back.x.atan2(-back.y)
        } else {
            let along = piece.tangent_at(0.0);
            along.x.atan2(along.y)
        };
        lean.to_degrees() / 2.0
    })
}

/// The lengths of the inner and the outer edge of each leg from its foot, the left one first; none where the job gives no legs.
fn leg_lengths(input: &Input, band: &Band) -> Option<[[f64; 2]; 2]> {
    let Piece::Casing { legs: Some(legs), .. } = input.piece else {
        return None;
    };
    // The legs' foot lies `legs` below the left springing.
    let foot = input.soffit.start().y - legs;
    Some([
        [band.lower.start().y - foot, band.upper.start().y - foot],
        [band.lower.end().y - foot, band.upper.end().y - foot],
    ])
}

/// The legs, for the cutting list.
pub(super) fn legs(input: &Input, band: &Band) -> Vec<Item> {
    let Some(lengths) = leg_lengths(input, band) else {
        return Vec::new();
    };
    let section = Some((input.width, input.boards.thickness));
    let whole = lengths.map(|[inner, outer]| inner.max(outer));
    if (whole[0] - whole[1]).abs() < TRUE {
        return vec![Item::of("casing leg, to its longer edge", 2, whole[0], section)];
    }
    vec![
        Item::of("left casing leg, to its longer edge", 1, whole[0], section),
        Item::of("right casing leg, to its longer edge", 1, whole[1], section),
    ]
}

/// What to know of the mitres.
pub(super) fn notes(input: &Input, band: &Band) -> Result<Vec<String>, Error> {
    let Piece::Casing { true_mitre, .. } = input.piece else {
        return Ok(Vec::new());
    };
    if band.closed {
        return Ok(Vec::new());
    }
    let (from, to) = (corner(input, true, 0.0)?, corner(input, true, 1.0)?);
    let mut notes = Vec::new();
    if (to.y - from.y).abs() < STRAIGHT {
        notes.push("head and legs butt square at the springing".to_owned());
    } else {
        notes.push(
            "head and legs meet on the true mitre, which is curved: a straight one fits both edges and stands off it between; by \
             the directions at the springing alone it would fit neither. Cut the head first, lay it on, and mark the legs from it"
                .to_owned(),
        );
        let ends = if true_mitre {
            "follow the true mitre"
        } else {
            "are straight from inner to outer corner"
        };
        notes.push(format!("the head's ends {ends}"));
    }
    notes.push(
        "every edge is struck from the arch's own centres: worked anew from outside width and height the outer radius comes out \
         wrong"
            .to_owned(),
    );
    Ok(notes)
}
