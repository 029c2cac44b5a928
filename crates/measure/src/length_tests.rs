use super::*;
use proptest::prelude::*;

fn mm(text: &str) -> f64 {
    parse_length(text, Unit::Millimetre).unwrap()
}

fn inch(text: &str) -> f64 {
    parse_length(text, Unit::Inch).unwrap() / INCH
}

fn fault(text: &str) -> (LengthFault, Range<usize>) {
    let error = parse_length(text, Unit::Inch).unwrap_err();
    (error.fault, error.at)
}

fn close(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-9, "{a} is not {b}");
}

#[test]
fn metric_spellings() {
    for text in [
        "1371.6",
        "1371.6 mm",
        "137.16 cm",
        "1.3716 m",
        "1371.6mm",
        " 1371.6 MM ",
        "+1371.6",
    ] {
        close(mm(text), 1371.6);
    }
    close(mm("-20"), -20.0);
    close(mm("−20 mm"), -20.0);
    close(mm("1/2 mm"), 0.5);
    close(mm(".5"), 0.5);
}

#[test]
fn inch_spellings() {
    for text in [
        "54 in",
        "54\"",
        "54″",
        "54''",
        "54 inches",
        "54 in.",
        "4' 6\"",
        "4 ft 6 in",
        "4.5 ft",
        "4' 6",
    ] {
        close(mm(text), 1371.6);
    }
    for text in [
        "54 1/2\"",
        "54-1/2\"",
        "54½\"",
        "54 ½ in",
        "4' 6 1/2\"",
        "4'-6 1/2\"",
        "4′ 6½″",
        "4’-6½”",
        "4 ft 6 1/2 in",
        "4ft. 6-1/2in.",
        "54 1⁄2 in",
        "54.5 in",
        "4'6.5\"",
    ] {
        close(mm(text), 54.5 * INCH);
    }
    close(inch("5/8"), 0.625);
    close(inch("⅝"), 0.625);
    close(inch("1 1/2"), 1.5);
    close(inch("-1 1/2"), -1.5);
    close(inch("3'"), 36.0);
}

/// A builder's opening of 3'-10 1/2" by 7 5/16".
#[test]
fn an_opening_in_feet_and_inches() {
    close(mm("3'-10 1/2\""), 1181.1);
    let (span, rise) = (inch("3'-10 1/2\""), inch("7 5/16\""));
    let radius = span * span / (8.0 * rise) + rise / 2.0;
    assert!((radius - 40.618).abs() < 5e-4, "{radius}");
}

#[test]
fn troubles_are_pointed_at() {
    use LengthFault as F;
    assert_eq!(fault("137,5 in"), (F::Comma, 0..5));
    assert_eq!(fault("1,371.6"), (F::Comma, 0..7));
    assert_eq!(fault("54 1/0"), (F::ZeroDenominator, 3..6));
    assert_eq!(fault("54 1/"), (F::NoDenominator, 3..5));
    assert_eq!(fault("54.5 1/2"), (F::DecimalFraction, 0..8));
    assert_eq!(fault("1.5/2"), (F::DecimalFraction, 0..5));
    assert_eq!(fault("54 3/2"), (F::ImproperFraction, 3..6));
    assert_eq!(fault("1 3 1/2"), (F::TwoNumbers, 0..3));
    assert_eq!(fault("4-6"), (F::TwoNumbers, 0..3));
    assert_eq!(fault("4 in 6"), (F::TwoNumbers, 5..6));
    assert_eq!(fault(""), (F::Empty, 0..0));
    assert_eq!(fault("4' 14\""), (F::TwelveInches { inches: 14.0 }, 3..6));
    assert_eq!(fault("4'-"), (F::Empty, 3..3));
    assert_eq!(fault("nan"), (F::NotFinite, 0..3));
    assert_eq!(fault(".inf"), (F::NotFinite, 0..4));
    assert_eq!(fault(&"9".repeat(400)).0, F::NotFinite);
    assert_eq!(fault("2 km").0, F::UnknownUnit { word: "km".into() });
    assert_eq!(fault("1e3").0, F::UnknownUnit { word: "e".into() });
    assert_eq!(fault("wide").0, F::NoNumber { found: "wide".into() });
    assert_eq!(fault("54 in ?"), (F::Junk { rest: "?".into() }, 6..7));
    assert_eq!(fault("4' 6 mm").0, F::Junk { rest: "6 mm".into() });
    assert_eq!(fault("1001 m").0, F::TooLong { mm: 1_001_000.0 });
}

#[test]
fn a_bare_fraction_of_a_millimetre_is_asked_about() {
    let error = parse_length("5/8", Unit::Millimetre).unwrap_err();
    assert_eq!(error, LengthFault::BareFraction.at(0..3));
    close(mm("5/8 in"), 15.875);
}

proptest! {
    #[test]
    fn any_text_is_read_or_pointed_at(text in ".{0,40}") {
        if let Err(error) = parse_length(&text, Unit::Inch) {
            prop_assert!(text.get(error.at).is_some());
        }
    }

    #[test]
    fn near_lengths_are_read_or_pointed_at(text in "[-0-9 ./'\"½′,mcinft]{0,14}") {
        match parse_length(&text, Unit::Millimetre) {
            Ok(mm) => prop_assert!(mm.abs() <= LONGEST),
            Err(error) => prop_assert!(text.get(error.at).is_some()),
        }
    }

    #[test]
    fn feet_inches_and_fractions_add_up(feet in 0_u32..60, inches in 0_u32..12, over in 1_u32..64) {
        let wanted = f64::from(feet) * 12.0 + f64::from(inches) + f64::from(over) / 64.0;
        close(mm(&format!("{feet}'-{inches} {over}/64\"")) / INCH, wanted);
    }
}
