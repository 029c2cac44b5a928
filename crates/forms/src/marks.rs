//! The lines and letters scribed on a form.

use crate::Error;
use crate::line::heights_at;
use cintre_geometry::{Path, Point, Rect, Vec2};
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

/// `text` in letters as large as has room; none where even the smallest has not.
///
/// `middles` gives the places for the middle of the letters, by their width and height; every point about them must be `clear`.
pub(crate) fn name(
    text: &str,
    middles: impl Fn(f64, f64) -> Vec<Point>,
    clear: impl Fn(Point) -> bool,
) -> Result<Option<Vec<Mark>>, Error> {
    letters(text, &HEIGHTS, middles, clear)
}

/// The same in the small letters of a model.
pub(crate) fn small_name(
    text: &str,
    middles: impl Fn(f64, f64) -> Vec<Point>,
    clear: impl Fn(Point) -> bool,
) -> Result<Option<Vec<Mark>>, Error> {
    letters(text, &SMALL_HEIGHTS, middles, clear)
}

fn letters(
    text: &str,
    heights: &[f64],
    middles: impl Fn(f64, f64) -> Vec<Point>,
    clear: impl Fn(Point) -> bool,
) -> Result<Option<Vec<Mark>>, Error> {
    let text = spell(text);
    for &height in heights {
        let wide = width(&text, height)?;
        for middle in middles(wide, height) {
            let foot = Point::new(middle.x, middle.y - height / 2.0);
            let room = Rect::new(
                foot.x - wide / 2.0,
                foot.y - height * TAIL,
                foot.x + wide / 2.0,
                foot.y + height,
            );
            if border(room, TRIAL.min(height)).all(&clear) {
                let letters = strokes(&text, height, foot, Anchor::Middle)?;
                let mark = |path| Mark {
                    path,
                    kind: MarkKind::Text,
                };
                return Ok(Some(letters.into_iter().map(mark).collect()));
            }
        }
    }
    Ok(None)
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
