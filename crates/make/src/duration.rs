//! How long a machine runs for a sheet.

use crate::PlannedSheet;
use cintre_toolpath::{Pace, lines_seconds};
use cintre_work::{BitChange, Layer, Machine};

/// About so many whole minutes, rather too many.
pub(crate) fn minutes(seconds: f64) -> String {
    format!("about {:.0} min", (seconds / 60.0).ceil())
}

impl PlannedSheet {
    /// How long its machine runs, changes of bits apart, s; none where someone else cuts it.
    pub(crate) fn seconds(&self) -> Option<f64> {
        self.road
            .as_ref()
            .map(|road| road.seconds)
            .or_else(|| self.lines_seconds())
    }

    /// How long one bit runs on it, s.
    pub(crate) fn bit_seconds(&self, bit: &str) -> f64 {
        let roads = self.road.iter();
        let each = roads.flat_map(|road| road.programs.iter().zip(&road.program_seconds));
        each.filter(|(program, _)| program.bit == bit)
            .map(|(_, seconds)| seconds)
            .sum()
    }

    /// How long the program with that number on it runs, from 1, s; all bits' where they stand in one file.
    pub(crate) fn program_seconds(&self, number: usize) -> Option<f64> {
        match (&self.machine, &self.road) {
            (Machine::Router(router), Some(road)) if router.bit_change == BitChange::File => {
                road.program_seconds.get(number - 1).copied()
            }
            _ => self.seconds(),
        }
    }

    /// The lines of a beam or a pen.
    fn lines_seconds(&self) -> Option<f64> {
        let drawing = &self.lines.as_ref()?.drawing;
        match &self.machine {
            Machine::Laser(laser) => {
                let power = laser.power.get(&self.sheet.stock.material)?;
                let pace = Pace {
                    rapid: laser.rapid,
                    acceleration: laser.acceleration,
                    cornering: laser.cornering,
                };
                let feed = |layer| match layer {
                    Layer::Mark | Layer::Text => power.mark.feed,
                    _ => power.cut.feed,
                };
                Some(lines_seconds(drawing, pace, &feed, 0.0))
            }
            Machine::Pen(pen) => {
                let pace = Pace {
                    rapid: pen.rapid,
                    acceleration: pen.acceleration,
                    cornering: pen.cornering,
                };
                Some(lines_seconds(drawing, pace, &|_| pen.feed, pen.delay))
            }
            Machine::Router(_) | Machine::Drawing(_) => None,
        }
    }
}
