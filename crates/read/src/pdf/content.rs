//! What a content stream strokes.

use super::token::{Token, Tokens};
use super::{MM_PER_POINT, StrokeRead};
use cintre_geometry::{Affine, Point};

/// A page being read.
pub(crate) struct Drawing {
    pub(crate) strokes: Vec<StrokeRead>,
    pub(crate) faults: Vec<String>,
    state: State,
    kept: Vec<State>,
    marks: Vec<String>,
    /// The subpaths since the last painting, in mm of the page.
    path: Vec<Vec<[Point; 4]>>,
    /// Where the pen stands, in the stream's own frame, and where its subpath began.
    pen: Option<(Point, Point)>,
}

#[derive(Clone, Copy)]
struct State {
    to_page: Affine,
    weight: f64,
    grey: f64,
}

impl Drawing {
    /// Begins a page whose lower left corner stands at `corner`, in points.
    pub(crate) fn on(corner: Point, faults: Vec<String>) -> Self {
        Self {
            strokes: Vec::new(),
            faults,
            state: State {
                to_page: Affine::scale(MM_PER_POINT) * Affine::translate(-corner.to_vec2()),
                weight: 1.0,
                grey: 0.0,
            },
            kept: Vec::new(),
            marks: Vec::new(),
            path: Vec::new(),
            pen: None,
        }
    }

    pub(crate) fn read(&mut self, stream: &[u8]) {
        let mut numbers: Vec<f64> = Vec::new();
        let mut name = String::new();
        for token in Tokens::new(stream, 0) {
            match token {
                Token::Number(value) => numbers.push(value),
                Token::Name(word) => name = word,
                Token::Text => self.fault("a text"),
                // The lengths of dashes stand in brackets.
                Token::Word(word) if matches!(word.as_str(), "[" | "]") => {}
                Token::Word(word) => {
                    if !self.operator(&word, &numbers, &name) {
                        self.fault(&format!("`{word}`, which is not taken here"));
                    }
                    numbers.clear();
                    name.clear();
                }
            }
        }
        if !self.marks.is_empty() || !self.kept.is_empty() {
            self.fault("a mark or a state that is not closed");
        }
    }

    fn fault(&mut self, what: &str) {
        if !self.faults.iter().any(|known| known == what) {
            self.faults.push(what.to_owned());
        }
    }

    /// Whether the operator was one that is taken, with the numbers that it wants.
    fn operator(&mut self, word: &str, numbers: &[f64], name: &str) -> bool {
        match (word, numbers) {
            ("m", &[x, y]) => self.begin(Point::new(x, y)),
            ("l", &[x, y]) => return self.line(Point::new(x, y)),
            ("c", &[a, b, c, d, e, f]) => {
                return self.curve(Point::new(a, b), Point::new(c, d), Point::new(e, f));
            }
            ("h", []) => return self.pen.is_some_and(|(_, start)| self.line(start)),
            ("re", &[x, y, w, h]) => {
                self.begin(Point::new(x, y));
                self.line(Point::new(x + w, y));
                self.line(Point::new(x + w, y + h));
                self.line(Point::new(x, y + h));
                self.line(Point::new(x, y));
            }
            ("S", []) => self.stroke(),
            ("n", []) => self.path.clear(),
            ("w", &[weight]) => self.state.weight = weight,
            ("G", &[grey]) => self.state.grey = grey,
            ("cm", &[a, b, c, d, e, f]) => self.state.to_page *= Affine::new([a, b, c, d, e, f]),
            ("q", []) => self.kept.push(self.state),
            ("Q", []) => match self.kept.pop() {
                Some(state) => self.state = state,
                None => return false,
            },
            ("BMC", []) => self.marks.push(name.to_owned()),
            ("EMC", []) => return self.marks.pop().is_some(),
            ("J" | "j" | "M" | "d", _) => {}
            _ => return false,
        }
        true
    }

    fn begin(&mut self, at: Point) {
        self.pen = Some((at, at));
        self.path.push(Vec::new());
    }

    fn line(&mut self, to: Point) -> bool {
        self.pen.is_some_and(|(from, _)| self.curve(from, to, to))
    }

    fn curve(&mut self, a: Point, b: Point, to: Point) -> bool {
        let (Some((from, start)), Some(subpath)) = (self.pen, self.path.last_mut()) else {
            return false;
        };
        let by = self.state.to_page;
        subpath.push([by * from, by * a, by * b, by * to]);
        self.pen = Some((to, start));
        true
    }

    fn stroke(&mut self) {
        let mark = self.marks.last().cloned().unwrap_or_default();
        let weight = self.state.weight * self.state.to_page.determinant().abs().sqrt();
        for curves in self.path.drain(..).filter(|curves| !curves.is_empty()) {
            self.strokes.push(StrokeRead {
                mark: mark.clone(),
                weight,
                grey: self.state.grey,
                curves,
            });
        }
        self.pen = None;
    }
}
