//! Openings and arches as joiners ask after them, and what the figures say: through the built command.

use cintre_tests::Bench;
use serde_json::Value;

const SHOP: &str = "\
shop:
  stock: { board: { material: mdf, sheet: [4000, 2000], thickness: 9 } }
  machines: { drawn: { kind: drawing } }
";

/// A job of some arches, and what is made of them.
fn job(units: &str, arches: &[(&str, &str)], make: &str) -> String {
    let arches: String = arches
        .iter()
        .map(|(name, arch)| format!("  {name}: {{ {arch} }}\n"))
        .collect();
    format!("title: Questions\nunits: {units}\n{SHOP}arches:\n{arches}{make}")
}

/// The figures of a job: as a table with its lines joined, and as JSON.
fn figures(units: &str, arches: &[(&str, &str)]) -> (String, Value) {
    let bench = Bench::with("job.yaml", &job(units, arches, ""));
    let table = bench.run(&["figures", "job.yaml", "--units", units]).ended(0).out;
    assert!(table.lines().all(|line| line.chars().count() <= 80), "{table}");
    let json = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    (
        table.split_whitespace().collect::<Vec<_>>().join(" "),
        json["arches"].clone(),
    )
}

#[track_caller]
fn near(json: &Value, pointer: &str, wanted: f64, within: f64) {
    let found = json.pointer(pointer).and_then(Value::as_f64);
    let found = found.unwrap_or_else(|| panic!("no {pointer} in {json}"));
    assert!(
        (found - wanted).abs() <= within,
        "{pointer}: {found}, not {wanted}"
    );
}

#[track_caller]
fn says(table: &str, words: &str) {
    assert!(table.contains(words), "`{words}` is missing in:\n{table}");
}

#[test]
fn radii_come_from_width_and_height_whole() {
    let (table, json) = figures("mm", &[("head", "shape: segmental, span: 1180, rise: 165")]);
    near(&json, "/head/arc/radius", 1137.35, 5e-3);
    near(&json, "/head/pieces/0/centre/1", -972.35, 5e-3);
    near(&json, "/head/arc/skewback_deg", 90.0 - 31.25, 5e-3);
    near(&json, "/head/developed_length", 1240.59, 5e-3);
    near(&json, "/head/quarter_height", 126.08, 5e-3);
    assert!(!table.contains("1054"), "half the rise is not dropped");
    let inches = [
        ("head", "shape: segmental, span: 46.5, rise: 6.5"),
        ("door", "shape: segmental, span: 3'-10 1/2\", rise: 7 5/16\""),
    ];
    let (table, json) = figures("in", &inches);
    near(&json, "/head/arc/radius", 44.832 * 25.4, 0.0127);
    near(&json, "/head/developed_length", 48.886 * 25.4, 0.0127);
    near(&json, "/door/span", 1181.1, 1e-9);
    near(&json, "/door/arc/radius", 40.618 * 25.4, 0.0127);
    says(&table, "radius 1 40 5/8\" − 0.007");
}

#[test]
fn what_cannot_be_swung_is_set_out_otherwise() {
    let (table, json) = figures(
        "mm",
        &[
            (
                "long",
                "shape: segmental, span: 3600, rise: 240, ordinates: { step: 300 }",
            ),
            ("flat", "shape: segmental, span: 1800, rise: 9"),
            ("frame", "shape: segmental, span: 2150, rise: 180"),
        ],
    );
    near(&json, "/long/arc/radius", 6870.0, 1e-6);
    near(&json, "/long/arc/half_arc_rise", 60.26, 5e-3);
    for (i, y) in [240.0, 233.4, 213.7, 180.8, 134.4, 74.2, 0.0].iter().enumerate() {
        near(&json, &format!("/long/ordinates/{}/1", i + 6), *y, 0.05);
    }
    near(&json, "/flat/arc/radius", 45004.5, 1e-6);
    near(&json, "/flat/arc/frame_angle_deg", 178.854, 5e-4);
    near(&json, "/flat/arc/frame_arms_at_least", 1800.0, 1e-9);
    says(
        &table,
        "a trammel of 45004.5 mm is too long to swing true (over 3000.0 mm): set out by the heights below, or use the frame",
    );
    near(&json, "/frame/arc/frame_angle_deg", 160.989, 5e-4);
    near(&json, "/frame/arc/radius", 3300.07, 5e-3);
    near(&json, "/frame/arc/frame_on_half_the_span", 1650.03, 6e-3);
}

#[test]
fn a_small_room_rules_out_what_does_not_fit_in_it() {
    let text = job("mm", &[("flat", "shape: segmental, span: 1800, rise: 9")], "");
    let text = text.replace("\narches:", "\n  house: { room: [3000, 2000] }\narches:");
    let bench = Bench::with("job.yaml", &text);
    let table = bench.run(&["figures", "job.yaml", "--units", "mm"]).ended(0).out;
    let table = table.split_whitespace().collect::<Vec<_>>().join(" ");
    says(&table, "the frame on two pins takes a floor of 5399.5 mm");
    says(
        &table,
        "and the room is 3000.0 mm by 2000.0 mm: set out by the heights below",
    );
    let ways = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    let ways = &ways["arches"]["flat"]["ways"];
    for (i, works) in [false, false, true].into_iter().enumerate() {
        assert_eq!(ways[i]["works"], works, "{ways}");
    }
}

#[test]
fn a_rise_three_out_moves_the_radius_and_not_the_curve() {
    let (table, json) = figures(
        "mm",
        &[
            ("low", "shape: segmental, span: 1450, rise: 92"),
            ("head", "shape: segmental, span: 1450, rise: 95"),
            ("high", "shape: segmental, span: 1450, rise: 98"),
        ],
    );
    near(&json, "/low/arc/radius", 2902.7, 0.05);
    near(&json, "/head/arc/radius", 2813.9, 0.05);
    near(&json, "/high/arc/radius", 2730.8, 0.05);
    let quarter = |name: &str| json[name]["quarter_height"].as_f64().expect("a height");
    assert!((quarter("high") - quarter("head") - 2.28).abs() < 5e-3);
    says(&table, "radius, for 1 more of rise 28.62 less");
}

#[test]
fn a_weaving_opening_shows_its_residuals_and_what_it_is_not() {
    let points = "[[-750, 0], [-600, 121], [-450, 202], [-300, 252], [-150, 283], [0, 291], [150, 284], [300, 260], \
                  [450, 206], [600, 118], [750, 0]]";
    let arch = format!("shape: measured, as: circle, reading: 3 mm, points: {points}");
    let (table, json) = figures("mm", &[("door", &arch)]);
    let door = &json["door"]["measured"];
    near(door, "/radius", 1105.51, 5e-3);
    near(door, "/centre/0", 1.15, 5e-3);
    near(door, "/centre/1", -809.81, 5e-3);
    for (i, off) in [-1.0, 2.5, 2.3, -1.8, -2.3, -4.7, -1.6, 5.3, 5.0, -1.2, -2.5]
        .iter()
        .enumerate()
    {
        near(door, &format!("/residuals/{i}"), *off, 0.051);
    }
    near(door, "/by_springings_and_crown/radius", 1111.99, 5e-3);
    near(door, "/by_springings_and_crown/worst", 9.9, 0.05);
    near(door, "/clearing/radius", 1100.81, 5e-3);
    near(door, "/clearing/widest_gap", 10.0, 0.05);
    near(door, "/radius_tolerance/reading", 3.0, 1e-12);
    let spoken_for = door["quarter"]["speaks_for"].as_array().expect("shapes");
    assert!(
        spoken_for.iter().any(|shape| shape == "segmental")
            && spoken_for.iter().all(|shape| shape != "elliptical")
    );
    says(&table, "joinery is scribed to a template");
    says(&table, "may be moving");
    // Its picture shows each point with what it is off.
    let bench = Bench::with("job.yaml", &job("mm", &[("door", &arch)], ""));
    bench.run(&["draw", "job.yaml", "--out", "pictures"]).ended(0);
    assert!(bench.text("pictures/arch-door.svg").len() > 10_000);
}

#[test]
fn the_height_at_the_quarter_tells_a_segment_from_half_an_ellipse() {
    let sizes = "span: 1220, rise: 305";
    let (table, json) = figures(
        "mm",
        &[
            ("arc", &format!("shape: segmental, {sizes}")),
            ("oval", &format!("shape: elliptical, {sizes}")),
        ],
    );
    near(&json, "/arc/arc/radius", 762.50, 5e-3);
    near(&json, "/arc/quarter_height", 241.34, 5e-3);
    near(&json, "/oval/quarter_height", 264.14, 0.02);
    near(&json, "/arc/quarter_height_of/elliptical", 264.14, 0.02);
    near(&json, "/oval/quarter_height_of/segmental", 241.34, 5e-3);
    near(&json, "/oval/developed_length", 1477.49, 5e-3);
    near(&json, "/arc/developed_length", 1414.13, 5e-3);
    says(
        &table,
        "ordered by span and rise alone it may come back as another shape",
    );
}

#[test]
fn strips_and_equal_divisions_draw_other_curves() {
    let (table, json) = figures(
        "mm",
        &[
            ("arc", "shape: segmental, span: 1800, rise: 120"),
            ("oval", "shape: elliptical, span: 1200, rise: 400"),
        ],
    );
    near(&json, "/arc/arc/bent_strip_low_at_quarter", 7.90, 5e-3);
    says(&table, "at a quarter of the span it lies 7.9 mm low");
    near(&json, "/oval/ellipse/equal_divisions_off", 30.93, 5e-3);
    says(&table, "draws a parabola, up to 30.9 mm outside this ellipse");
}

#[test]
fn a_part_of_an_ellipse_is_found_from_its_points() {
    // Half axes 869.30 and 735, measured from 244 over its axis up: it does not leave its jambs plumb.
    let (a, b) = (869.302_f64, 735.0);
    let points: Vec<String> = [
        -820.0, -700.0, -500.0, -250.0, 0.0, 250.0, 500.0, 700.0, 820.0_f64,
    ]
    .iter()
    .map(|x| format!("[{x}, {:.6}]", b * (1.0 - (x / a).powi(2)).sqrt() - 244.0))
    .collect();
    let arch = format!("shape: measured, as: ellipse, points: [{}]", points.join(", "));
    let (_, json) = figures("mm", &[("door", &arch)]);
    near(&json, "/door/measured/half_width", 869.30, 0.05);
    near(&json, "/door/measured/half_height", 735.0, 0.05);
    assert!(json["door"]["springing_lean_deg"].as_f64().expect("an angle") > 5.0);
}

#[test]
fn a_basket_arch_does_not_kink() {
    let (_, json) = figures(
        "mm",
        &[
            ("least", "shape: three-centred, span: 1520, rise: 430"),
            (
                "sixty",
                "shape: three-centred, span: 1520, rise: 430, construction: sixty",
            ),
        ],
    );
    near(&json, "/least/pieces/2/radius", 312.07, 5e-3);
    near(&json, "/least/pieces/2/centre/0", 447.93, 5e-3);
    near(&json, "/least/pieces/1/radius", 1221.70, 5e-3);
    near(&json, "/least/pieces/1/centre/1", -791.70, 5e-3);
    near(&json, "/least/pieces/1/end/0", 601.61, 5e-3);
    near(&json, "/least/pieces/1/end/1", 271.61, 5e-3);
    near(&json, "/least/pieces/1/sweep_deg", -2.0 * 29.50, 0.011);
    near(&json, "/least/developed_length", 1917.09, 5e-3);
    near(&json, "/sixty/pieces/2/radius", 309.21, 5e-3);
    near(&json, "/sixty/pieces/1/radius", 1210.79, 5e-3);
    near(&json, "/sixty/developed_length", 1915.55, 5e-3);
    let low = "shape: three-centred, span: 1500, rise: 200, construction: sixty";
    let bench = Bench::with("job.yaml", &job("mm", &[("low", low)], ""));
    bench
        .run(&["check", "job.yaml"])
        .ended(3)
        .said(&["rise", "200.96"]);
}

#[test]
fn a_tudor_arch_states_the_proportion_it_takes() {
    let (table, json) = figures("mm", &[("tudor", "shape: four-centred, span: 1240, rise: 390")]);
    near(&json, "/tudor/pieces/3/radius", 260.0, 5e-3);
    near(&json, "/tudor/pieces/3/centre/0", 360.0, 5e-3);
    near(&json, "/tudor/pieces/2/radius", 2238.50, 5e-3);
    near(&json, "/tudor/pieces/2/centre/0", -459.37, 5e-3);
    near(&json, "/tudor/pieces/2/centre/1", -1800.85, 5e-3);
    near(&json, "/tudor/pieces/2/end/0", 467.68, 5e-3);
    near(&json, "/tudor/pieces/2/end/1", 236.66, 5e-3);
    near(&json, "/tudor/pieces/3/sweep_deg", -65.53, 5e-3);
    near(&json, "/tudor/apex/slope_deg", 11.84, 5e-3);
    says(&table, "two thirds");
}

#[test]
fn a_pointed_arch_is_no_lower_than_half_its_span() {
    let (table, json) = figures("mm", &[("drop", "shape: pointed, span: 1000, rise: 820")]);
    near(&json, "/drop/pieces/0/radius", 922.40, 5e-3);
    near(&json, "/drop/pieces/0/centre/0", 422.40, 5e-3);
    near(&json, "/drop/apex/slope_deg", 27.25, 5e-3);
    near(&json, "/drop/apex/included_deg", 125.49, 0.011);
    says(&table, "between both sides 125.49°");
    let low = Bench::with(
        "job.yaml",
        &job("mm", &[("low", "shape: pointed, span: 1000, rise: 420")], ""),
    );
    low.run(&["check", "job.yaml"])
        .ended(3)
        .said(&["more than 500.000 mm", "four-centred"]);
}

#[test]
fn a_rampant_arch_over_a_stair() {
    let (_, json) = figures(
        "mm",
        &[("stair", "shape: rampant, span: 1350, springing-difference: 270")],
    );
    near(&json, "/stair/pieces/0/radius", 810.0, 1e-6);
    near(&json, "/stair/pieces/1/radius", 540.0, 1e-6);
    for piece in 0..2 {
        near(
            &json,
            &format!("/stair/pieces/{piece}/centre/0"),
            810.0 - 675.0,
            1e-6,
        );
    }
    near(&json, "/stair/rise", 810.0, 1e-6);
    near(&json, "/stair/pieces/1/end/1", 270.0, 1e-6);
}

#[test]
fn a_casing_is_struck_from_the_jambs_own_centre() {
    let arch = "shape: segmental, span: 915, rise: 152, ring: 89";
    let (table, json) = figures(
        "mm",
        &[
            ("flush", &format!("{arch}, reveal: 0")),
            ("back", &format!("{arch}, reveal: 6")),
        ],
    );
    near(&json, "/flush/casing/inner_radius", 764.51, 5e-3);
    near(&json, "/flush/casing/outer_radius", 853.51, 5e-3);
    near(&json, "/flush/casing/wrong_radius_worked_anew", 740.13, 5e-3);
    says(&table, "less even than the inner radius");
    near(&json, "/flush/casing/tangent_mitre_deg", 26.62, 5e-3);
    near(&json, "/flush/casing/straight_mitre_deg", 25.84, 5e-3);
    near(&json, "/flush/casing/outer_corner", 43.09, 5e-3);
    near(&json, "/flush/casing/mitre_bow", 0.37, 5e-3);
    says(&table, "cut the head first and mark the legs from it");
    near(&json, "/back/casing/inner_corner", 3.00, 5e-3);
    near(&json, "/back/casing/outer_corner", 45.90, 5e-3);
}

#[test]
fn a_casing_round_an_ellipse_is_of_one_width() {
    let (table, json) = figures(
        "mm",
        &[("window", "shape: elliptical, span: 1280, rise: 380, ring: 100")],
    );
    near(&json, "/window/grown_ellipse/least_width", 97.25, 5e-3);
    near(&json, "/window/grown_ellipse/at/0", 511.1, 0.5);
    near(&json, "/window/grown_ellipse/at/1", 228.7, 0.5);
    says(
        &table,
        "comes 2.75 mm short of its width; the true edge is a parallel",
    );
}

#[test]
fn a_bead_inside_past_the_least_radius_is_refused_with_it() {
    let make = |gap: &str, arch: &str| {
        let make = format!(
            "make: [pattern: {{ arch: head, piece: inside, gap: {gap}, stock: board, machine: drawn }}]\n"
        );
        Bench::with("job.yaml", &job("mm", &[("head", arch)], &make)).run(&["check", "job.yaml"])
    };
    make("80", "shape: elliptical, span: 1200, rise: 210")
        .ended(4)
        .said(&["gap", "73.50 mm is the most"]);
    make("73", "shape: elliptical, span: 1200, rise: 210").ended(0);
    make("320", "shape: three-centred, span: 1520, rise: 430")
        .ended(4)
        .said(&["312.07 mm is the most"]);
}

#[test]
fn a_camber_arch_is_divided_to_one_point() {
    let arch = "shape: camber, span: 915, depth: 300, voussoirs: { count: 13, joint: 5 }";
    let (table, json) = figures("mm", &[("head", arch)]);
    let joints = json["head"]["voussoirs"]["joints"].as_array().expect("joints");
    assert_eq!(joints.len(), 14);
    let below = json["head"]["level_back"]["joints_meet_below"]
        .as_f64()
        .expect("a depth");
    for joint in &joints[1..13] {
        let at = |end: usize, axis: usize| joint[end][axis].as_f64().expect("a number");
        let (low, high) = ((at(0, 0), at(0, 1) + below), (at(1, 0), at(1, 1) + below));
        assert!((low.0 * high.1 - low.1 * high.0).abs() < 1e-3 && (at(1, 1) - 300.0).abs() < 1e-9);
    }
    says(&table, "voussoirs 13, one of them on the crown");
    let even = Bench::with("job.yaml", &job("mm", &[("head", &arch.replace("13", "12"))], ""));
    even.run(&["check", "job.yaml"])
        .ended(3)
        .said(&["voussoirs.count", "take 11 or 13"]);
}

#[test]
fn the_ring_of_an_ogee_closes_over_its_cusp() {
    let arch = "shape: ogee, span: 1200, rise: 1150, lower-radius: 420, ring: ";
    let make = "make: [pattern: { arch: ogee, piece: ring, stock: board, machine: drawn }]\n";
    let bench = Bench::with("job.yaml", &job("mm", &[("ogee", &format!("{arch}110"))], make));
    bench.run(&["make", "job.yaml", "--out", "out"]).ended(0);
    let json = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    near(&json, "/arches/ogee/ring/pieces/0/radius", 530.0, 1e-6);
    near(&json, "/forms/0/pattern_height", 1260.0, 1e-6);
    let deep = Bench::with("job.yaml", &job("mm", &[("ogee", &format!("{arch}990"))], ""));
    deep.run(&["check", "job.yaml"])
        .ended(3)
        .said(&["ogee.ring", "982.08"]);
}

#[test]
fn round_and_oval_windows_have_patterns_whole_and_as_rings() {
    let arches = [
        ("eye", "shape: round, diameter: 700, ring: 80"),
        ("oval", "shape: oval, width: 900, height: 600, ring: 90"),
    ];
    let one = |arch: &str, piece: &str| {
        format!("  - pattern: {{ arch: {arch}, {piece}, stock: board, machine: drawn }}\n")
    };
    let all = ["eye", "oval"].map(|arch| {
        ["piece: ring", "piece: inside", "piece: inside, gap: 5"]
            .map(|piece| one(arch, piece))
            .concat()
    });
    let bench = Bench::with(
        "job.yaml",
        &job("mm", &arches, &format!("make:\n{}", all.concat())),
    );
    bench.run(&["make", "job.yaml", "--out", "out"]).ended(0);
    bench.run(&["prove", "out"]).ended(0);
    let json = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    near(&json, "/forms/0/pattern_length", 860.0, 1e-6);
    near(&json, "/forms/2/pattern_length", 690.0, 1e-6);
    near(&json, "/forms/3/pattern_height", 780.0, 0.05);
}

#[test]
fn what_the_bit_does_not_reach_is_told_with_the_form() {
    let text = cintre_tests::NICHE.replace(
        "shape: segmental, span: 320, rise: 90, ring: 40",
        "shape: trefoil, span: 320, rise: 240, lobe-radius: 80, lobe-height: 80",
    );
    let bench = Bench::of(&text, cintre_tests::SHOP);
    let json = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    let left = &json["forms"][0]["not_reached"];
    assert_eq!(
        (left[0]["bit"].as_str(), left[0]["places"].as_u64()),
        (Some("cutter-6"), Some(2)),
        "{json}"
    );
    assert!(left[0]["depth"].as_f64().expect("a depth") > 0.1);
    let table = bench.run(&["figures", "job.yaml"]).ended(0).out;
    says(&table, "cutter-6 leaves");
}

#[test]
fn figures_want_no_shop_and_nothing_to_make() {
    let job = "title: One head\nunits: mm\narches:\n  head: { shape: segmental, span: 1180, rise: 165 }\n";
    let bench = Bench::with("job.yaml", job);
    let json = bench.run(&["figures", "job.yaml", "--json"]).ended(0).json();
    near(&json, "/arches/head/arc/radius", 1137.35, 5e-3);
    // What is made of it does.
    let make = "make:\n  - pattern: { arch: head, piece: inside, stock: mdf9, machine: table }\n";
    Bench::with("job.yaml", &format!("{job}{make}"))
        .run(&["check", "job.yaml"])
        .ended(3)
        .said(&["job.yaml:6:", "there is no stock of this name", "`shop: FILE`"]);
}

#[test]
fn a_round_window_is_ringed_with_any_number_one_on_the_crown() {
    let eye = "shape: round, diameter: 900, ring: 215, voussoirs: { count: 28, joint: 8 }";
    let oval = "shape: oval, width: 900, height: 600, ring: 215, voussoirs: { count: 27, joint: 8 }";
    let (table, json) = figures("mm", &[("eye", eye), ("oval", oval)]);
    says(&table, "28 round the ring, one of them on the crown");
    near(&json, "/eye/voussoirs/joint_count", 28.0, 0.0);
    near(
        &json,
        "/eye/voussoirs/width",
        900.0 * std::f64::consts::PI / 28.0 - 8.0,
        1e-9,
    );
    near(&json, "/oval/voussoirs/joint_count", 27.0, 0.0);
    let two = "shape: round, diameter: 900, ring: 215, voussoirs: { count: 2, joint: 8 }";
    Bench::with("job.yaml", &job("mm", &[("eye", two)], ""))
        .run(&["figures", "job.yaml"])
        .ended(3)
        .said(&[
            "arches.eye.voussoirs.count: 2",
            "cannot close a ring",
            "take 3 or more",
        ]);
}
