//! An arch with its ring, its centres and its sizes.

use crate::canvas::{ARM, Canvas, Label};
use crate::centre::{Centre, draw_centre, radius_line};
use crate::dimension::{self, Dimension, Side};
use crate::page::{Lengths, MARGIN, PAGE, View};
use crate::pen::{BLUE, CHAIN, EDGE, FINE, POINT, RADIUS, STRONG, WOOD};
use crate::strip::{Entry, Strip};
use cintre_geometry::{Outline, Path, Point, Rect, Vec2};

pub use black::{ArchInBlack, arch_in_black};

mod black;

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
    /// Points that were taken on site, and how far each stands off the soffit.
    pub points: Vec<Taken>,
    /// Plain sentences for the title strip.
    pub notes: Vec<String>,
    /// How lengths are written.
    pub lengths: Lengths<'a>,
}

/// A point that was taken on site.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// Where it is.
    pub at: Point,
    /// What stands beside it: `3: +2.5`.
    pub text: String,
}

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
        self.keep_labels_off(canvas, drawing);
        let middle = lines_box(drawing).center();
        for taken in &drawing.points {
            draw_taken(canvas, taken, &self.view, middle);
        }
        for centre in &drawing.centres {
            draw_centre(canvas, &drawing.soffit, centre, &self.view, self.around);
        }
    }
}

impl Setting {
    /// The lines that figures of centres stay clear of: the centre line, and every radius line.
    fn keep_labels_off(&self, canvas: &mut Canvas, drawing: &ArchDrawing<'_>) {
        let on_page = self.view.rect(self.world);
        if let Some(x) = drawing.axis {
            let x = self.view.point(Point::new(x, 0.0)).x;
            canvas.claim_line(Point::new(x, on_page.y0), Point::new(x, on_page.y1));
        }
        for centre in &drawing.centres {
            if let Some((from, to)) = radius_line(&drawing.soffit, centre, &self.view, self.around) {
                canvas.claim_line(from, to);
            }
        }
    }
}

/// A cross on the point, and its text outside the arch, away from its middle.
fn draw_taken(canvas: &mut Canvas, taken: &Taken, view: &View, middle: Point) {
    /// The letters' height, mm of paper.
    const LETTERS: f64 = 2.6;
    let at = view.point(taken.at);
    canvas.cross(at, POINT);
    canvas.claim(Rect::from_center_size(at, (2.0 * ARM, 2.0 * ARM)));
    let label = Label::new(&taken.text, LETTERS).coloured(BLUE);
    let out = at - view.point(middle);
    let out = out / out.hypot().max(1e-9);
    let (wide, high) = label.size();
    let off = (wide / 2.0) * out.x.abs() + (high / 2.0) * out.y.abs();
    // A step farther where the places before are taken, aside of it, and inside at last.
    let aside = Vec2::new(-out.y, out.x) * (wide.max(high) / 2.0 + ARM);
    let places = [3.5, 6.0, 9.0, 12.0, -4.0, -7.0, -10.0]
        .into_iter()
        .flat_map(|more: f64| {
            let away = at + out * (more + off * more.signum());
            [away, away + aside, away - aside]
        });
    canvas.place(&label, places);
}

fn lines_box(drawing: &ArchDrawing<'_>) -> Rect {
    let rest = drawing.extrados.iter().chain(&drawing.joints);
    let lines = rest.fold(drawing.soffit.bounds(), |b, p| b.union(p.bounds()));
    drawing.points.iter().fold(lines, |b, taken| b.union_pt(taken.at))
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
pub(crate) fn ring(soffit: &Path, extrados: &Path) -> Vec<Outline> {
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
    if !drawing.points.is_empty() {
        legend.push(Entry::cross(POINT, "point taken, mm outside (+)"));
    }
    if !drawing.centres.is_empty() {
        legend.push(Entry::line(RADIUS, "radius to its centre"));
    }
    legend
}

#[cfg(test)]
mod tests;
