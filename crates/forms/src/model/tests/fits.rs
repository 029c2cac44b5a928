//! How the pieces go into one another.

use super::{BEAM, gaps, gate, input, near, part, parts, wood_at_level, wood_at_plumb};
use crate::model::fit::SEAT;
use crate::model::{BRIDGE, Comb, Input, Made, STEP, model};
use crate::shapes;
use cintre_geometry::Outline;
use proptest::prelude::*;

/// Every rib over every spacer: each slot as much narrower than the other's sheet as is asked for, wood all round it, and their
/// lower edges flush with a little room between the slots' ends.
#[track_caller]
fn cross_halved(input: &Input) {
    let made = model(input).unwrap_or_else(|error| panic!("{error}"));
    let (rib, spacer) = (part(&made.parts, "gate rib"), part(&made.parts, "gate spacer"));
    let bridge = input.bridge.unwrap_or(BRIDGE * input.thickness);
    let (bottom, foot) = (rib.outline.bounds().y0, spacer.outline.bounds().y0);
    let (top, height) = (spacer.outline.bounds().y1, spacer.outline.bounds().height());
    let in_rib = gaps(&wood_at_level(&rib.outline, bottom + 0.01));
    let in_spacer = gaps(&wood_at_level(&spacer.outline, top - 0.01));
    assert_eq!((in_rib.len(), in_spacer.len()), (spacer.count, rib.count));
    for (across, width) in in_rib.iter().chain(&in_spacer) {
        near(input.thickness - width, input.interference);
        assert!(across.is_finite());
    }
    for &(x, _) in &in_rib {
        for &(z, _) in &in_spacer {
            // On the line where they cross: the spacer's wood below, the rib's above.
            let up = wood_at_plumb(&rib.outline, x)[0];
            let down = wood_at_plumb(&spacer.outline, z)[0];
            let (rib_from, spacer_to) = (up.0 - bottom, down.1 - foot);
            near(rib_from - spacer_to, 2.0 * SEAT);
            assert!(down.1 - down.0 >= bridge - 1e-9 && up.1 - up.0 >= bridge - 1e-6);
            assert!(rib_from < height && spacer_to > 0.0);
        }
    }
    for wood in [
        wood_at_level(&rib.outline, bottom + 0.01),
        wood_at_level(&spacer.outline, top - 0.01),
    ] {
        for (from, to) in wood {
            assert!(to - from >= bridge - 1e-6, "{} mm of wood", to - from);
        }
    }
}

#[test]
fn ribs_and_spacers_are_halved_over_one_another_to_the_interference() {
    cross_halved(&gate());
    for soffit in [
        shapes::segmental(1220.0, 610.0),
        shapes::stilted(1200.0, 300.0),
        shapes::pointed(1200.0, 1200.0),
        shapes::three_centred(1600.0, 500.0),
        shapes::rampant(1300.0, 260.0),
    ] {
        cross_halved(&input(soffit, None));
    }
    // Card may have none, and what must come apart has play.
    for interference in [0.0, 0.1, -0.15] {
        cross_halved(&Input {
            interference,
            ..gate()
        });
    }
}

#[test]
fn a_deep_wall_has_more_ribs() {
    let deep = Input {
        wall: 900.0,
        ..gate()
    };
    cross_halved(&deep);
    assert_eq!(part(&parts(&deep), "gate rib").count, 3);
    assert_eq!(
        part(
            &parts(&Input {
                wall: 300.0,
                ..gate()
            }),
            "gate rib"
        )
        .count,
        2
    );
}

#[test]
fn the_sheet_keeps_its_thickness_at_every_scale() {
    for (scale, thickness) in [(6.0, 3.05), (10.0, 3.05), (10.0, 1.9)] {
        let input = Input {
            scale,
            thickness,
            ..gate()
        };
        let parts = parts(&input);
        let rib = &part(&parts, "gate rib").outline;
        let [(_, top)] = wood_at_plumb(rib, 0.0)[..] else {
            panic!("one stretch of wood over the middle spacer's slot")
        };
        // One sheet of lagging between rib and soffit.
        near(top, 260.0 / scale - thickness);
    }
}

#[test]
fn springers_are_pressed_into_the_base_across_the_wall_and_slip_in_along_it() {
    for made in [Made::Stacked, Made::Flat] {
        let input = input(shapes::segmental(1220.0, 260.0), Some(made));
        let parts = parts(&input);
        let base = part(&parts, "gate base");
        assert_eq!(base.openings.len(), 2);
        for (side, mortise) in ["left", "right"].iter().zip(&base.openings) {
            let springer = part(&parts, &format!("gate springer {side}"));
            let stack = f64::from(u32::try_from(springer.count).unwrap()) * input.thickness;
            near(stack - mortise.bounds().height(), input.interference);
            let foot = springer.outline.bounds().y0;
            let [(from, to)] = wood_at_level(&springer.outline, foot + 0.01)[..] else {
                panic!("one tenon");
            };
            near(mortise.bounds().width() - (to - from), 0.1);
            near(mortise.bounds().center().x, f64::midpoint(from, to));
            // Its tip comes flush with the underside of the base.
            let [_, (shoulder, _)] = [
                (0.0, 0.0),
                wood_at_plumb(&springer.outline, springer.outline.bounds().x0 + 0.01)[0],
            ];
            near(shoulder - foot, input.thickness);
        }
        let around = base.outline.bounds();
        for mortise in &base.openings {
            let hole = mortise.bounds();
            let least = (hole.x0 - around.x0)
                .min(around.x1 - hole.x1)
                .min(hole.y0 - around.y0);
            assert!(least >= BRIDGE * input.thickness, "{least}");
        }
    }
}

#[test]
fn the_comb_has_a_slot_for_each_step_about_the_interference_asked_for() {
    let input = gate();
    let parts = parts(&input);
    let comb = &part(&parts, "gate fit comb").outline;
    let slots = gaps(&wood_at_level(comb, comb.bounds().y1 - 0.01));
    assert_eq!(slots.len(), 7);
    for (i, (_, width)) in (0..7).zip(slots) {
        near(
            input.thickness - width,
            input.interference + (f64::from(i) - 3.0) * STEP,
        );
    }
    // Ten blocks pushed up measure 100 mm when the kerf is what was said: each is as much too large as it is less.
    let block = part(&parts, "gate kerf block");
    near(block.outline.bounds().width() * 10.0, 100.0);
    assert_eq!(block.count, 10);
    let names = |comb| {
        let made = model(&Input {
            comb,
            ..input.clone()
        })
        .unwrap()
        .parts;
        made.into_iter().map(|part| part.name).collect::<Vec<_>>()
    };
    let (with, without) = (names(Comb::With), names(Comb::None));
    assert_eq!(
        names(Comb::Only),
        ["gate fit comb", "gate fit tongue", "gate kerf block"]
    );
    assert_eq!(with[..3], names(Comb::Only));
    assert_eq!(with[3..], without);
}

#[test]
fn every_piece_says_what_it_is_in_letters_that_lie_on_it() {
    let made = model(&gate()).unwrap();
    for part in &made.parts {
        assert!(!part.marks.is_empty(), "{} bears nothing", part.name);
        for mark in &part.marks {
            for piece in mark.path.pieces() {
                for end in [piece.start, piece.point_at(0.5), piece.end] {
                    let on = part.outline.signed_distance(end) < -0.2
                        && part
                            .openings
                            .iter()
                            .all(|o: &Outline| o.signed_distance(end) > 0.2);
                    assert!(on, "a letter of {} lies at {end}", part.name);
                }
            }
        }
    }
    assert!(
        made.notes
            .iter()
            .all(|note| !note.contains("too small for letters"))
    );
}

#[test]
fn a_slot_is_stated_both_as_it_is_cut_and_as_it_is_drawn() {
    // A sheet of 3.05, a kerf of 0.16, an interference of 0.06: cut 2.99, drawn 2.83.
    let made = model(&gate()).unwrap();
    let figure = |name: &str| {
        let found = made.figures.iter().find(|figure| figure.name == name);
        found.unwrap_or_else(|| panic!("no {name}")).values[0]
    };
    near(figure("slot as it is cut"), 2.99);
    near(figure("slot as it is drawn"), 2.83);
    near(BEAM.kerf, figure("kerf"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn whatever_is_made_fits(
        span in 600.0..4000.0_f64, share in 0.1..0.5_f64, scale in 4.0..30.0_f64, thickness in 0.8..6.5_f64,
        wall in 100.0..900.0_f64, interference in 0.0..0.1_f64,
    ) {
        let input = Input {
            wall, scale, thickness, interference,
            ..input(shapes::segmental(span, span * share), None)
        };
        if model(&input).is_ok() {
            cross_halved(&input);
        }
    }
}
