//! The disc on a machine, with a bit or by a record that it does not suit.

use super::{DISC, disc, prove, record, said};
use crate::prove_sheet;
use cintre_work::design::{DesignHolder, DesignRecess, DesignSheet};

#[test]
fn what_holds_the_bit_stays_above_the_stock() {
    let held =
        |diameter: f64, above: f64| with(|d| d.bits[0].holder = Some(DesignHolder { diameter, above }));
    assert!(
        held(20.0, 12.2).contains("what holds its bit begins 12.20 mm above the tip: that strikes the stock")
    );
    assert_eq!(held(20.0, 12.3), "");
    assert_eq!(held(6.0, 5.0), "", "no wider than the bit");
}

#[test]
fn a_pointed_bit_cuts_no_edge_through() {
    let found = with(|d| d.bits[0].angle = Some(60.0));
    assert!(found.contains("nothing is cut through along disc"), "{found}");
}

fn with(change: impl Fn(&mut DesignSheet)) -> String {
    let mut design = disc();
    change(&mut design);
    let verdict = prove(&design, DISC);
    assert_eq!(verdict.passed, verdict.findings.is_empty());
    said(&verdict)
}

#[test]
fn the_stock_the_bed_and_the_bit_have_their_limits() {
    assert!(with(|d| d.size = [140.0, 200.0]).contains("it cuts 10.00 mm beyond the stock"));
    assert!(
        with(|d| d.router.as_mut().unwrap().bed = [150.0, 150.0]).contains("it leaves the bed by 3.00 mm")
    );
    let barred = |x: f64| with(|d| d.router.as_mut().unwrap().keep_outs.push([x, 90.0, 170.0, 110.0]));
    assert!(barred(155.9).contains("kept out of"));
    assert_eq!(barred(156.01), "");
    assert!(
        with(|d| d.bits[0].cutting_length = 12.0)
            .contains("goes 12.30 mm deep with a bit that cuts 12.00 mm")
    );
    assert!(with(|d| d.bits[0].drill = true).contains("a drill moves sideways"));
    assert!(
        with(|d| d.bits[0].name = "other".to_owned()).contains("its bit straight-6 is none of the sheet's")
    );
    assert!(
        with(|d| d.tabs[0].part = "other".to_owned()).contains("a tab of a part that is not on the sheet")
    );
    assert!(with(|d| d.tabs[0].at = [149.0, 100.0]).contains("does not stand on its part's edge"));
    assert!(with(|d| d.router = None).contains("no router is designed"));
    assert!(with(|d| d.parts.clear()).contains("a sheet without parts"));
}

#[test]
fn what_is_not_cut_or_cannot_be_judged_is_refused() {
    let recess = DesignRecess {
        outline: vec![[110.0, 100.0, -1.0], [90.0, 100.0, -1.0]],
        islands: Vec::new(),
        depth: 4.0,
    };
    assert!(
        with(|d| d.parts[0].recesses.push(recess.clone()))
            .contains("a recess is not cut to its depth of 4.00 mm")
    );
    assert!(
        with(|d| d.parts[0].recesses.push(DesignRecess {
            depth: 0.0,
            ..recess.clone()
        }))
        .contains("a bore or recess without a size")
    );
    assert!(with(|d| d.parts[0].outline[0][0] = f64::NAN).contains("its outline is no outline"));
}

#[test]
fn a_record_that_does_not_fit_is_found() {
    let proven = |change: &dyn Fn(&mut crate::ProgramRecord)| {
        let mut record = record("straight-6", 6.0);
        change(&mut record);
        said(&prove_sheet(&disc(), &[(record, DISC.as_bytes())])[0])
    };
    assert_eq!(proven(&|_| ()), "");
    assert!(proven(&|r| r.bit.diameter = 6.35).contains("said to be 6.35 mm, and 6 mm in the design"));
    assert!(proven(&|r| r.bit.diameter = 6.35).contains("it cuts 0.175 mm into disc"));
    assert!(proven(&|r| r.origin = [0.5, 0.0]).contains("it cuts 0.500 mm into disc"));
    assert!(proven(&|r| r.top = 1.0).contains("its face and underside are 13.000 mm apart"));
    // The same program with its zero on the spoilboard cuts air.
    assert!(proven(&|r| (r.top, r.floor) = (12.0, 0.0)).contains("below the safe height of 24.000"));
}
