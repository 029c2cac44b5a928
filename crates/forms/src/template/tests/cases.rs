//! Sums that were worked apart, and troubles of the trade.

use super::super::{Guide, GuideKind, Pair, Run, pair};
use super::{BUSH_30, Edge, Form, figure, input, made, ogee, ring, trefoil};
use cintre_geometry::arch::{Arch, Elliptical, Pointed, Segmental, ThreeCentred};
use cintre_geometry::{Outline, Path, Point};

fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

fn segmental(span: f64, rise: f64) -> Arch {
    let sizes = Segmental {
        span: Some(span),
        rise: Some(rise),
        radius: None,
    };
    sizes.arch().expect("such an arch is")
}

#[test]
fn the_offset_is_half_of_what_the_bush_is_wider() {
    // A bush of 30 and a bit of 12.7 mm: 8.65; a flush bearing: none. The least radius followed is the guide's own.
    near(BUSH_30.setback(), 8.65, 1e-12);
    let flush = Guide {
        kind: GuideKind::Bearing,
        diameter: 12.7,
        bit: 12.7,
    };
    near(flush.setback(), 0.0, 0.0);
    let arch = segmental(900.0, 300.0);
    for (guide, least) in [(BUSH_30, 15.0), (flush, 6.35)] {
        let form = made(&input(&arch, Run::Inside, guide));
        near(figure(&form, "least inside radius followed")[0], least, 1e-12);
        near(
            figure(&form, "template edge inside the work's")[0],
            guide.setback(),
            1e-12,
        );
    }
}

#[test]
fn a_kept_inside_is_struck_shorter_and_a_kept_outside_longer() {
    let arch = segmental(1220.0, 260.0);
    let radius = 845.577;
    for (run, wanted) in [(Run::Outside, radius - 8.65), (Run::Inside, radius + 8.65)] {
        let form = made(&input(&arch, run, BUSH_30));
        near(figure(&form, "work radii")[0], radius, 1e-3);
        near(figure(&form, "template radii")[0], wanted, 1e-3);
    }
}

#[test]
fn recess_and_insert_of_one_template_match() {
    // With a bit of 10 mm one bush of 17 for both leaves the insert 20 mm small: they take bushes of 20 and 40.
    let shop = [16.0, 17.0, 20.0, 24.0, 30.0, 40.0];
    let error = pair(Some(17.0), 10.0, &shop, &[10.0]).expect_err("no two bushes fit");
    let told = error.to_string();
    assert!(
        told.contains("37 mm for the recess") && told.contains("20 and 40 mm fit it"),
        "{told}"
    );
    let found = pair(None, 10.0, &shop, &[10.0]).expect("two bushes fit");
    assert_eq!(
        found,
        Pair {
            recess: 40.0,
            insert: 20.0,
            clearance: 0.0
        }
    );
    assert_eq!(pair(Some(20.0), 10.0, &shop, &[]).expect("they fit"), found);
    for arch in [segmental(600.0, 200.0), trefoil().arch().expect("a trefoil")] {
        matches(&arch, found);
    }
}

/// Cuts the recess and the insert by the bush's road in the opening: where one ends the other begins.
fn matches(arch: &Arch, bushes: Pair) {
    let guide = Guide {
        kind: GuideKind::Bush,
        diameter: bushes.recess,
        bit: 10.0,
    };
    let mut asked = input(arch, Run::Inside, guide);
    asked.pair = Some(bushes);
    let form = made(&asked);
    let opening = &form.parts[0].openings[0];
    let road = |bush: f64| cintre_geometry::parallel(opening, bush / 2.0).expect("the bush has a road");
    let (wide, narrow) = (road(bushes.recess), road(bushes.insert));
    let off = |road: &[Outline], p: Point| {
        road.iter()
            .map(|r| r.nearest(p).distance)
            .fold(f64::INFINITY, f64::min)
    };
    let Edge::Soffit(soffit) = &asked.edge else {
        unreachable!()
    };
    let mut seen = 0;
    for piece in soffit.pieces() {
        for k in 1..20 {
            let p = piece.point_at(f64::from(k) / 20.0);
            let (recess, insert) = (off(&wide, p) - 5.0, off(&narrow, p) - 5.0);
            // Far from corners both bits just touch the line, one from each side.
            if recess.abs() < 1e-3 {
                near(insert, 0.0, 1e-3);
                seen += 1;
            }
        }
    }
    assert!(seen > 15, "{seen}");
    // What the recess's corners keep of the bit's radius is told.
    assert!(!figure(&form, "left for the chisel").is_empty());
}

#[test]
fn a_bit_of_12_for_one_of_12_7_is_told() {
    let form = made(&input(&segmental(900.0, 300.0), Run::Inside, BUSH_30));
    let told = |form: &Form| {
        form.notes
            .iter()
            .any(|note| note.contains("12 mm in place of 12.7 mm leaves 0.35 mm"))
    };
    assert!(told(&form), "{:?}", form.notes);
}

#[test]
fn a_casing_round_an_ellipse_is_as_wide_all_round() {
    // An outer ellipse of half axes 740 and 480 is 2.75 mm short of 100 by (511.1, 228.7); the parallel is not.
    let arch = Elliptical {
        span: 1280.0,
        rise: 380.0,
    };
    let arch = arch.arch().expect("an ellipse");
    let asked = ring(&arch, 100.0, BUSH_30);
    let form = made(&asked);
    let Edge::Ring { inner, outer, .. } = &asked.edge else {
        unreachable!()
    };
    let width = |p: Point, line: &Path| line.nearest(p).distance;
    let least = outer
        .pieces()
        .map(|piece| width(piece.point_at(0.5), inner))
        .fold(f64::INFINITY, f64::min);
    near(least, 100.0, 1e-3);
    let narrow = Point::new(511.1, 228.7);
    let wrong = (0..100_000).map(|k| {
        let (sin, cos) = (f64::from(k) * 1e-5 * std::f64::consts::FRAC_PI_2).sin_cos();
        narrow.distance(Point::new(740.0 * cos, 480.0 * sin))
    });
    near(wrong.fold(f64::INFINITY, f64::min), 97.25, 0.01);
    near(width(narrow, outer), 100.0, 0.03);
    // So is the template between its two guided edges, less twice the setback.
    let edge = &form.parts[0].outline;
    let middle = outer
        .pieces()
        .nth(3)
        .map(|piece| piece.point_at(0.5))
        .expect("it has arcs");
    let foot = inner.nearest(middle).point;
    let across = [0.25, 0.5, 0.75].map(|share| -edge.signed_distance(foot.lerp(middle, share)));
    near(across[1], 50.0 - 8.65, 0.01);
    near(across[0], 25.0 - 8.65, 0.01);
    near(across[2], 25.0 - 8.65, 0.01);
}

#[test]
fn a_bead_inside_an_ellipse_collapses_at_its_least_radius() {
    let arch = Elliptical {
        span: 1200.0,
        rise: 210.0,
    };
    let mut asked = input(&arch.arch().expect("an ellipse"), Run::Outside, BUSH_30);
    let Edge::Soffit(soffit) = asked.edge.clone() else {
        unreachable!()
    };
    asked.edge = Edge::Leaf { soffit, gap: 80.0 };
    super::refused(&asked, "gap", &["80 mm", "73.50 mm is the most"]);
    let basket = ThreeCentred {
        span: 1520.0,
        rise: 430.0,
        by: Default::default(),
    };
    let mut asked = input(&basket.arch().expect("a basket arch"), Run::Outside, BUSH_30);
    let Edge::Soffit(soffit) = asked.edge.clone() else {
        unreachable!()
    };
    asked.edge = Edge::Leaf { soffit, gap: 320.0 };
    super::refused(&asked, "gap", &["312.07 mm is the most"]);
}

#[test]
fn what_a_point_keeps_for_the_chisel_is_the_bits_radius_over_its_slant() {
    // Flanks are nearly straight so near to the apex: r (1 / sin h - 1), and a little more for their bend.
    let arch = Pointed {
        span: Some(620.0),
        rise: Some(700.0),
        radius: None,
    };
    let arch = arch.arch().expect("a pointed arch");
    let slope = arch.figures().apex_slope.expect("it has a point");
    let half = std::f64::consts::FRAC_PI_2 - slope;
    let straight = 6.35 * (1.0 / half.sin() - 1.0);
    let left = figure(&made(&input(&arch, Run::Inside, BUSH_30)), "left for the chisel");
    assert_eq!(left.len(), 1);
    assert!(
        left[0] > straight && left[0] < straight + 0.05,
        "{left:?} {straight}"
    );
    // Exactly: the bit touches both arcs from within, its centre on the middle line R - r from either arc's centre.
    let radius = 700.0f64.powi(2) / 620.0 + 155.0;
    let reach = ((radius - 6.35).powi(2) - (radius - 310.0).powi(2)).sqrt();
    near(left[0], 700.0 - reach - 6.35, 1e-6);
    // Kept inside, the point comes out round by the setback, and what it loses is told.
    let form = made(&input(&arch, Run::Outside, BUSH_30));
    assert!(figure(&form, "left for the chisel").is_empty());
    let apex = ((radius - 8.65).powi(2) - (radius - 310.0).powi(2)).sqrt();
    near(figure(&form, "lost at its points")[0], 700.0 - apex - 8.65, 1e-6);
}

#[test]
fn cusps_of_a_trefoil_keep_wood_inside_and_lose_their_points_outside() {
    let arch = trefoil().arch().expect("a trefoil");
    let Edge::Soffit(line) = input(&arch, Run::Outside, BUSH_30).edge else {
        unreachable!()
    };
    let cusps: Vec<Point> = line
        .pieces()
        .zip(line.pieces().skip(1))
        .filter(|(a, b)| a.tangent_at(1.0).cross(b.tangent_at(0.0)).abs() > 1e-3)
        .map(|(a, _)| a.end)
        .collect();
    assert_eq!(cusps.len(), 2);
    let form = made(&input(&arch, Run::Outside, BUSH_30));
    let left = figure(&form, "left for the chisel");
    assert_eq!((left.len(), form.left.len()), (2, 2), "{left:?}");
    // The bit touches both lobes from outside: its centre is R + r from the centre of each.
    let circles: Vec<_> = line.pieces().filter_map(|p| p.circle()).collect();
    let (a, b) = (circles[0], circles[1]);
    let apart = a.centre.distance(b.centre);
    let reach = ((a.radius + 6.35).powi(2) - apart.powi(2) / 4.0).sqrt();
    let cusp = (a.radius.powi(2) - apart.powi(2) / 4.0).sqrt();
    near(left[0], reach - 6.35 - cusp, 1e-6);
    for piece in &form.left {
        let held = cusps
            .iter()
            .any(|cusp| piece.outline.nearest(*cusp).distance < 1e-6);
        assert!(held && piece.outline.is_counter_clockwise(), "{}", piece.name);
    }
    let form = made(&input(&arch, Run::Inside, BUSH_30));
    assert_eq!(figure(&form, "lost at its points").len(), 2);
    assert!(
        form.notes
            .iter()
            .any(|note| note.contains("comes out round to 8.65 mm"))
    );
    // A bearing as wide as its bit keeps them.
    let flush = Guide {
        kind: GuideKind::Bearing,
        diameter: 19.0,
        bit: 19.0,
    };
    assert!(figure(&made(&input(&arch, Run::Inside, flush)), "lost at its points").is_empty());
}

#[test]
fn the_cusp_of_an_ogee_keeps_what_two_arcs_that_close_to_nothing_keep() {
    let arch = ogee().arch().expect("an ogee");
    let form = made(&input(&arch, Run::Inside, BUSH_30));
    let left = figure(&form, "left for the chisel");
    // Upper arcs of radius R stand level with the apex, R to each side: the bit's centre hangs below it by √((R + r)² - R²).
    let upper = ((450.0f64 - 300.0).powi(2) + 760.0f64.powi(2) - 300.0f64.powi(2)) / 900.0;
    near(
        left[0],
        ((upper + 6.35).powi(2) - upper.powi(2)).sqrt() - 6.35,
        1e-6,
    );
    assert_eq!(left.len(), 1);
}
