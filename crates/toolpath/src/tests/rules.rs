//! What every plan keeps.

use super::{TABS, THICKNESS, bit, part, rectangle, rib, router, same, sheet, steps};
use crate::{APPROACH, Note, Plan, plan};
use cintre_geometry::{Outline, Piece, Point, parallel};
use cintre_work::{Bit, BitKind, Cut, Move, Router, Tab, To};
use proptest::prelude::*;

/// What every program keeps, whatever it cuts.
pub(super) fn keeps_the_rules(plan: &Plan, router: &Router, plunges: bool) {
    for program in &plan.programs {
        assert!(matches!(program.moves[0], Move { to: To::Rapid, z, .. } if same(z, router.safe_height)));
        assert!(
            matches!(program.moves.last().unwrap(), Move { to: To::Rapid, z, .. } if same(*z, router.safe_height))
        );
        for (piece, from, to, how) in steps(program, router.safe_height) {
            let (flat, fall) = (piece.length(), from - to);
            assert!(
                flat > 0.0 || fall != 0.0 || matches!(how, To::Rapid),
                "a move that goes nowhere"
            );
            match how {
                To::Rapid if flat > 0.0 => {
                    assert!(same(from, router.safe_height) && same(to, router.safe_height))
                }
                To::Rapid => assert!(fall < 0.0 || to >= APPROACH || fall == 0.0, "rapid into the work"),
                To::Straight { .. } | To::Arc { .. } if flat > 0.0 => {
                    // Half a turn of a winding, by a bit whose end cuts, falls by no more than an eighth of its diameter.
                    let winds = plunges && fall <= program.diameter / 8.0 + 1e-9;
                    // Down the sloping side of a tab goes only a bit whose end cuts.
                    let sloping = router.tabs.is_some_and(|t| t.ramped) && plunges && fall <= flat + 1e-9;
                    assert!(
                        winds || sloping || fall <= flat * router.ramp.tan() * (1.0 + 1e-6) + 1e-9,
                        "too steep: {fall} in {flat}"
                    );
                    assert!(piece.bulge.abs() <= 1.0 + 1e-12);
                }
                To::Straight { .. } | To::Arc { .. } => assert!(plunges || fall < 0.0, "a plunge"),
            }
        }
    }
}

/// One edge with its wood on the left: the bit stays off its wood and near it but for the way in and out, reaches the floor everywhere but at tabs, and leaves tabs.
fn cuts_the_edge(plan: &Plan, edge: &Outline, router: &Router) {
    let program = plan.programs.last().unwrap();
    let (radius, floor) = (program.diameter / 2.0, -(THICKNESS + router.through));
    let road = &parallel(edge, radius).unwrap()[0];
    let steps = steps(program, router.safe_height);
    let cutting = steps
        .iter()
        .filter(|(p, from, to, _)| from.min(*to) < 0.0 && p.length() > 0.0);
    for (piece, ..) in cutting.clone() {
        for k in 0..=6 {
            let p = piece.point_at(f64::from(k) / 6.0);
            let off = edge.nearest(p).distance;
            assert!(
                off > radius - 5e-6 && off < 5.0 * radius + 5e-6,
                "{off} from the edge"
            );
        }
    }
    let top = TABS.height - THICKNESS;
    let middles: Vec<Point> = plan.tabs.iter().map(|t| road.nearest(t.at).point).collect();
    for tab in &plan.tabs {
        assert!(edge.nearest(tab.at).distance < 1e-6 && tab.width == TABS.width);
    }
    let low: Vec<&Piece> = steps
        .iter()
        .filter(|s| s.1.min(s.2) < top - 1e-9)
        .map(|s| &s.0)
        .collect();
    let at_floor: Vec<&Piece> = steps
        .iter()
        .filter(|s| same(s.1, floor) && same(s.2, floor))
        .map(|s| &s.0)
        .collect();
    // From the middle of a tab the bit stands half a reach off, a little less as the crow flies on a curve, and less beyond a
    // corner that the tab goes round.
    let reach = TABS.width + program.diameter;
    let cornered = plan
        .notes
        .iter()
        .any(|n| matches!(n, Note::TabsNearCorners { .. }));
    let share = if cornered { 0.35 } else { 0.499 };
    for middle in &middles {
        let clear = low
            .iter()
            .map(|p| p.nearest(*middle).distance)
            .fold(f64::INFINITY, f64::min);
        assert!(clear > share * reach && clear < reach, "{clear} of {reach}");
    }
    for piece in road.pieces() {
        for k in 0..=40 {
            let p = piece.point_at(f64::from(k) / 40.0);
            if middles
                .iter()
                .all(|m| m.distance(p) > if cornered { reach } else { 0.51 * reach })
            {
                let missed = at_floor
                    .iter()
                    .map(|s| s.nearest(p).distance)
                    .fold(f64::INFINITY, f64::min);
                assert!(missed < 5e-6, "{missed} short of the floor at {p:?}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn every_rib_is_cut_through_beside_its_edge_and_held(
        inner in 150.0..900.0f64, depth in 40.0..200.0f64, half in 0.15..1.0f64, d in 3.0..12.7f64,
        plunges in any::<bool>(), climb in any::<bool>(),
    ) {
        let edge = rib(inner, depth, half);
        let straight = Bit { plunges, ..bit("straight", BitKind::Straight, d) };
        let router = Router { cut: if climb { Cut::Climb } else { Cut::Conventional }, ..router() };
        let plan = plan(&sheet(vec![part(edge.clone())]), &router, &[straight]).unwrap();
        keeps_the_rules(&plan, &router, plunges);
        cuts_the_edge(&plan, &edge, &router);
        let few = plan.notes.iter().any(|n| matches!(n, Note::FewTabs { .. }));
        prop_assert!(plan.tabs.len() >= 2 || few);
    }

    #[test]
    fn every_disc_is_cut_round_and_held(radius in 10.0..300.0f64, d in 3.0..12.7f64, plunges in any::<bool>()) {
        let edge = Outline::circle(Point::new(400.0, 400.0), radius);
        let straight = Bit { plunges, ..bit("straight", BitKind::Straight, d) };
        let plan = plan(&sheet(vec![part(edge.clone())]), &router(), &[straight]).unwrap();
        keeps_the_rules(&plan, &router(), plunges);
        cuts_the_edge(&plan, &edge, &router());
        let few = plan.notes.iter().any(|n| matches!(n, Note::FewTabs { .. }));
        prop_assert!(plan.tabs.len() >= 2 || few);
    }

    #[test]
    fn every_opening_is_cut_inside_its_edge(w in 30.0..400.0f64, h in 30.0..200.0f64, d in 3.0..12.7f64, plunges in any::<bool>()) {
        let opening = rectangle(100.0, 100.0, 100.0 + w, 100.0 + h).reversed();
        let mut held = part(rectangle(40.0, 40.0, 700.0, 500.0));
        held.openings.push(opening.clone());
        let straight = Bit { plunges, ..bit("straight", BitKind::Straight, d) };
        let plan = plan(&sheet(vec![held]), &router(), &[straight]).unwrap();
        keeps_the_rules(&plan, &router(), plunges);
        let place = |p: Point| opening.nearest(p).distance < 20.0;
        // The opening's moves alone: those that stay near it.
        let mut only = plan.clone();
        let kept = only.programs[0].moves.iter().take_while(|m| place(m.end)).count();
        only.programs[0].moves.truncate(kept);
        only.tabs.retain(|t| place(t.at));
        cuts_the_edge(&only, &opening, &router());
        let left = plan.notes.iter().find_map(|n| if let Note::Leftover { depth, places, .. } = n { Some((*depth, *places)) } else { None });
        let (depth, places) = left.unwrap();
        prop_assert!((depth - d / 2.0 * (2f64.sqrt() - 1.0)).abs() < 1e-6 && places == 4);
    }
}

#[test]
fn a_ribs_arcs_stay_one_move_a_pass() {
    let edge = rib(860.0, 180.0, 0.9);
    let router = Router {
        tabs: None,
        ..router()
    };
    let plan = plan(
        &sheet(vec![part(edge)]),
        &router,
        &[bit("straight-6", BitKind::Straight, 6.0)],
    )
    .unwrap();
    let long = plan.programs[0].moves.iter().zip(&plan.programs[0].moves[1..]);
    let arcs = long
        .filter(|(a, b)| matches!(b.to, To::Arc { .. }) && a.end.distance(b.end) > 100.0)
        .count();
    assert_eq!(arcs, 2 * 7, "two arcs in each of seven passes");
    assert!(plan.notes.contains(&Note::NoTabs) && plan.tabs.is_empty());
    let level = |s: &(Piece, f64, f64, To)| same(s.1, s.2) && s.2 < 0.0 && s.0.length() > 100.0;
    let mut floors: Vec<f64> = steps(&plan.programs[0], 12.0)
        .iter()
        .filter(|s| level(s))
        .map(|s| s.2)
        .collect();
    floors.sort_by(f64::total_cmp);
    floors.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    assert_eq!(floors.len(), 7);
    assert!(floors.windows(2).all(|w| (w[1] - w[0] - 18.3 / 7.0).abs() < 1e-9));
}

#[test]
fn climb_runs_clockwise_round_a_part_and_conventional_the_other_way() {
    for (cut, clockwise) in [(Cut::Climb, true), (Cut::Conventional, false)] {
        let router = Router {
            cut,
            tabs: None,
            ..router()
        };
        let plan = plan(
            &sheet(vec![part(rib(400.0, 120.0, 0.8))]),
            &router,
            &[bit("s", BitKind::Straight, 6.0)],
        )
        .unwrap();
        let steps = steps(&plan.programs[0], 12.0);
        let outer = steps
            .iter()
            .max_by(|a, b| a.0.length().total_cmp(&b.0.length()))
            .unwrap();
        assert_eq!(outer.0.sweep() < 0.0, clockwise);
    }
}

#[test]
fn no_tab_stands_where_the_edge_of_the_stock_leaves_it_nothing_to_hold_on_to() {
    // The near side and the left are 8 mm from the edge of the stock: the bit of 12 mm takes all of that.
    let plate = part(rectangle(8.0, 8.0, 708.0, 508.0));
    for (diameter, held) in [(12.0, false), (6.0, true)] {
        let made = plan(
            &sheet(vec![plate.clone()]),
            &router(),
            &[bit("cutter", BitKind::Straight, diameter)],
        )
        .unwrap();
        assert!(made.tabs.len() >= 2, "{:?}", made.tabs);
        let outer = |t: &Tab| t.at.x < 8.1 || t.at.y < 8.1;
        assert_eq!(made.tabs.iter().any(outer), held, "{:?}", made.tabs);
    }
}
