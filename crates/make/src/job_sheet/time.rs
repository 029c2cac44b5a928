//! How each file of a sheet runs, and how long.

use super::html::{Html, text};
use crate::PlannedSheet;
use cintre_work::{Figure, Layer, Machine, Shape};

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

/// How long one bit runs.
pub(super) fn seconds(planned: &PlannedSheet, bit: &str) -> f64 {
    let Some(road) = &planned.road else { return 0.0 };
    let each = road.programs.iter().zip(&road.program_seconds);
    each.filter(|(program, _)| program.bit == bit)
        .map(|(_, seconds)| seconds)
        .sum()
}

/// About so many whole minutes, rather too many.
pub(super) fn minutes(seconds: f64) -> String {
    format!("about {:.0} min", (seconds / 60.0).ceil())
}

pub(super) fn time(planned: &PlannedSheet) -> String {
    if let Some(road) = &planned.road {
        return format!("{} of machine time, changes of bits apart", minutes(road.seconds));
    }
    match lines_seconds(planned) {
        Some(seconds) => format!("{} along its lines, travel apart", minutes(seconds)),
        None => "for whoever cuts it to say".to_owned(),
    }
}

/// The lines of a beam or a pen at their feeds.
fn lines_seconds(planned: &PlannedSheet) -> Option<f64> {
    let feed: Box<dyn Fn(Layer) -> f64> = match &planned.machine {
        Machine::Laser(laser) => {
            let power = laser.power.get(&planned.sheet.stock.material)?;
            let (cut, mark) = (power.cut.feed, power.mark.feed);
            Box::new(move |layer| match layer {
                Layer::Mark | Layer::Text => mark,
                _ => cut,
            })
        }
        Machine::Pen(pen) => {
            let feed = pen.feed;
            Box::new(move |_| feed)
        }
        Machine::Router(_) | Machine::Drawing(_) => return None,
    };
    let shapes = planned.lines.iter().flat_map(|lines| &lines.drawing.shapes);
    let run = shapes.filter(|shape| shape.layer != Layer::Stock);
    Some(run.map(|shape| length(shape) / feed(shape.layer) * 60.0).sum())
}

fn length(shape: &Shape) -> f64 {
    match &shape.figure {
        Figure::Closed(outline) => outline.pieces().map(|piece| piece.length()).sum(),
        Figure::Open(path) => path.length(),
        Figure::Circle { radius, .. } => std::f64::consts::TAU * radius,
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
