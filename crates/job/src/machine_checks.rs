//! What no single field of a machine can tell.

use crate::fault::Fault;
use crate::machine::{ZeroAt, corners};
use crate::record::{Datum, Record};
use cintre_measure::Unit;
use std::collections::BTreeMap;

/// What no single field of a machine can tell.
pub(crate) fn check_machine(shop: &Record, record: &Record, faults: &mut Vec<Fault>) {
    let inch = record.get("units") == Some(&Datum::Unit(Unit::Inch));
    if let Some(placed) = record.fields.get("decimals")
        && let Datum::Whole(decimals) = placed.datum
        && decimals != 4
        && (decimals == 3) == inch
    {
        let what = "mm takes 3 or 4 decimals, in takes 4 or 5";
        faults.push(placed.place.fault(what, None));
    }
    if let Some(placed) = record.fields.get("speeds")
        && let Datum::List(speeds) = &placed.datum
        && speeds[0].datum.number() > speeds[1].datum.number()
    {
        let what = "the slower speed comes first, then the faster";
        faults.push(placed.place.fault(what, None));
    }
    check_changer(shop, record, faults);
    check_tabs(record, faults);
    check_park(record, faults);
    check_zero(record, faults);
    check_pen(record, faults);
    if let Some(placed) = record.fields.get("keep-outs")
        && let Datum::List(boxes) = &placed.datum
    {
        for item in boxes {
            let [x0, y0, x1, y1] = corners(&item.datum);
            if x0 >= x1 || y0 >= y1 {
                let what = "a box is [left, near, right, far], with left under right and near under far";
                faults.push(item.place.fault(what, None));
            }
        }
    }
}

/// Each bit that M6 is to fetch has a number, and no two of one machine the same.
fn check_changer(shop: &Record, machine: &Record, faults: &mut Vec<Fault>) {
    if machine.get("bit-change") != Some(&Datum::Word("M6")) {
        return;
    }
    let mut by_number: BTreeMap<u32, &str> = BTreeMap::new();
    let its_own: Vec<String> = machine.list("bits").map(Datum::text).collect();
    for (name, bit) in shop
        .named("bits")
        .filter(|(name, _)| its_own.iter().any(|own| own == name))
    {
        if bit.is_faulty(&["number"], faults) {
            continue;
        }
        let Some(number) = bit.maybe_whole("number") else {
            let what = format!("`{name}` has no `number` by which M6 could fetch it");
            faults.push(bit.place.fault(what, Some(OWN.to_owned())));
            continue;
        };
        if let Some(other) = by_number.insert(number, name) {
            let what = format!("by this number M6 fetches `{other}` as well");
            faults.push(bit.places().at("number").fault(what, Some(OWN.to_owned())));
        }
    }
}

const OWN: &str = "give each bit of the machine the number of its own place in the changer";

/// Tabs must leave more of an edge to be cut than they hold.
fn check_tabs(record: &Record, faults: &mut Vec<Fault>) {
    if let Some(tabs) = record.maybe_record("tabs")
        && let (Some(width), Some(every)) = (tabs.maybe_number("width"), tabs.maybe_number("every"))
        && width * 2.0 > every
        && let Some(placed) = record.fields.get("tabs")
    {
        let what = "tabs so wide, so near to one another, leave less to cut than they hold";
        let help = format!("`width` is half of `every`, {:.1} mm, at most", every / 2.0);
        faults.push(placed.place.fault(what, Some(help)));
    }
}

/// The machine can stand where it is parked.
fn check_park(record: &Record, faults: &mut Vec<Fault>) {
    if record.get("park").is_none() || record.get("bed").is_none() {
        return;
    }
    let (park, bed) = (record.numbers::<2>("park"), record.numbers::<2>("bed"));
    if park
        .iter()
        .zip(bed)
        .any(|(at, reach)| !(0.0..=reach).contains(at))
    {
        let what = "the machine cannot go there";
        let help = format!("its bed reaches from 0, 0 to {:.1}, {:.1} mm", bed[0], bed[1]);
        faults.push(record.places().at("park").fault(what, Some(help)));
    }
}

/// The zero stands where one can find it.
fn check_zero(record: &Record, faults: &mut Vec<Fault>) {
    if let Some(zero) = record.maybe_record("zero")
        && let Some(at) = zero.maybe_text("at")
        && ZeroAt::read(&at).is_none()
    {
        let what = format!("`{at}` is no place on the sheet");
        let help = "near-left, middle, or bore and the name of a part: `bore gate rib 1`";
        faults.push(zero.places().at("at").fault(what, Some(help.to_owned())));
    }
}

/// The words that lift and lower a pen come together, and a pen that is up stands higher than one that draws.
fn check_pen(record: &Record, faults: &mut Vec<Fault>) {
    if record.case != "pen" {
        return;
    }
    let places = record.places();
    if record.maybe_text("pen-up").is_some() != record.maybe_text("pen-down").is_some() {
        let what = "`pen-up` and `pen-down` belong together";
        faults.push(places.at("pen-up").fault(what, None));
    }
    let heights = (
        record.maybe_number("up-height"),
        record.maybe_number("down-height"),
    );
    if let (Some(up), Some(down)) = heights
        && up <= down
    {
        let what = "the pen travels no higher than it draws";
        faults.push(places.at("up-height").fault(what, None));
    }
}
