//! A bar with a plate at each end, for a radius beyond the arm.

use super::arm::{pin, plate};
use super::hull::round_all;
use super::mount::Held;
use super::{Input, Station, TrammelError};
use crate::{Error, Figure, Form, Item, writing};
use cintre_geometry::Point;
use cintre_work::{Bore, Depth};

/// The bar's width and thickness, mm.
const BAR: (f64, f64) = (45.0, 20.0);

/// Half the width of the plates where the bar lies on them, mm.
const HALF: f64 = 45.0;

/// From the pivot to the pin that holds the bar, mm; and from the router's pad to its own.
const HOLD: f64 = 60.0;

/// From such a pin to the bolts on either side of it, mm.
const BOLTS: f64 = 25.0;

/// What a bar reaches past the pins at its ends, mm.
const PAST: f64 = 50.0;

/// Adds the plates, the bar, and where its holes are bored.
pub(super) fn add(input: &Input, stations: &[Station], form: &mut Form) -> Result<(), Error> {
    let held = Held::new(input)?;
    let hold = held.pad + HOLD;
    let between: Vec<f64> = stations.iter().map(|s| s.distance - HOLD - hold).collect();
    if let Some((station, _)) = stations
        .iter()
        .zip(&between)
        .find(|(_, between)| **between < HOLD)
    {
        return Err(TrammelError::Short {
            of: station.of.clone(),
            radius: station.radius,
            distance: station.distance,
            least: 2.0 * HOLD + hold,
        }
        .into());
    }
    let shaped = |name: &str, pad: f64, far: f64| {
        let outline = round_all(&[(Point::ZERO, pad), (Point::new(far, 0.0), HALF)]);
        plate(input, format!("{} {name}", input.arch), outline)
    };
    let mut router = shaped("router plate", held.pad, hold);
    router.openings.push(held.opening());
    router.bores = held.bores.iter().copied().chain(pinned(input, hold)).collect();
    let mut pivot = shaped("pivot plate", HALF, HOLD);
    pivot.bores = std::iter::once(pin(input, Point::ZERO))
        .chain(pinned(input, HOLD))
        .collect();
    for mut part in [router, pivot] {
        let texts = [part.name.clone(), format!("bit {} mm", input.bit)];
        writing::write(&mut part, &texts)?;
        form.parts.push(part);
    }
    let longest = between.iter().copied().fold(0.0, f64::max);
    form.list
        .push(Item::of("bar", 1, longest + 2.0 * PAST, Some(BAR)));
    for (station, between) in stations.iter().zip(&between) {
        form.notes.push(format!(
            "for hole {} bore the bar {between:.3} mm from its first hole",
            station.number
        ));
    }
    form.figures
        .push(Figure::lengths("bar holes from its first", between));
    form.notes.push(format!(
        "bore the bar {PAST} mm from its end for the pin of the router's plate, then from there for each radius; pins hold it to both plates, bolts \
         and straps beside it hold it down"
    ));
    Ok(())
}

/// The hole of the pin that holds the bar, and those of the bolts about it.
fn pinned(input: &Input, x: f64) -> impl Iterator<Item = Bore> {
    let aside = BAR.0 / 2.0 + input.screw / 2.0 + 3.0;
    let (screw, hold) = (input.screw, pin(input, Point::new(x, 0.0)));
    let bolts = [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)].map(move |(i, j)| Bore {
        centre: Point::new(x + i * BOLTS, j * aside),
        diameter: screw,
        depth: Depth::Through,
    });
    std::iter::once(hold).chain(bolts)
}
