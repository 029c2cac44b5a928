//! Recesses and grooves: a flat floor with nothing left, nothing taken beside it, no pass too deep and no plunge.

use super::sweep::Wood;
use super::{bit, part, rectangle, router, sheet};
use crate::{Note, Plan, plan};
use cintre_geometry::{Outline, Path, Piece, Point, Rect, parallel};
use cintre_work::{Bit, BitKind, Cut, Mark, MarkKind, Part, Recess, Relief, Router};
use proptest::prelude::*;

/// The passes' deepest in the tests' shop, mm.
const PASS: f64 = 3.0;

fn board() -> Part {
    part(rectangle(40.0, 40.0, 400.0, 300.0))
}

fn recessed(outline: Outline, islands: Vec<Outline>, depth: f64) -> Part {
    let mut part = board();
    part.recesses.push(Recess {
        outline: outline.oriented(false),
        islands,
        depth,
    });
    part
}

fn straight(diameter: f64, plunges: bool) -> Bit {
    Bit {
        plunges,
        ..bit("straight", BitKind::Straight, diameter)
    }
}

/// What is left of the wood about a recess; the outline of the part lies beyond.
fn swept(plan: &Plan, around: Rect, step: f64) -> Wood {
    let mut wood = Wood::new(around, step);
    for program in &plan.programs {
        wood.cut(program, 12.0);
    }
    wood
}

/// Every point that a bit can reach lies on the floor, and every point outside the wall on the face.
fn is_flat(wood: &Wood, recess: &Recess, diameter: f64) {
    let reach: Vec<Outline> =
        crate::demand::room_parallels("", crate::Edge::Recess(0), recess, diameter / 2.0).unwrap();
    let inside = |p: Point| recess.outline.contains(p) && !recess.islands.iter().any(|i| i.contains(p));
    let edges = || std::iter::once(&recess.outline).chain(&recess.islands);
    for (p, z) in wood.points() {
        let off = edges()
            .map(|e| e.nearest(p).distance)
            .fold(f64::INFINITY, f64::min);
        if off < 2e-3 {
            continue;
        }
        if !inside(p) {
            assert!(z > -1e-9, "cut beside the recess at {p:?}: {z}");
            continue;
        }
        let within = reach.iter().filter(|o| o.contains(p)).count() % 2 == 1;
        let reached = within
            || reach
                .iter()
                .any(|o| o.nearest(p).distance < diameter / 2.0 - 1e-3);
        if reached {
            assert!((z + recess.depth).abs() < 1e-9, "the floor lies at {z} at {p:?}");
        }
    }
}

fn checked(part: &Part, router: &Router, bits: &[Bit]) -> Plan {
    let plan = plan(&sheet(vec![part.clone()]), router, bits).unwrap();
    let recess = &part.recesses[0];
    let around = recess.outline.bounds().inflate(8.0, 8.0);
    let wood = swept(&plan, around, 0.7);
    is_flat(
        &wood,
        recess,
        bits.iter().map(|b| b.diameter).fold(f64::INFINITY, f64::min),
    );
    if router.finish <= 0.0 {
        assert!(wood.deepest <= PASS + 1e-6, "{} at once", wood.deepest);
    }
    if !bits[0].plunges {
        assert!(wood.plunged < 1e-9, "a plunge of {}", wood.plunged);
    }
    plan
}

#[test]
fn a_recess_with_islands_is_cleared_to_a_flat_floor() {
    let islands = || {
        vec![
            Outline::circle(Point::new(140.0, 110.0), 9.0),
            rectangle(170.0, 90.0, 190.0, 100.0),
            Outline::circle(Point::new(205.0, 135.0), 4.0),
        ]
    };
    for plunges in [true, false] {
        for cut in [Cut::Climb, Cut::Conventional] {
            let part = recessed(rectangle(100.0, 80.0, 220.0, 150.0), islands(), 7.0);
            let router = Router { cut, ..router() };
            checked(&part, &router, &[straight(6.0, plunges)]);
        }
    }
}

#[test]
fn rooms_joined_by_a_neck_are_all_cleared() {
    let two = Outline::polygon(
        &[
            (100.0, 100.0),
            (150.0, 100.0),
            (150.0, 116.0),
            (170.0, 116.0),
            (170.0, 95.0),
            (220.0, 95.0),
            (220.0, 150.0),
            (170.0, 150.0),
            (170.0, 123.0),
            (150.0, 123.0),
            (150.0, 140.0),
            (100.0, 140.0),
        ]
        .map(Point::from),
    );
    // Wide enough for the bit, and too narrow: then the two rooms are cut and the neck is named.
    checked(
        &recessed(two.clone(), vec![], 5.0),
        &router(),
        &[straight(6.0, false)],
    );
    let plan = checked(&recessed(two, vec![], 5.0), &router(), &[straight(8.0, true)]);
    let neck = |n: &Note| matches!(n, Note::Leftover { depth, .. } if *depth > 4.0);
    assert!(plan.notes.iter().any(neck), "{:?}", plan.notes);
}

#[test]
fn a_finishing_lap_takes_no_more_than_its_allowance_and_no_floor() {
    let router = Router {
        finish: 0.4,
        ..router()
    };
    let part = recessed(
        rectangle(100.0, 80.0, 220.0, 150.0),
        vec![Outline::circle(Point::new(150.0, 110.0), 12.0)],
        7.0,
    );
    let plan = checked(&part, &router, &[straight(6.0, false)]);
    assert!(!plan.notes.iter().any(|n| matches!(n, Note::NoFinish { .. })));
    // Two laps at the full depth one radius off the walls, and nothing at the walls above it.
    let wall = parallel(&part.recesses[0].outline, 3.0).unwrap();
    let at_wall: Vec<f64> = plan.programs[0]
        .moves
        .iter()
        .filter(|m| wall[0].nearest(m.end).distance < 1e-6 && part.recesses[0].outline.contains(m.end))
        .map(|m| m.z)
        .filter(|z| *z < 0.0)
        .collect();
    assert!(
        !at_wall.is_empty() && at_wall.iter().all(|z| (*z + 7.0).abs() < 1e-9),
        "{at_wall:?}"
    );
    // Where it is as narrow as the bit every pass runs along the wall, and that is said.
    let slot = recessed(rectangle(100.0, 80.0, 220.0, 86.5), vec![], 5.0);
    let plan = checked(&slot, &router, &[straight(6.0, true)]);
    assert!(plan.notes.iter().any(|n| matches!(n, Note::NoFinish { .. })));
}

#[test]
fn a_finer_bit_gets_what_the_wide_one_leaves_of_a_recess() {
    let mut part = recessed(rectangle(100.0, 80.0, 220.0, 150.0), vec![], 7.0);
    part.openings
        .push(rectangle(260.0, 100.0, 300.0, 105.0).reversed());
    let bits = [
        straight(12.0, true),
        Bit {
            name: "fine".into(),
            ..straight(3.0, true)
        },
    ];
    let plan = checked(&part, &router(), &bits);
    let names: Vec<&str> = plan.programs.iter().map(|p| p.bit.as_str()).collect();
    assert_eq!(
        names,
        ["fine", "straight"],
        "each once, the one for the outlines last"
    );
}

#[test]
fn a_relieved_recess_takes_its_corners_and_says_where() {
    for rule in [Relief::Bisector, Relief::LongSide] {
        for finish in [0.0, 0.4] {
            let router = Router {
                relief: rule,
                finish,
                ..router()
            };
            let part = recessed(rectangle(100.0, 80.0, 220.0, 150.0), vec![], 7.0);
            let plan = plan(&sheet(vec![part.clone()]), &router, &[straight(6.0, true)]).unwrap();
            assert_eq!(plan.reliefs.len(), 4);
            let wood = swept(&plan, part.recesses[0].outline.bounds().inflate(8.0, 8.0), 0.35);
            let allowed = |p: Point| {
                plan.reliefs
                    .iter()
                    .any(|r| Piece::line(r.from, r.to).nearest(p).distance <= r.diameter / 2.0 + 1e-6)
            };
            for (p, z) in wood.points() {
                if part.recesses[0].outline.contains(p) {
                    assert!((z + 7.0).abs() < 1e-9, "{rule:?}: {z} at {p:?}, corners too");
                } else {
                    assert!(z > -1e-9 || allowed(p), "{rule:?}: cut to {z} at {p:?}");
                }
            }
            assert!(
                plan.notes.iter().all(|n| !matches!(n, Note::Leftover { .. })),
                "{:?}",
                plan.notes
            );
        }
    }
}

#[test]
fn a_groove_is_cut_centred_by_a_bit_of_its_width_and_as_a_recess_by_a_finer_one() {
    let arc = Piece::arc(Point::new(200.0, 20.0), Point::new(270.0, 100.0), 1.1);
    let mut part = board();
    part.marks.push(Mark {
        path: Path::from_pieces(&[arc]),
        kind: MarkKind::Groove {
            width: 8.0,
            depth: 7.0,
        },
    });
    let room = part.marks[0].groove().unwrap().unwrap();
    for (diameter, plunges) in [(8.0, false), (6.0, true), (5.0, false)] {
        let plan = plan(
            &sheet(vec![part.clone()]),
            &router(),
            &[straight(diameter, plunges)],
        )
        .unwrap();
        let wood = swept(&plan, room.outline.bounds().inflate(6.0, 6.0), 0.7);
        for (p, z) in wood.points() {
            if room.outline.nearest(p).distance < 2e-3 {
                continue;
            }
            let floor = if room.outline.contains(p) { -7.0 } else { 0.0 };
            assert!((z - floor).abs() < 1e-9, "bit {diameter}: {z} at {p:?}");
        }
        assert!(wood.deepest <= PASS + 1e-6 && (plunges || wood.plunged < 1e-9));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn every_recess_is_flat(
        w in 14.0..120.0f64, h in 14.0..90.0f64, d in 3.0..12.7f64, depth in 0.5..9.0f64,
        x in 0.1..0.9f64, y in 0.1..0.9f64, r in 1.0..12.0f64, plunges in any::<bool>(), climb in any::<bool>(), round in any::<bool>(),
    ) {
        let wall = if round {
            Outline::circle(Point::new(160.0, 140.0), w / 2.0)
        } else {
            rectangle(100.0, 100.0, 100.0 + w, 100.0 + h)
        };
        let b = wall.bounds();
        let island = Outline::circle(Point::new(b.x0 + b.width() * x, b.y0 + b.height() * y), r);
        let centre = island.bounds().center();
        let islands = if wall.contains(centre) && wall.nearest(centre).distance > r + 0.05 { vec![island] } else { vec![] };
        let part = recessed(wall, islands, depth);
        let router = Router { cut: if climb { Cut::Climb } else { Cut::Conventional }, ..router() };
        let bit = straight(d, plunges);
        // A ring of room too narrow to enter, or too small to ramp in, is refused, and not botched.
        match plan(&sheet(vec![part.clone()]), &router, std::slice::from_ref(&bit)) {
            Ok(_) => { checked(&part, &router, &[bit]); }
            Err(error) => prop_assert!(matches!(error, crate::Error::NoWayDown { .. } | crate::Error::TooNarrow { .. }), "{}", error),
        }
    }
}
