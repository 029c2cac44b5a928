//! Weights, wedges and boards as the trade's own cases have them.

use super::super::*;
use super::{input, near, values};
use crate::shapes;
use cintre_geometry::{Path, Piece, Point};
use std::f64::consts::PI;

/// A half round with its ring, without boards.
fn half_round(radius: f64, depth: f64) -> Input {
    let back = Piece::arc(Point::ZERO, Point::new(-radius - depth, 0.0), -PI);
    let mut half = input(shapes::segmental(2.0 * radius, radius));
    half.ring = Some(Ring {
        depth,
        back: Path::from_pieces(&[back]),
        joints: Vec::new(),
    });
    half
}

#[test]
fn what_the_centre_carries() {
    let mut half = half_round(600.0, 215.0);
    half.wall = 330.0;
    half.ribs = Some(2);
    let two = centering(&half).unwrap();
    near(values(&two, "ring weight")[0], 3.154, 5e-4);
    near(values(&two, "ring weight on an outer rib")[0], 1.577, 5e-4);
    near(values(&two, "downward push by friction alone")[0], 1.016, 5e-4);
    near(values(&two, "one side laid to the crown")[0], 1.577, 5e-4);
    near(values(&two, "laid half up both sides")[0], 1.577, 5e-4);
    assert!(
        two.figures
            .iter()
            .all(|f| f.name != "ring weight on an inner rib")
    );
    half.ribs = Some(3);
    let three = centering(&half).unwrap();
    near(values(&three, "ring weight on an inner rib")[0], 1.577, 5e-4);
    near(values(&three, "ring weight on an outer rib")[0], 0.788, 1e-3);
}

#[test]
fn a_ring_that_is_no_parallel_weighs_what_its_face_has() {
    // A level back 250 over a segment of 1200 x 60, its ends plumb.
    let mut flat = input(shapes::segmental(1200.0, 60.0));
    let back = Path::polyline(&[Point::new(-600.0, 250.0), Point::new(600.0, 250.0)]);
    flat.ring = Some(Ring {
        depth: 250.0,
        back,
        joints: Vec::new(),
    });
    let form = centering(&flat).unwrap();
    let under = flat.soffit.pieces().next().unwrap().circle().unwrap();
    // The segment under the arc: R2 (half angle - sin cos).
    let half = (600.0 / under.radius).asin();
    let segment = under.radius.powi(2) * (half - half.sin() * half.cos());
    let wanted = (1200.0 * 250.0 - segment) * 225.0 * 20.0e-9;
    near(values(&form, "ring weight")[0], wanted, 1e-9);
}

#[test]
fn wedges_drop_by_drive_and_slope_and_must_clear_the_lip() {
    let mut half = half_round(500.0, 215.0);
    half.wedges.drive = Some(80.0);
    let form = centering(&half).unwrap();
    near(values(&form, "wedge drop")[0], 10.0, 1e-9);
    half.wedges.lip = 5.0;
    let error = centering(&half).unwrap_err();
    let Error::Drop { limit, .. } = error else {
        panic!("{error}");
    };
    near(limit, 80.0, 1e-9);
    half.wedges.drive = Some(limit + 0.1);
    assert!(centering(&half).is_ok());
    // Left open, the drive is what the lip needs.
    half.wedges = Wedges {
        lip: 40.0,
        drive: None,
        ..half.wedges
    };
    near(values(&centering(&half).unwrap(), "wedge drop")[0], 50.0, 1e-9);
}

#[test]
fn boards_are_spread_evenly_in_gaps_no_wider_than_asked() {
    let form = centering(&half_round(450.0, 100.0)).unwrap();
    let (count, gap) = (
        values(&form, "lagging boards")[0],
        values(&form, "gap between boards")[0],
    );
    assert!(gap <= 20.0 && gap > 15.0, "{gap}");
    let assembly = form.centre().unwrap();
    let boards = &assembly.halves[0].boards;
    near(count, 18.0, 0.0);
    assert_eq!(boards.len(), 18);
    // Along the back from where the soffit stands 5 mm inside the jamb: acos(1 - 5 / 450) at both ends.
    let angle = PI - 2.0 * (1.0f64 - 5.0 / 450.0).acos();
    near(18.0 * 50.0 + 17.0 * gap, angle * 428.0, 1e-6);
}

#[test]
fn how_a_board_bends_is_shown_step_by_step() {
    // Ply 18 thick across 400, a ring of 215 at 20 kN/m3: 2.15 N/mm2, and 0.66 mm with E 6000.
    let mut half = half_round(600.0, 215.0);
    half.lagging = Lagging {
        thickness: 18.0,
        skin: 0.0,
        width: 100.0,
        gap: 0.0,
    };
    half.wall = 417.6;
    half.ribs = Some(2);
    let form = centering(&half).unwrap();
    near(values(&form, "rib centres")[0], 400.0, 1e-9);
    let said = form.notes.join("\n");
    for words in [
        "20 × 0.215 + 1.5 = 5.80 kN/m²",
        "0.5800 N/mm",
        "= 2.15 N/mm²",
        "sag = 5 w s⁴ / (384 E I) = 0.66 mm",
    ] {
        assert!(said.contains(words), "{words} is missing in:\n{said}");
    }
}

#[test]
fn a_large_span_or_a_heavy_ring_calls_for_its_caution_and_is_made_all_the_same() {
    let small = half_round(500.0, 215.0);
    assert_eq!(centering(&small).unwrap().cautions, [Caution::Centering]);
    let wide = half_round(1001.0, 215.0);
    let form = centering(&wide).unwrap();
    assert_eq!(form.cautions, [Caution::Centering, Caution::LargeCentering]);
    assert!(!form.parts.is_empty());
    let mut heavy = small;
    heavy.load.heaviest = Some(1.0);
    let form = centering(&heavy).unwrap();
    assert_eq!(form.cautions, [Caution::Centering, Caution::LargeCentering]);
    heavy.load.heaviest = Some(3.0);
    assert_eq!(centering(&heavy).unwrap().cautions, [Caution::Centering]);
}

#[test]
fn a_horseshoe_comes_apart_by_a_key_that_lets_its_halves_in() {
    let mut horseshoe = input(shapes::segmental(900.0, 620.0));
    let error = centering(&horseshoe).unwrap_err();
    assert!(error.to_string().contains("`split: true`"), "{error}");
    horseshoe.split = true;
    let form = centering(&horseshoe).unwrap();
    near(values(&form, "stands beyond each jamb")[0], 23.305, 5e-3);
    let key = values(&form, "key")[0];
    assert!(key >= 2.0 * (23.305 + 5.0), "{key}");
    let middle = form.parts.iter().find(|p| p.name == "gate rib A2").unwrap();
    // It lies with its grain along the back, which is level there.
    near(middle.outline.bounds().width(), key, 1e-6);
}

#[test]
fn a_lap_that_the_stock_cannot_give_names_what_it_can() {
    let mut wide = input(shapes::three_centred(3000.0, 950.0));
    wide.build = Some(Build::TwoLayers);
    wide.lap = Some(1200.0);
    let error = centering(&wide).unwrap_err();
    let Error::Lap { limit, pieces, .. } = error else {
        panic!("{error}");
    };
    assert_eq!((pieces, error.field()), (2, "lap"));
    wide.lap = Some(limit - 0.1);
    let form = centering(&wide).unwrap();
    near(values(&form, "joints lap by")[0], limit, 1e-9);
}

#[test]
fn notches_find_their_place_or_the_deepest_is_named() {
    let mut gate = input(shapes::segmental(1800.0, 500.0));
    gate.notch = Some((47.0, 60.0));
    let error = centering(&gate).unwrap_err();
    let Error::Notch { limit, .. } = error else {
        panic!("{error}");
    };
    near(limit, 20.0, 1e-9);
    gate.notch = Some((47.0, limit));
    let form = centering(&gate).unwrap();
    let rib = &form.parts[0];
    let notched = rib
        .outline
        .vertices()
        .iter()
        .filter(|v| (v.point.y - rib.outline.bounds().y0 - 20.0).abs() < 1e-9);
    assert_eq!(notched.count(), 4, "two notches of two upper corners");
    for bore in &rib.bores {
        assert!(rib.outline.signed_distance(bore.centre) <= -edge_distance(10.0) + 1e-6);
    }
}

#[test]
fn edges_at_which_members_meet_stay_clean() {
    let mut wide = input(shapes::three_centred(3000.0, 950.0));
    wide.build = Some(Build::TwoLayers);
    let form = centering(&wide).unwrap();
    // Posts and struts lie on the layers, and meet nothing in theirs.
    let laid = |name: &str| name.contains(" rib ") || name.contains(" tie ");
    for part in form.parts.iter().filter(|part| laid(&part.name)) {
        assert!(!part.clean.is_empty(), "{} meets nothing", part.name);
        for path in &part.clean {
            let middle = path.start().midpoint(path.end());
            assert!(part.outline.nearest(middle).distance < 1e-6, "{}", part.name);
        }
    }
    let plate = centering(&input(shapes::segmental(1220.0, 260.0))).unwrap();
    assert!(plate.parts.iter().all(|part| part.clean.is_empty()));
}
