//! Trammels against sums that were worked apart.

use super::{Base, Input, Struck, trammel};
use crate::Form;
use cintre_geometry::{Outline, Path, Piece, Point};
use cintre_work::{Bore, Caution, MarkKind, Part};
use proptest::prelude::*;

fn input(radii: &[f64], bit: f64) -> Input {
    let holes = [(0.0, 60.0), (52.0, -30.0), (-52.0, -30.0)].map(Point::from);
    Input {
        arch: "door".to_owned(),
        arcs: radii
            .iter()
            .map(|&radius| Struck {
                of: format!("edge {radius}"),
                centre: None,
                radius,
            })
            .collect(),
        lines: Vec::new(),
        bit,
        base: Base {
            diameter: 150.0,
            holes: Some((holes.to_vec(), 5.0)),
        },
        pin: 6.0,
        longest_arm: 1200.0,
        work: None,
        screw: 5.0,
        stock: "mdf12".to_owned(),
        thickness: 12.0,
    }
}

#[track_caller]
fn made(input: &Input) -> Form {
    trammel(input).unwrap_or_else(|error| panic!("{error}"))
}

#[track_caller]
fn refused(input: &Input, field: &str, words: &[&str]) {
    let error = trammel(input).map(|_| ()).expect_err("it cannot be made");
    assert_eq!(error.field(), field, "{error}");
    for word in words {
        assert!(
            error.to_string().contains(word),
            "`{word}` is missing in: {error}"
        );
    }
}

fn figure(form: &Form, name: &str) -> Vec<f64> {
    let found = form.figures.iter().find(|figure| figure.name == name);
    found.map_or_else(Vec::new, |figure| figure.values.clone())
}

fn part<'f>(form: &'f Form, name: &str) -> &'f Part {
    let found = form.parts.iter().find(|part| part.name.ends_with(name));
    found.unwrap_or_else(|| panic!("there is no {name}"))
}

fn pins(part: &Part) -> Vec<Point> {
    let pins = part
        .bores
        .iter()
        .filter(|bore| (bore.diameter - 6.0).abs() < 1e-9);
    pins.map(|bore| bore.centre).collect()
}

#[track_caller]
fn all_near(found: &[f64], wanted: &[f64]) {
    assert_eq!(found.len(), wanted.len(), "{found:?}");
    for (found, wanted) in found.iter().zip(wanted) {
        assert!((found - wanted).abs() < 1e-9, "{found} is not {wanted}");
    }
}

#[test]
fn the_bits_radius_is_taken_on_either_side() {
    // Keeping the inside of an arc of 745.5 mm with a bit of 12 mm: 751.5; keeping its outside: 739.5.
    all_near(
        &figure(&made(&input(&[745.5], 12.0)), "pivot to bit centre"),
        &[739.5, 751.5],
    );
    // A ring of 838 and 738 mm: its outer edge at 844, its inner one at 732; set the wrong way round it comes out 88 mm wide.
    let ring = figure(&made(&input(&[838.0, 738.0], 12.0)), "pivot to bit centre");
    all_near(&ring, &[732.0, 744.0, 832.0, 844.0]);
    // In inches, a bit of 1/2: a disc of 33 7/16 takes 33 11/16, a hole 33 3/16.
    let inch = 25.4;
    let disc = figure(
        &made(&input(&[(33.0 + 7.0 / 16.0) * inch], inch / 2.0)),
        "pivot to bit centre",
    );
    all_near(&disc, &[(33.0 + 3.0 / 16.0) * inch, (33.0 + 11.0 / 16.0) * inch]);
}

/// Every pivot of the arm is at one of its distances from the bit's centre, clear of the others and in the wood.
fn sound(form: &Form) {
    let arm = part(form, "trammel arm");
    let wanted = figure(form, "pivot to bit centre");
    let found: Vec<f64> = pins(arm).iter().map(|p| p.x.hypot(p.y)).collect();
    all_near(&found, &wanted);
    in_wood(arm);
}

/// Holes keep clear of each other and of every edge.
fn in_wood(part: &Part) {
    let edges: Vec<&Outline> = std::iter::once(&part.outline).chain(&part.openings).collect();
    for (i, bore) in part.bores.iter().enumerate() {
        let Bore { centre, diameter, .. } = *bore;
        assert!(part.outline.contains(centre), "{}: {centre}", part.name);
        let off = edges
            .iter()
            .map(|edge| edge.nearest(centre).distance)
            .fold(f64::INFINITY, f64::min);
        assert!(off - diameter / 2.0 > 3.9, "{}: {off} at {centre}", part.name);
        for other in &part.bores[..i] {
            let bridge = centre.distance(other.centre) - (diameter + other.diameter) / 2.0;
            assert!(
                bridge > 2.9,
                "{}: {bridge} between {centre} and {}",
                part.name,
                other.centre
            );
        }
    }
}

#[test]
fn pivots_that_would_run_into_one_another_are_stepped() {
    // Three concentric arcs, the second 6 mm outside the first: without steps their holes leave nothing between them.
    let form = made(&input(&[764.51, 770.51, 865.51], 12.7));
    sound(&form);
    let rows: Vec<f64> = pins(part(&form, "trammel arm")).iter().map(|p| p.y).collect();
    assert!(
        rows.iter().any(|y| *y != 0.0) && rows.iter().filter(|y| **y == 0.0).count() >= 3,
        "{rows:?}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn any_radii_have_their_pivots(radii in prop::collection::vec(160.0..1100.0f64, 1..7), bit in 3.0..25.0f64) {
        sound(&made(&input(&radii, bit)));
    }
}

#[test]
fn an_arm_bears_its_names_and_the_router() {
    let form = made(&input(&[764.51, 865.51], 12.7));
    assert_eq!(form.cautions, [Caution::HandRouter]);
    let arm = part(&form, "trammel arm");
    let letters = arm
        .marks
        .iter()
        .filter(|mark| mark.kind == MarkKind::Text)
        .count();
    assert!(letters > 60, "{letters} strokes");
    assert_eq!(
        arm.bores
            .iter()
            .filter(|bore| (bore.diameter - 5.0).abs() < 1e-9)
            .count(),
        3
    );
    let told = |text: &str| form.notes.iter().any(|note| note.contains(text));
    assert!(
        told("hole 1: edge 764.51, R 764.510 mm, the wood away from the pivot kept: 758.160 mm"),
        "{:?}",
        form.notes
    );
    assert!(
        told("cutting edges 764.510 and 777.210 mm from it"),
        "{:?}",
        form.notes
    );
    assert!(told("the outer edge first"));
}

#[test]
fn a_round_opening_holds_a_base_without_holes() {
    let mut asked = input(&[500.0], 12.7);
    asked.base.holes = None;
    let form = made(&asked);
    sound(&form);
    let opening = &part(&form, "trammel arm").openings[0];
    assert!((opening.bounds().width() - 150.2).abs() < 1e-9 && !opening.is_counter_clockwise());
}

#[test]
fn a_radius_beyond_the_arm_takes_a_bar() {
    let form = made(&input(&[900.0, 1500.0, 2400.0], 12.0));
    all_near(
        &pins(part(&form, "trammel arm"))
            .iter()
            .map(|p| p.x.hypot(p.y))
            .collect::<Vec<_>>(),
        &[894.0, 906.0],
    );
    let (router, pivot) = (part(&form, "router plate"), part(&form, "pivot plate"));
    in_wood(router);
    in_wood(pivot);
    // From the pivot to the bit: along its plate to the bar's pin, along the bar, and along the router's plate.
    let on_pivot_plate = pins(pivot)[0].distance(pins(pivot)[1]);
    let on_router_plate = pins(router)[0].x;
    let bored = figure(&form, "bar holes from its first");
    let whole: Vec<f64> = bored
        .iter()
        .map(|along| on_pivot_plate + along + on_router_plate)
        .collect();
    all_near(&whole, &[1494.0, 1506.0, 2394.0, 2406.0]);
    let bar = form
        .list
        .iter()
        .find(|item| item.name == "bar")
        .expect("there is a bar");
    assert!(bar.length > bored[3] + 99.0, "{}", bar.length);
}

#[test]
fn a_radius_beyond_a_bar_is_set_out_by_ordinates() {
    refused(
        &input(&[500.0, 45004.5], 12.0),
        "arch",
        &["45004.5 mm", "1200 mm", "3000 mm", "by ordinates"],
    );
}

#[test]
fn what_has_no_pivot_is_refused() {
    refused(&input(&[], 12.0), "arch", &["struck from a centre", "`radii`"]);
    refused(
        &input(&[30.0], 12.0),
        "arch",
        &["24.0 mm", "in the way of the router", "25.0 mm is the least"],
    );
    let mut wide = input(&[500.0], 90.0);
    refused(&wide, "mount", &["reaches", "`mount: opening`"]);
    wide.base.holes = None;
    made(&wide);
    let many: Vec<f64> = (0..80).map(|k| 500.0 + 0.5 * f64::from(k)).collect();
    refused(&input(&many, 12.0), "pin", &["160 pivots", "a thinner pin"]);
    for (size, field) in [(0.5, "pin"), (f64::NAN, "longest-arm")] {
        let mut asked = input(&[500.0], 12.0);
        if field == "pin" {
            asked.pin = size
        } else {
            asked.longest_arm = size
        }
        refused(&asked, field, &["mm or more"]);
    }
}

#[test]
fn the_block_stands_as_high_as_the_work() {
    let block = |work: Option<f64>| {
        let mut asked = input(&[500.0], 12.0);
        asked.work = work;
        let form = made(&asked);
        in_wood(part(&form, "pivot block"));
        (part(&form, "pivot block").count, form.notes.join("\n"))
    };
    assert_eq!(block(None).0, 1);
    let (layers, notes) = block(Some(27.0));
    assert!(
        layers == 2 && notes.contains("2 of it and 3.00 mm of packing"),
        "{notes}"
    );
    let (layers, notes) = block(Some(9.0));
    assert!(layers == 1 && notes.contains("pack it up by 3.00 mm"), "{notes}");
}

/// A trammel for arcs from these centres, with the plate for them.
fn of_centres(centres: &[(f64, f64)], line: Path) -> Form {
    let mut asked = input(&[], 12.7);
    asked.arcs = centres
        .iter()
        .map(|&(x, y)| Struck {
            of: "soffit".to_owned(),
            centre: Some(Point::new(x, y)),
            radius: 400.0,
        })
        .collect();
    asked.lines = vec![line];
    made(&asked)
}

#[test]
fn all_centres_are_in_one_plate_on_the_springing_line_and_the_centre_line() {
    let line = Path::from_pieces(&[Piece::arc(Point::new(0.0, -300.0), Point::new(-600.0, 0.0), -1.0)]);
    for centres in [
        vec![(-90.0, 0.0), (90.0, 0.0)],
        vec![(-320.0, 0.0), (0.0, -700.0), (320.0, 0.0)],
        vec![(-300.0, 0.0), (-100.0, -500.0), (100.0, -500.0), (300.0, 0.0)],
    ] {
        let form = of_centres(&centres, line.clone());
        let plate = part(&form, "centres plate");
        in_wood(plate);
        let wanted: Vec<Point> = centres.iter().copied().map(Point::from).collect();
        assert_eq!(pins(plate), wanted);
        assert!(plate.outline.contains(Point::ZERO));
        // The level line is at the springing's height, the plumb one in the middle, each at both edges.
        let lines = plate.marks.iter().filter(|mark| mark.kind == MarkKind::Line);
        let on_axes = lines.filter(|mark| {
            let [a, b] = [mark.path.start(), mark.path.end()];
            (a.y.abs() < 1e-9 && b.y.abs() < 1e-9) || (a.x.abs() < 1e-9 && b.x.abs() < 1e-9)
        });
        assert_eq!(on_axes.count(), 4);
    }
    // One centre needs no plate.
    let single = of_centres(&[(0.0, -300.0)], line);
    assert!(
        single
            .parts
            .iter()
            .all(|part| !part.name.ends_with("centres plate"))
    );
}
