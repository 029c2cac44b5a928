//! The `d` of a path: M L H V A Z, absolute or relative. The curves C S Q T become tangent arcs where a tolerance is given; else they
//! are refused: a cutter makes what it likes of them.

use crate::dxf::bezier;
use cintre_geometry::{Point, Vec2, Vertex};

/// One stretch of a path, from one M to the next.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Sub {
    pub(super) closed: bool,
    pub(super) vertices: Vec<Vertex>,
    /// How far its arcs stand off the curves that were drawn, in the file's own unit.
    pub(super) fit_error: f64,
}

/// A radius that is too short for its chord by more than this share is a slip, not rounding.
const SHORT_RADIUS: f64 = 1e-6;
/// A chain that ends this near its start when it is closed repeats its first point, in the file's own unit.
const SAME_PLACE: f64 = 1e-6;

/// The stretches of a path, its curves within a tolerance in the file's own unit; without one they are refused.
pub(super) fn parse(text: &str, curves: Option<f64>) -> Result<Vec<Sub>, String> {
    let mut pen = Pen {
        curves,
        ..Pen::default()
    };
    let mut rest = text.trim_start();
    while let Some(command) = rest.chars().next() {
        if !command.is_ascii_alphabetic() {
            return Err(format!("path data begins with {command:?}"));
        }
        rest = &rest[1..];
        let end = rest
            .find(|c: char| c.is_ascii_alphabetic() && !matches!(c, 'e' | 'E'))
            .unwrap_or(rest.len());
        pen.run(command, &numbers(&rest[..end])?)?;
        rest = &rest[end..];
    }
    pen.finish(false);
    Ok(pen.subs)
}

/// Numbers between spaces and commas.
pub(super) fn numbers(text: &str) -> Result<Vec<f64>, String> {
    text.split(|c: char| c.is_ascii_whitespace() || c == ',')
        .filter(|n| !n.is_empty())
        .map(|n| match n.parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(value),
            _ => Err(format!("{n:?} is not a number")),
        })
        .collect()
}

#[derive(Default)]
struct Pen {
    subs: Vec<Sub>,
    at: Point,
    first: Point,
    vertices: Vec<Vertex>,
    curves: Option<f64>,
    fit_error: f64,
    /// The last control point of the curve just drawn, and of which kind that was: S and T go on from it.
    handle: Option<(char, Point)>,
}

impl Pen {
    fn run(&mut self, command: char, values: &[f64]) -> Result<(), String> {
        let take = match command.to_ascii_uppercase() {
            'Z' => return self.close(values),
            'M' | 'L' => 2,
            'H' | 'V' => 1,
            'A' => 7,
            'C' if self.curves.is_some() => 6,
            'S' | 'Q' if self.curves.is_some() => 4,
            'T' if self.curves.is_some() => 2,
            _ => return Err(format!("{command} in a path, which is neither a line nor an arc")),
        };
        if values.is_empty() || !values.len().is_multiple_of(take) {
            return Err(format!("{command} in a path with {} numbers", values.len()));
        }
        for (turn, v) in values.chunks_exact(take).enumerate() {
            let from = if command.is_ascii_lowercase() {
                self.at
            } else {
                Point::ZERO
            };
            let home = if command.is_ascii_lowercase() {
                Vec2::ZERO
            } else {
                self.at.to_vec2()
            };
            let word = command.to_ascii_uppercase();
            if matches!(word, 'C' | 'S' | 'Q' | 'T') {
                let points: Vec<Point> = v.chunks_exact(2).map(|p| from + Vec2::new(p[0], p[1])).collect();
                self.curve(word, points)?;
                continue;
            }
            self.handle = None;
            match word {
                'M' if turn == 0 => self.begin(from + Vec2::new(v[0], v[1])),
                'M' | 'L' => self.draw(from + Vec2::new(v[0], v[1]), 0.0)?,
                'H' => self.draw(Point::new(from.x + v[0], self.at.y), 0.0)?,
                'V' => self.draw(Point::new(self.at.x, from.y + v[0]), 0.0)?,
                _ => {
                    let chord = Vec2::new(v[5], v[6]) - home;
                    self.draw(self.at + chord, arc_bulge(v, chord)?)?;
                }
            }
        }
        Ok(())
    }

    fn begin(&mut self, at: Point) {
        self.finish(false);
        (self.at, self.first) = (at, at);
        self.vertices = vec![Vertex {
            point: at,
            bulge: 0.0,
        }];
    }

    fn draw(&mut self, to: Point, bulge: f64) -> Result<(), String> {
        if self.vertices.is_empty() {
            return Err("a line in a path before an M".to_owned());
        }
        if let Some(last) = self.vertices.last_mut() {
            last.bulge = bulge;
        }
        self.vertices.push(Vertex {
            point: to,
            bulge: 0.0,
        });
        self.at = to;
        Ok(())
    }

    /// A curve to the last of `points`; of a smooth one the first control point mirrors the last one of its like before.
    fn curve(&mut self, word: char, mut points: Vec<Point>) -> Result<(), String> {
        let kind = if matches!(word, 'C' | 'S') { 'C' } else { 'Q' };
        if word != kind {
            let before = self.handle.filter(|(before, _)| *before == kind);
            let mirrored = before.map_or(self.at, |(_, p)| self.at + (self.at - p));
            points.insert(0, mirrored);
        }
        points.insert(0, self.at);
        let (handle, end) = (points[points.len() - 2], points[points.len() - 1]);
        let chord = end - self.at;
        let off = |p: &Point| (*p - self.at).cross(chord).abs() / chord.hypot().max(SAME_PLACE);
        if points
            .iter()
            .all(|p| off(p) < SAME_PLACE && (*p - self.at).dot(chord) >= 0.0)
        {
            self.draw(end, 0.0)?;
        } else {
            let (_, vertices, worst) = bezier(&points, self.curves.unwrap_or_default())?;
            self.fit_error = self.fit_error.max(worst);
            for pair in vertices.windows(2) {
                self.draw(pair[1].point, pair[0].bulge)?;
            }
        }
        self.handle = Some((kind, handle));
        Ok(())
    }

    fn close(&mut self, values: &[f64]) -> Result<(), String> {
        if !values.is_empty() || self.vertices.len() < 2 {
            return Err("Z in a path without anything to close".to_owned());
        }
        self.finish(true);
        self.at = self.first;
        Ok(())
    }

    fn finish(&mut self, closed: bool) {
        let mut vertices = std::mem::take(&mut self.vertices);
        let again = vertices.len() > 2 && self.at.distance(self.first) < SAME_PLACE;
        if closed && again {
            vertices.pop();
        }
        // A bare M draws nothing.
        if vertices.len() > 1 {
            self.subs.push(Sub {
                closed,
                vertices,
                fit_error: std::mem::take(&mut self.fit_error),
            });
        }
    }
}

/// The bulge of an arc `rx ry turn large sweep x y` over `chord`, in the file's own frame with y down.
fn arc_bulge(v: &[f64], chord: Vec2) -> Result<f64, String> {
    let (rx, ry, large, sweep) = (v[0], v[1], v[3], v[4]);
    let flags = [large, sweep]
        .iter()
        .all(|f| f.abs() < 1e-12 || (f - 1.0).abs() < 1e-12);
    if !flags || rx <= 0.0 || (rx - ry).abs() > SHORT_RADIUS * rx {
        return Err("an arc that is not part of a circle".to_owned());
    }
    let half = chord.hypot() / 2.0;
    if half < SAME_PLACE {
        return Err("an arc that ends where it begins, which readers leave out".to_owned());
    }
    if half > rx * (1.0 + SHORT_RADIUS) {
        return Err(format!("an arc of radius {rx} over a chord of {}", half * 2.0));
    }
    // tan(sweep / 4) from half the chord and the radius: the lesser arc's is under 1, the greater's is its inverse.
    let lesser = half / (rx + (rx * rx - half * half).max(0.0).sqrt());
    let size = if large > 0.5 { 1.0 / lesser } else { lesser };
    Ok(if sweep > 0.5 { size } else { -size })
}
