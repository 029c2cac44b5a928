//! What full-size drawings are printed on.

use crate::{Faults, PaperSpec, Shop, read_shop};

fn shop(house: &str) -> Result<Shop, Faults> {
    read_shop("shop.yaml", &format!("house: {{ {house} }}\n"))
}

#[test]
fn paper_roll_and_printer_are_read() {
    let house = shop("paper: Letter, roll: 36 in, printer: { across: 97.2, along: 3 15/16\" }")
        .unwrap()
        .house;
    let PaperSpec {
        sheet,
        roll,
        printer,
        drawn,
    } = house.paper;
    assert_eq!(drawn, ["arches", "parts"]);
    assert_eq!(sheet, Some("Letter"));
    assert!((roll.unwrap() - 914.4).abs() < 1e-9);
    let [across, along] = printer.unwrap();
    assert!((across - 97.2).abs() < 1e-9 && (along - 100.0125).abs() < 1e-9);
    let plain = shop("").unwrap().house.paper;
    assert_eq!((plain.sheet, plain.roll, plain.printer), (None, None, None));
}

#[test]
fn a_paper_that_has_no_name_is_refused_with_those_that_have() {
    let told = shop("paper: A9").unwrap_err().to_string();
    assert!(told.contains("A4") && told.contains("Letter"), "{told}");
}

#[test]
fn a_bar_that_no_printer_prints_is_refused_at_its_field() {
    // 4 in read for 100 mm, or the scale of the dialogue left at 50 per cent.
    for wrong in ["across: 50, along: 100", "across: 100, along: 4 ft"] {
        let faults = shop(&format!("printer: {{ {wrong} }}")).unwrap_err().0;
        assert_eq!(faults.len(), 1);
        assert!(
            faults[0].field.starts_with("house.printer."),
            "{}",
            faults[0].field
        );
        assert!(faults[0].what.contains("80 to 125 mm"), "{}", faults[0].what);
    }
    assert_eq!(shop("printer: { across: 97.2 }").unwrap_err().0.len(), 1);
}
