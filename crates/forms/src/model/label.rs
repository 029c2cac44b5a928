//! The pieces of a kit made parts, each with its name scribed on it.

use super::Input;
use crate::Error;
use crate::marks::small_name;
use cintre_geometry::{Affine, Outline, Point};
use cintre_lettering::{Anchor, spell, strokes};
use cintre_work::{Grain, Mark, MarkKind, Part};

/// How far letters keep from an edge, mm: farther than a beam scorches.
const CLEAR: f64 = 0.4;

/// Steps each way in which a place for letters is looked for.
const STEPS: u32 = 8;

/// The height of letters at a place of their own, mm.
const HEIGHT: f64 = 2.0;

/// A piece of a kit.
#[derive(Clone, Debug)]
pub(crate) struct Piece {
    /// What it is called after the arch: `rib`.
    pub(crate) name: String,
    /// What is scribed on it: the first that has room.
    pub(crate) wordings: Vec<String>,
    /// Letters at places of their own, the middle of their foot.
    pub(crate) letters: Vec<(String, Point)>,
    pub(crate) outline: Outline,
    pub(crate) openings: Vec<Outline>,
    pub(crate) count: usize,
}

impl Piece {
    pub(crate) fn new(name: &str, wordings: &[&str], outline: Outline) -> Self {
        Self {
            name: name.to_owned(),
            wordings: wordings.iter().map(|&words| words.to_owned()).collect(),
            letters: Vec::new(),
            outline,
            openings: Vec::new(),
            count: 1,
        }
    }

    /// The same piece moved into a frame of its own.
    pub(crate) fn placed(self, by: Affine) -> Self {
        Self {
            outline: self.outline.transformed(by),
            openings: self.openings.iter().map(|o| o.transformed(by)).collect(),
            ..self
        }
    }

    /// The part, and whether all that was to be scribed on it has room.
    pub(crate) fn part(self, input: &Input, fit_error: f64) -> Result<(Part, bool), Error> {
        let (marks, named) = self.marks()?;
        let part = Part {
            name: format!("{} {}", input.arch, self.name),
            outline: self.outline,
            openings: self.openings,
            bores: Vec::new(),
            recesses: Vec::new(),
            marks,
            clean: Vec::new(),
            stock: input.stock.clone(),
            thickness: input.thickness,
            grain: Grain::Free,
            count: self.count,
            fit_error,
        };
        Ok((part, named))
    }

    fn marks(&self) -> Result<(Vec<Mark>, bool), Error> {
        let mut marks = Vec::new();
        for (text, at) in &self.letters {
            let written = strokes(&spell(text), HEIGHT, *at, Anchor::Middle)?;
            marks.extend(written.into_iter().map(|path| Mark {
                path,
                kind: MarkKind::Text,
            }));
        }
        let middles = self.middles();
        for words in &self.wordings {
            if let Some(letters) = small_name(words, |_, _| middles.clone(), |p| self.is_clear(p))? {
                marks.extend(letters);
                return Ok((marks, true));
            }
        }
        Ok((marks, self.wordings.is_empty()))
    }

    /// Places for the middle of letters, nearest to the piece's own first.
    fn middles(&self) -> Vec<Point> {
        let bounds = self.outline.bounds();
        let share = |i: u32| f64::from(i) / f64::from(STEPS);
        let places = (1..STEPS).flat_map(|i| (1..STEPS).map(move |j| (share(i), share(j))));
        let mut middles: Vec<Point> = places
            .map(|(u, v)| Point::new(bounds.x0 + u * bounds.width(), bounds.y0 + v * bounds.height()))
            .filter(|&p| self.is_clear(p))
            .collect();
        let centre = bounds.center();
        middles.sort_by(|a, b| a.distance(centre).total_cmp(&b.distance(centre)));
        middles
    }

    fn is_clear(&self, p: Point) -> bool {
        self.outline.signed_distance(p) < -CLEAR
            && self
                .openings
                .iter()
                .all(|opening| opening.signed_distance(p) > CLEAR)
    }
}
