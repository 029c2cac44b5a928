use super::*;
use crate::shapes;
use cintre_geometry::arch::{Oval, Round};
use cintre_geometry::{Piece as Arc, Soffit};
use cintre_work::MarkKind;
use proptest::prelude::*;
use std::f64::consts::PI;

fn input(soffit: Path, piece: Piece) -> Input {
    Input {
        arch: "gate".into(),
        least_radius: Soffit::Path(soffit.clone()).least_radius(),
        soffit,
        fit_error: 0.0,
        piece,
        chamfer: None,
        stock: "mdf12".into(),
        thickness: 12.0,
    }
}

fn only_part(soffit: Path, piece: Piece) -> Part {
    pattern(&input(soffit, piece)).unwrap().parts.remove(0)
}

fn lines(part: &Part) -> usize {
    part.marks.iter().filter(|m| m.kind == MarkKind::Line).count()
}

#[test]
fn a_name_without_room_is_said_not_dropped() {
    let thin = input(shapes::segmental(300.0, 60.0), Piece::Ring { depth: 8.0 });
    let form = pattern(&thin).unwrap();
    assert_eq!(form.parts[0].marks.len(), lines(&form.parts[0]));
    assert!(form.notes.iter().any(|note| note == NO_ROOM));
}

#[test]
fn a_ring_has_the_area_between_its_circles() {
    let part = only_part(shapes::segmental(1000.0, 500.0), Piece::Ring { depth: 100.0 });
    let expected = PI * (600.0f64.powi(2) - 500.0f64.powi(2)) / 2.0;
    assert!((part.outline.area() - expected).abs() < 1e-6);
    assert_eq!(part.outline.vertices().len(), 4);
    assert_eq!(part.name, "gate ring");
    assert_eq!(lines(&part), 2);
    assert!(part.marks.len() > 9, "it bears its name");
}

#[test]
fn a_pointed_ring_comes_to_a_point() {
    let part = only_part(shapes::pointed(900.0, 900.0), Piece::Ring { depth: 95.0 });
    let apex = (995.0f64.powi(2) - 450.0f64.powi(2)).sqrt();
    assert!((part.outline.bounds().y1 - apex).abs() < 1e-9);
    assert!(
        part.outline
            .vertices()
            .iter()
            .any(|v| v.point.x.abs() < 1e-9 && (v.point.y - apex).abs() < 1e-9)
    );
}

#[test]
fn the_inside_is_closed_by_the_springing_line() {
    let part = only_part(shapes::segmental(1000.0, 500.0), Piece::Inside { gap: None });
    assert!((part.outline.area() - PI * 500.0f64.powi(2) / 2.0).abs() < 1e-6);
    assert_eq!(part.outline.vertices().len(), 2);
}

fn figure(form: &Form, name: &str) -> Vec<f64> {
    let found = form.figures.iter().find(|figure| figure.name == name);
    found.unwrap_or_else(|| panic!("no {name}")).values.clone()
}

fn leaf(soffit: Path, gap: f64) -> Form {
    pattern(&input(soffit, Piece::Inside { gap: Some(gap) })).unwrap()
}

#[test]
fn a_leaf_is_struck_from_the_soffits_own_centre() {
    // Span 1220, rise 260: radius 845.577, its centre 585.577 below the springing.
    let form = leaf(shapes::segmental(1220.0, 260.0), 6.0);
    let radius: f64 = (610.0f64.powi(2) + 260.0f64.powi(2)) / 520.0;
    let centre = 260.0 - radius;
    let upper = form.parts[0]
        .outline
        .pieces()
        .find_map(|arc| arc.circle())
        .unwrap();
    assert!((upper.radius - (radius - 6.0)).abs() < 1e-9);
    assert!(upper.centre.distance(Point::new(0.0, centre)) < 1e-9);
    assert!((figure(&form, "leaf width at its foot")[0] - 1208.0).abs() < 1e-9);
    assert_eq!(figure(&form, "gap"), [6.0]);
    // It springs where its arc is two gaps narrower than the opening, below the opening's springing.
    let springs = ((radius - 6.0).powi(2) - 604.0f64.powi(2)).sqrt() + centre;
    assert!(springs < 0.0 && (figure(&form, "foot below the springing")[0] + springs).abs() < 1e-9);
    assert!(
        (form.parts[0].outline.bounds().y1 - 254.0).abs() < 1e-9,
        "the gap is there at the crown"
    );
    // A leaf worked anew from its own span and the opening's radius would stand right up against the crown.
    assert!((figure(&form, "leaf radii")[0] - radius).abs() > 5.9);
}

#[test]
fn a_leaf_under_plumb_springings_keeps_them_level() {
    let half = leaf(shapes::stilted(900.0, 300.0), 10.0);
    assert!(figure(&half, "foot below the springing")[0].abs() < 1e-9);
    assert_eq!(figure(&half, "leaf radii").len(), 1);
    assert!((figure(&half, "leaf radii")[0] - 440.0).abs() < 1e-9);
    let pointed = leaf(shapes::pointed(900.0, 900.0), 10.0);
    let apex = (890.0f64.powi(2) - 450.0f64.powi(2)).sqrt();
    assert!((pointed.parts[0].outline.bounds().y1 - apex).abs() < 1e-9);
    assert!((figure(&pointed, "leaf width at its foot")[0] - 880.0).abs() < 1e-9);
    let horseshoe = leaf(shapes::segmental(900.0, 620.0), 10.0);
    assert!(figure(&horseshoe, "foot below the springing")[0] < 0.0);
    assert!((figure(&horseshoe, "leaf width at its foot")[0] - 880.0).abs() < 1e-9);
}

#[test]
fn a_gap_past_the_least_radius_is_refused_with_the_largest() {
    let three = || shapes::three_centred(1200.0, 400.0);
    let soffit = three();
    let least = soffit.pieces().filter_map(|arc| arc.circle()).map(|c| c.radius);
    let least = least.fold(f64::INFINITY, f64::min);
    let wide = pattern(&input(
        three(),
        Piece::Inside {
            gap: Some(least + 5.0),
        },
    ));
    let Err(error @ Error::Gap { given, limit }) = wide else {
        panic!("its haunches have no radius left")
    };
    assert_eq!((error.field(), given), ("gap", least + 5.0));
    assert!((limit - least).abs() < 1e-4, "{limit} is not {least}");
    let _ = leaf(three(), limit - 1e-3);
    for gap in [0.0, -3.0, f64::NAN] {
        let refused = pattern(&input(three(), Piece::Inside { gap: Some(gap) }));
        assert_eq!(refused.unwrap_err().field(), "gap");
    }
}

#[test]
fn what_folds_or_is_no_length_is_refused() {
    // It sags, as an eyebrow's ends do: its centre lies above it.
    let sagging = || {
        Path::from_pieces(&[Arc::arc(
            Point::new(0.0, 240.0),
            Point::new(-70.0, 0.0),
            0.567_588,
        )])
    };
    let Err(error @ Error::Ring { limit, .. }) = pattern(&input(sagging(), Piece::Ring { depth: 800.0 }))
    else {
        panic!("it folds");
    };
    assert!((limit - 250.0).abs() < 1e-5);
    assert_eq!(error.field(), "ring");
    let most = Piece::Ring { depth: limit - 0.001 };
    assert!(pattern(&input(sagging(), most)).is_ok());
    for depth in [0.0, -5.0, f64::NAN] {
        let refused = pattern(&input(shapes::segmental(900.0, 200.0), Piece::Ring { depth }));
        assert_eq!(refused.unwrap_err().field(), "ring");
    }
    let backwards = shapes::segmental(900.0, 200.0).reversed();
    assert!(matches!(
        pattern(&input(backwards, Piece::Inside { gap: None })),
        Err(Error::Soffit { .. })
    ));
}

fn round(diameter: f64) -> Path {
    let arch = Round { diameter }.arch().unwrap();
    arch.soffit.fit(0.02).path
}

#[test]
fn a_round_window_is_a_disc_or_a_ring_all_round() {
    let disc = only_part(round(700.0), Piece::Inside { gap: None });
    assert!((disc.outline.area() - PI * 350.0f64.powi(2)).abs() < 1e-6 && disc.openings.is_empty());
    assert_eq!(lines(&disc), 4);
    let ring = pattern(&input(round(700.0), Piece::Ring { depth: 80.0 })).unwrap();
    let part = &ring.parts[0];
    assert!((part.outline.area() - PI * 430.0f64.powi(2)).abs() < 1e-6);
    assert!(
        (part.openings[0].area() + PI * 350.0f64.powi(2)).abs() < 1e-6,
        "an opening runs clockwise"
    );
    assert_eq!(lines(part), 8);
    assert!((figure(&ring, "back length")[0] - 2.0 * PI * 430.0).abs() < 1e-6);
    assert!(part.marks.len() > 9, "it bears its name");
    for v in part.marks.iter().flat_map(|m| m.path.vertices()) {
        assert!(
            part.outline.signed_distance(v.point) < 0.0 && part.openings[0].signed_distance(v.point) > 0.0
        );
    }
    let leaf = leaf(round(700.0), 6.0);
    assert!((leaf.parts[0].outline.area() - PI * 344.0f64.powi(2)).abs() < 1e-6);
    assert!(
        figure(&leaf, "leaf radii")
            .iter()
            .all(|radius| (radius - 344.0).abs() < 1e-9)
    );
}

#[test]
fn an_oval_keeps_a_true_parallel_and_no_leaf_within_its_least_radius() {
    let oval = Oval {
        width: 900.0,
        height: 600.0,
    };
    let arch = oval.arch().unwrap();
    let fit = arch.soffit.fit(0.02);
    let least = arch.soffit.least_radius();
    assert!((least - 200.0).abs() < 1e-9, "b² / a");
    let made = |piece| {
        pattern(&Input {
            fit_error: fit.worst_error,
            least_radius: least,
            ..input(fit.path.clone(), piece)
        })
    };
    let ring = made(Piece::Ring { depth: 100.0 }).unwrap();
    let bounds = ring.parts[0].outline.bounds();
    assert!((bounds.width() - 1100.0).abs() < 0.1 && (bounds.height() - 800.0).abs() < 0.1);
    let Err(Error::Gap { limit, .. }) = made(Piece::Inside { gap: Some(200.0) }) else {
        panic!("its ends have no radius left")
    };
    assert!((limit - 200.0).abs() < 1e-9);
    assert!(made(Piece::Inside { gap: Some(190.0) }).is_ok());
}

proptest! {
    #[test]
    fn a_leaf_keeps_its_gap_all_round(span in 300.0..3000.0f64, flat in 0.08..0.7f64, gap in 1.0..25.0f64, at in 0.0..1.0f64) {
        let soffit = shapes::segmental(span, span * flat);
        let form = leaf(soffit.clone(), gap);
        let part = &form.parts[0];
        prop_assert!(part.outline.is_counter_clockwise());
        prop_assert!((part.outline.pieces().last().unwrap().length() - (span - 2.0 * gap)).abs() < 1e-7);
        let head = part.outline.pieces().next().unwrap().point_at(at);
        let clear = soffit.nearest(head).distance;
        prop_assert!(clear >= gap - 1e-7);
        if flat <= 0.5 {
            prop_assert!((clear - gap).abs() < 1e-7);
        }
    }

    #[test]
    fn a_ring_is_its_depth_everywhere_and_marks_lie_on_it(
        span in 300.0..3000.0f64, flat in 0.08..0.5f64, depth in 20.0..250.0f64, at in 0.0..1.0f64,
    ) {
        let soffit = shapes::segmental(span, span * flat);
        let part = only_part(soffit.clone(), Piece::Ring { depth });
        prop_assert!(part.outline.is_counter_clockwise());
        let back = part.outline.pieces().nth(2).unwrap().point_at(at);
        prop_assert!((soffit.nearest(back).distance - depth).abs() < 1e-7);
        for v in part.marks.iter().flat_map(|m| m.path.vertices()) {
            prop_assert!(part.outline.signed_distance(v.point) < 0.0);
        }
    }
}

#[test]
fn every_arris_is_eased_and_the_name_keeps_off_it() {
    let round = Round { diameter: 600.0 }.arch().unwrap().soffit.fit(0.02).path;
    let eased = |chamfer| {
        let asked = Input {
            chamfer,
            ..input(round.clone(), Piece::Ring { depth: 40.0 })
        };
        pattern(&asked).unwrap()
    };
    let part = &eased(Some(3.0)).parts[0];
    let arrises = part
        .marks
        .iter()
        .filter(|m| m.kind == MarkKind::Chamfer { width: 3.0 });
    let lengths: Vec<f64> = arrises.map(|m| m.path.length()).collect();
    assert_eq!(lengths.len(), 2);
    assert!(
        (lengths[0] - part.outline.length()).abs() < 1e-9
            && (lengths[1] - part.openings[0].length()).abs() < 1e-9
    );
    for letter in part.marks.iter().filter(|m| m.kind == MarkKind::Text) {
        let off = part.outline.nearest(letter.path.start()).distance;
        assert!(off > 6.0, "{off}");
    }
    let square = &eased(None).parts[0];
    assert!(
        square
            .marks
            .iter()
            .all(|m| !matches!(m.kind, MarkKind::Chamfer { .. }))
    );
}
