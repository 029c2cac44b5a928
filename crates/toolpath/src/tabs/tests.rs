//! Tabs along single roads.

use super::*;
use cintre_geometry::{Outline, Point, Rect};

const RULE: TabRule = TabRule {
    width: 8.0,
    height: 5.0,
    every: 300.0,
    ramped: false,
};

#[test]
fn a_board_has_its_tabs_on_its_sides_no_more_than_the_rule_apart() {
    let road = Road::starting_well(&Outline::rectangle(Rect::new(0.0, 0.0, 1200.0, 150.0)), 90.0);
    let tabs = place(&road, (&RULE, 6.0), 90.0, &|_| true);
    assert!(tabs.spans.len() >= 9 && !tabs.near_corners, "{tabs:?}");
    let middles: Vec<f64> = tabs.spans.iter().map(|s| s.middle).collect();
    assert!(
        widest_gap(&middles, road.length()).0 <= 300.0 + 1e-9,
        "{middles:?}"
    );
    for s in &tabs.spans {
        assert!((s.to - s.from - 14.0).abs() < 1e-8 && s.from > 90.0);
    }
}

#[test]
fn a_ribs_tabs_are_even_and_off_its_corners_and_its_ramp() {
    for (inner, depth, half, count) in [
        (860.0, 180.0, 0.9, 13),
        (400.0, 120.0, 0.5, 4),
        (250.0, 80.0, 1.3, 6),
    ] {
        let edge = crate::tests::rib(inner, depth, half);
        let road = Road::starting_well(&cintre_geometry::parallel(&edge, 3.0).unwrap()[0], 88.0);
        let tabs = place(&road, (&RULE, 6.0), 88.0, &|_| true);
        let middles: Vec<f64> = tabs.spans.iter().map(|s| s.middle).collect();
        assert_eq!((middles.len(), tabs.wanted), (count, count));
        assert!(widest_gap(&middles, road.length()).0 <= RULE.every);
        let tight = (0..road.pieces.len())
            .filter(|&i| road.pieces[i].length() < 10.0)
            .map(|i| road.extent(i));
        for (from, to) in tight {
            assert!(
                middles
                    .iter()
                    .all(|m| (m - from).abs() >= 14.0 - 1e-9 && (m - to).abs() >= 14.0 - 1e-9)
            );
        }
        assert!(tabs.spans.iter().all(|s| s.from >= 88.0));
    }
}

#[test]
fn a_tab_on_a_curve_keeps_its_width_straight_across() {
    let road = Road::starting_well(&Outline::circle(Point::ZERO, 60.0), 30.0);
    for s in place(&road, (&RULE, 6.0), 30.0, &|_| true).spans {
        assert!((road.point_at(s.from).distance(road.point_at(s.to)) - 14.0).abs() < 1e-8);
        assert!(s.to - s.from > 14.01);
    }
}

#[test]
fn a_tab_where_a_curve_begins_reaches_as_far_to_either_side() {
    let slab = Outline::rectangle(Rect::new(0.0, 0.0, 400.0, 90.0));
    let road = Road::starting_well(&cintre_geometry::parallel(&slab, 33.0).unwrap()[0], 0.0);
    let join = (0..road.pieces.len())
        .map(|i| road.extent(i).1)
        .find(|s| road.point_at(*s).x > 1.0)
        .unwrap();
    for off in [-6.0, -2.0, 0.0, 3.0] {
        let middle = join + off;
        let (at, ahead) = road.station(middle);
        let span = span(&road, middle, 14.0).unwrap();
        assert!((span.middle - middle).abs() < 1e-12);
        for end in [span.from, span.to] {
            let across = (road.point_at(end) - at).dot(ahead).abs();
            assert!((across - 7.0).abs() < 1e-8, "{off}: {across}");
        }
    }
}

#[test]
fn a_small_hole_is_not_swallowed() {
    let road = Road::starting_well(&Outline::circle(Point::ZERO, 9.3), 30.0);
    let tabs = place(&road, (&RULE, 6.35), 30.0, &|_| true);
    assert_eq!((tabs.wanted, tabs.spans.len()), (2, 2));
    let road = Road::starting_well(&Outline::circle(Point::ZERO, 8.0), 30.0);
    assert_eq!(place(&road, (&RULE, 6.35), 30.0, &|_| true).spans.len(), 1);
}
