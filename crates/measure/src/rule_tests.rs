use super::*;
use crate::{Unit, parse_length};
use proptest::prelude::*;

fn shown(rule: Rule, inches: f64) -> String {
    rule.read(inches * INCH).to_string()
}

#[test]
fn inches_to_the_mark() {
    assert_eq!(shown(Rule::Sixteenth, 40.618), "40 5/8\" − 0.007");
    assert_eq!(shown(Rule::Sixteenth, 40.63), "40 5/8\" + 0.005");
    assert_eq!(shown(Rule::Eighth, 54.5), "54 1/2\"");
    assert_eq!(shown(Rule::SixtyFourth, 0.625), "5/8\"");
    assert_eq!(shown(Rule::Sixteenth, 7.0), "7\"");
    assert_eq!(shown(Rule::Sixteenth, 0.001), "0\" + 0.001");
    assert_eq!(shown(Rule::Sixteenth, -0.001), "0\" − 0.001");
    assert_eq!(shown(Rule::Sixteenth, -40.618), "−40 5/8\" + 0.007");
    assert_eq!(shown(Rule::Sixteenth, 0.999), "1\" − 0.001");
}

#[test]
fn millimetres_to_the_mark() {
    assert_eq!(Rule::HalfMillimetre.read(1031.7).to_string(), "1031.5 mm + 0.2");
    assert_eq!(Rule::Millimetre.read(1031.7).to_string(), "1032 mm − 0.3");
    assert_eq!(Rule::Millimetre.read(1200.0).to_string(), "1200 mm");
}

#[test]
fn feet_are_shown_from_a_foot_up() {
    let feet = |inches: f64| Rule::Sixteenth.read(inches * INCH).in_feet().to_string();
    assert_eq!(feet(54.5), "4' 6 1/2\"");
    assert_eq!(feet(48.0), "4' 0\"");
    assert_eq!(feet(48.5), "4' 0 1/2\"");
    assert_eq!(feet(11.5), "11 1/2\"");
    assert_eq!(feet(11.999), "1' 0\" − 0.001");
    assert_eq!(feet(-54.507), "−4' 6 1/2\" − 0.007");
}

#[test]
fn rules_are_read_as_they_are_shown() {
    for rule in Rule::ALL {
        assert_eq!(rule.to_string().parse(), Ok(rule));
    }
    assert_eq!("1/32 in".parse(), Ok(Rule::ThirtySecond));
    assert_eq!("1/16\"".parse(), Ok(Rule::Sixteenth));
    assert_eq!("1/3".parse::<Rule>().unwrap_err().given, "1/3");
}

proptest! {
    /// Written then read, a length is the same to the mark, in inches, feet or millimetres.
    #[test]
    fn written_then_read(mm in -20_000.0_f64..20_000.0, which in 0_usize..6) {
        let rule = Rule::ALL[which];
        let reading = rule.read(mm);
        for text in [reading.mark_text(), reading.in_feet().mark_text()] {
            let back = parse_length(&text, Unit::Millimetre).unwrap();
            prop_assert!((back - reading.mark()).abs() < 1e-9, "{} read as {}", text, back);
            prop_assert!((back + reading.remainder() - mm).abs() < 1e-9);
        }
        prop_assert!(reading.remainder().abs() <= rule.mark() / 2.0 + 1e-9);
    }
}
