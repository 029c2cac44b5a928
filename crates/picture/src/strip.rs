//! The title strip along the foot of every page: what it is, what its lines mean, how large it is drawn.

use crate::canvas::{Canvas, text_width};
use crate::page::{Lengths, MARGIN, PAGE, View};
use crate::pen::{FINE, FRAME, Pen, STRONG};
use cintre_geometry::{Outline, Point, Rect};
use cintre_lettering::Anchor;
use cintre_work::Unit;
use cintre_write::MM_PER_INCH;

const TITLE: f64 = 4.6;
const HEADING: f64 = 3.4;
const TEXT: f64 = 2.8;
const ROW: f64 = 5.6;

/// Columns: facts from the left margin, legend, scale bar.
const FACTS: f64 = 172.0;
const LEGEND: f64 = 192.0;
const LEGEND_COLUMN: f64 = 70.0;
/// A legend's sample, and the widest that its words stand beside it.
const SAMPLE: f64 = 13.0;
const WORDS: f64 = 50.0;
/// The scale bar is no longer than this and ends at the right margin.
const BAR: f64 = 50.0;

/// A line of the legend.
pub(crate) struct Entry {
    pub(crate) sample: Sample,
    pub(crate) meaning: String,
}

/// How a kind of line or tint looks.
#[derive(Clone, Copy)]
pub(crate) enum Sample {
    Line(Pen),
    /// A cross drawn with the pen.
    Cross(Pen),
    Tint(&'static str),
    Dot(&'static str),
    Zero,
}

impl Entry {
    pub(crate) fn line(pen: Pen, meaning: impl Into<String>) -> Self {
        Self {
            sample: Sample::Line(pen),
            meaning: meaning.into(),
        }
    }

    pub(crate) fn cross(pen: Pen, meaning: impl Into<String>) -> Self {
        Self {
            sample: Sample::Cross(pen),
            meaning: meaning.into(),
        }
    }

    pub(crate) fn dot(colour: &'static str, meaning: impl Into<String>) -> Self {
        Self {
            sample: Sample::Dot(colour),
            meaning: meaning.into(),
        }
    }

    pub(crate) fn zero(meaning: impl Into<String>) -> Self {
        Self {
            sample: Sample::Zero,
            meaning: meaning.into(),
        }
    }

    pub(crate) fn tint(colour: &'static str, meaning: impl Into<String>) -> Self {
        Self {
            sample: Sample::Tint(colour),
            meaning: meaning.into(),
        }
    }
}

/// What stands in the strip.
pub(crate) struct Strip<'a> {
    title: Vec<String>,
    heading: Vec<String>,
    facts: Vec<String>,
    legend: Vec<Entry>,
    lengths: Lengths<'a>,
}

impl<'a> Strip<'a> {
    pub(crate) fn new(
        title: &str,
        heading: &str,
        facts: &[String],
        legend: Vec<Entry>,
        lengths: Lengths<'a>,
    ) -> Self {
        Self {
            title: wrapped(title, TITLE),
            heading: wrapped(heading, HEADING),
            facts: facts.iter().flat_map(|f| wrapped(f, TEXT)).collect(),
            legend,
            lengths,
        }
    }

    /// How high it stands on the page.
    pub(crate) fn height(&self) -> f64 {
        let left = rows(self.title.len()) * (ROW + 2.0) + rows(self.heading.len() + self.facts.len()) * ROW;
        let right = rows(self.legend.len().div_ceil(2)) * ROW;
        left.max(right).max(3.0 * ROW) + 6.0
    }

    /// Draws it under a line at `top`.
    pub(crate) fn draw(&self, canvas: &mut Canvas, top: f64, view: &View) {
        canvas.line(Point::new(MARGIN, top), Point::new(PAGE - MARGIN, top), FRAME);
        let mut foot = top + 3.0;
        for line in &self.title {
            foot += ROW + 2.0;
            canvas.text(line, TITLE, Point::new(MARGIN, foot - 1.0), Anchor::Start);
        }
        let heading = self.heading.iter().map(|l| (l, HEADING));
        for (line, height) in heading.chain(self.facts.iter().map(|l| (l, TEXT))) {
            foot += ROW;
            canvas.text(line, height, Point::new(MARGIN, foot), Anchor::Start);
        }
        self.draw_legend(canvas, top + 3.0);
        self.draw_bar(canvas, top + 3.0, view.scale);
    }

    fn draw_legend(&self, canvas: &mut Canvas, top: f64) {
        let half = self.legend.len().div_ceil(2);
        for (i, entry) in self.legend.iter().enumerate() {
            let (column, row) = if i < half { (0, i) } else { (1, i - half) };
            let left = LEGEND + LEGEND_COLUMN * rows(column);
            let middle = top + ROW * (rows(row) + 0.7);
            let (from, to) = (Point::new(left, middle), Point::new(left + SAMPLE, middle));
            match entry.sample {
                Sample::Line(pen) => canvas.line(from, to, pen),
                Sample::Cross(pen) => canvas.cross(from.midpoint(to), pen),
                Sample::Dot(colour) => canvas.tint([&Outline::circle(from.midpoint(to), 0.7)], colour),
                Sample::Zero => canvas.zero_mark(from.midpoint(to)),
                Sample::Tint(colour) => {
                    let patch = Outline::rectangle(Rect::from_points(from, to).inflate(0.0, 1.5));
                    canvas.tint([&patch], colour);
                    canvas.edges([&patch], FINE);
                }
            }
            // Long names of bits are written smaller rather than into the next column.
            let height = TEXT * (WORDS / text_width(&entry.meaning, TEXT)).min(1.0);
            let foot = Point::new(left + SAMPLE + 3.0, middle + height / 2.0);
            canvas.text(&entry.meaning, height, foot, Anchor::Start);
        }
    }

    /// A bar of a round length.
    fn draw_bar(&self, canvas: &mut Canvas, top: f64, scale: f64) {
        let unit = match self.lengths.unit {
            Unit::Millimetre => 1.0,
            Unit::Inch => MM_PER_INCH,
        };
        let length = round_length(BAR / (scale * unit)) * unit;
        let (left, y) = (PAGE - MARGIN - length * scale, top + 11.0);
        let tick = |canvas: &mut Canvas, part: f64, high: f64| {
            let x = left + length * scale * part;
            canvas.line(Point::new(x, y - high), Point::new(x, y), FRAME);
        };
        canvas.line(Point::new(left, y), Point::new(left + length * scale, y), STRONG);
        tick(canvas, 0.0, 2.2);
        tick(canvas, 0.5, 1.2);
        tick(canvas, 1.0, 2.2);
        let over = y - 4.2;
        canvas.text("0", TEXT, Point::new(left, over), Anchor::Middle);
        let end = Point::new(left + length * scale, over);
        canvas.text(&self.lengths.write(length), TEXT, end, Anchor::End);
    }
}

/// The largest of 1, 2, 5, 10, 20, 50 … that is no longer than `most`.
fn round_length(most: f64) -> f64 {
    let ten = 10_f64.powf(most.log10().floor());
    let step = [5.0, 2.0].into_iter().find(|s| s * ten <= most).unwrap_or(1.0);
    step * ten
}

/// A text broken at its spaces into lines that fit the column of facts.
fn wrapped(text: &str, height: f64) -> Vec<String> {
    cintre_lettering::wrapped(text, height, FACTS)
}

#[expect(clippy::cast_precision_loss, reason = "a count of lines on a page is small")]
const fn rows(count: usize) -> f64 {
    count as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bar_has_a_round_length() {
        let lengths: Vec<_> = [387.0, 60.0, 9.9, 10.0, 0.3, 2100.0].map(round_length).into();
        for (length, wanted) in lengths.iter().zip([200.0, 50.0, 5.0, 10.0, 0.2, 2000.0]) {
            assert!((length - wanted).abs() < 1e-9, "{length} is not {wanted}");
        }
    }

    #[test]
    fn a_long_title_is_broken_and_loses_no_word() {
        let title =
            "Restoration of the almshouse and its walled garden, north gate and the loggia beside the well";
        let lines = wrapped(title, TITLE);
        assert!(lines.len() > 1 && lines.iter().all(|l| text_width(l, TITLE) <= FACTS));
        assert_eq!(lines.join(" "), title);
    }
}
