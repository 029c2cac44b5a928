//! How each file of a sheet runs, and how long.

use super::html::{Html, text};
use crate::PlannedSheet;
use crate::duration::minutes;
use cintre_work::Machine;

/// How a bit runs in the sheet's material.
pub(super) fn feeds(planned: &PlannedSheet, name: &str) -> Option<String> {
    let bit = planned.bits.iter().find(|bit| bit.name == name)?;
    let feeds = bit.feeds.get(&planned.sheet.stock.material)?;
    let number = bit
        .number
        .map_or_else(String::new, |number| format!("number {number}; "));
    Some(format!(
        "{number}{:.0} turns a minute, {:.0} mm a minute along and {:.0} down, {} mm deep at most",
        feeds.speed, feeds.feed, feeds.plunge, feeds.depth
    ))
}

pub(super) fn time(planned: &PlannedSheet) -> String {
    match (planned.seconds(), &planned.road) {
        (Some(seconds), Some(_)) => {
            format!("{} of machine time, changes of bits apart", minutes(seconds))
        }
        (Some(seconds), None) => format!("{} of machine time", minutes(seconds)),
        (None, _) => "for whoever cuts it to say".to_owned(),
    }
}

/// With what a file without bits runs, how, and how long.
pub(super) fn without_bits(planned: &PlannedSheet) -> [Html; 3] {
    let material = &planned.sheet.stock.material;
    let (with, how) = match &planned.machine {
        Machine::Laser(laser) => {
            let how = laser.power.get(material).map(|power| {
                let one = |name: &str, beam: &cintre_work::Beam| {
                    format!(
                        "{name} {} per cent at {} mm a second",
                        beam.power,
                        beam.feed / 60.0
                    )
                };
                format!("{}; {}", one("cut", &power.cut), one("mark", &power.mark))
            });
            ("the beam", how.unwrap_or_default())
        }
        Machine::Pen(pen) => ("the pen", format!("{} mm a minute", pen.feed)),
        Machine::Drawing(_) | Machine::Router(_) => ("whatever cuts it", "lines alone".to_owned()),
    };
    [text(with), text(&how), text(&time(planned))]
}
