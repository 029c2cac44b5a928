//! The file as it grows: what was printed last, and what need not be said again.

use crate::arc::{Block, blocks};
use crate::grid::Grid;
use cintre_geometry::{Piece, Point, Vec2};
use cintre_work::{Move, Router, To};
use cintre_write::NotFinite;

/// A program on its way out.
#[derive(Debug)]
pub(crate) struct Run {
    lines: Vec<String>,
    grid: Grid,
    /// From the sheet's frame to the router's zero, mm.
    shift: Vec2,
    lift: f64,
    longest: Option<f64>,
    /// Where the bit truly is, mm in the router's frame; unknown at first.
    at: Option<Point>,
    z: f64,
    /// As printed, in units.
    printed: (Option<Point>, Option<f64>),
    motion: &'static str,
    feed: String,
}

impl Run {
    pub(crate) fn new(grid: Grid, router: &Router, lift: f64) -> Self {
        Self {
            lines: Vec::new(),
            grid,
            shift: -Vec2::from(router.zero.at),
            lift,
            longest: router.arcs.then_some(router.longest_radius),
            at: None,
            z: 0.0,
            printed: (None, None),
            motion: "",
            feed: String::new(),
        }
    }

    /// One line as it stands.
    pub(crate) fn line(&mut self, line: String) {
        self.lines.push(line);
    }

    /// The whole file.
    pub(crate) fn finish(self) -> String {
        self.lines.join("\n") + "\n"
    }

    /// A rapid straight up or down to a height above the stock's face, mm.
    pub(crate) fn height(&mut self, z: f64) -> Result<(), NotFinite> {
        self.z = z + self.lift;
        let z = self.grid.nearest(self.z * self.grid.per_mm);
        self.block("G0", self.printed.0, z, None, None)
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
            To::Arc { bulge, feed } => self.arc(end, z, bulge, feed),
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
        let z = self.grid.nearest(z * self.grid.per_mm);
        self.block(motion, Some(self.grid.point(end)), z, None, feed)
    }

    fn arc(&mut self, end: Point, z: f64, bulge: f64, feed: f64) -> Result<(), NotFinite> {
        let start = self.at.unwrap_or(end);
        let from = self.z;
        for Block { end, done, about } in blocks(Piece { start, end, bulge }, &self.grid, self.longest) {
            let height = if done < 1.0 { from + (z - from) * done } else { z };
            let motion = match about {
                None => "G1",
                Some((_, true)) => "G3",
                Some((_, false)) => "G2",
            };
            let printed = self.grid.nearest(height * self.grid.per_mm);
            self.block(
                motion,
                Some(self.grid.point(end)),
                printed,
                about.map(|(centre, _)| centre),
                Some(feed),
            )?;
        }
        self.at = Some(end);
        self.z = z;
        Ok(())
    }

    /// One block, in units, of the words that say something new; none where nothing would move.
    fn block(
        &mut self,
        motion: &'static str,
        end: Option<Point>,
        z: f64,
        centre: Option<Vec2>,
        feed: Option<f64>,
    ) -> Result<(), NotFinite> {
        let mut words = Vec::new();
        for (letter, was, is) in [
            ('X', self.printed.0.map(|p| p.x), end.map(|p| p.x)),
            ('Y', self.printed.0.map(|p| p.y), end.map(|p| p.y)),
            ('Z', self.printed.1, Some(z)),
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
        self.printed = (end, Some(z));
        self.lines.push(words.join(" "));
        Ok(())
    }
}
