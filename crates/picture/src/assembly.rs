//! A centre as it stands: elevation with the ring on it, section through the crown, and one rib taken apart.

use crate::arch::ring;
use crate::canvas::Canvas;
use crate::dimension::{self, Dimension, Side};
use crate::page::{Lengths, MARGIN, PAGE, View};
use crate::pen::{CHAIN, EDGE, FINE, HIDDEN, STOCK, STRONG, SUNK, WOOD};
use crate::strip::{Entry, Strip};
use crate::wood;
use cintre_geometry::{Affine, Outline, Path, Piece, Point, Rect};
use cintre_lettering::Anchor;
use cintre_work::Part;

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

/// The clear space between views, of the elevation's width.
const APART: f64 = 0.12;
/// How far the pieces of a rib are drawn from each other, of how far apart their middles are.
const EXPLODED: f64 = 0.16;
/// And how far at most up and down, where a rib is low and its tie lies near the band.
const LIFTED: f64 = 0.4;
/// The widest that the views stand on the page, mm of paper.
const ACROSS: f64 = PAGE - 2.0 * MARGIN - 65.0;
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
    let rows = rows(drawing);
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
    let place = |world: Rect, top: f64| {
        View::fit(
            world,
            Rect::new(
                MARGIN + 20.0,
                top,
                MARGIN + 20.0 + world.width() * scale,
                top + world.height() * scale,
            ),
        )
    };
    let top = MARGIN + 10.0;
    let whole = Rect::new(front.x0, front.y0, section_at + drawing.wall, front.y1);
    let view = place(whole, top);
    let mut foot = view.rect(whole).y1 + dimension::room(&drawing.dimensions, Side::Below) + 12.0;
    let placed: Vec<(View, &(String, Vec<Part>))> = rows
        .iter()
        .map(|row| {
            let world = bounds(&row.1);
            let view = place(world, foot + 8.0);
            foot = view.rect(world).y1 + 10.0;
            (view, row)
        })
        .collect();
    let mut canvas = Canvas::new(PAGE, foot + strip.height() + MARGIN / 2.0);
    elevation(&mut canvas, drawing, &view);
    dimension::draw(&mut canvas, &drawing.dimensions, &view, view.rect(front));
    section(&mut canvas, drawing, &view, section_at);
    for (view, (heading, parts)) in &placed {
        let corner = view.rect(bounds(parts));
        canvas.text(
            heading,
            HEADING,
            Point::new(MARGIN, corner.y0 - 3.0),
            Anchor::Start,
        );
        for part in parts {
            wood::draw(&mut canvas, part, view);
        }
        for part in parts {
            wood::name(&mut canvas, part, &part.name, view);
        }
    }
    strip.draw(&mut canvas, foot, &view);
    canvas.finish()
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

fn elevation(canvas: &mut Canvas, drawing: &AssemblyDrawing<'_>, view: &View) {
    if let Some(extrados) = &drawing.extrados {
        let face: Vec<_> = ring(&drawing.soffit, extrados)
            .iter()
            .map(|o| view.outline(o))
            .collect();
        canvas.tint(&face, SUNK);
        canvas.edges(&face, EDGE);
    }
    let joints: Vec<_> = drawing.joints.iter().map(|p| view.path(p)).collect();
    canvas.lines(&joints, FINE);
    for half in &drawing.halves {
        let boards: Vec<_> = half.boards.iter().map(|o| view.outline(o)).collect();
        canvas.tint(&boards, WOOD);
        canvas.edges(&boards, FINE);
        for part in &half.layers[0] {
            wood::draw(canvas, part, view);
        }
        let on_faces: Vec<_> = half.layers[2].iter().map(|p| view.outline(&p.outline)).collect();
        canvas.edges(&on_faces, HIDDEN);
        let behind: Vec<_> = half.layers[1].iter().map(|p| view.outline(&p.outline)).collect();
        canvas.edges(&behind, HIDDEN);
        for (x0, x1) in feet(half) {
            wedge_pair(canvas, view, half, (x0, x1));
        }
    }
    canvas.lines([&view.path(&drawing.soffit)], STRONG);
    let (x, box_) = (
        view.point(Point::new(centre(drawing), 0.0)).x,
        view.rect(front(drawing)),
    );
    canvas.line(
        Point::new(x, box_.y0 - PAST),
        Point::new(x, box_.y1 + PAST),
        CHAIN,
    );
}

fn centre(drawing: &AssemblyDrawing<'_>) -> f64 {
    drawing.soffit.bounds().center().x
}

/// Where wedges stand under a level bottom: near both ends. The lower half of a closed arch has none of its own.
fn feet(half: &CentreDrawing) -> Vec<(f64, f64)> {
    if half.back.bounds().center().y < half.level {
        return Vec::new();
    }
    let rib = bounds(half.layers.iter().flatten());
    let wide = (rib.width() / 8.0).min(150.0);
    vec![
        (rib.x0 + wide / 4.0, rib.x0 + 1.25 * wide),
        (rib.x1 - 1.25 * wide, rib.x1 - wide / 4.0),
    ]
}

fn wedge_pair(canvas: &mut Canvas, view: &View, half: &CentreDrawing, (x0, x1): (f64, f64)) {
    let pair = view.rect(Rect::new(x0, half.level - half.wedges, x1, half.level));
    let outline = Outline::rectangle(pair);
    canvas.tint([&outline], WOOD);
    canvas.edges([&outline], EDGE);
    canvas.line(Point::new(pair.x0, pair.y1), Point::new(pair.x1, pair.y0), FINE);
}

/// Cut through on the centre line, the wall's near face to the left.
fn section(canvas: &mut Canvas, drawing: &AssemblyDrawing<'_>, view: &View, at: f64) {
    let slab = |canvas: &mut Canvas, (u0, u1): (f64, f64), (y0, y1): (f64, f64), tint: &'static str| {
        let outline = Outline::rectangle(view.rect(Rect::new(at + u0, y0, at + u1, y1)));
        canvas.tint([&outline], tint);
        canvas.edges([&outline], EDGE);
    };
    let soffit = drawing.soffit.bounds();
    let closed = drawing.soffit.start().distance(drawing.soffit.end()) < 1e-6;
    if let Some(back) = drawing.extrados.as_ref().map(Path::bounds) {
        slab(canvas, (0.0, drawing.wall), (soffit.y1, back.y1), SUNK);
        if closed {
            slab(canvas, (0.0, drawing.wall), (back.y0, soffit.y0), SUNK);
        }
    }
    let boards = (drawing.inside_faces, drawing.wall - drawing.inside_faces);
    for half in &drawing.halves {
        let crown = half.back.bounds();
        let upright = crown.center().y > half.level;
        let edge = if upright { crown.y1 } else { crown.y0 };
        let out = if upright {
            edge + half.lagging
        } else {
            edge - half.lagging
        };
        slab(canvas, boards, (edge.min(out), edge.max(out)), WOOD);
        for &rib in &half.ribs {
            slab(canvas, rib, (edge.min(half.level), edge.max(half.level)), STOCK);
            for cut in cut_wood(half, centre(drawing)) {
                slab(canvas, rib, cut, WOOD);
            }
            if upright {
                slab(canvas, rib, (half.level - half.wedges, half.level), WOOD);
            }
        }
    }
    let top = view
        .rect(Rect::new(at, soffit.y1, at + drawing.wall, soffit.y1))
        .y0;
    let crown = drawing
        .extrados
        .as_ref()
        .map_or(top, |back| view.point(Point::new(at, back.bounds().y1)).y);
    let middle = view.point(Point::new(at + drawing.wall / 2.0, 0.0)).x;
    canvas.text(
        "section",
        HEADING,
        Point::new(middle, crown - 3.0),
        Anchor::Middle,
    );
    let low = front(drawing).y0;
    let width = Dimension {
        from: Point::new(at, low),
        to: Point::new(at + drawing.wall, low),
        side: Side::Below,
        text: format!("wall {}", drawing.lengths.write(drawing.wall)),
    };
    dimension::draw(canvas, &[width], view, view.rect(front(drawing)));
}

/// From where to where a plumb line beside the middle goes through a rib's wood.
fn cut_wood(half: &CentreDrawing, centre: f64) -> Vec<(f64, f64)> {
    let whole = bounds(half.layers[0].iter());
    // Beside a joint on the middle.
    let x = centre + whole.width() * 0.003;
    let mut heights: Vec<f64> = Vec::new();
    for part in &half.layers[0] {
        for outline in std::iter::once(&part.outline).chain(&part.openings) {
            let line = Piece::line(Point::new(x, whole.y0 - 1.0), Point::new(x, whole.y1 + 1.0));
            heights.extend(
                outline
                    .pieces()
                    .flat_map(|piece| piece.meetings(&line, 1e-6))
                    .map(|p| p.y),
            );
        }
    }
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|b, a| (*b - *a).abs() < 1e-6);
    let inside = |y: f64| {
        let p = Point::new(x, y);
        half.layers[0]
            .iter()
            .any(|part| part.outline.contains(p) && !part.openings.iter().any(|o| o.contains(p)))
    };
    let spans = heights.windows(2).map(|pair| (pair[0], pair[1]));
    spans
        .filter(|&(low, high)| inside(f64::midpoint(low, high)))
        .collect()
}

/// One rib taken apart, layer by layer, the pieces moved away from its middle.
fn rows(drawing: &AssemblyDrawing<'_>) -> Vec<(String, Vec<Part>)> {
    let mut rows = Vec::new();
    for (half, which) in drawing.halves.iter().zip(["", "lower half, "]) {
        let which = if drawing.halves.len() == 2 && which.is_empty() {
            "upper half, "
        } else {
            which
        };
        let whole = bounds(half.layers.iter().flatten());
        let middle = whole.center();
        let up = (LIFTED * (LIFTED * whole.width() / whole.height()).min(1.0)).max(EXPLODED);
        let headings = if half.layers[1].is_empty() {
            ["one rib", "", "on its faces"]
        } else {
            [
                "one rib, layer A, the near one",
                "layer B, behind it",
                "on its faces",
            ]
        };
        for (layer, heading) in half.layers.iter().zip(headings) {
            if !layer.is_empty() {
                let moved = layer.iter().map(|part| {
                    let away = part.outline.bounds().center() - middle;
                    part.transformed(Affine::translate((away.x * EXPLODED, away.y * up)))
                });
                rows.push((format!("{which}{heading}"), moved.collect()));
            }
        }
    }
    rows
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::assembly_drawing;

    #[test]
    fn the_section_shows_wood_where_the_middle_of_a_rib_has_some() {
        let mut drawing = assembly_drawing();
        let half = &mut drawing.halves[0];
        let whole = cut_wood(half, 0.0);
        assert_eq!(whole.len(), 1, "{whole:?}");
        assert!(
            (whole[0].0 + 100.0).abs() < 1e-9 && (whole[0].1 - 242.0).abs() < 0.1,
            "{whole:?}"
        );
        // An opening through both pieces.
        for part in &mut half.layers[0] {
            part.openings
                .push(Outline::rectangle(Rect::new(-50.0, 0.0, 50.0, 80.0)).reversed());
        }
        let open = cut_wood(half, 0.0);
        assert_eq!(open.len(), 2, "{open:?}");
        assert!(
            (open[0].1 - 0.0).abs() < 1e-9 && (open[1].0 - 80.0).abs() < 1e-9,
            "{open:?}"
        );
    }

    #[test]
    fn the_pieces_of_a_rib_are_drawn_apart() {
        let rows = rows(&assembly_drawing());
        let headings: Vec<_> = rows.iter().map(|(heading, _)| heading.as_str()).collect();
        assert_eq!(
            headings,
            [
                "one rib, layer A, the near one",
                "layer B, behind it",
                "on its faces"
            ]
        );
        let [left, right] = &rows[0].1[..] else {
            panic!("two pieces in the near layer")
        };
        assert!(right.outline.bounds().x0 - left.outline.bounds().x1 > 50.0);
    }
}
