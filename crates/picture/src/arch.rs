//! An arch with its ring, its centres and its sizes.

use crate::canvas::Canvas;
use crate::centre::{Centre, draw_centre};
use crate::dimension::{self, Dimension, Side};
use crate::page::{Lengths, MARGIN, PAGE, View};
use crate::pen::{CHAIN, EDGE, FINE, RADIUS, STRONG, WOOD};
use crate::strip::{Entry, Strip};
use cintre_geometry::{Affine, Outline, Path, Point, Rect};
use cintre_work::PageStroke;

/// What is drawn of an arch, in the arch's own frame.
#[derive(Clone, Debug)]
pub struct ArchDrawing<'a> {
    /// The job's title.
    pub title: String,
    /// The arch's name and kind: `gate: segmental arch`.
    pub name: String,
    /// The soffit line, from the left springing to the right; a closed arch's begins where it ends.
    pub soffit: Path,
    /// The outer edge of the ring, run the same way.
    pub extrados: Option<Path>,
    /// The ring's lower edge, run the same way, where a reveal parts it from the soffit.
    pub edge: Option<Path>,
    /// Joints of the voussoirs.
    pub joints: Vec<Path>,
    /// The centres that the soffit is struck from.
    pub centres: Vec<Centre>,
    /// The springing line, from end to end.
    pub springing: Option<(Point, Point)>,
    /// Where the plumb centre line stands, if the arch has one.
    pub axis: Option<f64>,
    /// Sizes shown round it, nearest to the drawing first.
    pub dimensions: Vec<Dimension>,
    /// Plain sentences for the title strip.
    pub notes: Vec<String>,
    /// How lengths are written.
    pub lengths: Lengths<'a>,
}

/// Round a drawing without a strip, for labels that stand over its lines, mm of paper.
const CLEAR: f64 = 4.0;
/// The hand that draws for a small page, of that which draws pictures.
const HAND: f64 = 0.8;
/// The page of a picture.
const PICTURE: Space = Space {
    width: PAGE,
    margin: MARGIN,
    tallest: 230.0,
    to_scale: None,
};
/// Paper taken beside the drawing by dimensions, as a rule, when it is asked how large centres let it be.
const BESIDE: f64 = 20.0;
/// Centres are drawn in their place as long as the lines stand at this share at least of their size without.
const SHRUNK: f64 = 0.7;
/// The room for the broken radius lines of centres that are not, mm of paper.
const BROKEN: f64 = 30.0;
/// How far chain lines run past the drawing.
const PAST: f64 = 7.0;

/// The picture of an arch.
///
/// # Panics
/// If a coordinate is not finite.
pub fn arch(drawing: &ArchDrawing<'_>) -> String {
    draw(drawing).finish()
}

/// An arch drawn in black, to a scale that a rule reads.
#[derive(Clone, Debug)]
pub struct ArchInBlack {
    /// Its lines, mm of paper from its lower left corner, y up.
    pub strokes: Vec<PageStroke>,
    /// How high it stands, mm of paper.
    pub height: f64,
    /// So many times as large it is in the building.
    pub one_to: f64,
}

/// The drawing of an arch without its title strip, `width` mm of paper wide and its lines at most `tallest` high, in black
/// alone and to a round scale.
///
/// # Panics
/// If a coordinate is not finite.
pub fn arch_in_black(drawing: &ArchDrawing<'_>, width: f64, tallest: f64) -> ArchInBlack {
    let space = Space {
        width: width / HAND,
        margin: CLEAR,
        tallest: tallest / HAND,
        to_scale: Some(HAND),
    };
    let setting = Setting::of(drawing, &space);
    let mut canvas = Canvas::new(space.width, setting.foot);
    setting.draw(&mut canvas, drawing);
    let mut strokes = canvas.in_black();
    // A figure longer than its line stands past the line's end, over the drawing or under it.
    let lines = strokes.iter().flat_map(|stroke| &stroke.lines);
    let bounds = lines
        .map(Path::bounds)
        .reduce(|a, b| a.union(b))
        .unwrap_or_default();
    let small = Affine::scale(HAND) * Affine::translate((0.0, -bounds.y0));
    for stroke in &mut strokes {
        stroke.weight *= HAND;
        stroke.dashes.iter_mut().for_each(|dash| *dash *= HAND);
        stroke
            .lines
            .iter_mut()
            .for_each(|line| *line = line.transformed(small));
    }
    ArchInBlack {
        strokes,
        height: bounds.height() * HAND,
        one_to: 1.0 / (setting.view.scale * HAND),
    }
}

fn draw(drawing: &ArchDrawing<'_>) -> Canvas {
    let strip = Strip::new(
        &drawing.title,
        &drawing.name,
        &drawing.notes,
        legend(drawing),
        drawing.lengths,
    );
    let setting = Setting::of(drawing, &PICTURE);
    let top = setting.foot + 8.0;
    let mut canvas = Canvas::new(PAGE, top + strip.height() + MARGIN / 2.0);
    setting.draw(&mut canvas, drawing);
    strip.draw(&mut canvas, top, &setting.view);
    canvas
}

/// The paper that an arch is drawn on, mm.
struct Space {
    width: f64,
    margin: f64,
    /// The tallest that the lines themselves stand.
    tallest: f64,
    /// What all is multiplied by in the end, where the scale must then be one that a rule reads.
    to_scale: Option<f64>,
}

/// An arch in its place on the paper.
struct Setting {
    world: Rect,
    view: View,
    /// The box that dimensions stand round.
    around: Rect,
    /// The lower end of all.
    foot: f64,
}

impl Setting {
    fn of(drawing: &ArchDrawing<'_>, paper: &Space) -> Self {
        let lines = lines_box(drawing);
        let world = with_near_centres(drawing, lines, paper);
        let broken = |away: &dyn Fn(Point) -> bool| {
            let any = drawing.centres.iter().any(|c| away(c.at));
            if any { BROKEN } else { 0.0 }
        };
        let (over, under) = (broken(&|c| c.y > world.y1), broken(&|c| c.y < world.y0));
        let room = |side| dimension::room(&drawing.dimensions, side);
        let top = paper.margin + PAST + room(Side::Above) + over;
        let space = Rect::new(
            paper.margin + PAST + room(Side::Left),
            top,
            paper.width - paper.margin - PAST - room(Side::Right),
            top + paper.tallest,
        );
        let view = match paper.to_scale {
            Some(hand) => View::to_scale(world, space, hand, drawing.lengths.unit),
            None => View::fit(world, space),
        };
        let mut around = view.rect(world).inflate(PAST, PAST);
        around.y0 -= over;
        around.y1 += under;
        let foot = around.y1 + room(Side::Below);
        Self {
            world,
            view,
            around,
            foot,
        }
    }

    fn draw(&self, canvas: &mut Canvas, drawing: &ArchDrawing<'_>) {
        draw_lines(canvas, drawing, &self.view, self.view.rect(self.world));
        dimension::draw(canvas, &drawing.dimensions, &self.view, self.around);
        for centre in &drawing.centres {
            draw_centre(canvas, &drawing.soffit, centre, &self.view, self.around);
        }
    }
}

fn lines_box(drawing: &ArchDrawing<'_>) -> Rect {
    let rest = drawing.extrados.iter().chain(&drawing.joints);
    rest.fold(drawing.soffit.bounds(), |b, p| b.union(p.bounds()))
}

/// The drawing's box with the centres that do not make it small.
fn with_near_centres(drawing: &ArchDrawing<'_>, lines: Rect, paper: &Space) -> Rect {
    let widest = paper.width - 2.0 * paper.margin - BESIDE;
    let size = |r: Rect| (widest / r.width()).min(paper.tallest / r.height());
    drawing.centres.iter().fold(lines, |world, centre| {
        let wider = world.union_pt(centre.at);
        if size(wider) >= SHRUNK * size(lines) {
            wider
        } else {
            world
        }
    })
}

fn draw_lines(canvas: &mut Canvas, drawing: &ArchDrawing<'_>, view: &View, on_page: Rect) {
    if let Some(extrados) = &drawing.extrados {
        let ring: Vec<_> = ring(drawing.edge.as_ref().unwrap_or(&drawing.soffit), extrados)
            .iter()
            .map(|o| view.outline(o))
            .collect();
        canvas.tint(&ring, WOOD);
        canvas.edges(&ring, EDGE);
    }
    if let Some((from, to)) = drawing.springing {
        let (from, to) = (view.point(from), view.point(to));
        let past = (to - from) / from.distance(to).max(1e-9) * PAST;
        canvas.line(from - past, to + past, CHAIN);
    }
    if let Some(x) = drawing.axis {
        let x = view.point(Point::new(x, 0.0)).x;
        canvas.line(
            Point::new(x, on_page.y0 - PAST),
            Point::new(x, on_page.y1 + PAST),
            CHAIN,
        );
    }
    let joints: Vec<_> = drawing.joints.iter().map(|p| view.path(p)).collect();
    canvas.lines(&joints, FINE);
    canvas.lines([&view.path(&drawing.soffit)], STRONG);
}

/// The face of the ring: one chain for an open arch, two for a closed one.
fn ring(soffit: &Path, extrados: &Path) -> Vec<Outline> {
    if soffit.start().distance(soffit.end()) < 1e-9 {
        vec![Outline::closing(soffit), Outline::closing(extrados)]
    } else {
        let back = extrados.reversed();
        vec![Outline::new([soffit.vertices(), back.vertices()].concat())]
    }
}

fn legend(drawing: &ArchDrawing<'_>) -> Vec<Entry> {
    let mut legend = vec![Entry::line(STRONG, "soffit")];
    if drawing.extrados.is_some() {
        legend.push(Entry::line(EDGE, "edges of the ring"));
    }
    if !drawing.joints.is_empty() {
        legend.push(Entry::line(FINE, "joints"));
    }
    if drawing.springing.is_some() || drawing.axis.is_some() {
        legend.push(Entry::line(CHAIN, "springing, centre line"));
    }
    if !drawing.centres.is_empty() {
        legend.push(Entry::line(RADIUS, "radius to its centre"));
    }
    legend
}

#[cfg(test)]
mod tests;
