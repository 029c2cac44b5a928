//! What no machine can be told.

use super::faults::{fault, faults, says};
use super::spoilt;
use crate::*;

#[test]
fn a_ramp_is_neither_level_nor_a_plunge() {
    for ramp in ["0 deg", "-3 deg", "90 deg", "91 deg", "0.1 deg"] {
        says(
            &fault("kind: router", &format!("kind: router, ramp: {ramp}")),
            "shop.machines.table.ramp",
            &["0.2 to 45 degrees"],
        );
    }
}

#[test]
fn a_machine_parks_on_its_bed() {
    says(
        &fault("kind: router", "kind: router, park: [-900, 50]"),
        "shop.machines.table.park",
        &["2500.0, 1300.0 mm"],
    );
}

#[test]
fn bits_that_are_fetched_have_a_number_each() {
    let fetched = spoilt("kind: router", "kind: router, bit-change: M6")
        .replace("bits: [straight-6]", "bits: [straight-6, drill-9]");
    let bits = "straight-6: { kind: straight, diameter: 1/4 in, cutting-length: 25";
    let drill = "\n    drill-9: { kind: drill, diameter: 9, cutting-length: 40";
    let same = fetched.replace(
        &format!("{bits} }}"),
        &format!("{bits}, number: 1 }}{drill}, number: 1 }}"),
    );
    let said = faults(&same);
    assert_eq!(said.len(), 1);
    says(
        &said[0],
        "shop.bits.drill-9.number",
        &["`straight-6`", "its own place"],
    );
    let none = fetched.replace(&format!("{bits} }}"), &format!("{bits}, number: 1 }}{drill} }}"));
    says(&faults(&none)[0], "shop.bits.drill-9", &["no `number`", "M6"]);
    let each = same.replace("40, number: 1", "40, number: 2");
    assert!(read_job("job.yaml", &each).is_ok());
}
