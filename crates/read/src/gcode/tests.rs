//! Reference programs and troubles.

use super::*;
use proptest::prelude::*;

const HEAD: &str = "G21 G90 G17 G94 G40 G49\nS16000 M3\nG0 Z12\nG0 X0 Y0\n";
const TAIL: &str = "G0 Z12\nM30\n";

fn whole(body: &str) -> ProgramRead {
    read(format!("{HEAD}{body}{TAIL}").as_bytes(), 12.0, &[])
}

fn faults(body: &str) -> String {
    let read = whole(body);
    read.faults
        .iter()
        .map(|f| format!("{}: {}\n", f.line, f.what))
        .collect()
}

#[test]
fn a_plain_program_comes_out_as_its_moves() {
    let read = whole("(A HALF CIRCLE)\nG1 Z-3 F900\nG3 X20 Y0 I10 J0 F3000\nG1 X30 F2000\n");
    assert!(read.faults.is_empty(), "{:?}", read.faults);
    assert_eq!(read.unit, Some(LengthUnit::Millimetre));
    assert_eq!(read.comments, [(5, "A HALF CIRCLE".to_owned())]);
    let kinds: Vec<_> = read.moves.iter().map(|m| (m.line, m.kind)).collect();
    let expected = [(6, MoveKind::Straight), (7, MoveKind::Arc)];
    assert_eq!(kinds[..2], expected);
    assert!((read.moves[1].bulge - 1.0).abs() < 1e-12 && (read.moves[1].feed - 3000.0).abs() < 1e-9);
    assert!(
        read.moves[1]
            .piece()
            .point_at(0.5)
            .distance(Point::new(10.0, -10.0))
            < 1e-9
    );
}

#[test]
fn a_modal_arc_word_needs_its_centre_again() {
    assert!(faults("G1 Z-3 F900\nG3 X20 Y0 I10 J0\nX30\n").contains("without a centre"));
}

#[test]
fn inches_come_out_in_millimetres() {
    let text = "G20 G90 G17 G94 G40 G49\nS9000 M3\nG0 Z1\nG0 X0 Y0\nG1 X1 Y-2 Z-0.5 F100\nG0 Z1\nM2\n";
    let read = read(text.as_bytes(), 25.4, &[]);
    assert!(read.faults.is_empty(), "{:?}", read.faults);
    let to = read.moves[0].to;
    assert!(to.at.distance(Point::new(25.4, -50.8)) < 1e-9 && (to.z + 12.7).abs() < 1e-9);
    assert!((read.moves[0].feed - 2540.0).abs() < 1e-9);
}

#[test]
fn each_trouble_is_named_on_its_line() {
    let troubles = [
        ("G1 Z-3\n", "5: a feed move without a feed"),
        (
            "M5\nG1 Z-3 F900\n",
            "6: a feed move with the spindle standing still",
        ),
        ("G1 X1 X2 F900\n", "5: X twice on a line"),
        ("G0 G1 X1 F900\n", "5: two words of one modal group"),
        ("G20\n", "5: the unit changes half way"),
        ("G91\n", "5: incremental distances"),
        ("G18\n", "5: G18 is not taken"),
        ("G64\n", "5: G64 is not taken"),
        ("G61.1\n", "5: G61.1 is not taken"),
        ("G1 Z-3 F900\nG2 X10 Y0 R5\n", "6: an arc by its radius"),
        (
            "G1 Z-3 F900\nG2 X10 Y0 I5.01 J0\n",
            "6: an arc whose radius is 5.0100 at its start and 4.9900",
        ),
        ("G1 Z-3 F900\nG2 X0 Y0 I5 J0\n", "6: a full circle in one block"),
        ("G1 Z-3 F0\n", "5: a feed of 0"),
        ("(A (B))\n", "5: a comment inside a comment"),
        ("(A\n", "5: a comment that is not closed"),
        ("A)\n", "5: \"\" is not a number"),
        (")\n", "5: a comment is closed that was never opened"),
        ("; TALK\n", "5: a comment outside parentheses"),
        ("(\u{e9})\n", "5: 'Ã' is not a character of the standard"),
        ("/G0 X5\n", "5: a block that may be skipped"),
        ("G1 X1E3 F900\n", "5: E is a word that is not taken"),
        ("G1 X1.2.3 F900\n", "5: \"1.2.3\" is not a number"),
        ("G1 X-1e F900\n", "5: \"\" is not a number"),
        ("#1=4\n", "5: '#' is not the beginning of a word"),
        ("G1 X1 A2 F900\n", "5: A is a word that is not taken"),
        ("G1 F900\n", "5: a motion without a place"),
        ("G80 X1\n", "5: a place to go to without a motion"),
        ("G1 X1 I2 F900\n", "5: I or J without an arc"),
        ("G4\n", "5: a dwell without a time"),
        ("M6 T2\n", "5: a change of bit with the spindle turning"),
        (
            "G1 Z-3 F900\nM5\nM0\nM3\n",
            "7: a change of bit at Z -3.000, below the safe height",
        ),
        ("M4\n", "5: the spindle turned backwards"),
        (
            "G0 Z2\nG0 X5\n",
            "6: a rapid in X or Y at Z 2.000, below the safe height of 12.000",
        ),
        ("G0 X5 Z2\n", "5: a rapid in X or Y at Z 2.000"),
        ("M30\nG0 X5\n", "6: something after the end"),
        ("%\n", "5: a % anywhere but first and last"),
        ("G28\n", "5: G28 is not taken"),
        ("G53 G0 X1\n", "5: G53 is not taken"),
        ("G1 X99999999 F900\n", "5: 99999999 is too large"),
    ];
    for (body, expected) in troubles {
        let found = faults(body);
        assert!(
            found.contains(expected),
            "{body:?} gave {found:?} and not {expected:?}"
        );
    }
    assert!(faults(&format!("({})\n", "A".repeat(255))).contains("5: a line of 257 characters"));
    assert!(!faults(&format!("({})\n", "A".repeat(254))).contains("a line of"));
}

#[test]
fn a_program_has_a_beginning_and_an_end() {
    let end = |text: &str| {
        let read = read(text.as_bytes(), 12.0, &[]);
        read.faults
            .iter()
            .map(|f| format!("{}: {}\n", f.line, f.what))
            .collect::<String>()
    };
    assert!(end("").contains("0: it does not end") && end("").contains("0: it states no unit"));
    let good = format!("%\n{HEAD}G1 Z-1 F900\n{TAIL}%\n");
    assert_eq!(end(&good), "");
    assert!(end(good.trim_end_matches("%\n")).contains("at one end only"));
    assert!(end(&format!("{HEAD}G1 Z-1 F900\nM30\n")).contains("it ends with the bit at Z -1.000"));
    for mode in ["G90", "G17", "G40", "G49", "G94"] {
        let without = good
            .replace(&format!("{mode} "), "")
            .replace(&format!(" {mode}"), "");
        assert!(
            end(&without).contains(&format!("a move before {mode} is stated")),
            "{mode}"
        );
    }
    assert!(end(&good.replace("G21 ", "")).contains("before the unit is stated"));
    assert!(end("G0 X1 Y1\nM2\n").contains("before the unit"));
    let blind = good.replace("G0 Z12\nG0 X0", "G0 X0");
    assert!(end(&blind).contains("a rapid in X or Y before the height is known"));
}

#[test]
fn the_limit_of_the_radii_is_the_standards() {
    let at = |i: &str| faults(&format!("G1 Z-3 F900\nG2 X10 Y0 I{i} J0\n"));
    assert_eq!(at("5.0009"), "", "radii 0.0018 apart");
    assert!(at("5.0011").contains("an arc whose radius"), "radii 0.0022 apart");
}

#[test]
fn a_safe_height_rounded_down_in_inches_is_too_low() {
    // 30 mm is 1.181102 in: rounded up it is safe, rounded down a rapid runs below it.
    let read = |z: &str| {
        let text = format!("G17 G20 G90 G94 G40 G49\nG0 Z{z}\nM3 S9000\nX1.0 Y1.0\nX2.0\nM5\nM30\n");
        read(text.as_bytes(), 30.0, &[])
    };
    assert_eq!(read("1.1812").faults, []);
    assert!(!read("1.1811").faults.is_empty());
}

#[test]
fn bits_are_counted_by_the_changes_between_them() {
    let read = whole("G1 Z-3 F900\nG0 Z12\nM5\nT2 M6\nM3 S9000\nG0 X5\nG1 Z-3\nG0 Z12\nM5\nM0\nM3\nG0 X7\n");
    assert!(read.faults.is_empty(), "{:?}", read.faults);
    // The first bit may be fetched at the safe height before anything is cut.
    let fetched = "G21 G90 G17 G94 G40 G49\nG0 Z12\nT1 M6\nM3 S9000\nG0 X0 Y0\nG1 Z-1 F900\nG0 Z12\nM30\n";
    let first = read_for(fetched.as_bytes(), Controls::Spindle { safe: 12.0 }, &[]);
    assert!(
        first.faults.is_empty() && first.moves.iter().all(|m| m.bit == 0),
        "{first:?}"
    );
    let bits: Vec<usize> = read.moves.iter().map(|m| m.bit).collect();
    assert_eq!(bits, [0, 0, 1, 1, 1, 2, 2]);
}

const BEAM: Controls<'_> = Controls::Beam { on: "M3", off: "M5" };
const LIT: &str = "G21 G90 G17 G94 G40 G49\nM5 S0\nG0 X0 Y0\nM3 S800\nG1 X10 F900\nM5 S0\nG0 X20\nM3 S200\nG2 X30 Y0 I5 J0\nM5 S0\nM30\n";

fn beam_faults(text: &str) -> String {
    let read = read_for(text.as_bytes(), BEAM, &[]);
    read.faults
        .iter()
        .map(|f| format!("{}: {}\n", f.line, f.what))
        .collect()
}

#[test]
fn a_beam_is_lit_along_its_cuts_only() {
    assert_eq!(beam_faults(LIT), "");
    let moves = read_for(LIT.as_bytes(), BEAM, &[]).moves;
    let power: Vec<f64> = moves.iter().map(|m| m.spindle).collect();
    assert_eq!(power, [800.0, 0.0, 200.0]);
    for (from, to, expected) in [
        ("M5 S0\nG0 X0", "G0 X0", "2: a rapid before the beam is off"),
        ("M5 S0\nG0 X20", "G0 X20", "6: a rapid with the beam on"),
        ("M5 S0\nM30", "M30", "10: it ends with the beam on"),
        ("G1 X10", "G1 X10 Z-1", "5: a height in the program of a beam"),
        (
            "M3 S800",
            "M3 S800 X5",
            "4: something else on a line that switches the beam",
        ),
        ("M3 S800", "M4 S800", "4: the spindle turned backwards"),
    ] {
        let text = LIT.replacen(from, to, 1);
        assert_ne!(text, LIT, "{from} is not in it");
        assert!(
            beam_faults(&text).contains(expected),
            "{from}: {expected} is not in {}",
            beam_faults(&text)
        );
    }
}

#[test]
fn a_pen_is_switched_by_its_own_lines() {
    let pen = Controls::PenByWords {
        down: "M10 P1",
        up: "M10 P0",
    };
    let text = "G21 G90 G17 G94 G40 G49\nM10 P0\nG4 P0.2\nG0 X0 Y0\nM10 P1\nG1 X10 F900\nM10 P0\nM30\n";
    let found = read_for(text.as_bytes(), pen, &[]);
    assert!(found.faults.is_empty(), "{:?}", found.faults);
    assert_eq!(found.moves.len(), 1);
    assert!(found.moves[0].spindle > 0.0);
    let left_down = text.replace("M10 P0\nM30", "M30");
    assert!(!read_for(left_down.as_bytes(), pen, &[]).faults.is_empty());
}

proptest! {
    #[test]
    fn no_bytes_make_it_panic(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = read(&bytes, 5.0, &[]);
    }

    #[test]
    fn nor_do_words_in_any_order(words in prop::collection::vec("[GMXYZIJFSPTN%(); ][-0-9.]{0,4}[ \n]?", 0..60)) {
        let text: String = words.concat();
        for m in read(text.as_bytes(), 5.0, &[]).moves {
            prop_assert!(m.bulge.is_finite() && m.to.at.is_finite() && m.to.z.is_finite());
        }
    }

    #[test]
    fn an_arc_keeps_its_centre(turn in 0.01..6.2f64, first in 0.0..6.2f64, r in 1.0..5000.0f64, left: bool) {
        let (a, b) = if left { (first, first + turn) } else { (first + turn, first) };
        let at = |angle: f64| (r * angle.cos(), r * angle.sin());
        let ((x0, y0), (x1, y1)) = (at(a), at(b));
        let g = if left { 3 } else { 2 };
        let body = format!("G0 X{x0:.9} Y{y0:.9}\nG1 Z-1 F900\nG{g} X{x1:.9} Y{y1:.9} I{:.9} J{:.9}\n", -x0, -y0);
        let program = whole(&body);
        prop_assert!(program.faults.is_empty(), "{:?}", program.faults);
        let arc = program.moves.iter().find(|m| m.kind == MoveKind::Arc).expect("the arc");
        let circle = arc.piece().circle().expect("it is no line");
        prop_assert!((circle.radius - r).abs() < 1e-4 * r && circle.centre.distance(Point::ZERO) < 1e-4 * r);
        prop_assert!((arc.piece().sweep().abs() - turn).abs() < 1e-6 && (arc.bulge > 0.0) == left);
    }
}
