//! Pieces that are stacked again.

use super::*;
use cintre_geometry::{Affine, Path, Point, Vec2};
use cintre_work::{MarkKind, Part};
use proptest::prelude::*;

/// Brings a part home: its outermost dowel holes onto two dowels of the base, where all of its holes then have one. Of several such
/// places, as a form alike on both sides has, the one by the face.
fn home(part: &Part, dowels: &[Point], face: &Path) -> Option<Part> {
    let holes: Vec<Point> = part.bores.iter().map(|b| b.centre).collect();
    let (first, last) = (*holes.first()?, *holes.last()?);
    let pairs = dowels.iter().flat_map(|&a| dowels.iter().map(move |&b| (a, b)));
    let apart = pairs.filter(|(a, b)| a != b && (a.distance(*b) - first.distance(last)).abs() < 1e-6);
    let placed = apart.map(|(a, b)| {
        let turn = (b - a).atan2() - (last - first).atan2();
        Affine::translate(a.to_vec2()) * Affine::rotate(turn) * Affine::translate(-first.to_vec2())
    });
    let pinned = placed.filter(|&by| {
        let held = |&hole: &Point| dowels.iter().any(|d| d.distance(by * hole) < 1e-6);
        holes.iter().all(held)
    });
    let by_the_face = |part: &Part| {
        let points = (0..=100).map(|i| face.station(face.length() * f64::from(i) / 100.0).0);
        points.filter(|&p| part.outline.nearest(p).distance < 0.5).count()
    };
    pinned.map(|by| part.transformed(by)).max_by_key(by_the_face)
}

fn base_dowels(form: &Form) -> Vec<Point> {
    let bases = form.parts.iter().filter(|p| p.name.contains(" base"));
    bases.flat_map(|p| p.bores.iter().map(|b| b.centre)).collect()
}

/// How far the restacked layers' faces stand off the exact face, at points along it.
fn off_face(form: &Form, exact: &Path) -> f64 {
    let dowels = base_dowels(form);
    let layers: Vec<Part> = form
        .parts
        .iter()
        .filter(|p| p.name.contains(" male"))
        .map(|p| home(p, &dowels, exact).expect("every layer goes on its dowels"))
        .collect();
    let mut worst = 0.0f64;
    for kind in ["A", "B"] {
        let of_kind: Vec<&Part> = layers
            .iter()
            .filter(|p| {
                p.name.ends_with("male") || p.name.rsplit(' ').next().is_some_and(|n| n.starts_with(kind))
            })
            .collect();
        for i in 0..=200 {
            let p = exact.station(exact.length() * f64::from(i) / 200.0).0;
            let off = of_kind.iter().map(|part| part.outline.nearest(p).distance);
            worst = worst.max(off.fold(f64::INFINITY, f64::min));
        }
    }
    worst
}

#[test]
fn layers_stacked_again_give_the_face() {
    let mut bench = input(half_ellipse());
    bench.strips.thicknesses = vec![3.0; 8];
    (bench.legs, bench.over_length) = (0.0, 40.0);
    // A sheet so small that every layer is in pieces.
    bench.sheet = Some(crate::centering::Usable {
        along: 1200.0,
        across: 700.0,
        either_way: true,
    });
    let form = bending_form(&bench).unwrap();
    let names: Vec<&str> = form.parts.iter().map(|p| p.name.as_str()).collect();
    assert!(
        names.contains(&"sash male A1") && names.contains(&"sash male B1"),
        "{names:?}"
    );
    assert!(names.contains(&"sash base 2"), "{names:?}");
    assert!(values(&form, "joints staggered by")[0] >= 100.0);
    let mut fine = bench.clone();
    fine.tolerance = 1e-4;
    let exact = Lines::new(&fine, kept_by_layers(&bench.strips.thicknesses)).unwrap();
    let off = off_face(&form, &exact.face(Side::Male).unwrap());
    assert!(off < 0.02, "{off}");
    let a = form.parts.iter().find(|p| p.name == "sash male A1").unwrap();
    let b = form.parts.iter().find(|p| p.name == "sash male B1").unwrap();
    // Four layers of 18 mm hold strips of 68 mm.
    assert_eq!((a.count, b.count), (2, 2));
    let items = form.list.iter().filter(|i| i.name.starts_with("lamination"));
    assert_eq!(items.count(), 8);
}

#[test]
fn one_plate_to_a_layer_where_the_sheet_holds_it() {
    let mut longer = input(half_round(1200.0));
    longer.over_length = 50.0;
    let form = bending_form(&longer).unwrap();
    let names: Vec<_> = form.parts.iter().map(|p| (p.name.as_str(), p.count)).collect();
    assert_eq!(names, [("sash male", 4), ("sash base", 1)]);
    let male = &form.parts[0];
    assert_eq!(male.bores.len(), 2);
    #[expect(clippy::cast_precision_loss, reason = "a few holes")]
    let holes = male.openings.len() as f64;
    near(holes, values(&form, "clamps")[0], 0.0);
    // The ligament stands between every hole and the face.
    for hole in &male.openings {
        let b = hole.bounds();
        near(Vec2::new(b.width(), b.height()).hypot(), 45.0 * 2f64.sqrt(), 1e-6);
    }
    let grooves = form.parts[1]
        .marks
        .iter()
        .filter(|m| matches!(m.kind, MarkKind::Groove { .. }));
    assert_eq!(grooves.count(), 1);
    assert!(male.marks.iter().any(|m| m.kind == MarkKind::Text));
    assert_eq!(male.marks.iter().filter(|m| m.kind == MarkKind::Line).count(), 3);
    assert!(form.notes.iter().all(|n| n != crate::marks::NO_ROOM));
}

#[test]
fn flats_stand_square_to_their_clamps() {
    let mut flats = input(half_round(800.0));
    flats.strips.thicknesses = vec![3.0; 8];
    flats.clamps.seat = Seat::Flats;
    let form = bending_form(&flats).unwrap();
    let male = &form.parts[0];
    assert!(male.openings.is_empty());
    let lines = Lines::new(&flats, kept_by_layers(&flats.strips.thicknesses)).unwrap();
    let face = lines.face(Side::Male).unwrap();
    let clamping = Clamping::new(&flats, &lines).unwrap();
    let body = Maker::new(&flats, &lines, &clamping, 4, Side::Male)
        .unwrap()
        .body()
        .unwrap();
    for &at in &clamping.clamps {
        let (p, left) = lines::station(&face, at);
        let seat = p - left * 60.0;
        let near_seat = body.members[0].outline.nearest(seat);
        near(near_seat.distance, 0.0, 1e-6);
        let flat = body.members[0].outline.pieces().nth(near_seat.piece).unwrap();
        assert!(flat.is_line() && flat.tangent_at(0.5).dot(left).abs() < 1e-9);
    }
}

#[test]
fn the_females_segments_part_and_keep_their_clamps() {
    let mut pair = input(half_round(1000.0));
    (pair.side, pair.over_length) = (Side::Pair, 40.0);
    let form = bending_form(&pair).unwrap();
    let segments: Vec<&Part> = form.parts.iter().filter(|p| p.name.contains("female")).collect();
    assert_eq!(
        segments.len(),
        5,
        "more than 180 degrees in segments of 45 at most"
    );
    for segment in segments {
        assert_eq!(segment.count, 4);
        assert_eq!(segment.bores.len(), 2);
    }
    pair.body.segments = Some(40);
    let Err(Error::Bending(BendingError::Segments {
        given: 40,
        least,
        most,
    })) = bending_form(&pair)
    else {
        panic!("40 segments have no two clamps each");
    };
    pair.body.segments = Some(most);
    assert!(least <= most && bending_form(&pair).is_ok());
}

#[test]
fn a_female_alone_has_its_wood_outside() {
    let mut female = input(half_round(900.0));
    female.side = Side::Female;
    let form = bending_form(&female).unwrap();
    let kept = 1.0 - 1.0 / 36.0;
    near(values(&form, "female face radii")[0], 462.0 * kept + 12.0, 1e-6);
    let lines = Lines::new(&female, kept).unwrap();
    let bounds = form.parts[0].outline.bounds();
    assert!(bounds.height() > lines.face(Side::Female).unwrap().bounds().height() + 100.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn a_longer_leg_and_a_thicker_stack_change_no_face(legs in 0.0f64..400.0, strips in 4usize..10, span in 700.0f64..1500.0) {
        let mut any = input(half_round(span));
        any.strips.thicknesses = vec![3.0; strips];
        any.legs = legs;
        let form = bending_form(&any).unwrap();
        let stack = 3.0 * f64::from(u8::try_from(strips).unwrap());
        let kept = kept_by_layers(&any.strips.thicknesses);
        let wanted = (span / 2.0 + stack / 2.0) * kept - stack / 2.0;
        prop_assert!((values(&form, "male face radii")[0] - wanted).abs() < 1e-6);
        let lengths = values(&form, "strip lengths");
        prop_assert!(lengths.windows(2).all(|pair| pair[1] > pair[0]));
        // The middle of the stack is as long as the finished piece's, on the form and off it.
        let middle = (lengths[0] + lengths[strips - 1]) / 2.0;
        let finished = std::f64::consts::PI * (span + stack) / 2.0 + 2.0 * legs;
        prop_assert!((middle - finished).abs() < 1e-6);
        for part in &form.parts {
            prop_assert!(part.outline.is_counter_clockwise());
            for bore in &part.bores {
                prop_assert!(part.outline.signed_distance(bore.centre) < -10.0);
            }
        }
    }
}
