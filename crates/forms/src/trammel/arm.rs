//! The arm: a pad for the router, and its pivots, each with its number.

use super::hull::round_all;
use super::mount::Held;
use super::{Input, Station, TrammelError};
use crate::{Error, writing};
use cintre_geometry::{Outline, Point};
use cintre_work::{Bore, Depth, Grain, Part};

/// The least wood between two pivots, mm.
const BRIDGE: f64 = 6.0;

/// The wood about the outermost pivots, mm.
const EDGE: f64 = 18.0;

/// Half the least width of an arm at its end, mm: stiff enough to press on.
const HALF_END: f64 = 35.0;

/// Rows of pivots that are tried: in the middle, then to either side.
const ROWS: i32 = 9;

/// Makes the arm.
pub(super) fn arm(input: &Input, stations: &[Station]) -> Result<Part, Error> {
    let held = Held::new(input)?;
    let pivots = pivots(input, stations, &held)?;
    let aside = pivots.iter().map(|p| p.y.abs()).fold(0.0, f64::max);
    let end = (aside + input.pin / 2.0 + EDGE).max(HALF_END);
    let far = pivots.iter().map(|p| p.x).fold(0.0, f64::max);
    let outline = round_all(&[(Point::ZERO, held.pad), (Point::new(far, 0.0), end)]);
    let bores = pivots.iter().map(|&centre| pin(input, centre));
    let mut part = plate(input, format!("{} trammel arm", input.arch), outline);
    part.openings.push(held.opening());
    part.bores = held.bores.iter().copied().chain(bores).collect();
    for (station, pivot) in stations.iter().zip(&pivots) {
        writing::beside(&mut part, &station.number.to_string(), *pivot, input.pin / 2.0)?;
    }
    let texts: Vec<String> = [part.name.clone(), format!("bit {} mm", input.bit)]
        .into_iter()
        .chain(stations.iter().map(Station::text))
        .collect();
    writing::write(&mut part, &texts)?;
    Ok(part)
}

/// A part of the trammel with nothing in it yet.
pub(super) fn plate(input: &Input, name: String, outline: Outline) -> Part {
    Part {
        name,
        outline,
        openings: Vec::new(),
        bores: Vec::new(),
        recesses: Vec::new(),
        marks: Vec::new(),
        clean: Vec::new(),
        stock: input.stock.clone(),
        thickness: input.thickness,
        grain: Grain::Along(0.0),
        count: 1,
        fit_error: 0.0,
    }
}

/// A hole for the pivot's pin.
pub(super) const fn pin(input: &Input, centre: Point) -> Bore {
    Bore {
        centre,
        diameter: input.pin,
        depth: Depth::Through,
    }
}

/// Where the pivots lie, each at its distance from the bit's centre, in the first row where it is clear of those before.
fn pivots(input: &Input, stations: &[Station], held: &Held) -> Result<Vec<Point>, TrammelError> {
    let bridge = input.pin.max(BRIDGE);
    let apart = input.pin + bridge;
    let least = held.open + input.pin / 2.0 + bridge;
    let mut placed: Vec<Point> = Vec::new();
    for station in stations {
        if station.distance < least {
            return Err(TrammelError::Short {
                of: station.of.clone(),
                radius: station.radius,
                distance: station.distance,
                least,
            });
        }
        let clear = |p: &Point| {
            let of_base =
                |bore: &Bore| bore.centre.distance(*p) >= bore.diameter / 2.0 + input.pin / 2.0 + bridge;
            placed.iter().all(|other| other.distance(*p) >= apart) && held.bores.iter().all(of_base)
        };
        let found = rows(apart)
            .filter_map(|y| along(station.distance, y))
            .find(clear)
            .ok_or(TrammelError::Crowded {
                count: stations.len(),
                pin: input.pin,
            })?;
        placed.push(found);
    }
    Ok(placed)
}

/// The rows' distances from the middle: 0, one step to either side, two …
fn rows(step: f64) -> impl Iterator<Item = f64> {
    (0..ROWS).map(move |row| {
        let side = if row % 2 == 1 { 1.0 } else { -1.0 };
        side * f64::from((row + 1) / 2) * step
    })
}

/// The point of a row at a distance from the bit's centre.
fn along(distance: f64, y: f64) -> Option<Point> {
    let x = ((distance - y) * (distance + y)).sqrt();
    x.is_finite().then(|| Point::new(x, y))
}
