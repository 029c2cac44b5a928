//! The file as it grows: what was printed last, and what need not be said again.

use crate::arc::{Arcs, Block, blocks};
use crate::grid::Grid;
use cintre_geometry::{Piece, Point, Vec2};
use cintre_work::{Dialect, Move, To};
use cintre_write::{NotFinite, comment, wrapped};
use std::f64::consts::PI;

/// A program on its way out. A machine without heights leaves them unsaid.
#[derive(Debug)]
pub(crate) struct Run {
    lines: Vec<String>,
    grid: Grid,
    /// From the sheet's frame to the router's zero, mm.
    shift: Vec2,
    lift: f64,
    arcs: Arcs,
    /// Where the bit truly is, mm in the router's frame; unknown at first.
    at: Option<Point>,
    z: f64,
    /// As printed, in units.
    printed: (Option<Point>, Option<f64>),
    motion: &'static str,
    feed: String,
}

impl Run {
    /// An empty file of programs with their zero at `zero` in the sheet's frame and `lift` mm below the stock's face.
    pub(crate) fn new(grid: Grid, zero: (f64, f64), lift: f64, arcs: Arcs) -> Self {
        Self {
            lines: Vec::new(),
            grid,
            shift: -Vec2::from(zero),
            lift,
            arcs,
            at: None,
            z: 0.0,
            printed: (None, None),
            motion: "",
            feed: String::new(),
        }
    }

    /// An empty file of a machine without heights.
    pub(crate) fn of_dialect(dialect: &Dialect) -> Self {
        let arcs = Arcs {
            longest: dialect.arcs.then_some(dialect.longest_radius),
            most: PI,
        };
        Self::new(
            Grid::new(dialect.units, dialect.decimals),
            dialect.zero,
            0.0,
            arcs,
        )
    }

    /// A rapid across, the height as it was.
    pub(crate) fn across(&mut self, end: Point) -> Result<(), NotFinite> {
        let end = end + self.shift;
        self.at = Some(end);
        self.block("G0", Some(self.grid.point(end)), self.printed.1, None, None)
    }

    /// Along a piece, the height as it was.
    pub(crate) fn draw(&mut self, piece: &Piece, feed: f64) -> Result<(), NotFinite> {
        let end = piece.end + self.shift;
        if !piece.is_line() {
            return self.arc(end, None, piece.bulge, feed);
        }
        self.at = Some(end);
        self.block("G1", Some(self.grid.point(end)), self.printed.1, None, Some(feed))
    }

    /// Straight down to a height, at a feed.
    pub(crate) fn lower(&mut self, z: f64, feed: f64) -> Result<(), NotFinite> {
        self.z = z;
        let z = self.grid.nearest(z * self.grid.per_mm);
        self.block("G1", self.printed.0, Some(z), None, Some(feed))
    }

    /// Nothing is taken as said any longer: someone, or the machine, may have moved the bit.
    pub(crate) fn forget(&mut self) {
        self.printed = (None, None);
        self.motion = "";
        self.feed.clear();
    }

    /// One line as it stands.
    pub(crate) fn line(&mut self, line: String) {
        self.lines.push(line);
    }

    /// The sentences for whoever runs it, as comments in lines of at most `longest` characters.
    pub(crate) fn comments<'a>(&mut self, sentences: impl Iterator<Item = &'a String>, longest: usize) {
        for sentence in sentences {
            for line in wrapped(&comment(sentence).to_uppercase(), longest - 4) {
                // Some controllers show a comment that begins so, and stop.
                let lead = if line.starts_with("MSG") { "- " } else { "" };
                self.line(format!("({lead}{line})"));
            }
        }
    }

    /// Every mode stated, so that nothing is left from the program before.
    pub(crate) fn modes(&mut self) {
        let unit = self.grid.unit_word();
        self.line(format!("G17 {unit} G90 G94 G40 G49 G80"));
    }

    /// The whole file.
    pub(crate) fn finish(self) -> Vec<String> {
        self.lines
    }

    /// A rapid straight up or down to a height above the stock's face, mm.
    pub(crate) fn height(&mut self, z: f64) -> Result<(), NotFinite> {
        self.z = z + self.lift;
        let z = self.grid.above(self.z * self.grid.per_mm);
        self.block("G0", self.printed.0, Some(z), None, None)
    }

    /// One move of the program.
    pub(crate) fn take(&mut self, step: &Move) -> Result<(), NotFinite> {
        let end = step.end + self.shift;
        let z = step.z + self.lift;
        match step.to {
            To::Rapid => {
                // Over an unknown place the height comes first.
                if self.at.is_none() {
                    self.height(step.z)?;
                }
                self.straight("G0", end, z, None)
            }
            To::Straight { feed } => self.straight("G1", end, z, Some(feed)),
            To::Arc { bulge, feed } => self.arc(end, Some(z), bulge, feed),
        }
    }

    fn straight(
        &mut self,
        motion: &'static str,
        end: Point,
        z: f64,
        feed: Option<f64>,
    ) -> Result<(), NotFinite> {
        self.at = Some(end);
        self.z = z;
        let z = z * self.grid.per_mm;
        // Rounding takes a rapid no lower than it was planned.
        let z = if feed.is_none() {
            self.grid.above(z)
        } else {
            self.grid.nearest(z)
        };
        self.block(motion, Some(self.grid.point(end)), Some(z), None, feed)
    }

    /// Along an arc, the height changing evenly to `z`, or as it was.
    fn arc(&mut self, end: Point, z: Option<f64>, bulge: f64, feed: f64) -> Result<(), NotFinite> {
        let start = self.at.unwrap_or(end);
        let from = self.z;
        for Block { end, done, about } in blocks(Piece { start, end, bulge }, &self.grid, self.arcs) {
            let motion = match about {
                None => "G1",
                Some((_, true)) => "G3",
                Some((_, false)) => "G2",
            };
            let height = z.map(|z| if done < 1.0 { from + (z - from) * done } else { z });
            let height = height.map_or(self.printed.1, |z| Some(self.grid.nearest(z * self.grid.per_mm)));
            self.block(
                motion,
                Some(self.grid.point(end)),
                height,
                about.map(|(centre, _)| centre),
                Some(feed),
            )?;
        }
        self.at = Some(end);
        self.z = z.unwrap_or(from);
        Ok(())
    }

    /// One block, in units, of the words that say something new; none where nothing would move.
    fn block(
        &mut self,
        motion: &'static str,
        end: Option<Point>,
        z: Option<f64>,
        centre: Option<Vec2>,
        feed: Option<f64>,
    ) -> Result<(), NotFinite> {
        let mut words = Vec::new();
        for (letter, was, is) in [
            ('X', self.printed.0.map(|p| p.x), end.map(|p| p.x)),
            ('Y', self.printed.0.map(|p| p.y), end.map(|p| p.y)),
            ('Z', self.printed.1, z),
        ] {
            let Some(is) = is else { continue };
            let (is, was) = (self.grid.print(is)?, was.map(|w| self.grid.print(w)).transpose()?);
            // An arc names both of its coordinates: some controllers ask for them.
            if was.as_ref() != Some(&is) || (centre.is_some() && letter != 'Z') {
                words.push(format!("{letter}{is}"));
            }
        }
        if words.is_empty() {
            return Ok(());
        }
        if let Some(centre) = centre {
            words.push(format!("I{}", self.grid.print(centre.x)?));
            words.push(format!("J{}", self.grid.print(centre.y)?));
        }
        if let Some(feed) = feed {
            let feed = self.grid.feed(feed)?;
            if self.motion == "G0" || feed != self.feed {
                words.push(format!("F{feed}"));
                self.feed = feed;
            }
        }
        if motion != self.motion {
            words.insert(0, motion.to_owned());
            self.motion = motion;
        }
        self.printed = (end, z);
        self.lines.push(words.join(" "));
        Ok(())
    }
}
