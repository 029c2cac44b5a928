//! A sheet of stock with its parts and the bit's road.

use crate::canvas::Canvas;
use crate::dimension::{self, Dimension, Side};
use crate::fault::{self, Fault};
use crate::order::{draw_order, letter, pens};
use crate::page::{Lengths, MARGIN, PAGE, View};
use crate::pen::{EDGE, FAULT, KEPT_OUT, LEAD, RAMP, RAPID, STOCK, TAB, TRIM};
use crate::road::{Road, road};
use crate::strip::{Entry, Strip};
use crate::wood;
use cintre_geometry::{Outline, Path, Piece, Point, Rect, Vec2, parallel};
use cintre_lettering::Anchor;
use cintre_work::{Program, Sheet, Stock, StockGrain, Tab};

/// What is drawn of a sheet.
#[derive(Clone, Debug)]
pub struct SheetDrawing<'a> {
    /// The job's title.
    pub title: &'a str,
    /// The sheet with its parts.
    pub sheet: &'a Sheet,
    /// What each bit does on it; none where only a drawing is made.
    pub programs: &'a [Program],
    /// The tabs left at the foot of the cuts.
    pub tabs: &'a [Tab],
    /// The programs' zero, in the sheet's frame.
    pub zero: Option<Point>,
    /// Places on the sheet or under it on the bed that are kept free, in the sheet's frame.
    pub kept_out: &'a [Outline],
    /// What a proof finds wrong on it, marked at its place.
    pub faults: &'a [Fault],
    /// Plain sentences for the title strip.
    pub notes: &'a [String],
    /// How lengths are written.
    pub lengths: Lengths<'a>,
}

/// The tallest that the sheet itself stands on the page, mm of paper.
const TALLEST: f64 = 230.0;
/// The line over the sheet that says which way its grain runs, mm of paper.
const GRAIN: f64 = 9.0;
const FIGURES: f64 = 3.0;
/// The shortest that a tab is drawn.
const SHORTEST_TAB: f64 = 1.6;

/// The picture of a sheet.
///
/// Where a bit begins more than 30 cuts, every tenth is numbered, and the last; where there is no room for a number the
/// picture goes without it, so that it stays legible.
///
/// # Panics
/// If a coordinate is not finite.
pub fn sheet(drawing: &SheetDrawing<'_>) -> String {
    draw(drawing).finish()
}

fn draw(drawing: &SheetDrawing<'_>) -> Canvas {
    let (long, wide) = drawing.sheet.stock.size;
    let stock = Rect::new(0.0, 0.0, long, wide);
    let dimensions = sizes(drawing);
    let (left, below) = (
        dimension::room(&dimensions, Side::Left),
        dimension::room(&dimensions, Side::Below),
    );
    let top = MARGIN + GRAIN;
    let space = Rect::new(MARGIN + left, top, PAGE - MARGIN - 3.0, top + TALLEST);
    let view = View::fit(stock, space);
    let around = view.rect(stock);
    let road = |program| road(program, &drawing.sheet.parts);
    let roads: Vec<Road> = drawing.programs.iter().map(road).collect();
    let strip = Strip::new(
        drawing.title,
        &heading(drawing),
        &facts(drawing),
        legend(drawing, &roads),
        drawing.lengths,
    );
    let foot = around.y1 + below + 7.0;
    let mut canvas = Canvas::new(PAGE, foot + strip.height() + MARGIN / 2.0);
    draw_stock(&mut canvas, drawing, &view, around);
    draw_kept_out(&mut canvas, drawing.kept_out, &view);
    for placed in &drawing.sheet.parts {
        wood::draw(&mut canvas, &placed.part, &view);
    }
    draw_roads(&mut canvas, &roads, &view);
    draw_tabs(&mut canvas, drawing, &view);
    draw_zero(&mut canvas, drawing, &view);
    dimension::draw(&mut canvas, &dimensions, &view, around);
    for placed in &drawing.sheet.parts {
        wood::name(&mut canvas, &placed.part, &placed.name, &view);
    }
    draw_order(&mut canvas, &roads, &view);
    fault::draw(&mut canvas, drawing.faults, &view, around);
    strip.draw(&mut canvas, foot, &view);
    canvas
}

fn sizes(drawing: &SheetDrawing<'_>) -> Vec<Dimension> {
    let (long, wide) = drawing.sheet.stock.size;
    let size = |to: Point, side, length| Dimension {
        from: Point::ZERO,
        to,
        side,
        text: drawing.lengths.measured(length),
    };
    vec![
        size(Point::new(long, 0.0), Side::Below, long),
        size(Point::new(0.0, wide), Side::Left, wide),
    ]
}

fn draw_stock(canvas: &mut Canvas, drawing: &SheetDrawing<'_>, view: &View, around: Rect) {
    let stock = &drawing.sheet.stock;
    let edge = stock
        .outline
        .as_ref()
        .map_or_else(|| Outline::rectangle(around), |outline| view.outline(outline));
    canvas.tint([&edge], STOCK);
    canvas.edges([&edge], EDGE);
    canvas.edges(&trimmed(stock, view), TRIM);
    let foot = Point::new(around.x0, around.y0 - 3.0);
    let middle = Point::new(around.x0 + 10.0, foot.y - FIGURES / 2.0);
    let (along, text) = match stock.grain {
        StockGrain::Long => (Vec2::new(9.0, 0.0), "grain"),
        StockGrain::Short => (Vec2::new(0.0, 3.4), "grain"),
        StockGrain::None => return,
    };
    draw_grain(canvas, middle, along);
    canvas.text(
        text,
        FIGURES,
        foot + Vec2::new(13.0 + along.x, 0.0),
        Anchor::Start,
    );
}

/// The line along which a stock is trimmed; none where it is not, or so small that nothing would be left.
fn trimmed(stock: &Stock, view: &View) -> Vec<Outline> {
    if stock.trim.widest() <= 0.0 {
        return Vec::new();
    }
    let Some(outline) = &stock.outline else {
        return vec![view.outline(&Outline::rectangle(stock.usable()))];
    };
    // To the left of an edge that runs counter-clockwise is its inside.
    let inside = parallel(outline, -stock.trim.widest()).unwrap_or_default();
    inside.iter().map(|line| view.outline(line)).collect()
}

/// Crossed from corner to corner, so that nobody takes one for a part.
fn draw_kept_out(canvas: &mut Canvas, places: &[Outline], view: &View) {
    for place in places {
        let outline = view.outline(place);
        let area = outline.bounds();
        let corner = |x: f64, y: f64| Point::new(x, y);
        canvas.line(corner(area.x0, area.y0), corner(area.x1, area.y1), KEPT_OUT);
        canvas.line(corner(area.x0, area.y1), corner(area.x1, area.y0), KEPT_OUT);
        canvas.edges([&outline], KEPT_OUT);
        canvas.claim(area);
    }
}

/// A line with a half barb at each end.
fn draw_grain(canvas: &mut Canvas, middle: Point, along: Vec2) {
    let (a, b) = (middle - along, middle + along);
    let unit = along / along.hypot();
    let barb = unit * 2.6 + Vec2::new(-unit.y, unit.x) * 1.3;
    canvas.lines([&Path::polyline(&[a + barb, a, b, b - barb])], EDGE);
}

fn draw_roads(canvas: &mut Canvas, roads: &[Road], view: &View) {
    for (road, pen) in roads.iter().zip(pens(roads)) {
        canvas.lines(&chained(&road.rapids, view), RAPID);
        canvas.lines(&chained(&road.cuts, view), pen);
        canvas.lines(&chained(&road.ramps, view), RAMP);
        canvas.lines(&chained(&road.leads, view), LEAD);
        let dot = |p: &Point| Outline::circle(view.point(*p), 0.6);
        let dots: Vec<_> = road.starts.iter().map(dot).collect();
        canvas.tint(&dots, pen.colour);
    }
}

/// Pieces joined to chains where one begins at the end of the last, so that dashes run on.
fn chained(pieces: &[Piece], view: &View) -> Vec<Path> {
    let joined = |a: &Piece, b: &Piece| a.end.distance(b.start) < 1e-6;
    pieces
        .chunk_by(joined)
        .map(|run| Path::from_pieces(&run.iter().map(|p| view.piece(p)).collect::<Vec<_>>()))
        .collect()
}

/// A tab lies along the edge of its part.
fn draw_tabs(canvas: &mut Canvas, drawing: &SheetDrawing<'_>, view: &View) {
    for tab in drawing.tabs {
        let edges = drawing
            .sheet
            .parts
            .iter()
            .filter(|p| p.name == tab.part)
            .flat_map(|p| std::iter::once(&p.part.outline).chain(&p.part.openings));
        let along = edges
            .map(|edge| (edge.nearest(tab.at), edge))
            .min_by(|(a, _), (b, _)| a.distance.total_cmp(&b.distance))
            .and_then(|(near, edge)| {
                let piece = edge.pieces().nth(near.piece)?;
                Some(view.piece(&piece).tangent_at(near.fraction))
            })
            .unwrap_or(Vec2::new(1.0, 0.0));
        let half = along * (tab.width * view.scale).max(SHORTEST_TAB) / 2.0;
        let at = view.point(tab.at);
        canvas.line(at - half, at + half, TAB);
        canvas.claim(Rect::from_points(at - half, at + half).inflate(TAB.weight / 2.0, TAB.weight / 2.0));
    }
}

fn draw_zero(canvas: &mut Canvas, drawing: &SheetDrawing<'_>, view: &View) {
    if let Some(zero) = drawing.zero {
        let at = view.point(zero);
        canvas.zero_mark(at);
        canvas.claim(Rect::from_center_size(at, (5.0, 5.0)));
    }
}

fn heading(drawing: &SheetDrawing<'_>) -> String {
    let (sheet, stock) = (drawing.sheet, &drawing.sheet.stock);
    let length = |mm| drawing.lengths.measured(mm);
    format!(
        "{}: {} ({}), {} × {}, {} thick",
        sheet.id,
        stock.name,
        stock.material,
        length(stock.size.0),
        length(stock.size.1),
        length(stock.thickness)
    )
}

fn facts(drawing: &SheetDrawing<'_>) -> Vec<String> {
    let several = drawing.programs.len() > 1;
    let bits = drawing.programs.iter().enumerate().map(|(i, program)| {
        let diameter = drawing.lengths.measured(program.diameter);
        let letter = if several {
            format!("{}  ", letter(i))
        } else {
            String::new()
        };
        format!(
            "{letter}bit {}, ⌀ {diameter}, {:.0} turns a minute",
            program.bit, program.speed
        )
    });
    bits.chain(fault::told(drawing.faults))
        .chain(drawing.notes.iter().cloned())
        .collect()
}

fn legend(drawing: &SheetDrawing<'_>, roads: &[Road]) -> Vec<Entry> {
    let mut legend = wood::legend(drawing.sheet.parts.iter().map(|p| &p.part));
    for ((program, road), pen) in drawing.programs.iter().zip(roads).zip(pens(roads)) {
        legend.push(if road.cuts.is_empty() {
            Entry::dot(pen.colour, format!("bored, {}", program.bit))
        } else {
            Entry::line(pen, format!("cut, {}", program.bit))
        });
    }
    let any = |lines: fn(&Road) -> &[Piece]| roads.iter().any(|road| !lines(road).is_empty());
    if any(|road| &road.leads) {
        legend.push(Entry::line(LEAD, "way in and out"));
    }
    if any(|road| &road.ramps) {
        legend.push(Entry::line(RAMP, "ramp down along the edge"));
    }
    if !drawing.programs.is_empty() {
        legend.push(Entry::line(RAPID, "bit in the air"));
    }
    if !drawing.tabs.is_empty() {
        legend.push(Entry::line(TAB, "tab"));
    }
    if drawing.sheet.stock.trim.widest() > 0.0 {
        legend.push(Entry::line(TRIM, "trim"));
    }
    if !drawing.kept_out.is_empty() {
        legend.push(Entry::line(KEPT_OUT, "keep out"));
    }
    if !drawing.faults.is_empty() {
        legend.push(Entry::cross(FAULT, "fault, with its number"));
    }
    if drawing.zero.is_some() {
        legend.push(Entry::zero("zero of the programs"));
    }
    legend
}

#[cfg(test)]
mod tests;
