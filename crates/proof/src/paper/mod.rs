//! A drawing on paper, read back: its bars, its pages, and whether they join to the whole of it and nothing else.
//!
//! Everything is measured in print: the file's lengths over what they are multiplied by for the printer.

mod joined;

use crate::PRINTED;
use crate::report::{Report, spot};
use cintre_geometry::{Point, Rect};
use cintre_read::pdf::{self, PageRead, StrokeRead};
use cintre_work::design::{DesignPage, DesignPaper};
use cintre_work::{Layer, Verdict};

/// How far a bar may be off, mm: it reads as 100.000.
const BAR: f64 = 0.0005;
/// The bars of each page, one of each level and one plumb, mm.
const BARS: [f64; 2] = [100.0, 101.6];
/// What a printer cannot reach along the edges of a page, mm: nothing may stand in it.
const MARGIN: f64 = 11.5;
/// The longest side that every viewer shows, mm.
const LONGEST: f64 = 5080.0;
/// How far a page's side may be off, mm.
const SIDE: f64 = 0.001;

/// Proves a drawing on paper. In the verdict `gouge` is how far a drawn line stands off the design at worst, and `leftover`
/// the longest stretch of a line of the design that no page shows.
pub fn prove_paper(design: &DesignPaper, bytes: &[u8]) -> Verdict {
    let mut report = Report::default();
    match pdf::read(bytes) {
        Err(error) => {
            report.refuse(error.to_string());
        }
        Ok(read) => {
            if read.print_scaling.as_deref() != Some("None") {
                report.refuse("a viewer is not asked to leave the pages at full size");
            }
            if read.pages.len() == design.pages.len() {
                pages(design, &read.pages, &mut report);
            } else {
                let (found, planned) = (read.pages.len(), design.pages.len());
                report.refuse(format!("{found} pages where {planned} were planned"));
            }
        }
    }
    report.verdict()
}

fn pages(design: &DesignPaper, read: &[PageRead], report: &mut Report) {
    if !design.stretch.iter().all(|s| *s > 0.5 && *s < 2.0) {
        report.refuse("it is stretched to more than double or less than half");
        return;
    }
    let mut tiles = Vec::new();
    for (number, (page, plan)) in (1..).zip(read.iter().zip(&design.pages)) {
        let faults: Vec<String> = page
            .faults
            .iter()
            .map(|what| format!("page {number}: {what}"))
            .collect();
        report.faults(faults.iter().map(|what| (0, what.as_str())));
        let page = Printed::of(page, design.stretch);
        for what in page.wrongs(plan, design.stretch) {
            report.refuse(format!("page {number}: {what}"));
        }
        if let Some([x, y]) = plan.corner {
            tiles.push(joined::Tile {
                number,
                corner: Point::new(x, y),
                page,
            });
        } else if page.lines().next().is_some() {
            report.refuse(format!(
                "page {number}: it shows a part of the drawing, and is not planned to"
            ));
        }
    }
    joined::drawing(&design.lines, &tiles, report);
    joined::crosses(&tiles, report);
}

/// A page in print.
struct Printed {
    size: (f64, f64),
    strokes: Vec<StrokeRead>,
}

impl Printed {
    fn of(page: &PageRead, [across, up]: [f64; 2]) -> Self {
        let mut strokes = page.strokes.clone();
        for point in strokes.iter_mut().flat_map(|stroke| &mut stroke.curves).flatten() {
            *point = Point::new(point.x / across, point.y / up);
        }
        Self {
            size: page.size,
            strokes,
        }
    }

    fn marked<'a>(&'a self, mark: &'a str) -> impl Iterator<Item = &'a StrokeRead> {
        self.strokes.iter().filter(move |stroke| stroke.mark == mark)
    }

    /// What is drawn of the drawing itself.
    fn lines(&self) -> impl Iterator<Item = &StrokeRead> {
        let is_layer = |mark: &str| Layer::ALL.iter().any(|layer| layer.name() == mark);
        self.strokes.iter().filter(move |stroke| is_layer(&stroke.mark))
    }

    /// The middles of its crosses, each a level and a plumb line.
    fn crosses(&self) -> Vec<Point> {
        let arms: Vec<&StrokeRead> = self.marked("cross").collect();
        let middles = arms.chunks(2).filter_map(|pair| match pair {
            [level, plumb] => {
                let ([a, .., b], [c, .., d]) = (level.curves.first()?, plumb.curves.first()?);
                let (middle, other) = (a.midpoint(*b), c.midpoint(*d));
                (middle.distance(other) < PRINTED).then_some(middle)
            }
            _ => None,
        });
        middles.collect()
    }

    /// What is wrong with the page by itself.
    fn wrongs(&self, plan: &DesignPage, stretch: [f64; 2]) -> Vec<String> {
        let mut wrongs = Vec::new();
        let (width, height) = self.size;
        if (width - plan.size[0]).abs() > SIDE || (height - plan.size[1]).abs() > SIDE {
            let [w, h] = plan.size;
            wrongs.push(format!(
                "{width:.3} × {height:.3} mm where {w:.3} × {h:.3} mm was planned"
            ));
        }
        if width.max(height) > LONGEST + SIDE {
            wrongs.push(format!("longer than the {LONGEST} mm that every viewer shows"));
        }
        let inner = Rect::new(0.0, 0.0, width / stretch[0], height / stretch[1]).inflate(-MARGIN, -MARGIN);
        let points = self.strokes.iter().flat_map(|stroke| &stroke.curves).flatten();
        if let Some(out) = points.into_iter().find(|p| !inner.contains(**p)) {
            let Point { x, y } = out;
            wrongs.push(format!(
                "a line at ({x:.2}, {y:.2}), nearer to the edge than a printer reaches"
            ));
        }
        let mut bars: Vec<(bool, f64)> = self.marked("bar").filter_map(bar).collect();
        bars.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let planned = [false, true]
            .into_iter()
            .flat_map(|level| BARS.map(|length| (level, length)));
        let same = |(found, wanted): (&(bool, f64), (bool, f64))| {
            found.0 == wanted.0 && (found.1 - wanted.1).abs() <= BAR
        };
        if bars.len() != 2 * BARS.len() || !bars.iter().zip(planned).all(same) {
            let found: Vec<_> = bars.iter().map(|(_, length)| format!("{length:.4}")).collect();
            wrongs.push(format!(
                "its bars are not 100 mm and 4 in both ways: {}",
                found.join(", ")
            ));
        }
        wrongs
    }
}

/// Whether a bar lies level, and its length; none where it is no straight line along the page.
fn bar(stroke: &StrokeRead) -> Option<(bool, f64)> {
    let [[from, _, _, to]] = stroke.curves[..] else {
        return None;
    };
    let (across, up) = ((to.x - from.x).abs(), (to.y - from.y).abs());
    (across.min(up) < PRINTED).then_some((across > up, across.max(up)))
}

/// Tells a place on the drawing.
fn refuse_at(report: &mut Report, what: String, at: Point) {
    report.refuse(what).at = spot(at);
}

#[cfg(test)]
mod tests;
