//! How the bit goes in, how deep it cuts at a time, how it leaves, and what else a shop may ask for.

use super::{THICKNESS, bit, part, rectangle, rib, router, same, sheet, steps};
use crate::tests::rules::keeps_the_rules;
use crate::{Note, Plan, plan};
use cintre_geometry::{Outline, Piece, Point, Vec2, parallel};
use cintre_work::{Bit, BitKind, Cut, Router, Sheet, TabRule, To};
use proptest::prelude::*;

fn straight(diameter: f64, plunges: bool) -> Bit {
    Bit {
        plunges,
        ..bit("straight", BitKind::Straight, diameter)
    }
}

fn planned(sheet: &Sheet, router: &Router, bit: &Bit) -> Plan {
    plan(sheet, router, std::slice::from_ref(bit)).unwrap()
}

/// Points along every cutting move in order, half a millimetre apart, with their heights.
fn trace(plan: &Plan, router: &Router) -> Vec<(Point, f64)> {
    let mut found = Vec::new();
    for (piece, from, to, how) in steps(plan.programs.last().unwrap(), router.safe_height) {
        if matches!(how, To::Rapid) {
            continue;
        }
        let count = (piece.length().max((from - to).abs()) / 0.5).ceil().max(1.0);
        let mut k = 0.0;
        while k <= count {
            found.push((piece.point_at(k / count), from + (to - from) * k / count));
            k += 1.0;
        }
    }
    found
}

/// The most wood that the bit takes straight below it anywhere, mm: how far it is below what was cut there before.
fn deepest_bite(trace: &[(Point, f64)], near: f64) -> f64 {
    let mut worst: f64 = 0.0;
    let mut low: Vec<(Point, f64)> = Vec::new();
    for &(p, z) in trace.iter().filter(|(_, z)| *z < 0.0) {
        let before = low
            .iter()
            .filter(|(q, _)| (q.x - p.x).abs() < near && q.distance(p) < near)
            .map(|(_, z)| *z)
            .fold(0.0, f64::min);
        worst = worst.max(before - z);
        low.push((p, z));
    }
    worst
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_pass_takes_more_than_the_feeds_allow(
        radius in 12.0..45.0f64, d in 3.0..12.7f64, plunges in any::<bool>(), climb in any::<bool>(), slope in 1.0..12.0f64,
        ramped in any::<bool>(), finish in prop_oneof![Just(0.0), 0.1..0.6f64],
    ) {
        let router = Router {
            cut: if climb { Cut::Climb } else { Cut::Conventional },
            ramp: slope.to_radians(),
            tabs: Some(TabRule { ramped, ..super::TABS }),
            finish,
            ..router()
        };
        let edge = Outline::circle(Point::new(200.0, 200.0), radius);
        let plan = planned(&sheet(vec![part(edge)]), &router, &straight(d, plunges));
        keeps_the_rules(&plan, &router, plunges);
        // The last lap's own road lies within the allowance of what the passes cut.
        let bite = deepest_bite(&trace(&plan, &router), 0.8 + finish);
        // Half a millimetre of ramp, or of a tab's slope, lies between two points looked at.
        prop_assert!(bite <= 3.0 + if ramped { 0.9 } else { 0.2 }, "{bite}");
    }

    #[test]
    fn ways_in_and_out_lie_in_the_waste_and_meet_the_edge_along_its_tangent(
        inner in 150.0..700.0f64, depth in 60.0..200.0f64, half in 0.2..0.9f64, d in 3.0..12.7f64, climb in any::<bool>(),
    ) {
        let router = Router { cut: if climb { Cut::Climb } else { Cut::Conventional }, ..router() };
        let (one, other) = (rib(inner, depth, half), rectangle(1900.0, 40.0, 2200.0, 400.0));
        let mut holed = part(other.clone());
        let opening = rectangle(1950.0, 100.0, 2150.0, 300.0).reversed();
        holed.openings.push(opening.clone());
        let plan = planned(&sheet(vec![part(one.clone()), holed]), &router, &straight(d, true));
        let hemmed = plan.notes.iter().any(|n| matches!(n, Note::NoLead { .. }));
        prop_assert!(!hemmed);
        let program = &plan.programs[0];
        let below: Vec<Piece> = steps(program, 12.0).into_iter().filter(|s| s.2 < 0.0).map(|s| s.0).collect();
        let roads: Vec<Outline> = [&one, &opening, &other]
            .iter()
            .map(|edge| parallel(edge, d / 2.0).unwrap().remove(0))
            .collect();
        let on_a_road = |p: Point| roads.iter().any(|r| r.nearest(p).distance < 1e-5);
        let mut ways = 0;
        for piece in &below {
            let off = (0..=8).map(|k| piece.point_at(f64::from(k) / 8.0)).filter(|p| !on_a_road(*p));
            for p in off {
                // Never nearer than its radius to any edge, and never inside a part.
                prop_assert!(one.signed_distance(p) >= d / 2.0 - 1e-5);
                prop_assert!(other.signed_distance(p) >= d / 2.0 - 1e-5 || opening.contains(p));
                prop_assert!(opening.nearest(p).distance >= d / 2.0 - 1e-5);
            }
        }
        for pair in below.windows(2) {
            let (on, off) = (on_a_road(pair[0].point_at(0.5)), on_a_road(pair[1].point_at(0.5)));
            let joined = pair[0].end.distance(pair[1].start) < 1e-9;
            if joined && on != off && pair[0].length() > 0.0 && pair[1].length() > 0.0 {
                ways += 1;
                let turn = pair[0].tangent_at(1.0).dot(pair[1].tangent_at(0.0));
                prop_assert!(turn > 1.0 - 1e-9, "the bit turns a corner where it comes to the edge");
                let lead = if on { pair[1] } else { pair[0] };
                prop_assert!(lead.circle().unwrap().radius >= d / 2.0 - 1e-9);
            }
        }
        prop_assert!(ways >= 3 * 2 * 7, "in and out, three edges, seven passes: {ways}");
    }
}

#[test]
fn parts_too_near_for_an_arc_are_gone_into_by_a_ramp_and_it_is_said() {
    let close = |gap: f64| {
        sheet(vec![
            part(rectangle(20.0, 20.0, 120.0, 120.0)),
            part(rectangle(120.0 + gap, 20.0, 220.0 + gap, 120.0)),
        ])
    };
    // On a bed that ends beside the parts' own cuts there is room only between them: for 6 + 6 + 3 mm and no less.
    let said = |plan: &Plan| {
        plan.notes
            .iter()
            .filter(|n| matches!(n, Note::NoLead { .. }))
            .count()
    };
    let mut sheets = close(9.0);
    for placed in &mut sheets.parts {
        placed.part.outline = placed
            .part
            .outline
            .transformed(cintre_geometry::Affine::translate((-16.0, -16.0)));
    }
    let tight = planned(
        &sheets,
        &Router {
            bed: (217.0, 108.0),
            tabs: None,
            ..router()
        },
        &straight(6.0, true),
    );
    assert_eq!(said(&tight), 2);
    keeps_the_rules(&tight, &router(), true);
    let last = &tight.programs[0].moves;
    let up = last.iter().rev().nth(1).unwrap();
    assert!(
        same(up.z, crate::APPROACH),
        "it rises out of the cut along the edge"
    );
    let free = Router {
        tabs: None,
        ..router()
    };
    assert_eq!(said(&planned(&close(20.0), &free, &straight(6.0, true))), 0);
}

#[test]
fn a_web_stays_under_every_edge_and_needs_no_tabs() {
    let router = Router {
        leave_web: 0.4,
        ..router()
    };
    let plan = planned(
        &sheet(vec![part(rib(400.0, 120.0, 0.8))]),
        &router,
        &straight(6.0, true),
    );
    let lowest = plan.programs[0].moves.iter().map(|m| m.z).fold(0.0, f64::min);
    assert!((lowest + THICKNESS - 0.4).abs() < 1e-9);
    assert!(plan.tabs.is_empty() && plan.notes.contains(&Note::Web { thickness: 0.4 }));
    assert!(!plan.notes.contains(&Note::NoTabs));
    let all = Router {
        leave_web: THICKNESS,
        ..router
    };
    let refused = crate::plan(
        &sheet(vec![part(rib(400.0, 120.0, 0.8))]),
        &all,
        &[straight(6.0, true)],
    );
    assert!(matches!(refused, Err(crate::Error::Web { .. })));
}

#[test]
fn a_finishing_lap_takes_the_allowance_at_full_depth() {
    let router = Router {
        finish: 0.4,
        ..router()
    };
    let edge = rib(400.0, 120.0, 0.8);
    let plan = planned(&sheet(vec![part(edge.clone())]), &router, &straight(6.0, true));
    keeps_the_rules(&plan, &router, true);
    let cuts: Vec<_> = steps(&plan.programs[0], 12.0)
        .into_iter()
        .filter(|s| s.2 < 0.0)
        .collect();
    let off = |s: &(Piece, f64, f64, To)| edge.nearest(s.0.point_at(0.5)).distance;
    let passes: Vec<_> = cuts.iter().filter(|s| (off(s) - 3.4).abs() < 1e-5).collect();
    let lap: Vec<_> = cuts.iter().filter(|s| (off(s) - 3.0).abs() < 1e-5).collect();
    let length = |road: &[&(Piece, f64, f64, To)]| road.iter().map(|s| s.0.length()).sum::<f64>();
    let round = parallel(&edge, 3.0).unwrap()[0].length();
    assert!(
        (length(&lap) - round - 1.5).abs() < 0.1,
        "once round and a little over"
    );
    assert!(length(&passes) > 7.0 * round);
    assert!(
        lap.iter()
            .all(|s| s.1.min(s.2) <= super::TABS.height - THICKNESS + 1e-9)
    );
    // A slot hardly wider than the bit has no room for an allowance: it is cut without, and that is said.
    let mut slotted = part(rectangle(40.0, 40.0, 400.0, 300.0));
    slotted
        .openings
        .push(rectangle(100.0, 100.0, 200.0, 106.5).reversed());
    let plan = planned(&sheet(vec![slotted]), &router, &straight(6.0, true));
    assert!(plan.notes.iter().any(|n| matches!(n, Note::NoLastLap { .. })));
}

#[test]
fn a_ramped_tab_is_climbed_to_and_as_wide_as_asked_at_its_top() {
    let rule = TabRule {
        ramped: true,
        ..super::TABS
    };
    let router = Router {
        tabs: Some(rule),
        ..router()
    };
    let plan = planned(
        &sheet(vec![part(rectangle(40.0, 40.0, 640.0, 340.0))]),
        &router,
        &straight(6.0, true),
    );
    keeps_the_rules(&plan, &router, true);
    let top = rule.height - THICKNESS;
    let steps = steps(&plan.programs[0], 12.0);
    let tab = plan.tabs.iter().find(|t| same(t.at.y, 40.0)).unwrap();
    assert!(same(tab.flank, rule.height));
    let over: Vec<_> = steps
        .iter()
        .filter(|s| {
            s.0.nearest(Point::new(tab.at.x, 37.0)).distance < 1e-9 && same(s.1, top) && same(s.2, top)
        })
        .collect();
    assert!(over.iter().all(|s| (s.0.length() - 14.0).abs() < 1e-6) && !over.is_empty());
    let straight_up = steps
        .iter()
        .filter(|s| s.0.length() < 1e-9 && s.1 < 0.0 && s.2 < 0.0 && s.2 > s.1);
    assert_eq!(straight_up.count(), 0, "nothing goes straight up to a tab");
    let slopes = steps.iter().filter(|s| s.2 - s.1 > 1.0 && s.0.length() > 1.0);
    assert!(
        slopes.clone().count() >= plan.tabs.len()
            && slopes.clone().all(|s| (s.2 - s.1 - s.0.length()).abs() < 1e-6)
    );
}

#[test]
fn a_part_in_an_opening_is_cut_before_what_holds_it() {
    let mut frame = part(rectangle(40.0, 40.0, 640.0, 440.0));
    frame
        .openings
        .push(rectangle(100.0, 100.0, 580.0, 380.0).reversed());
    let inner = part(rectangle(200.0, 160.0, 480.0, 320.0));
    let plan = planned(&sheet(vec![frame, inner]), &router(), &straight(6.0, true));
    let starts: Vec<Point> = plan.programs[0]
        .moves
        .windows(2)
        .filter(|w| same(w[0].z, 12.0) && same(w[1].z, crate::APPROACH))
        .map(|w| w[0].end)
        .collect();
    let depth = |p: &Point| {
        let (x, y) = (p.x.min(680.0 - p.x), p.y.min(480.0 - p.y));
        x.min(y)
    };
    assert_eq!(starts.len(), 3);
    assert!(
        depth(&starts[0]) > depth(&starts[1]) && depth(&starts[1]) > depth(&starts[2]),
        "{starts:?}"
    );
}

#[test]
fn blocks_are_no_more_than_the_design_asks_for() {
    let edge = rib(860.0, 180.0, 0.9);
    let mut one = part(edge.clone());
    one.openings
        .push(Outline::circle(edge.bounds().center() + Vec2::new(0.0, 190.0), 30.0).reversed());
    for (finish, ramped) in [(0.0, false), (0.3, false), (0.0, true)] {
        let router = Router {
            finish,
            tabs: Some(TabRule {
                ramped,
                ..super::TABS
            }),
            ..router()
        };
        let plan = planned(&sheet(vec![one.clone()]), &router, &straight(6.0, true));
        // Arcs and lines of the bit's road, corners included: the rib's four pieces and four corners, the circle's two halves.
        let (pieces, passes) = (8 + 2, 7);
        // Three passes lie below the tabs' tops, and so does the last lap.
        let (low, last) = if finish > 0.0 { (4, pieces) } else { (3, 0) };
        let tabs = 3 * low * plan.tabs.len();
        // Each edge: over it, down and up again; then by a loop of four moves fifteen times round, and once a pass on, over the
        // close and off; or by a ramp, whose foot parts a piece in each pass, with the way over to the last lap and off it.
        let each = if finish > 0.0 {
            3 + passes + 2 + 5
        } else {
            3 + 4 * 15 + 4 * passes
        };
        // A piece is parted at each tab, and where the bit goes in.
        let splits = low * plan.tabs.len() + passes;
        let expected = pieces * passes + last + tabs + 2 * each + splits;
        let blocks = plan.programs[0].moves.len();
        assert!(blocks * 100 <= expected * 105, "{blocks} of {expected}");
    }
}
