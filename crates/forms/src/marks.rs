//! The lines and letters scribed on a form.

use crate::Error;
use crate::line::{Crossing, at_level, at_plumb, heights_at};
use cintre_geometry::{Outline, Path, Point, Rect, Vec2};
use cintre_lettering::{Anchor, spell, strokes, width};
use cintre_work::{Mark, MarkKind};

/// A mark begins this far inside an edge, mm, so that no scribing bit breaks it out.
const INSET: f64 = 2.0;

/// And ends this far inside it, mm: nearer than any bolt hole comes.
const REACH: f64 = 20.0;

/// A short working line from a point of an edge inwards, at most over half of the `room` mm of wood there.
pub(crate) fn from_edge(edge: Point, inwards: Vec2, room: f64) -> Mark {
    let reach = REACH.min(room / 2.0);
    let ends = [edge + inwards * INSET.min(reach / 4.0), edge + inwards * reach];
    Mark {
        path: Path::polyline(&ends),
        kind: MarkKind::Line,
    }
}

/// The centre line, marked at the lower and at the upper edge of what stands between `under` and `over`, at `x`.
pub(crate) fn centre_line(x: f64, under: f64, over: &Path) -> Vec<Mark> {
    let Some(top) = heights_at(over, x).into_iter().max_by(f64::total_cmp) else {
        return Vec::new();
    };
    vec![
        from_edge(Point::new(x, under), Vec2::new(0.0, 1.0), top - under),
        from_edge(Point::new(x, top), Vec2::new(0.0, -1.0), top - under),
    ]
}

/// Crossings nearer than this are one, mm.
const SAME: f64 = 1e-6;

/// A short line inwards from each place where a straight one that runs `along` crosses the edges, if it is `wanted`.
pub(crate) fn into_wood(mut crossings: Vec<Point>, along: Vec2, wanted: impl Fn(Point) -> bool) -> Vec<Mark> {
    crossings.sort_by(|a, b| a.to_vec2().dot(along).total_cmp(&b.to_vec2().dot(along)));
    // Where a closed edge begins it is crossed twice.
    crossings.dedup_by(|a, b| a.distance(*b) < SAME);
    crossings
        .chunks_exact(2)
        .flat_map(|pair| {
            let room = pair[0].distance(pair[1]);
            [(pair[0], along, room), (pair[1], -along, room)]
        })
        .filter(|(edge, _, _)| wanted(*edge))
        .map(|(edge, inwards, room)| from_edge(edge, inwards, room))
        .collect()
}

/// Short lines inwards from an edge, on the level and on the plumb line through a point.
pub(crate) fn cross(outline: &Outline, at: Point) -> Vec<Mark> {
    let edge = outline.opened_at(0, 0.0);
    let points = |crossings: Vec<Crossing>| crossings.into_iter().map(|c| c.point).collect();
    let mut lines = into_wood(points(at_level(&edge, at.y)), Vec2::new(1.0, 0.0), |_| true);
    lines.extend(into_wood(
        points(at_plumb(&edge, at.x)),
        Vec2::new(0.0, 1.0),
        |_| true,
    ));
    lines
}

/// The heights of lettering that are tried, mm: the largest that has room is taken.
const HEIGHTS: [f64; 7] = [15.0, 12.0, 10.0, 8.0, 6.0, 5.0, 4.0];

/// How far letters hang below the line at most, in heights.
const TAIL: f64 = 0.4;

/// The heights of lettering on a model, mm: a beam's line is a sixth of a millimetre wide, and smaller letters close up.
const SMALL_HEIGHTS: [f64; 7] = [5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.2];

/// The room about lettering is tried at points no farther apart than this or the letters' height, mm.
const TRIAL: f64 = 3.0;

/// What stands in for a name that has no room.
pub(crate) const NO_ROOM: &str = "its name finds no room on it: write it on by hand";

/// From the foot of one line of lettering to that of the next, in heights.
const LINE: f64 = 1.7;

/// `text` in letters as large as has room; none where even the smallest has not.
///
/// `middles` gives the places for the middle of the letters, by their width and height; every point about them must be `clear`.
pub(crate) fn name(
    text: &str,
    middles: impl Fn(f64, f64) -> Vec<Point>,
    clear: impl Fn(Point) -> bool,
) -> Result<Option<Vec<Mark>>, Error> {
    letters(&[text.to_owned()], &HEIGHTS, middles, clear)
}

/// The same in the small letters of a model.
pub(crate) fn small_name(
    text: &str,
    middles: impl Fn(f64, f64) -> Vec<Point>,
    clear: impl Fn(Point) -> bool,
) -> Result<Option<Vec<Mark>>, Error> {
    letters(&[text.to_owned()], &SMALL_HEIGHTS, middles, clear)
}

/// Lines of lettering one under another, as large as has room; none where even the smallest has not. See [`name`].
pub(crate) fn lines(
    texts: &[String],
    middles: impl Fn(f64, f64) -> Vec<Point>,
    clear: impl Fn(Point) -> bool,
) -> Result<Option<Vec<Mark>>, Error> {
    letters(texts, &HEIGHTS, middles, clear)
}

fn letters(
    texts: &[String],
    heights: &[f64],
    middles: impl Fn(f64, f64) -> Vec<Point>,
    clear: impl Fn(Point) -> bool,
) -> Result<Option<Vec<Mark>>, Error> {
    let texts: Vec<String> = texts.iter().map(|text| spell(text)).collect();
    for &height in heights {
        let widths = texts.iter().map(|text| width(text, height));
        let wide = widths
            .collect::<Result<Vec<_>, _>>()?
            .into_iter()
            .fold(0.0, f64::max);
        let feet = || std::iter::successors(Some(0.0), |down| Some(down + LINE * height));
        let high = height + feet().nth(texts.len() - 1).unwrap_or(0.0);
        for middle in middles(wide, high) {
            let top = Point::new(middle.x, middle.y + high / 2.0 - height);
            let room = Rect::new(
                top.x - wide / 2.0,
                middle.y - high / 2.0 - height * TAIL,
                top.x + wide / 2.0,
                middle.y + high / 2.0,
            );
            let trial = TRIAL.min(height);
            if border(room, trial).chain(within(room, trial)).all(&clear) {
                let mark = |path| Mark {
                    path,
                    kind: MarkKind::Text,
                };
                let each = texts.iter().zip(feet()).map(|(text, down)| {
                    strokes(text, height, Point::new(top.x, top.y - down), Anchor::Middle)
                });
                let all: Result<Vec<Vec<Path>>, _> = each.collect();
                return Ok(Some(all?.into_iter().flatten().map(mark).collect()));
            }
        }
    }
    Ok(None)
}

/// Points all over a box, `trial` apart: a hole may lie in the midst of it.
fn within(room: Rect, trial: f64) -> impl Iterator<Item = Point> {
    let steps = move |length: f64, from: f64| {
        std::iter::successors(Some(from), move |at| Some(at + trial)).take_while(move |at| at - from < length)
    };
    steps(room.height(), room.y0)
        .flat_map(move |y| steps(room.width(), room.x0).map(move |x| Point::new(x, y)))
}

/// Points along the border of a box, from corner to corner, no farther than `trial` apart.
fn border(room: Rect, trial: f64) -> impl Iterator<Item = Point> {
    let corners = [
        Point::new(room.x0, room.y0),
        Point::new(room.x1, room.y0),
        Point::new(room.x1, room.y1),
        Point::new(room.x0, room.y1),
    ];
    (0..4).flat_map(move |i| {
        let (from, to) = (corners[i], corners[(i + 1) % 4]);
        let steps = (from.distance(to) / trial).ceil().max(1.0);
        std::iter::successors(Some(0.0), |n| Some(n + 1.0))
            .take_while(move |&n| n < steps)
            .map(move |n| from.lerp(to, n / steps))
    })
}
