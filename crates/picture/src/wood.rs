//! Parts as they lie on the page, with their names.

use crate::canvas::{Canvas, Label};
use crate::page::View;
use crate::pen::{EDGE, FINE, HIDDEN, SUNK, WOOD};
use crate::strip::Entry;
use cintre_geometry::{Circle, Outline, Path, Point, Rect};
use cintre_work::{Depth, MarkKind, Part};

/// Heights of a part's name on the page, the first that fits.
const NAMES: [f64; 4] = [4.0, 3.3, 2.7, 2.2];
/// How finely places for a name are looked for: this many steps each way.
const STEPS: u32 = 24;
/// Strokes of lettering no farther apart than this belong to one line, mm of paper.
const WORDS_APART: f64 = 3.0;
/// The clear space between a name and an edge, mm of paper.
const CLEAR: f64 = 1.1;
/// More clear space than this is no better, mm of paper: then the middle of the part is.
const ENOUGH: f64 = 2.5;
/// What a mm away from the middle of the part costs, in mm of clear space.
const ASIDE: f64 = 0.02;

/// Draws a part's tints and lines.
pub(crate) fn draw(canvas: &mut Canvas, part: &Part, view: &View) {
    let edge = view.outline(&part.outline);
    let openings: Vec<_> = part.openings.iter().map(|o| view.outline(o)).collect();
    let bores: Vec<_> = part
        .bores
        .iter()
        .map(|b| (b, circle(b.centre, b.diameter, view)))
        .collect();
    let through = bores
        .iter()
        .filter(|(b, _)| b.depth == Depth::Through)
        .map(|(_, c)| c);
    canvas.tint(std::iter::once(&edge).chain(&openings).chain(through), WOOD);
    for recess in &part.recesses {
        let islands: Vec<_> = recess.islands.iter().map(|o| view.outline(o)).collect();
        let outline = view.outline(&recess.outline);
        canvas.tint(std::iter::once(&outline).chain(&islands), SUNK);
        canvas.edges(std::iter::once(&outline).chain(&islands), HIDDEN);
    }
    let marks: Vec<_> = part.marks.iter().map(|m| view.path(&m.path)).collect();
    canvas.lines(&marks, FINE);
    let letters = part.marks.iter().zip(&marks);
    let strokes = letters.filter(|(mark, _)| mark.kind == MarkKind::Text);
    for line in lines_of(strokes.map(|(_, stroke)| stroke.bounds())) {
        canvas.claim(line);
    }
    canvas.edges(openings.iter().chain(bores.iter().map(|(_, c)| c)), EDGE);
    canvas.edges([&edge], EDGE);
}

/// The boxes of lettering: strokes one after the other that lie near belong to one line of it.
fn lines_of(strokes: impl Iterator<Item = Rect>) -> Vec<Rect> {
    let mut lines: Vec<Rect> = Vec::new();
    for stroke in strokes {
        match lines.last_mut() {
            Some(line) if line.inflate(WORDS_APART, WORDS_APART).overlaps(stroke) => {
                *line = line.union(stroke);
            }
            _ => lines.push(stroke),
        }
    }
    lines
}

fn circle(centre: Point, diameter: f64, view: &View) -> Outline {
    view.circle(Circle {
        centre,
        radius: diameter / 2.0,
    })
}

/// A name this many times as long as its part is left out: it would lie over what stands beside it.
const TOO_LONG: f64 = 2.0;

/// Sets a part's name where it fits best inside the part, level or upright; as a last resort near its middle, unless the part is far
/// too small for it.
pub(crate) fn name(canvas: &mut Canvas, part: &Part, text: &str, view: &View) {
    if name_inside(canvas, part, text, view) {
        return;
    }
    let edges = Edges::of(part, view);
    let (label, bounds) = (edges.smallest(text), edges.outline.bounds());
    let (wide, high) = label.size();
    if wide.max(high) <= TOO_LONG * bounds.width().max(bounds.height()) {
        canvas.place(&label, edges.near_the_middle());
    }
}

/// Sets a part's name inside the part, clear of its lines, or where it must be over them; whether there was room.
fn name_inside(canvas: &mut Canvas, part: &Part, text: &str, view: &View) -> bool {
    let edges = Edges::of(part, view);
    let bounds = edges.outline.bounds();
    let fits = |label: &Label<'_>| {
        let (wide, high) = label.size();
        wide <= bounds.width() && high <= bounds.height()
    };
    for height in NAMES {
        for upright in [false, true] {
            let label = Label::new(text, height).on(WOOD).turned(upright);
            if !fits(&label) {
                continue;
            }
            if let Some(place) = edges.best_place(canvas, &label) {
                canvas.label(&label, place);
                return true;
            }
        }
    }
    // Over its lines rather than over its edge.
    let label = edges.smallest(text);
    let within = edges
        .near_the_middle()
        .filter(|&place| edges.holds(label.bounds(place)));
    fits(&label) && canvas.place(&label, within)
}

/// The lines that a name keeps clear of, on the page.
struct Edges {
    outline: Outline,
    inner: Vec<(Rect, Outline)>,
    marks: Vec<(Rect, Path)>,
}

impl Edges {
    fn of(part: &Part, view: &View) -> Self {
        let openings = part.openings.iter().map(|o| view.outline(o));
        let recesses = part.recesses.iter().map(|r| view.outline(&r.outline));
        let bores = part.bores.iter().map(|b| circle(b.centre, b.diameter, view));
        let marks = part.marks.iter().map(|m| view.path(&m.path));
        Self {
            outline: view.outline(&part.outline),
            inner: openings
                .chain(recesses)
                .chain(bores)
                .map(|o| (o.bounds(), o))
                .collect(),
            marks: marks.map(|m| (m.bounds(), m)).collect(),
        }
    }

    /// The clearest place for a label, among those where it keeps clear of all edges.
    fn best_place(&self, canvas: &Canvas, label: &Label<'_>) -> Option<Point> {
        let mut best: Option<(f64, Point)> = None;
        let middle = self.outline.bounds().center();
        let (w, h) = label.size();
        let area = |place| Rect::from_center_size(place, (w, h));
        let least = w.min(h) / 2.0;
        for place in grid(self.outline.bounds()) {
            // The cheap questions first: a page has many parts, and a part many places.
            let aside = ASIDE * place.distance(middle);
            if best.is_some_and(|(most, _)| ENOUGH - aside <= most)
                || self.room_at(place) < CLEAR + least
                || !canvas.is_clear(area(place))
            {
                continue;
            }
            let Some(room) = self.room_round(area(place)) else {
                continue;
            };
            let worth = room.min(ENOUGH) - aside;
            if best.is_none_or(|(most, _)| worth > most + 1e-6) {
                best = Some((worth, place));
            }
        }
        best.map(|(_, place)| place)
    }

    /// The least room round the rim of a box, if it is enough.
    fn room_round(&self, area: Rect) -> Option<f64> {
        rim(area).try_fold(f64::INFINITY, |least, p| {
            let room = self.room_at(p);
            (room >= CLEAR).then(|| room.min(least))
        })
    }

    /// How far a point inside the wood is from the nearest edge; negative outside.
    fn room_at(&self, p: Point) -> f64 {
        let edge = -self.outline.signed_distance(p);
        if edge < CLEAR {
            return edge;
        }
        // What lies farther off than the nearest line so far by its box alone is not measured.
        let inner = self.inner.iter().fold(edge, |room, (bounds, o)| {
            if far(*bounds, p, room) {
                room
            } else {
                room.min(o.signed_distance(p))
            }
        });
        self.marks.iter().fold(inner, |room, (bounds, m)| {
            if far(*bounds, p, room) {
                room
            } else {
                room.min(m.nearest(p).distance)
            }
        })
    }

    /// The smallest label, as the part lies.
    fn smallest<'t>(&self, text: &'t str) -> Label<'t> {
        let bounds = self.outline.bounds();
        Label::new(text, NAMES[NAMES.len() - 1])
            .on(WOOD)
            .turned(bounds.height() > bounds.width())
    }

    /// Whether a box lies inside the part and in no opening of it.
    fn holds(&self, area: Rect) -> bool {
        let clear = |p: Point| {
            let openings = self.inner.iter();
            let mut holes = openings.filter(|(bounds, _)| bounds.overlaps(area));
            self.outline.contains(p) && holes.all(|(_, hole)| hole.signed_distance(p) > 0.0)
        };
        rim(area).all(clear)
    }

    fn near_the_middle(&self) -> impl Iterator<Item = Point> + use<> {
        let bounds = self.outline.bounds();
        let mut places: Vec<_> = grid(bounds).collect();
        let middle = bounds.center();
        places.sort_by(|a, b| a.distance(middle).total_cmp(&b.distance(middle)));
        places.into_iter()
    }
}

/// Whether a box is farther than `room` from a point.
fn far(bounds: Rect, p: Point, room: f64) -> bool {
    !bounds.inflate(room.max(0.0), room.max(0.0)).contains(p)
}

/// Points spread evenly over a box.
fn grid(bounds: Rect) -> impl Iterator<Item = Point> {
    (0..=STEPS).flat_map(move |i| {
        (0..=STEPS).map(move |j| {
            let (u, v) = (f64::from(i) / f64::from(STEPS), f64::from(j) / f64::from(STEPS));
            Point::new(bounds.x0 + u * bounds.width(), bounds.y0 + v * bounds.height())
        })
    })
}

/// Points round the rim of a box and along its middle, close enough that no line slips through between two of them.
fn rim(bounds: Rect) -> impl Iterator<Item = Point> {
    let steps = (bounds.width().max(bounds.height()) / CLEAR).ceil();
    let middle = bounds.center();
    std::iter::successors(Some(0.0), move |i| (*i < steps).then_some(i + 1.0)).flat_map(move |i: f64| {
        let u = i / steps;
        let (x, y) = (bounds.x0 + u * bounds.width(), bounds.y0 + u * bounds.height());
        [
            Point::new(x, bounds.y0),
            Point::new(x, middle.y),
            Point::new(x, bounds.y1),
            Point::new(bounds.x0, y),
            Point::new(middle.x, y),
            Point::new(bounds.x1, y),
        ]
    })
}

/// What the lines and tints of these parts mean.
pub(crate) fn legend<'p>(parts: impl Iterator<Item = &'p Part> + Clone) -> Vec<Entry> {
    let any = |has: fn(&Part) -> bool| parts.clone().any(has);
    let mut legend = vec![Entry::tint(WOOD, "part")];
    if any(|p| !p.recesses.is_empty()) {
        legend.push(Entry::line(HIDDEN, "recess"));
    }
    legend.push(Entry::line(EDGE, "edge, opening, bore"));
    if any(|p| !p.marks.is_empty()) {
        legend.push(Entry::line(FINE, "marked line"));
    }
    legend
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::rib;

    #[test]
    fn a_name_lies_across_no_line_of_its_part() {
        let part = rib();
        let view = View::fit(part.outline.bounds(), Rect::new(0.0, 0.0, 170.0, 200.0));
        let mut canvas = Canvas::new(200.0, 200.0);
        name(&mut canvas, &part, "gate rib, 4 off", &view);
        let area = canvas.labels()[0];
        for mark in &part.marks {
            let path = view.path(&mark.path);
            for piece in path.pieces() {
                let crossed = (0..=50).any(|i| area.contains(piece.point_at(f64::from(i) / 50.0)));
                assert!(!crossed, "{area:?} lies over {piece:?}");
            }
        }
        for bore in &part.bores {
            assert!(!area.contains(view.point(bore.centre)));
        }
    }
}
