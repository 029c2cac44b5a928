//! Which bits are chosen, and what each does.

use super::{bit, part, rectangle, router, sheet, steps, stock};
use crate::{Error, Note, choose_bits, plan};
use cintre_geometry::{Outline, Point, parallel};
use cintre_work::{Bit, BitKind, Bore, Depth, Part, Recess};

fn straight(diameter: f64, length: f64) -> Bit {
    Bit {
        cutting_length: length,
        ..bit(&format!("s{diameter}"), BitKind::Straight, diameter)
    }
}

fn board() -> Part {
    part(rectangle(40.0, 40.0, 400.0, 300.0))
}

fn bore(diameter: f64, depth: Depth) -> Bore {
    Bore {
        centre: Point::new(80.0, 80.0),
        diameter,
        depth,
    }
}

fn names(parts: &[Part], bits: &[Bit]) -> Vec<String> {
    let chosen = choose_bits(parts, &stock(), &router(), bits).unwrap();
    chosen.into_iter().map(|b| b.name).collect()
}

#[test]
fn one_bit_does_all_unless_it_would_have_to_be_less_than_half_as_wide() {
    let bits = [straight(12.0, 25.0), straight(6.0, 25.0), straight(3.0, 25.0)];
    assert_eq!(names(&[board()], &bits), ["s12"]);
    let mut slotted = board();
    slotted
        .openings
        .push(rectangle(100.0, 100.0, 200.0, 107.0).reversed());
    assert_eq!(names(&[slotted.clone()], &bits), ["s6"]);
    slotted.bores.push(bore(4.0, Depth::Through));
    // Only the finest makes the bore; then it makes the opening too, and the widest the rest.
    assert_eq!(names(&[slotted], &bits), ["s3", "s12"]);
}

#[test]
fn a_short_fine_bit_makes_what_is_shallow() {
    let mut bored = board();
    bored.bores.push(bore(4.0, Depth::Blind(6.0)));
    let bits = [straight(12.0, 25.0), straight(3.0, 10.0)];
    assert_eq!(names(&[bored.clone()], &bits), ["s3", "s12"]);
    bored.bores[0].depth = Depth::Through;
    let error = choose_bits(&[bored], &stock(), &router(), &bits).unwrap_err();
    assert!(matches!(error, Error::NoBitForBore { .. }), "{error}");
}

#[test]
fn a_finer_bit_cuts_the_corners_that_the_wide_one_leaves_and_only_those() {
    let mut one = board();
    one.bores.push(bore(4.0, Depth::Through));
    let opening = rectangle(150.0, 100.0, 300.0, 200.0).reversed();
    one.openings.push(opening.clone());
    let bits = [straight(12.0, 25.0), straight(3.0, 25.0)];
    let plan = plan(&sheet(vec![one]), &router(), &bits).unwrap();
    let left: Vec<f64> = plan
        .notes
        .iter()
        .filter_map(|n| {
            if let Note::Leftover { depth, bit, .. } = n {
                Some((*depth, bit))
            } else {
                None
            }
        })
        .map(|(depth, bit)| {
            assert_eq!(bit, "s3");
            depth
        })
        .collect();
    assert!(
        left.len() == 1 && (left[0] - 1.5 * (2f64.sqrt() - 1.0)).abs() < 1e-9,
        "{left:?}"
    );
    let floor = |s: &&(cintre_geometry::Piece, f64, f64, cintre_work::To)| s.1.max(s.2) < -18.29;
    let fine = steps(&plan.programs[0], 12.0);
    let road = parallel(&opening, 1.5).unwrap();
    let wide = parallel(&opening, 6.0).unwrap();
    let mut length = 0.0;
    for (piece, ..) in fine.iter().filter(floor).filter(|s| s.0.start.x > 140.0) {
        assert!(road[0].nearest(piece.point_at(0.5)).distance < 1e-6);
        length += piece.length();
    }
    assert!(
        (34.0..44.0).contains(&length),
        "four corners, and not the sides: {length}"
    );
    // Between the two bits every place of the edge that the fine one could reach is cut.
    let deep: Vec<_> = fine.iter().filter(floor).map(|s| (s.0, 1.5)).collect();
    let after = steps(&plan.programs[1], 12.0);
    let deep: Vec<_> = deep
        .into_iter()
        .chain(after.iter().filter(floor).map(|s| (s.0, 6.0)))
        .collect();
    for piece in road[0].pieces() {
        for k in 0..=100 {
            let p = piece.point_at(f64::from(k) / 100.0);
            let covered = deep
                .iter()
                .any(|(cut, r)| cut.nearest(p).distance <= r - 1.5 + 0.006);
            let tab = plan.tabs.iter().any(|t| t.at.distance(p) < 12.0);
            assert!(covered || tab, "{p:?}");
        }
    }
    assert!(!wide.is_empty());
}

#[test]
fn a_recess_that_the_wide_bit_does_not_enter_goes_to_a_finer_one() {
    let mut one = board();
    one.recesses.push(Recess {
        outline: Outline::circle(Point::new(100.0, 100.0), 2.6).reversed(),
        islands: vec![],
        depth: 4.0,
    });
    let bits = [straight(12.0, 25.0), straight(3.0, 8.0)];
    assert_eq!(names(&[one.clone()], &bits), ["s3", "s12"]);
    let plan = plan(&sheet(vec![one]), &router(), &bits).unwrap();
    let lowest = plan.programs[0].moves.iter().map(|m| m.z).fold(0.0, f64::min);
    assert!((lowest + 4.0).abs() < 1e-9);
}
