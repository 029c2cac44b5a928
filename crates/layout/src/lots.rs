//! The sheets of one stock: the plain layout and the search, and which of the two is handed over.

use crate::limit::Limit;
use crate::pieces::Lot;
use crate::rng::Chance;
use crate::room::Room;
use crate::settled::Layout;
use crate::spread::Spread;
use crate::{Conduct, Effort, Error, MOST_SEARCHED, Settings, check, first, offcut, plain, report, search};
use cintre_work::Sheet;

/// How much of what may be spent goes for fewer sheets, in tenths; the rest for the offcut.
const FOR_SHEETS: u64 = 7;

/// The sheets of one lot: the best of the plain layout and of what the search found, that measures as it should; and
/// whether the search was stopped.
pub(crate) fn sheets(
    lot: &Lot<'_>,
    settings: Settings,
    conduct: Conduct<'_>,
    before: usize,
) -> Result<(Vec<Sheet>, bool), Error> {
    // What goes on only askew, or only as a box to the last hair, one of the two finds.
    let (plain, searched) = match (plain::boxes(lot), searched(lot, settings, conduct)) {
        (Err(error), Err(_)) | (Ok(None), Err(error)) => return Err(error),
        (plain, searched) => (plain.ok().flatten(), searched.ok()),
    };
    let stopped = searched.as_ref().is_some_and(|&(_, stopped)| stopped);
    let layouts = plain.into_iter().chain(searched.map(|(layout, _)| layout));
    let mut found: Vec<Vec<Sheet>> = layouts.map(|layout| layout.sheets(lot, before)).collect();
    found.sort_by(|a, b| worth(a, lot.spacing).total_cmp(&worth(b, lot.spacing)));
    let sound = found
        .iter()
        .position(|sheets| check::check(sheets, lot.spacing).is_ok());
    let sheets = found.swap_remove(sound.unwrap_or(0));
    check::check(&sheets, lot.spacing)?;
    enough(lot, &sheets)?;
    Ok((sheets, stopped))
}

/// The area of the sheets used, less a hundredth of the offcut: less is better.
fn worth(sheets: &[Sheet], spacing: f64) -> f64 {
    let area: f64 = sheets.iter().map(|s| s.stock.size.0 * s.stock.size.1).sum();
    area - report::largest_offcut(sheets, spacing).map_or(0.0, |o| o.outline.area()) / 100.0
}

/// The layout that the search came to, and whether it was stopped before its end.
fn searched(lot: &Lot<'_>, settings: Settings, conduct: Conduct<'_>) -> Result<(Layout, bool), Error> {
    let mut chance = Chance::new(settings.seed);
    let mut spread = Spread::new(lot);
    first::lay(&mut spread, &lot.by_size(), &mut chance)?;
    let pieces = lot.pieces.len();
    if pieces > MOST_SEARCHED || beyond_all(lot, &spread) {
        return Ok((Layout::of(&spread), false));
    }
    let spend = settings.effort.questions.saturating_mul(pieces as u64);
    let limit = Limit::new(&spread, spend, settings.effort.stubborn, conduct);
    let for_sheets = limit.part(&spread, FOR_SHEETS);
    search::fewer_sheets(&mut spread, &mut chance, for_sheets);
    if settings.effort != Effort::QUICK {
        offcut::largest(&mut spread, &mut chance, limit);
    }
    Ok((Layout::of(&spread), (conduct.stop)()))
}

/// Whether the sheets that there are have less room than the pieces take: no search helps then.
fn beyond_all(lot: &Lot<'_>, spread: &Spread<'_>) -> bool {
    let room = |room: &Room<'_>| room.stock.sheets.map(|have| have as f64 * room.area);
    let all: Option<f64> = lot.rooms.iter().map(room).sum();
    all.is_some_and(|all| all < spread.grown_area())
}

/// Refuses a layout that takes more sheets of a kind than there are.
fn enough(lot: &Lot<'_>, sheets: &[Sheet]) -> Result<(), Error> {
    for room in &lot.rooms {
        let needed = sheets.iter().filter(|s| s.stock == *room.stock).count();
        if let Some(have) = room.stock.sheets
            && needed > have
        {
            return Err(Error::Sheets {
                stock: room.stock.name.clone(),
                needed,
                have,
            });
        }
    }
    Ok(())
}

/// The refusal of a piece that does not go on a whole sheet.
pub(crate) fn too_large(lot: &Lot<'_>, piece: usize) -> Error {
    let kind = lot.kind(piece);
    let mut best: Option<(f64, Error)> = None;
    for room in &lot.rooms {
        let stock = room.stock;
        let usable = stock.usable();
        let usable = (usable.width().max(0.0), usable.height().max(0.0));
        for (_, (w, h)) in kind.boxes(stock.grain) {
            let share = (usable.0 / w).min(usable.1 / h);
            if best.as_ref().is_none_or(|(so_far, _)| share > *so_far) {
                let error = Error::TooLarge {
                    part: kind.part.name.clone(),
                    stock: stock.name.clone(),
                    size: (w, h),
                    usable,
                    largest: (w * share.min(1.0), h * share.min(1.0)),
                };
                best = Some((share, error));
            }
        }
    }
    best.map_or_else(
        || Error::UnknownStock {
            part: kind.part.name.clone(),
            stock: kind.part.stock.clone(),
        },
        |(_, error)| error,
    )
}
