//! Lettering that finds its own place on a part.

use crate::{Error, marks};
use cintre_geometry::{Outline, Point};
use cintre_lettering::wrapped;
use cintre_work::Part;

/// How far letters keep from edges, holes and lines, mm.
const CLEAR: f64 = 4.0;

/// How far the name of a hole keeps from others, mm.
const CLOSE: f64 = 1.5;

/// The highest that the name of a hole is lettered, mm.
const HOLE_NAME: f64 = 6.0;

/// The rows and columns of places that are tried for the lettering.
const TRIED: i32 = 13;

/// The widths in letters that lettering is broken to where it finds no room as it is.
const BROKEN: [f64; 2] = [20.0, 11.0];

/// A letter and the gap after it are about nine tenths as wide as capitals are high.
const LETTER: f64 = 0.9;

/// The lettering as it is, and broken into shorter and shorter lines.
fn broken(texts: &[String]) -> impl Iterator<Item = Vec<String>> + '_ {
    let to = |letters: f64| {
        texts
            .iter()
            .flat_map(|text| wrapped(text, 1.0, LETTER * letters))
            .collect()
    };
    std::iter::once(texts.to_vec()).chain(BROKEN.into_iter().map(to))
}

/// Writes all texts in one place, or each in one of its own, beside the other `lines`; gives back what finds no room.
pub(crate) fn write(part: &mut Part, texts: &[String]) -> Result<Vec<String>, Error> {
    if written(part, texts)? {
        return Ok(Vec::new());
    }
    let mut homeless = Vec::new();
    for text in texts {
        if !written(part, std::slice::from_ref(text))? {
            homeless.push(text.clone());
        }
    }
    Ok(homeless)
}

/// Writes some texts in one place, if they find one.
fn written(part: &mut Part, texts: &[String]) -> Result<bool, Error> {
    for texts in broken(texts) {
        let letters = marks::lines(&texts, |_, _| places(&part.outline), |p| clear(p, part, CLEAR))?;
        if let Some(letters) = letters {
            part.marks.extend(letters);
            return Ok(true);
        }
    }
    Ok(false)
}

/// Writes the name of a hole beside it, if it finds room there.
pub(crate) fn beside(part: &mut Part, name: &str, hole: Point, radius: f64) -> Result<(), Error> {
    let middles = |wide: f64, high: f64| {
        if high > HOLE_NAME {
            return Vec::new();
        }
        let (across, up) = (
            radius + CLOSE * 1.5 + wide / 2.0,
            radius + CLOSE * 2.0 + high / 2.0,
        );
        [
            (0.0, up),
            (0.0, -up),
            (across, 0.0),
            (-across, 0.0),
            (across, up),
            (-across, up),
        ]
        .map(|(x, y)| Point::new(hole.x + x, hole.y + y))
        .to_vec()
    };
    let letters = marks::lines(&[name.to_owned()], middles, |p| clear(p, part, CLOSE))?;
    part.marks.extend(letters.into_iter().flatten());
    Ok(())
}

/// Places for the middle of the lettering, those near the middle of the wood first.
fn places(outline: &Outline) -> Vec<Point> {
    let bounds = outline.bounds();
    let place = |i: i32, of: f64| of * (f64::from(i) + 0.5) / f64::from(TRIED);
    let mut all: Vec<Point> = (0..TRIED)
        .flat_map(|i| (0..TRIED).map(move |j| (i, j)))
        .map(|(i, j)| {
            Point::new(
                bounds.x0 + place(i, bounds.width()),
                bounds.y0 + place(j, bounds.height()),
            )
        })
        .collect();
    let deep = |p: &Point| outline.signed_distance(*p);
    all.sort_by(|a, b| deep(a).total_cmp(&deep(b)));
    all
}

/// Whether letters may stand at a point.
fn clear(p: Point, part: &Part, by: f64) -> bool {
    part.outline.signed_distance(p) < -by
        && part
            .openings
            .iter()
            .all(|opening| opening.signed_distance(p) > by)
        && part
            .bores
            .iter()
            .all(|bore| bore.centre.distance(p) > bore.diameter / 2.0 + by)
        && part.marks.iter().all(|line| line.path.nearest(p).distance > by)
}
