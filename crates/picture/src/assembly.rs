//! A centre as it stands: elevation with the ring on it, section through the crown, and one rib taken apart.

use crate::canvas::{Canvas, text_width};
use crate::dimension::{self, Dimension, Side};
use crate::page::{Lengths, MARGIN, PAGE, View};
use crate::pen::{CHAIN, EDGE, FINE, HIDDEN, STRONG, SUNK, WOOD};
use crate::strip::{Entry, Strip};
use crate::wood;
use cintre_geometry::{Outline, Path, Point, Rect};
use cintre_lettering::Anchor;
use cintre_work::Part;
use elevation::elevation;
use section::section;

mod apart;
mod elevation;
mod section;

/// What is drawn of a centre. Everything stands in the arch's frame.
#[derive(Clone, Debug)]
pub struct AssemblyDrawing<'a> {
    /// The job's title.
    pub title: &'a str,
    /// The form's name: `gate: centering`.
    pub name: &'a str,
    /// The soffit, from the left springing to the right; a closed one begins where it ends.
    pub soffit: Path,
    /// The back of the ring, run the same way.
    pub extrados: Option<Path>,
    /// The joints of the voussoirs.
    pub joints: Vec<Path>,
    /// The centre, or its two halves.
    pub halves: Vec<CentreDrawing>,
    /// The wall's depth, mm.
    pub wall: f64,
    /// How far inside its faces the boards end, mm.
    pub inside_faces: f64,
    /// Sizes shown about the elevation.
    pub dimensions: Vec<Dimension>,
    /// Plain sentences for the title strip.
    pub notes: &'a [String],
    /// How lengths are written.
    pub lengths: Lengths<'a>,
}

/// A centre, or one half of one.
#[derive(Clone, Debug)]
pub struct CentreDrawing {
    /// One rib's members with their names as they are read, by layer: the near one, the far one, what lies on its faces.
    pub layers: [Vec<Part>; 3],
    /// The ends of the boards.
    pub boards: Vec<Outline>,
    /// The back of the ribs.
    pub back: Path,
    /// Boards and skin together, mm.
    pub lagging: f64,
    /// From where to where each rib stands across the wall, mm from its near face.
    pub ribs: Vec<(f64, f64)>,
    /// The height of the ribs' level edge.
    pub level: f64,
    /// The height of the pairs of wedges at it, mm.
    pub wedges: f64,
}

/// A layer of a rib taken apart: what it is called, and its pieces.
type Row = (String, Vec<Part>);

/// The clear space between views, of the elevation's width.
const APART: f64 = 0.12;
/// The widest that the views stand on the page, mm of paper.
const ACROSS: f64 = PAGE - 2.0 * MARGIN - 65.0;
/// The left end of the views, mm of paper.
const LEFT: f64 = MARGIN + 20.0;
/// Between two rows side by side, mm of paper.
const BESIDE: f64 = 24.0;
/// What a row of the page is called, and how high its letters are.
const HEADING: f64 = 3.4;
/// How far the centre line runs past the drawing, mm of paper.
const PAST: f64 = 4.0;

/// The picture of a centre.
///
/// # Panics
/// If a coordinate is not finite.
pub fn assembly(drawing: &AssemblyDrawing<'_>) -> String {
    let front = front(drawing);
    let gap = front.width() * APART;
    let section_at = front.x1 + gap;
    let rows = apart::rows(drawing);
    let widest = rows
        .iter()
        .map(|(_, parts)| bounds(parts).width())
        .fold(section_at + drawing.wall - front.x0, f64::max);
    let scale = ACROSS / widest;
    let strip = Strip::new(
        drawing.title,
        drawing.name,
        drawing.notes,
        legend(drawing),
        drawing.lengths,
    );
    let whole = Rect::new(front.x0, front.y0, section_at + drawing.wall, front.y1);
    let view = place(whole, scale, Point::new(LEFT, MARGIN + 10.0));
    let under = view.rect(whole).y1 + PAST + dimension::room(&drawing.dimensions, Side::Below) + 12.0;
    let (placed, foot) = placed(&rows, scale, under);
    let mut canvas = Canvas::new(PAGE, foot + strip.height() + MARGIN / 2.0);
    elevation(&mut canvas, drawing, &view);
    dimension::draw(&mut canvas, &drawing.dimensions, &view, around(drawing, &view));
    section(&mut canvas, drawing, &view, section_at);
    for (view, row) in &placed {
        draw_row(&mut canvas, row, view);
    }
    strip.draw(&mut canvas, foot, &view);
    canvas.finish()
}

/// A part of the world drawn to a scale, its upper left corner at a place of the page.
fn place(world: Rect, scale: f64, at: Point) -> View {
    let size = (world.width() * scale, world.height() * scale);
    View::fit(world, Rect::from_origin_size(at, size))
}

/// The rows of a rib under `top`, one beside the row before where there is room; and the foot of them all.
fn placed(rows: &[Row], scale: f64, top: f64) -> (Vec<(View, &Row)>, f64) {
    let mut foot = top;
    let mut placed: Vec<(View, &Row)> = Vec::new();
    for row in rows {
        let world = bounds(&row.1);
        let before = placed.last().map(|(view, row)| view.rect(bounds(&row.1)));
        let beside = before.filter(|before| {
            let wide = (world.width() * scale).max(text_width(&row.0, HEADING));
            before.x1 + BESIDE + wide <= PAGE - MARGIN && world.height() * scale <= before.height()
        });
        let at = beside.map_or_else(
            || Point::new(LEFT, foot + 8.0),
            |before| Point::new(before.x1 + BESIDE, before.y0),
        );
        let view = place(world, scale, at);
        foot = foot.max(view.rect(world).y1 + 10.0);
        placed.push((view, row));
    }
    (placed, foot)
}

fn draw_row(canvas: &mut Canvas, (heading, parts): &Row, view: &View) {
    let corner = view.rect(bounds(parts));
    // The heading of a row that begins the line begins at the margin.
    let left = if corner.x0 > LEFT + 1.0 { corner.x0 } else { MARGIN };
    canvas.text(heading, HEADING, Point::new(left, corner.y0 - 3.0), Anchor::Start);
    for part in parts {
        wood::draw(canvas, part, view);
    }
    for part in parts {
        wood::name(canvas, part, &part.name, view);
    }
}

/// The box of the elevation on the page with its centre line: dimensions stand outside it.
fn around(drawing: &AssemblyDrawing<'_>, view: &View) -> Rect {
    view.rect(front(drawing)).inflate(0.0, PAST)
}

/// The box of the elevation.
fn front(drawing: &AssemblyDrawing<'_>) -> Rect {
    let mut front = drawing.soffit.bounds();
    for path in drawing.extrados.iter().chain(&drawing.joints) {
        front = front.union(path.bounds());
    }
    for half in &drawing.halves {
        front = front.union(bounds(half.layers.iter().flatten()));
        let away = if half.back.bounds().center().y > half.level {
            -half.wedges
        } else {
            0.0
        };
        front = front.union_pt(Point::new(front.x0, half.level + away));
    }
    front
}

fn bounds<'p>(parts: impl IntoIterator<Item = &'p Part>) -> Rect {
    parts
        .into_iter()
        .map(|part| part.outline.bounds())
        .reduce(|a, b| a.union(b))
        .unwrap_or_default()
}

fn legend(drawing: &AssemblyDrawing<'_>) -> Vec<Entry> {
    let mut legend = vec![
        Entry::line(STRONG, "soffit"),
        Entry::tint(WOOD, "wood of the centre"),
    ];
    if drawing.extrados.is_some() {
        legend.push(Entry::tint(SUNK, "ring"));
    }
    legend.push(Entry::line(EDGE, "edges, bores"));
    legend.push(Entry::line(FINE, "joints, boards, marks"));
    let any = |row: usize| drawing.halves.iter().any(|half| !half.layers[row].is_empty());
    if any(1) || any(2) {
        legend.push(Entry::line(HIDDEN, "behind, and on the faces"));
    }
    legend.push(Entry::line(CHAIN, "centre line"));
    legend
}
