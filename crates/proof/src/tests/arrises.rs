//! Arrises that a pointed bit takes off.

use super::{DISC, bit, disc, record};
use crate::prove_sheet;
use cintre_work::design::{DesignArris, DesignBit, DesignSheet};

/// Round the edge of the disc with a bit of 90 degrees, its point 2 mm deep.
const EASED: &str = "\
G21 G90 G17 G94 G40 G49
S16000 M3
G4 P4
G0 Z12
G0 X150 Y100
G1 Z-2 F900
G3 X50 Y100 I-50 J0 F2000
G3 X150 Y100 I50 J0
G0 Z12
M30
";

fn eased_disc() -> DesignSheet {
    let mut design = disc();
    design.bits.push(DesignBit {
        angle: Some(90.0),
        ..bit("vee-90", 12.0, false)
    });
    design.parts[0].marks = vec![vec![[150.0, 100.0, 1.0], [50.0, 100.0, 1.0], [150.0, 100.0, 0.0]]];
    design.parts[0].arrises = vec![DesignArris { mark: 0, depth: 2.0 }];
    design
}

fn told(design: &DesignSheet, program: &str, bit: &str) -> String {
    let programs = [
        (
            record(bit, if bit == "vee-90" { 12.0 } else { 6.0 }),
            program.as_bytes(),
        ),
        (record("straight-6", 6.0), DISC.as_bytes()),
    ];
    let verdicts = prove_sheet(design, &programs);
    let findings = verdicts.iter().flat_map(|verdict| &verdict.findings);
    findings
        .map(|finding| finding.what.as_str())
        .collect::<Vec<_>>()
        .join("; ")
}

#[test]
fn an_arris_is_taken_off_by_a_pointed_bit_along_it_and_to_its_depth() {
    let design = eased_disc();
    assert_eq!(told(&design, EASED, "vee-90"), "");
    let deeper = EASED.replace("Z-2", "Z-2.1");
    assert!(told(&design, &deeper, "vee-90").contains("mm into disc"));
    let shallower = EASED.replace("Z-2", "Z-1.9");
    assert!(told(&design, &shallower, "vee-90").contains("an arris of disc is not taken off"));
    let half = EASED.replace("G3 X150 Y100 I50 J0\n", "");
    assert!(told(&design, &half, "vee-90").contains("an arris of disc is not taken off"));
    let aside = EASED
        .replace("150", "149.9")
        .replace("X50", "X50.1")
        .replace("I-50", "I-49.9")
        .replace("I50", "I49.9");
    assert!(told(&design, &aside, "vee-90").contains("mm into disc"));
    assert!(
        told(&design, EASED, "straight-6").contains("mm into disc"),
        "not with upright sides"
    );
}

#[test]
fn an_edge_that_is_to_stay_square_is_not_eased() {
    let mut design = eased_disc();
    design.parts[0].arrises.clear();
    assert!(told(&design, EASED, "vee-90").contains("2.000 mm into disc"));
}
