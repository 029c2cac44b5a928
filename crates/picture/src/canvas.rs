//! The page that a picture is drawn on: mm of paper, x to the right, y down.

use crate::number::number;
use crate::pen::{EDGE, INK, PAPER, Pen};
use cintre_geometry::{Affine, Outline, Path, Piece, Point, Rect, Vec2};
use cintre_lettering::{Anchor, spell, strokes, width};
use std::f64::consts::{FRAC_PI_2, PI};
use svg::node::{Node as _, element};

/// The clear space round a label, mm of paper.
const ROOM: f64 = 0.7;

/// The weight of a letter's strokes, of its height.
const LETTER_WEIGHT: f64 = 0.1;

/// A page in the making.
pub(crate) struct Canvas {
    document: svg::Document,
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
        let (w, h) = (number(width), number(height));
        let ground = element::Rectangle::new()
            .set("width", w.as_str())
            .set("height", h.as_str())
            .set("fill", PAPER);
        let document = svg::Document::new()
            .set("width", format!("{w}mm"))
            .set("height", format!("{h}mm"))
            .set("viewBox", format!("0 0 {w} {h}"))
            .add(ground);
        Self {
            document,
            labels: Vec::new(),
            kept_clear: Vec::new(),
        }
    }

    pub(crate) fn finish(self) -> String {
        format!("{}\n", self.document)
    }

    /// The boxes of all labels set so far.
    #[cfg(test)]
    pub(crate) fn labels(&self) -> &[Rect] {
        &self.labels
    }

    /// Open chains with one pen.
    pub(crate) fn lines<'p>(&mut self, paths: impl IntoIterator<Item = &'p Path>, pen: Pen) {
        let d: Vec<_> = paths.into_iter().map(open).collect();
        self.draw(&d.join(" "), pen);
    }

    /// A straight line.
    pub(crate) fn line(&mut self, from: Point, to: Point, pen: Pen) {
        self.draw(&open(&Path::polyline(&[from, to])), pen);
    }

    /// Closed chains with one pen.
    pub(crate) fn edges<'o>(&mut self, outlines: impl IntoIterator<Item = &'o Outline>, pen: Pen) {
        let d: Vec<_> = outlines.into_iter().map(closed).collect();
        self.draw(&d.join(" "), pen);
    }

    /// A tint inside closed chains; what lies inside two of them is left blank.
    pub(crate) fn tint<'o>(&mut self, outlines: impl IntoIterator<Item = &'o Outline>, colour: &str) {
        let d: Vec<_> = outlines.into_iter().map(closed).collect();
        let path = element::Path::new()
            .set("d", d.join(" "))
            .set("fill", colour)
            .set("fill-rule", "evenodd");
        self.add(path);
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
        let d = paths.iter().map(open).collect::<Vec<_>>().join(" ");
        self.add(stroked(&d, pen(label.ground, 4.0 * LETTER_WEIGHT)).set("stroke-opacity", "0.8"));
        self.draw(&d, pen(label.colour, LETTER_WEIGHT));
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

    /// Keeps labels out of a box.
    pub(crate) fn claim(&mut self, area: Rect) {
        self.kept_clear.push(area);
    }

    fn draw(&mut self, d: &str, pen: Pen) {
        if !d.is_empty() {
            self.add(stroked(d, pen));
        }
    }

    fn add(&mut self, node: element::Path) {
        self.document.append(node);
    }
}

fn stroked(d: &str, pen: Pen) -> element::Path {
    let path = element::Path::new()
        .set("d", d)
        .set("fill", "none")
        .set("stroke", pen.colour)
        .set("stroke-width", number(pen.weight))
        .set("stroke-linecap", "round")
        .set("stroke-linejoin", "round");
    if pen.dashes.is_empty() {
        return path;
    }
    let dashes: Vec<_> = pen.dashes.iter().map(|&d| number(d)).collect();
    path.set("stroke-dasharray", dashes.join(" "))
}

fn open(path: &Path) -> String {
    let start = format!("M{} {}", number(path.start().x), number(path.start().y));
    chain(start, path.pieces())
}

fn closed(outline: &Outline) -> String {
    let first = outline.vertices()[0].point;
    let start = format!("M{} {}", number(first.x), number(first.y));
    chain(start, outline.pieces()) + " Z"
}

/// With y down a positive bulge turns clockwise to the eye, which is what SVG calls a positive sweep.
fn chain(start: String, pieces: impl Iterator<Item = Piece>) -> String {
    pieces.fold(start, |d, piece| {
        let (x, y) = (number(piece.end.x), number(piece.end.y));
        match piece.circle() {
            Some(circle) if circle.radius < FLAT => {
                let r = number(circle.radius);
                let large = u8::from(piece.bulge.abs() > 1.0);
                let sweep = u8::from(piece.bulge > 0.0);
                format!("{d} A{r} {r} 0 {large} {sweep} {x} {y}")
            }
            _ => format!("{d} L{x} {y}"),
        }
    })
}

/// On a page of half a metre an arc of a longer radius stands less than its line's weight off the chord, mm.
const FLAT: f64 = 1.0e6;
