//! What a machine that fetches its own bits must know of them.

use crate::fault::Fault;
use crate::record::{Datum, Record};
use std::collections::BTreeMap;

/// Each bit that M6 is to fetch has a number, and no two of one machine the same.
pub(crate) fn check_changer(shop: &Record, machine: &Record, faults: &mut Vec<Fault>) {
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
