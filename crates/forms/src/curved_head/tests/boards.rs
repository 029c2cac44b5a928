//! How many segments, out of which boards: worked apart, and as practitioners met it.

use super::*;
use proptest::prelude::*;

#[track_caller]
fn head(soffit: Path, width: f64, board: f64, clean_up: f64) -> Form {
    let mut input = input(soffit, width);
    input.boards.size.1 = board;
    input.boards.clean_up = clean_up;
    curved_head(&input).unwrap()
}

#[test]
fn reference_values_of_heads_from_straight_boards() {
    let half = PI;
    for (inside, outside, sweep, segments, board, length, mitre) in [
        (
            610.0,
            730.0,
            half,
            6,
            140.785_245_963_668,
            377.875_805_849_68,
            15.0,
        ),
        (
            790.0,
            900.0,
            92.25f64.to_radians(),
            4,
            125.945_501_778_712,
            359.824_267_355_547,
            11.531_25,
        ),
    ] {
        let mut input = input(sector(inside, sweep), outside - inside);
        input.boards.size.1 = 200.0;
        input.segments = Some(segments);
        let form = curved_head(&input).unwrap();
        near(&values(&form, "board width"), &[board], 1e-8);
        near(&values(&form, "board length"), &[length], 1e-8);
        near(&values(&form, "mitre"), &[mitre], 1e-8);
        near(&values(&form, "joint length"), &[outside - inside], 1e-8);
        near(&values(&form, "cross grain at worst"), &[mitre], 1e-8);
    }
}

#[test]
fn how_many_segments_from_my_boards() {
    let half = head(sector(960.0, PI), 100.0, 145.0, 6.0);
    near(&values(&half, "segments"), &[6.0], 0.0);
    near(&values(&half, "board width"), &[132.71], 5e-3);
    near(&values(&half, "board leaves"), &[139.0], 1e-9);
    near(&values(&half, "mitre"), &[15.0], 1e-9);
    near(&values(&half, "long edge"), &[568.05], 5e-3);
    near(&values(&half, "board length"), &[548.70], 5e-3);
    near(&values(&half, "short edge"), &[496.93], 5e-3);
    let round = head(round(340.0), 90.0, 140.0, 5.0);
    near(&values(&round, "segments"), &[7.0], 0.0);
    near(&values(&round, "board width"), &[123.67], 5e-3);
    near(&values(&round, "mitre"), &[25.714], 5e-4);
    near(&values(&round, "long edge"), &[414.15], 5e-3);
}

#[test]
fn fewer_segments_need_the_boards_that_they_need() {
    for (segments, needed) in [(3, "228.6"), (4, "173.1"), (5, "147.0")] {
        let mut input = input(sector(960.0, PI), 100.0);
        input.segments = Some(segments);
        let error = curved_head(&input).unwrap_err();
        assert_eq!(error.field(), "segments");
        let said = error.to_string();
        assert!(
            said.contains(needed) && said.contains("6 are the fewest") && said.contains("139.0"),
            "{said}"
        );
    }
}

#[test]
fn the_grain_at_the_ends_is_limited_and_told() {
    let mut input = input(sector(340.0, PI), 90.0);
    input.boards.size.1 = 200.0;
    let told = curved_head(&input).unwrap();
    near(&values(&told, "segments"), &[3.0], 0.0);
    near(&values(&told, "cross grain at worst"), &[30.0], 1e-9);
    assert!(told.notes.iter().any(|note| note.contains("cross-grain: 15 deg")));
    input.cross_grain = PI / 12.0;
    let limited = curved_head(&input).unwrap();
    near(&values(&limited, "segments"), &[6.0], 0.0);
    near(&values(&limited, "cross grain at worst"), &[15.0], 1e-9);
    assert!(!limited.notes.iter().any(|note| note.contains("cross-grain")));
}

#[test]
fn on_a_curve_of_many_radii_every_segment_is_loaded_alike() {
    let mut input = input(shapes::three_centred(1520.0, 430.0), 95.0);
    input.boards.size.1 = 150.0;
    let form = curved_head(&input).unwrap();
    let widths: Vec<f64> = form
        .parts
        .iter()
        .map(|part| part.outline.bounds().height())
        .collect();
    assert!(widths.iter().all(|w| *w <= 144.0 + 1e-6), "{widths:?}");
    // Left and right are mirror images.
    let made = Made::new(&input).unwrap();
    let stops: Vec<f64> = made.divided.layers[0].iter().map(|s| s.to.lower).collect();
    let whole = made.band.lower.length();
    for (i, stop) in stops[..stops.len() - 1].iter().enumerate() {
        assert!(
            (stop + stops[stops.len() - 2 - i] - whole).abs() < 1e-6,
            "{stops:?}"
        );
    }
    // The grain is what limits those at the springings, and the width those at the crown: all are loaded alike.
    let loads = made.divided.layers[0].iter().map(|s| {
        let width = (s.bounds().height() - 95.0) / (144.0 - 95.0);
        width.max(s.cross_grain() / input.cross_grain)
    });
    let loads: Vec<f64> = loads.collect();
    assert!(
        loads.iter().all(|load| (load - loads[0]).abs() < 1e-4),
        "{loads:?}"
    );
    // One fewer would not fit.
    input.segments = Some(stops.len() - 1);
    assert_eq!(curved_head(&input).unwrap_err().field(), "segments");
}

#[test]
fn layers_lap_by_half_a_segment() {
    let mut input = input(sector(960.0, PI), 100.0);
    input.layers = Some(3);
    let made = Made::new(&input).unwrap();
    let form = made.form(&input).unwrap();
    near(&values(&form, "joints lap by"), &[960.0 * PI / 12.0], 1e-6);
    let pieces: usize = form.parts.iter().map(|part| part.count).sum();
    assert_eq!(pieces, 6 + 7 + 6);
    // Two kinds: whole segments, and the halves at the ends of the layer between.
    assert!(form.parts.len() <= 3, "{}", form.parts.len());
    assert!(
        form.notes
            .iter()
            .any(|note| note.contains("layer 2, segments from the left"))
    );
}

#[test]
fn a_jamb_head_is_built_up_to_the_depth_of_the_wall() {
    let mut input = input(sector(500.0, PI), 32.0);
    input.piece = Piece::JambHead { depth: 108.0 };
    let form = curved_head(&input).unwrap();
    near(&values(&form, "layers"), &[4.0], 0.0);
    near(&values(&form, "layers come to"), &[108.0], 1e-9);
    input.piece = Piece::JambHead { depth: 110.0 };
    near(&values(&curved_head(&input).unwrap(), "layers"), &[5.0], 0.0);
}

#[test]
fn the_list_has_the_blanks_the_tongues_and_the_waste() {
    let form = head(sector(960.0, PI), 100.0, 145.0, 6.0);
    let item = |name: &str| form.list.iter().find(|item| item.name.contains(name)).unwrap();
    let blanks: usize = form
        .list
        .iter()
        .filter(|i| i.name.contains("blank for"))
        .map(|i| i.count)
        .sum();
    assert_eq!(blanks, 6);
    assert_eq!(item("tongue").count, 5);
    near(&[item("tongue").length], &[76.0], 1e-9);
    assert_eq!(item("tongue").section, Some((32.0, 9.0)));
    // Four blanks of 548.7 lie in 2394 with 4 mm between: 2206.8; five do not.
    assert_eq!(item("board, as bought").count, 2);
    let wood = PI / 2.0 * (1060.0f64.powi(2) - 960.0f64.powi(2));
    let sawn = 6.0 * 132.705 * 548.697;
    near(
        &values(&form, "waste of the blanks"),
        &[100.0 * (1.0 - wood / sawn)],
        0.01,
    );
    let bought = 2.0 * 2400.0 * 145.0;
    near(
        &values(&form, "waste of the boards, offcuts with it"),
        &[100.0 * (1.0 - wood / bought)],
        1e-6,
    );
}

#[test]
fn narrow_blanks_lie_side_by_side() {
    let mut input = input(sector(960.0, PI), 30.0);
    input.joint = Some(Joint::Butt);
    input.segments = Some(8);
    // W = 990 - 960 cos(11.25 deg) = 48.4: two and a saw's cut in 139. Blanks of 386.3, six to a length of 2394.
    let form = curved_head(&input).unwrap();
    let boards = form
        .list
        .iter()
        .find(|item| item.name.contains("as bought"))
        .unwrap();
    assert_eq!(boards.count, 1);
    input.boards.size.1 = 100.0;
    let boards = curved_head(&input).unwrap().list.into_iter();
    assert_eq!(
        boards
            .filter(|item| item.name.contains("as bought"))
            .map(|i| i.count)
            .sum::<usize>(),
        2
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    /// Held against the bench's own sum: th_max = 2 acos((R_o - W) / R_i), n = Th / th_max rounded up.
    #[test]
    fn the_fewest_are_those_of_the_benchs_own_sum(
        inside in 300.0..1500.0f64, width in 40.0..150.0f64, sweep in 0.6..PI, over in 5.0..150.0f64,
    ) {
        let (outside, leaves) = (inside + width, width + over);
        let widest = 2.0 * ((outside - leaves) / inside).acos();
        let exact = sweep / widest.min(PI / 3.0);
        prop_assume!((exact - exact.round()).abs() > 1e-6);
        let most = (sweep * f64::midpoint(inside, outside) / width).floor().max(1.0);
        let mut input = input(sector(inside, sweep), width);
        input.boards.size = (10_000.0, leaves + 6.0);
        input.joint = Some(Joint::Butt);
        match curved_head(&input) {
            Ok(form) => {
                let count = exact.ceil();
                prop_assert!(count <= most);
                prop_assert_eq!(&values(&form, "segments"), &[count]);
                let half = sweep / count / 2.0;
                near(&values(&form, "board width"), &[outside - inside * half.cos()], 1e-6);
                near(&values(&form, "board length"), &[2.0 * outside * half.sin()], 1e-6);
                if count > 1.0 {
                    near(&values(&form, "long edge"), &[2.0 * outside * half.tan()], 1e-6);
                    near(&values(&form, "mitre"), &[half.to_degrees()], 1e-6);
                }
            }
            Err(error) => {
                prop_assert!(exact.ceil() > most, "{error}");
                prop_assert!(["stock", "cross-grain"].contains(&error.field()), "{error}");
            }
        }
    }
}

#[test]
fn the_ends_at_which_segments_meet_stay_clean() {
    for (soffit, board, joints) in [(sector(960.0, PI), 145.0, 10), (round(340.0), 150.0, 14)] {
        let form = head(soffit, 100.0, board, 6.0);
        let mut ends = 0;
        for part in &form.parts {
            for path in &part.clean {
                assert!((path.length() - 100.0).abs() < 1e-6);
                assert!(part.outline.nearest(path.start().midpoint(path.end())).distance < 1e-6);
            }
            ends += part.clean.len() * part.count;
        }
        assert_eq!(ends, joints);
    }
}
