//! The page that a picture is drawn on: mm of paper, x to the right, y down.

use crate::pen::{EDGE, INK, PAPER, Pen};
use crate::vector::{self, Drawn};
use cintre_geometry::{Affine, Outline, Path, Piece, Point, Rect, Vec2};
use cintre_lettering::{Anchor, spell, strokes, width};
use cintre_work::PageStroke;
use std::f64::consts::{FRAC_PI_2, PI};

/// The clear space round a label, mm of paper.
const ROOM: f64 = 0.7;

/// How far a cross reaches from its point, each way, mm of paper.
pub(crate) const ARM: f64 = 1.3;

/// The weight of a letter's strokes, of its height.
const LETTER_WEIGHT: f64 = 0.1;

/// A page in the making.
pub(crate) struct Canvas {
    size: (f64, f64),
    /// What is drawn, from the undermost.
    drawn: Vec<Drawn>,
    /// The boxes of the labels set so far.
    labels: Vec<Rect>,
    /// Boxes of small things that labels keep off.
    kept_clear: Vec<Rect>,
}

/// A line of text to set: its middle, and how it lies.
#[derive(Clone, Debug)]
pub(crate) struct Label<'a> {
    pub(crate) text: &'a str,
    /// Height of its capitals, mm of paper.
    pub(crate) height: f64,
    /// Read from the right side of the page.
    pub(crate) upright: bool,
    pub(crate) colour: &'static str,
    /// The colour it stands on.
    pub(crate) ground: &'static str,
}

impl<'a> Label<'a> {
    pub(crate) const fn new(text: &'a str, height: f64) -> Self {
        Self {
            text,
            height,
            upright: false,
            colour: INK,
            ground: PAPER,
        }
    }

    pub(crate) const fn coloured(self, colour: &'static str) -> Self {
        Self { colour, ..self }
    }

    pub(crate) const fn on(self, ground: &'static str) -> Self {
        Self { ground, ..self }
    }

    pub(crate) const fn turned(self, upright: bool) -> Self {
        Self { upright, ..self }
    }

    /// How wide and how high it stands on the page.
    pub(crate) fn size(&self) -> (f64, f64) {
        let long = text_width(self.text, self.height);
        if self.upright {
            (self.height, long)
        } else {
            (long, self.height)
        }
    }

    /// The box that it fills about its middle.
    pub(crate) fn bounds(&self, middle: Point) -> Rect {
        let (w, h) = self.size();
        Rect::from_center_size(middle, (w, h))
    }
}

/// The width of a line of text on the page.
pub(crate) fn text_width(text: &str, height: f64) -> f64 {
    width(&spell(text), height).expect("spelled text has only letters of the face")
}

impl Canvas {
    pub(crate) fn new(width: f64, height: f64) -> Self {
        Self {
            size: (width, height),
            drawn: Vec::new(),
            labels: Vec::new(),
            kept_clear: Vec::new(),
        }
    }

    /// The page as SVG.
    pub(crate) fn finish(self) -> String {
        vector::svg(self.size, &self.drawn)
    }

    /// The page in black alone, for a printer.
    pub(crate) fn in_black(&self) -> Vec<PageStroke> {
        vector::black(self.size.1, &self.drawn)
    }

    /// The boxes of all labels set so far.
    #[cfg(test)]
    pub(crate) fn labels(&self) -> &[Rect] {
        &self.labels
    }

    /// Open chains with one pen.
    pub(crate) fn lines<'p>(&mut self, paths: impl IntoIterator<Item = &'p Path>, pen: Pen) {
        let lines = paths.into_iter().cloned().collect();
        self.drawn.push(Drawn::Lines {
            lines,
            pen,
            rim: false,
        });
    }

    /// A straight line.
    pub(crate) fn line(&mut self, from: Point, to: Point, pen: Pen) {
        self.lines([&Path::polyline(&[from, to])], pen);
    }

    /// Closed chains with one pen.
    pub(crate) fn edges<'o>(&mut self, outlines: impl IntoIterator<Item = &'o Outline>, pen: Pen) {
        let outlines = outlines.into_iter().cloned().collect();
        self.drawn.push(Drawn::Edges { outlines, pen });
    }

    /// A tint inside closed chains; what lies inside two of them is left blank.
    pub(crate) fn tint<'o>(&mut self, outlines: impl IntoIterator<Item = &'o Outline>, colour: &'static str) {
        let outlines = outlines.into_iter().cloned().collect();
        self.drawn.push(Drawn::Tint { outlines, colour });
    }

    /// A cross on a point, its arms slanting.
    pub(crate) fn cross(&mut self, at: Point, pen: Pen) {
        for arm in [Vec2::new(ARM, ARM), Vec2::new(ARM, -ARM)] {
            self.line(at - arm, at + arm, pen);
        }
    }

    /// The mark of a program's zero: a ring with two opposite quarters filled.
    pub(crate) fn zero_mark(&mut self, at: Point) {
        let radius = 2.2;
        let quarter = |turn: f64| {
            let bow = Piece::arc(at, at + Vec2::from_angle(turn) * radius, FRAC_PI_2);
            Outline::closing(&Path::from_pieces(&[Piece::line(at, bow.start), bow]))
        };
        let ring = Outline::circle(at, radius);
        self.tint([&ring], PAPER);
        self.tint([&quarter(0.0), &quarter(PI)], INK);
        self.edges([&ring], EDGE);
    }

    /// A text by the left, middle or right end of its foot, claiming its place.
    pub(crate) fn text(&mut self, text: &str, height: f64, foot: Point, anchor: Anchor) {
        let half = text_width(text, height) / 2.0;
        let x = match anchor {
            Anchor::Start => foot.x + half,
            Anchor::Middle => foot.x,
            Anchor::End => foot.x - half,
        };
        self.label(&Label::new(text, height), Point::new(x, foot.y - height / 2.0));
    }

    /// A label about its middle, claiming its place.
    pub(crate) fn label(&mut self, label: &Label<'_>, middle: Point) {
        self.labels.push(label.bounds(middle));
        let text = spell(label.text);
        let flat = strokes(&text, label.height, Point::ZERO, Anchor::Middle)
            .expect("spelled text has only letters of the face");
        let turn = if label.upright { -FRAC_PI_2 } else { 0.0 };
        let place = Affine::translate(middle.to_vec2())
            * Affine::rotate(turn)
            * Affine::scale_non_uniform(1.0, -1.0)
            * Affine::translate((0.0, -label.height / 2.0));
        let paths: Vec<_> = flat.iter().map(|p| p.transformed(place)).collect();
        let pen = |colour, weight| Pen {
            colour,
            weight: weight * label.height,
            dashes: &[],
        };
        // A rim of the ground keeps letters legible where lines pass under them.
        self.drawn.push(Drawn::Lines {
            lines: paths.clone(),
            pen: pen(label.ground, 4.0 * LETTER_WEIGHT),
            rim: true,
        });
        self.lines(&paths, pen(label.colour, LETTER_WEIGHT));
    }

    /// A label at the first of `places` where it is clear of all others; whether there was one.
    pub(crate) fn place(&mut self, label: &Label<'_>, places: impl IntoIterator<Item = Point>) -> bool {
        let size = label.size();
        let found = places
            .into_iter()
            .find(|&p| self.is_clear(Rect::from_center_size(p, size)));
        if let Some(middle) = found {
            self.label(label, middle);
        }
        found.is_some()
    }

    /// Whether a box on the page is clear of all labels and of all that they keep off.
    pub(crate) fn is_clear(&self, area: Rect) -> bool {
        let wide = area.inflate(ROOM, ROOM);
        self.labels
            .iter()
            .chain(&self.kept_clear)
            .all(|l| !l.overlaps(wide))
    }

    /// Keeps labels off a straight line.
    pub(crate) fn claim_line(&mut self, from: Point, to: Point) {
        /// From one box along it to the next, mm of paper: no letter slips through between two.
        const STEP: f64 = 1.0;
        let steps = (from.distance(to) / STEP).ceil().max(1.0);
        let boxes = std::iter::successors(Some(0.0), |n| (*n < steps).then_some(n + 1.0));
        self.kept_clear
            .extend(boxes.map(|n| Rect::from_center_size(from.lerp(to, n / steps), (0.1, 0.1))));
    }

    /// Keeps labels out of a box.
    pub(crate) fn claim(&mut self, area: Rect) {
        self.kept_clear.push(area);
    }
}
