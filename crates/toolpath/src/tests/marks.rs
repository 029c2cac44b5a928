//! Marks and lettering, and arrises taken off.

use super::{bit, part, rectangle, router, same, sheet, steps};
use crate::{Note, Plan, choose_bits, plan};
use cintre_geometry::{Path, Piece, Point};
use cintre_work::{Bit, BitKind, Mark, MarkKind, Part, Router};
use std::f64::consts::FRAC_PI_2;

fn marked() -> Part {
    let mut one = part(rectangle(40.0, 40.0, 400.0, 300.0));
    let line = |a: (f64, f64), b: (f64, f64), kind| Mark {
        path: Path::polyline(&[a.into(), b.into()]),
        kind,
    };
    one.marks
        .push(line((220.0, 60.0), (220.0, 280.0), MarkKind::Line));
    one.marks.push(line((80.0, 100.0), (80.0, 110.0), MarkKind::Text));
    // Runs on from the one before without a lift.
    one.marks.push(line((80.0, 110.0), (86.0, 104.0), MarkKind::Text));
    one.marks.push(Mark {
        path: Path::from_pieces(&[Piece::arc(Point::new(90.0, 100.0), Point::new(95.0, 100.0), 5.0)]),
        kind: MarkKind::Text,
    });
    one
}

fn vee(plunges: bool) -> Bit {
    Bit {
        plunges,
        ..bit("vee-90", BitKind::Vee(FRAC_PI_2), 12.0)
    }
}

fn straight(diameter: f64) -> Bit {
    bit(&format!("straight-{diameter}"), BitKind::Straight, diameter)
}

/// The lengths scribed of each mark at the full depth, and that nothing else is cut by the first program.
fn scribes(plan: &Plan, part: &Part, depth: f64) {
    let first = steps(&plan.programs[0], 12.0);
    let low: Vec<_> = first
        .iter()
        .filter(|s| s.1.min(s.2) < 0.0 && s.0.length() > 0.0)
        .collect();
    for (piece, ..) in &low {
        for f in [0.0, 0.3, 0.7, 1.0] {
            let p = piece.point_at(f);
            let off = part
                .marks
                .iter()
                .map(|m| m.path.nearest(p).distance)
                .fold(f64::INFINITY, f64::min);
            assert!(off < 1e-6, "{off} off every mark");
        }
    }
    let level: Vec<&Piece> = low
        .iter()
        .filter(|s| same(s.1, -depth) && same(s.2, -depth))
        .map(|s| &s.0)
        .collect();
    for piece in part.marks.iter().flat_map(|m| m.path.pieces()) {
        for k in 0..=20 {
            let p = piece.point_at(f64::from(k) / 20.0);
            let off = level
                .iter()
                .map(|l| l.nearest(p).distance)
                .fold(f64::INFINITY, f64::min);
            assert!(off < 1e-6, "{p:?} is not scribed");
        }
    }
    assert!(first.iter().all(|s| s.2 >= -depth - 1e-12));
}

#[test]
fn a_vee_bit_scribes_every_mark_before_all_else() {
    let bits = [straight(6.0), vee(true)];
    let chosen = choose_bits(&[marked()], &super::stock(), &router(), &bits).unwrap();
    let names: Vec<&str> = chosen.iter().map(|b| b.name.as_str()).collect();
    assert_eq!(names, ["vee-90", "straight-6"]);
    for plunges in [true, false] {
        let plan = plan(&sheet(vec![marked()]), &router(), &[straight(6.0), vee(plunges)]).unwrap();
        scribes(&plan, &marked(), 0.5);
        super::rules::keeps_the_rules(&plan, &router(), true);
        assert!(plan.notes.iter().all(|n| !matches!(n, Note::MarksLeft { .. })));
        let lifts = plan.programs[0].moves.iter().filter(|m| same(m.z, 12.0)).count();
        assert_eq!(
            lifts, 6,
            "three strokes, each reached and left at the safe height"
        );
    }
}

#[test]
fn a_fine_straight_bit_scribes_where_there_is_no_vee_and_a_coarse_one_leaves_the_marks_and_says_so() {
    let shallow = Router {
        mark_depth: 0.3,
        ..router()
    };
    let plan_with = |router: &Router, bits: &[Bit]| plan(&sheet(vec![marked()]), router, bits).unwrap();
    let plan = plan_with(&shallow, &[straight(6.0), straight(3.0)]);
    assert_eq!(plan.programs[0].bit, "straight-3");
    scribes(&plan, &marked(), 0.3);
    let plan = plan_with(&router(), &[straight(6.0)]);
    assert_eq!(plan.programs.len(), 1);
    assert!(plan.notes.contains(&Note::MarksLeft {
        count: 4,
        told: false
    }));
    let told = Router {
        mark_depth: 0.0,
        ..router()
    };
    let plan = plan_with(&told, &[straight(6.0), vee(true)]);
    assert!(plan.programs.len() == 1 && plan.notes.contains(&Note::MarksLeft { count: 4, told: true }));
}

#[test]
fn a_chamfer_is_as_deep_as_its_width_asks_of_the_bits_angle() {
    let mut one = part(rectangle(40.0, 40.0, 400.0, 300.0));
    one.marks.push(Mark {
        path: Path::polyline(&[Point::new(40.0, 40.0), Point::new(400.0, 40.0)]),
        kind: MarkKind::Chamfer { width: 1.5 },
    });
    for (degrees, depth) in [(90.0, 1.5), (60.0, 2.598)] {
        let vee = bit("vee", BitKind::Vee(f64::to_radians(degrees)), 12.0);
        let plan = plan(&sheet(vec![one.clone()]), &router(), &[straight(6.0), vee]).unwrap();
        let lowest = plan.programs[0].moves.iter().map(|m| m.z).fold(0.0, f64::min);
        assert!((lowest + depth).abs() < 5e-4, "{lowest}");
        assert!(plan.notes.iter().all(|n| !matches!(n, Note::MarksLeft { .. })));
    }
}
